//! The built-in catalogue of materials, the soils and the defaults of mixes.
//!
//! Data only: figures are text, written as a spec would write them, and each
//! names its source. The room uses `sources` and nothing else.

mod catalogue;
mod documents;
mod kind;
mod mixing;
mod other_names;
pub mod soils;

pub use catalogue::{CATALOGUE, CatalogueMaterial, Group, Sale, Sold, Sourced, find, materials};
pub use kind::Kind;
pub use mixing::{Consistency, MIX_DEFAULTS, MixDefaults, Share};
pub use other_names::{other_name, other_names};
pub use soils::{SOILS, Soil};
