//! Rules of units and stone.

mod absorption_high;
mod brick_class;
mod coverage_odd;
mod cut_sliver;
mod density_odd;
mod flag_thin;
mod flag_unsupported;
mod lift_heavy;
mod mass_disagrees;
mod pattern_weak;
mod size_odd;
mod strength_low;
mod unit_disagrees;
mod unit_slender;
mod unit_thin;
mod weave_odd;

pub(in crate::rules) use lift_heavy::{BY_HAND, BY_MACHINE, Heavy, ONE_PERSON};

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &unit_thin::UNIT_THIN,
    &flag_thin::FLAG_THIN,
    &flag_unsupported::FLAG_UNSUPPORTED,
    &unit_slender::UNIT_SLENDER,
    &pattern_weak::PATTERN_WEAK,
    &weave_odd::WEAVE_ODD,
    &cut_sliver::CUT_SLIVER,
    &unit_disagrees::UNIT_DISAGREES,
    &size_odd::SIZE_ODD,
    &mass_disagrees::MASS_DISAGREES,
    &coverage_odd::COVERAGE_ODD,
    &density_odd::DENSITY_ODD,
    &absorption_high::ABSORPTION_HIGH,
    &brick_class::BRICK_CLASS,
    &strength_low::STRENGTH_LOW,
    &lift_heavy::LIFT_HEAVY,
];
