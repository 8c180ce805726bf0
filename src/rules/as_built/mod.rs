//! Rules of what was measured beside what is designed.

mod bird_bath;
mod level_off;
mod plane_off;
mod reading_unclear;

use super::Rule;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &level_off::LEVEL_OFF,
    &reading_unclear::READING_UNCLEAR,
    &plane_off::PLANE_OFF,
    &bird_bath::BIRD_BATH,
];
