//! Falls and water: which way the water runs, and how well.

mod fall_along;
mod fall_backward;
mod fall_flat;
mod fall_missing;
mod fall_steep;

use super::Rule;

pub use fall_flat::least_fall;

/// The rules of this family, in the order in which they are listed.
pub static RULES: &[&Rule] = &[
    &fall_missing::FALL_MISSING,
    &fall_flat::FALL_FLAT,
    &fall_along::FALL_ALONG,
    &fall_backward::FALL_BACKWARD,
    &fall_steep::FALL_STEEP,
];
