//! `level-unclear`: paving above the floor, where a minus was most likely
//! forgotten.

use super::{SAME_LEVEL, floor_m, highest_at_building, level_at_building, moved};
use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// A level above the floor at the building.
pub static LEVEL_UNCLEAR: Rule = Rule {
    name: "level-unclear",
    family: Family::Levels,
    severity: Severity::Error,
    looks_at: "A finished level at the building that lies above the floor inside.",
    reason: "Paving above the floor lets water into the building; most often a minus was forgotten.",
    remedy: "Write a level below the datum with a minus, or as below datum.",
    limits: &[],
    sources: &[Source::computed("the levels of the spec itself")],
    breaks: "\
surface court
  shape        court
  meets        north
  level        «160 mm» at north
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
  level        160 mm below datum at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    mended: Some(
        "\
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
    ),
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let site = &context.job.site;
    let (Some(floor), Some(level), Some(stated)) = (
        floor_m(site),
        highest_at_building(surface),
        level_at_building(surface),
    ) else {
        return;
    };
    if level <= floor + SAME_LEVEL {
        return;
    }
    let shown = context.show_length(level - floor);
    let value = &stated.value;
    // Where the same figure below the datum lies under the floor, the minus
    // alone is missing.
    let stated_m = value.value.si();
    let fix = (stated_m > 0.0 && -stated_m < floor)
        .then(|| moved(context, &LEVEL_UNCLEAR, surface, "Write", -stated_m, found))
        .flatten();
    let question = if fix.is_some() {
        ": is a minus missing?"
    } else {
        ": lower it"
    };
    let message = format!("the paving lies {shown} above the floor at the building{question}");
    let mut finding = LEVEL_UNCLEAR
        .finding(value.place, message)
        .found(shown, Quantity::near(level - floor, Dimension::LENGTH));
    if let Some(floor) = &site.floor {
        finding = finding.related(floor.place, "the floor is stated here");
    }
    finding.fixes.extend(fix);
    found.add(finding);
}
