//! The figures of a job: layers, joints, edges, levels, dig, mixes, orders
//! and costs, each with its working.
//!
//! [`figures`] gives every figure of a job in SI, and `None` for what cannot
//! be known. The same functions write down how a figure came about when they
//! are handed a [`Working`] instead of [`Silent`]; [`working`] does that for
//! one figure and [`workings`] for all.
//!
//! The room uses `units`, `geometry`, `findings` (for places), `sources`,
//! `vocabulary` (for roles), `materials` and `model`.

mod assumed;
mod costs;
mod counting;
mod counts;
mod dig;
mod edges;
mod figure_ref;
mod figures;
mod gauging;
mod grounds;
mod joints;
mod layers;
mod levels;
mod memory;
mod mixes;
mod needs;
mod notes;
mod orders;
mod rounding;
mod selling;
mod shapes;
mod states;
mod surface;
mod trouble;
mod working;

#[cfg(test)]
mod fixture;
#[cfg(test)]
mod worked_examples;

pub use costs::Delivery;
pub use dig::DigFigures;
pub use edges::{EdgingFigures, MovementFigures, panels};
pub use figure_ref::FigureRef;
pub use figures::Figures;
pub use gauging::{Gauged, Gauging, gauging};
pub use grounds::Covered;
pub use joints::{JointFigures, irregular_share, unit_share};
pub use layers::LayerFigures;
pub use memory::{Memory, figures};
pub use mixes::{Ingredient, MixFigures};
pub use needs::Need;
pub use notes::{Amount, Notes, Silent};
pub use orders::Order;
pub use shapes::ShapeFigures;
pub use states::{density_in_place, is_granular, loose_density, waste_share};
pub use surface::SurfaceFigures;
pub use trouble::{Trouble, TroubleKind};
pub use working::{Input, Step, Working, working, workings};
