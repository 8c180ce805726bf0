//! The rules of the trade and of the text: one file a family, each rule one
//! declaration.
//!
//! The room uses everything up to `quantities`. A rule points at places of
//! the model and never at text; its limits are looked up by name, so that a
//! region or a practice's standard can set them.

mod accept;
mod acceptance;
mod address;
mod as_built;
mod base;
mod beds;
mod cautions;
mod construction;
mod context;
mod courses;
mod documents;
mod drains;
mod edges;
mod examples;
mod falls;
mod families;
mod ground;
mod joints;
mod levels;
mod limits;
mod memory;
mod merging;
mod mixes;
mod ordering;
mod rows;
mod rule;
mod run;
mod slope;
mod standard;
mod steps;
mod stopwatch;
mod text;
mod trial;
mod units;
mod unset;
mod weight;
mod wording;
mod work;

pub use accept::{accepted, bound_missed, runs_out_soon_after};
pub use address::address;
pub use as_built::most_off;
pub use context::Context;
pub use examples::{Example, complete, underlined};
pub use families::{FAMILIES, all, find, of, severity_of};
pub use limits::{Bound, InForce, Limit, Limits, Value};
pub use memory::{JobFindings, Memory};
pub use merging::{Whereabouts, merge_same};
pub use rows::InRegion;
pub use rule::{Check, Family, Found, Rule};
pub use standard::check_standard;
pub use stopwatch::{Stopwatch, timed, untimed};
pub use unset::tell_what_limits_take;
pub use weight::Weight;
