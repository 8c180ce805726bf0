//! Rules of the base.

mod base_missing;
mod base_permeable;
mod base_thin;
mod base_unsuitable;
mod density_pair;
mod fabric_light;
mod layers_order;
mod lift_thick;
mod permeable_clogged;
mod permeable_unstated;
mod slab_thin;

pub(in crate::rules) use base_unsuitable::BASE_UNSUITABLE;
pub(in crate::rules) use permeable_clogged::is_tight;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &base_missing::BASE_MISSING,
    &base_thin::BASE_THIN,
    &base_permeable::BASE_PERMEABLE,
    &permeable_clogged::PERMEABLE_CLOGGED,
    &permeable_unstated::PERMEABLE_UNSTATED,
    &lift_thick::LIFT_THICK,
    &density_pair::DENSITY_PAIR,
    &base_unsuitable::BASE_UNSUITABLE,
    &fabric_light::FABRIC_LIGHT,
    &layers_order::LAYERS_ORDER,
    &slab_thin::SLAB_THIN,
];
