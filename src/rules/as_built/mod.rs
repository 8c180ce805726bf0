//! Rules of what was measured beside what is designed.

mod bird_bath;
mod level_off;
mod plane_off;
mod reading_unclear;

use super::{Context, Rule, falls};
use crate::quantities::MeasuredFigures;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &level_off::LEVEL_OFF,
    &reading_unclear::READING_UNCLEAR,
    &plane_off::PLANE_OFF,
    &bird_bath::BIRD_BATH,
];

/// Whether a surface still lacks the fall that it needs, so that what was
/// measured has no design to stand beside: that is told by itself.
fn awaits_fall(context: &Context<'_>, own: &MeasuredFigures) -> bool {
    let surface = own
        .surface
        .and_then(|index| context.job.surfaces.get(index));
    surface.is_some_and(|surface| falls::lacks_fall(context, surface))
}
