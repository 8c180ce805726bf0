//! `level-above-floor`: paving above the floor, where a minus was most likely
//! forgotten.

use super::{SAME_LEVEL, floor_m, highest_at_building, level_at_building, moved};
use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// A level above the floor at the building.
pub(crate) static LEVEL_ABOVE_FLOOR: Rule = Rule {
    name: "level-above-floor",
    family: Family::Levels,
    severity: Severity::Error,
    looks_at: "Paving at the building that lies above the floor inside.",
    reason: "Water runs in over the sill; most often a minus was forgotten.",
    remedy: "Write a level below the datum with a minus or as below datum; else lower the paving.",
    limits: &[],
    sources: &[Source::computed("the levels of the spec itself")],
    breaks: "\
surface court
  level        «160 mm» at north
",
    keeps: "\
surface court
  level        160 mm below datum at north
",
    mended: Some(
        "\
surface court
  level        -160 mm at north
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
    let mirrored = without_minus(surface, floor);
    let fix = mirrored
        .and_then(|metres| moved(context, &LEVEL_ABOVE_FLOOR, surface, "Write", metres, found));
    let message = match mirrored {
        Some(_) => format!("the paving lies {shown} above the floor. Is a minus missing?"),
        None => format!("the paving lies {shown} above the floor: water will run in. Lower it"),
    };
    let mut finding = LEVEL_ABOVE_FLOOR
        .finding(value.place, message)
        .found(shown, Quantity::near(level - floor, Dimension::LENGTH));
    if let Some(floor) = &site.floor {
        finding = finding.related(floor.place, "the floor, as stated here");
    }
    finding.fixes.extend(fix);
    found.add(finding);
}

/// The level of a surface below the datum, in metres, where it is stated above
/// it and the same figure below lies under the floor.
pub(super) fn without_minus(surface: &Surface, floor: f64) -> Option<f64> {
    let [only] = surface.levels.as_slice() else {
        return None;
    };
    let stated = only.value.value.si();
    (stated > 0.0 && -stated < floor).then_some(-stated)
}
