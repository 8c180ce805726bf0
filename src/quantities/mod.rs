//! The figures of a job: layers, joints, edges, levels, dig, mixes, orders
//! and costs, each with its working.
//!
//! [`figures`] gives every figure of a job in SI, and `None` for what cannot
//! be known. A formula is written once, as terms: `area * thickness` gives
//! the value and, when it is asked for, how it came about; [`working`] asks
//! for one figure and [`workings`] for all.
//!
//! The room uses `units`, `geometry`, `findings` (for places), `sources`,
//! `vocabulary` (for roles), `materials` and `model`.

mod area;
mod as_built;
mod assumed;
mod borders;
mod costs;
mod counting;
mod counts;
mod dig;
mod drains;
mod edge_levels;
mod edges;
mod figure_ref;
mod figures;
mod footings;
mod footprint;
mod footprints;
mod gauging;
pub mod hydraulics;
mod joints;
mod layers;
mod layout;
mod levels;
mod measures;
mod memory;
mod mixes;
mod money;
mod needs;
mod offcuts;
mod orders;
mod repeats;
mod rounding;
mod schedule;
mod selling;
mod setting_out;
mod shapes;
mod sharing;
mod size;
mod states;
mod steps;
mod surface;
mod taken;
mod term;
mod trace;
mod trouble;
mod water;
mod working;

#[cfg(test)]
mod fixture;
#[cfg(test)]
mod tests;
#[cfg(test)]
mod worked_examples;

pub use as_built::{MeasuredFigures, PointMeasured, Takes, Water};
pub use borders::{BorderFigures, MitreFigures, Taper};
pub use costs::Delivery;
pub use dig::DigFigures;
pub use drains::{
    Course, CoursePiece, Cover, DrainDig, DrainFigures, Soaking, SoakingGap, StuffFigures,
};
pub use edge_levels::EdgeLevels;
pub use edges::{EdgingFigures, MovementFigures, panels};
pub use figure_ref::FigureRef;
pub use figures::Figures;
pub use footings::FootingFigures;
pub use footprint::Footprint;
pub use gauging::{Gauged, Gauging, gauging};
pub use joints::JointFigures;
pub use layers::{LayerFigures, SizeFigures, whole_units};
pub use layout::{
    BREAKAGE, LayoutFigures, LeastCut, MOST_AT_ONCE, courses, guide, laid_over, layout_of,
    most_units, starts, tiling, tiling_from,
};
pub use levels::no_levels;
pub use memory::{Memory, figures};
pub(crate) use mixes::mixes_of;
pub use mixes::{Ingredient, MixFigures};
pub use money::{
    CostLine, Heading as CostHeading, HireFigures, MoneyFigures, PricePart, QuoteFigures,
    hire_as_scheduled, loose_spoil_m3,
};
pub use needs::Need;
pub use orders::{Order, by_supplier};
pub use repeats::RepeatFigures;
pub use schedule::{
    DAY_MINUTES, Fault, LOCATE_SERVICES, Lag, Law, Link, Minutes, Reason, ScheduleFigures, Slot,
    Span, TaskFigures, UsualWait, WorkOn, air_k, assumed as assumed_of_work, is_bedded_on_core,
    is_bonded_to_slab, is_loose, shown_hours, usual_wait, wanted,
};
pub use setting_out::{
    ArcFigures, Aside, BoardLies, BoardMark, Check, DrivenInto, GridLevel, Marks, Offset, Peg,
    PegOn, Reach, RodMark, RodTop, SettingOutFigures, Spot, SpotOf, Stands, SurfaceSettingOut,
    Taping, board_length, setting_out, setting_out_workings, unplaced,
};
pub use shapes::ShapeFigures;
pub use sharing::Piece;
pub use size::Size;
pub use states::{density_in_place, is_granular, loose_density, waste_share};
pub use steps::{
    Flight, HIGHEST_RISER, HIGHEST_RISER_AU, HIGHEST_RISER_UK, HighestRiser, StepsFigure,
    StepsFigures, StepsPart, fewest_risers,
};
pub use surface::SurfaceFigures;
pub use trace::{Input, Step, Working};
pub use trouble::{Trouble, TroubleKind};
pub use water::{
    Amount, BESIDE, ComesFrom, DrainWater, End, Fate, Inflow, Shut, SurfaceWater, WaterFigures,
    Way, catchments, runoff, share_led, told_together,
};
pub use working::{working, workings};
