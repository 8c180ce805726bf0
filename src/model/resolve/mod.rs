//! What was read, worked out: names looked up, expressions evaluated, shapes
//! built, surfaces given their planes.
//!
//! Everything is worked out once and kept by name; what depends on itself is
//! found and has no value. A [`Memory`] keeps it from one edit to the next:
//! then only what the edit touched, and what took that, is worked out again.

mod accepts;
mod adjacency;
mod border_beds;
mod borders;
mod budget;
mod builds;
mod contacts;
mod currencies;
mod definitions;
mod dependencies;
mod draft;
mod drains;
mod edges;
mod evaluate;
mod facets;
mod footings;
mod functions;
mod heading;
mod hire;
mod materials;
mod measured;
mod memory;
mod mixes;
mod money;
mod names;
mod outlets;
mod parallel;
mod path;
mod planes;
mod primitives;
mod repeats;
mod ribbons;
mod sales;
mod setting_out;
mod shapes;
mod site;
mod standard;
mod steps;
mod surface_edges;
mod surfaces;
mod tasks_named;
mod units_laid;
mod want;
mod work;

use std::sync::Arc;

pub use definitions::{FileInput, LogicalSection, joined};
pub(crate) use evaluate::constant;
pub use memory::Memory;
pub use standard::read_standard;

/// A shared value that may be missing because a finding tells why.
type Shared<T> = Option<Arc<T>>;
