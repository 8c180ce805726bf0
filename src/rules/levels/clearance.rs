//! What the building asks of the level outside: not too near the damp course
//! or floor, not too far below the door.

use super::{SAME_LEVEL, door_step, floor_m, highest_undrained, level_high};
use crate::model::Surface;
use crate::rules::{Context, InForce};

/// Levels at the building that cannot all be kept.
pub(super) struct Conflict {
    /// What it must stay below: `damp course`, `floor`.
    pub below: &'static str,
    /// How far below.
    pub clear: InForce,
    /// How deep a step that is.
    pub step: InForce,
}

/// The two demands on a surface's level at the building, where no level keeps
/// both; of several things to stay below, the lowest.
pub(super) fn conflict(context: &Context<'_>, surface: &Surface) -> Option<Conflict> {
    highest_undrained(surface)?;
    let step = door_step::limit(context, surface)?;
    let lowest = floor_m(&context.job.site)? - step.value.si();
    let all = level_high::all_above(context, surface).into_iter();
    let asked = all.filter_map(|above| {
        let clear = level_high::limit(context, &above)?;
        let highest = above.level - clear.value.si();
        Some((highest, above, clear))
    });
    let (highest, above, clear) = asked.min_by(|one, other| one.0.total_cmp(&other.0))?;
    (lowest > highest + SAME_LEVEL).then_some(Conflict {
        below: above.name,
        clear,
        step,
    })
}
