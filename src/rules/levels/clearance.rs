//! What the building asks of the level outside: not too near the damp course
//! or floor, not too far below the door.

use super::{SAME_LEVEL, door_step, floor_m, highest_undrained, level_high};
use crate::model::Surface;
use crate::rules::{Context, InForce};

/// Levels at the building that cannot all be kept.
pub(super) struct Conflict {
    /// The highest level that stays clear of the damp course or floor, in
    /// metres.
    pub highest: f64,
    /// What it must stay below: `damp course` or `floor`.
    pub below: &'static str,
    /// How far below.
    pub clear: InForce,
    /// The lowest level that the door allows, in metres.
    pub lowest: f64,
    /// How deep a step that is.
    pub step: InForce,
}

/// The two demands on a surface's level at the building, where no level keeps
/// both.
pub(super) fn conflict(context: &Context<'_>, surface: &Surface) -> Option<Conflict> {
    highest_undrained(surface)?;
    let above = level_high::above(context)?;
    let clear = level_high::limit(context, &above)?;
    let step = door_step::limit(context, surface)?;
    let highest = above.level - clear.value.si();
    let lowest = floor_m(&context.job.site)? - step.value.si();
    (lowest > highest + SAME_LEVEL).then_some(Conflict {
        highest,
        below: above.name,
        clear,
        lowest,
        step,
    })
}
