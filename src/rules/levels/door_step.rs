//! `door-step`: too deep a step down from a door.

use super::{SAME_LEVEL, clearance, floor_m, highest_at_building, level_at_building};
use crate::findings::Severity;
use crate::model::{Region, Surface};
use crate::rules::documents::irc_landing;
use crate::rules::wording::limit_in_words;
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::units::{Dimension, Quantity};

/// The paving outside a door lies too far below the floor.
pub static DOOR_STEP: Rule = Rule {
    name: "door-step",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "How far the finished level at the building lies below the floor inside, as a step down from its door.",
    reason: "Too deep a step is a fall waiting to happen, most of all at a door that people escape by.",
    remedy: "Raise the paving at the door, or put in a landing or a step.",
    limits: &[
        Limit {
            row: "plain",
            of: "the step down from a door",
            bound: Bound::Most,
            general: Value {
                written: &["196 mm", "7 3/4 in"],
                source: irc_landing("R311.3.2, landing no more than 7-3/4 in below the threshold"),
            },
            regions: &[],
        },
        Limit {
            row: "exit",
            of: "the step down from a door that people escape by",
            bound: Bound::Most,
            general: Value {
                written: &["38 mm", "1 1/2 in"],
                source: irc_landing("R311.3.1, landing no more than 1-1/2 in below the threshold"),
            },
            regions: &[],
        },
    ],
    sources: &[irc_landing("R311.3, landings at doors")],
    breaks: "\
site
  soil         gravel, firm
  datum        \"hall floor\"
  ground       -300 mm

surface court
  shape        court
  meets        north
  level        «-220 mm» at north
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
  level        -190 mm at north
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
    let (Some(floor), Some(level), Some(stated), Some(limit)) = (
        floor_m(&context.job.site),
        highest_at_building(surface),
        level_at_building(surface),
        limit(context, surface),
    ) else {
        return;
    };
    let step = floor - level;
    if limit.allows_si(step - SAME_LEVEL) || clearance::conflict(context, surface).is_some() {
        return;
    }
    let shown = context.show_length(step);
    let door = match surface.exit {
        Some(_) => "the escape door",
        None => "the door",
    };
    let message = format!(
        "the step down from {door} is {shown}; it is to be {}: raise the paving, or put in a landing",
        limit_in_words(&limit, context)
    );
    let severity = match context.region() {
        Region::Us => Severity::Error,
        _ => Severity::Warning,
    };
    let mut finding = DOOR_STEP
        .finding(stated.value.place, message)
        .severity(severity)
        .found(shown, Quantity::near(step, Dimension::LENGTH))
        .against(&limit, context);
    if let Some(exit) = surface.exit {
        finding = finding.related(exit, "an escape door is said to open on it here");
    }
    if let Some(floor) = &context.job.site.floor {
        finding = finding.related(floor.place, "the floor is stated here");
    }
    found.add(finding);
}

/// The limit that is in force for the doors onto a surface.
pub(super) fn limit(context: &Context<'_>, surface: &Surface) -> Option<InForce> {
    let row = match surface.exit {
        Some(_) => "exit",
        None => "plain",
    };
    context.limit(&DOOR_STEP, row)
}
