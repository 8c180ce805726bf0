//! `door-conflict`: the damp course wants the paving lower than the door does.

use super::{clearance, highest_at_building, level_at_building};
use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::documents::{irc_landing, nhbc_external};
use crate::rules::{Check, Context, Family, Found, Rule};

/// No level keeps both clear of the damp course and near the door.
pub static DOOR_CONFLICT: Rule = Rule {
    name: "door-conflict",
    family: Family::Levels,
    severity: Severity::Advisory,
    looks_at: "Whether any level at the building is low enough for the damp course or floor and high enough for the door. Where none is, this speaks alone.",
    reason: "Whichever of the two is kept, the other is missed; only the detail at the door can settle it.",
    remedy: "Keep the paving low and put a landing, a ramp or a channel with a grating at the door.",
    limits: &[],
    sources: &[
        irc_landing("R311.3, landings at doors"),
        nhbc_external("10.2.6, paving below the damp-proof course"),
    ],
    breaks: "\
surface court
  shape        court
  for          foot, exit
  meets        north
  level        «-160 mm» at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    keeps: "\
surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
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
    let message = format!(
        "the {} wants the paving no higher than {}, and the door no lower than {}: keep it low, and put a landing or a channel with a grating at the door",
        conflict.below,
        context.show_length(conflict.highest),
        context.show_length(conflict.lowest)
    );
    let help = format!(
        "The paving is to lie {} below the {}, and the step down from the door to be {} at most.",
        conflict.clear.shown(context.system()),
        conflict.below,
        conflict.step.shown(context.system()),
    );
    let mut finding = DOOR_CONFLICT
        .finding(stated.value.place, message)
        .help(help);
    if let Some(exit) = surface.exit {
        finding = finding.related(exit, "an escape door is said to open on it here");
    }
    found.add(finding);
}
