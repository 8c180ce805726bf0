//! `door-misplaced`: a door that stands on no edge of the paving.

use crate::findings::Severity;
use crate::model::{LevelAt, Surface};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// A door that stands on no edge of the paving.
pub(crate) static DOOR_MISPLACED: Rule = Rule {
    name: "door-misplaced",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "How far the point of a stated door lies from the edges of the surface; a deep reveal is no fault.",
    reason: "The step at a door is judged by the level there: at a wrong point a step that is too deep goes unnoticed.",
    remedy: "State the door at a point of the wall, or at the edge by its name; look whether east and north are swapped.",
    limits: &[Limit::practice(
        "plain",
        "the distance of a door from the edge of the paving",
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
        let LevelAt::Point(at) = &door.at else {
            continue;
        };
        let edges = surface.edges().map(|edge| edge.distance_to(*at));
        let Some(off) = edges.reduce(f64::min).filter(|off| !limit.allows_si(*off)) else {
            continue;
        };
        let shown = limit.beside_si(off, context.system());
        let message = format!(
            "no wall here: this door stands {shown} from the nearest edge of {}; {} is the most. Are east and north swapped?",
            surface.name.value,
            limit.shown(context.system())
        );
        found.add(
            DOOR_MISPLACED
                .finding(door.place, message)
                .found(shown, Quantity::near(off, Dimension::LENGTH))
                .against(&limit, context),
        );
    }
}
