//! Rules of units and stone.

mod lift_heavy;
mod unit_thin;

use super::Rule;

pub use lift_heavy::is_lift_heavy;

/// The family's rules, in the order in which they are listed.
pub static RULES: &[&Rule] = &[&unit_thin::UNIT_THIN, &lift_heavy::LIFT_HEAVY];
