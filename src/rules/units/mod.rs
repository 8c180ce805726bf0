//! Rules of units and stone.

mod absorption_high;
mod coverage_odd;
mod density_odd;
mod flag_thin;
mod lift_heavy;
mod unit_slender;
mod unit_thin;

use super::Rule;

pub use lift_heavy::is_lift_heavy;

/// The family's rules, in the order in which they are listed.
pub static RULES: &[&Rule] = &[
    &unit_thin::UNIT_THIN,
    &flag_thin::FLAG_THIN,
    &unit_slender::UNIT_SLENDER,
    &coverage_odd::COVERAGE_ODD,
    &density_odd::DENSITY_ODD,
    &absorption_high::ABSORPTION_HIGH,
    &lift_heavy::LIFT_HEAVY,
];
