//! `door-misplaced`: a door that stands on no wall beside the paving.

use crate::findings::Severity;
use crate::model::{Door, LevelAt, Surface};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, slope};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// A door that stands on no wall beside the paving.
pub(crate) static DOOR_MISPLACED: Rule = Rule {
    name: "door-misplaced",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "How far the point of a stated door lies from the edges of the surface that meet the building, or from all where none does; a deep reveal is no fault.",
    reason: "The step at a door is judged by the level there: at a wrong point a step that is too deep goes unnoticed.",
    remedy: "State the door at a point of the wall, or at the edge by its name; look whether east and north are swapped, and whether every wall beside the paving is stated with meets.",
    limits: &[Limit::practice(
        "plain",
        "the distance of a door from the wall beside the paving",
        Bound::Most,
        &["600 mm", "24 in"],
    )],
    sources: &[Source::computed("the outline of the surface")],
    breaks: "\
surface court
  level        -150 mm at north
  «door         at (3 m, 2 m)»
",
    keeps: "\
surface court
  door         at (3 m, 4.1 m)
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let Some(limit) = context.limit(&DOOR_MISPLACED, "plain") else {
        return;
    };
    for door in &surface.doors {
        let Some(off) = off_wall(surface, door, &limit) else {
            continue;
        };
        let shown = limit.beside_si(off, context.system());
        let most = limit.shown(context.system());
        let name = &surface.name.value;
        let message = match slope::building_edges(surface).next() {
            Some(_) => format!(
                "no wall here: this door stands {shown} from the edges of {name} that meet the building; {most} is the most. Are east and north swapped, or a minus missing?"
            ),
            None => format!(
                "no wall here: this door stands {shown} from the nearest edge of {name}; {most} is the most. Are east and north swapped?"
            ),
        };
        found.add(
            DOOR_MISPLACED
                .finding(door.place, message)
                .found(shown, Quantity::near(off, Dimension::LENGTH))
                .against(&limit, context),
        );
    }
}

/// How far from the wall a door stands, in metres, where that is too far for
/// one that opens there.
fn off_wall(surface: &Surface, door: &Door, limit: &InForce) -> Option<f64> {
    let LevelAt::Point(at) = &door.at else {
        return None;
    };
    let mut walls = slope::building_edges(surface).peekable();
    let off = match walls.peek() {
        Some(_) => walls.map(|edge| edge.distance_to(*at)).reduce(f64::min),
        None => surface
            .edges()
            .map(|edge| edge.distance_to(*at))
            .reduce(f64::min),
    };
    off.filter(|off| !limit.allows_si(*off))
}

/// Whether a door is told to stand on no wall, so that no step down from it
/// can be judged.
pub(super) fn is_told(context: &Context<'_>, surface: &Surface, door: &Door) -> bool {
    context.is_in_force(&DOOR_MISPLACED, DOOR_MISPLACED.severity)
        && context
            .limit(&DOOR_MISPLACED, "plain")
            .is_some_and(|limit| off_wall(surface, door, &limit).is_some())
}
