//! Rules of the base.

mod base_missing;
mod base_thin;
mod density_pair;
mod layers_order;
mod lift_thick;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub static RULES: &[&Rule] = &[
    &base_missing::BASE_MISSING,
    &base_thin::BASE_THIN,
    &lift_thick::LIFT_THICK,
    &density_pair::DENSITY_PAIR,
    &layers_order::LAYERS_ORDER,
];
