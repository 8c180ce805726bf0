//! The materials, a file a group.

mod aggregates;
mod bagged;
mod binders;
mod drainage;
mod edgings;
mod groups;
mod material;
mod sands;
mod sheets;
mod stones;
mod units;

pub use groups::{CATALOGUE, Group, find, materials};
pub use material::{CatalogueMaterial, Sale, Sold, Sourced};
