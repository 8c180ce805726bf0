//! `door-conflict`: the damp course wants the paving lower than the door does.

use super::{clearance, highest_at_building, level_at_building};
use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::documents::{irc_landing, nhbc_external};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::Term;

/// No level keeps both clear of the damp course and near the door.
pub(crate) static DOOR_CONFLICT: Rule = Rule {
    name: "door-conflict",
    family: Family::Levels,
    severity: Severity::Advisory,
    looks_at: "Whether any level at the building is low enough for the damp course, foundation or floor and high enough for the door. Given beside what is broken, never in its place.",
    reason: "Whichever is kept, the other is broken; only the detail at the door settles it.",
    remedy: "Keep the paving low and put a landing, a ramp or a grated channel at the door.",
    limits: &[],
    sources: &[
        irc_landing("R311.3, landings at doors"),
        nhbc_external("10.2.6, paving below the damp-proof course"),
    ],
    breaks: "\
surface court
  for          foot, exit
  level        «-160 mm» at north
  accept       door-step, because \"a landing at the door, as drawn\"
",
    keeps: "\
surface court
  level        -160 mm at north
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(_), Some(stated), Some(conflict)) = (
        highest_at_building(surface),
        level_at_building(surface),
        clearance::conflict(context, surface),
    ) else {
        return;
    };
    // Where no door is stated, door-step says all that there is.
    if surface.exit.is_none() && surface.entry("door").is_none() {
        return;
    }
    let door = match surface.exit {
        Some(_) => context.word(Term::EscapeDoor),
        None => "door",
    };
    let channel = context.word(Term::Channel);
    let message = format!(
        "no level suits both: {} below the {}, yet only {} down at the {door}. Keep it low, with a landing or {channel} there",
        conflict.clear.shown(context.system()),
        conflict.below,
        conflict.step.shown(context.system())
    );
    let mut finding = DOOR_CONFLICT.finding(stated.value.place, message);
    if let Some(exit) = surface.exit {
        finding = finding.related(exit, format!("the {door}, as stated here"));
    }
    found.add(finding);
}
