//! The take-off as a sheet of text, for people: in the job's units, rounded
//! as the trade does, with the working of each figure on request.

mod as_built;
mod drains;
mod foot;
mod head;
mod layers;
mod levels;
mod mixes;
mod money;
mod orders;
mod shapes;
mod sheet;
mod steps;
mod surface;
mod work;
mod workings;

pub(super) use as_built::{fall_as_built, next_layer, top_measured, water_as_built};
pub(super) use sheet::{Sheet, labelled};
pub use sheet::{SheetLayout, takeoff_text};
pub(super) use workings::working_text;
