//! `vents-covered`: paving up to or over the openings of a wall.

use super::{SAME_LEVEL, highest_at_building, lacks_minus, level_at_building};
use crate::findings::Severity;
use crate::model::{Region, Surface};
use crate::rules::documents::as_nzs_3727;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::units::{Dimension, Quantity};

/// Paving up to or over vents or weep holes.
pub(crate) static VENTS_COVERED: Rule = Rule {
    name: "vents-covered",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "Whether the paving at the building comes up to the lower edge of vents or weep holes.",
    reason: "Water runs in under the floor or into the cavity, and what has to dry out through them no longer can.",
    remedy: "Lower the paving, hold it back from the wall, or have the vents raised.",
    limits: &[],
    sources: &[as_nzs_3727(
        "paving below the damp course, weep holes left clear",
    )],
    breaks: "\
site
  vents        -150 mm

surface court
  level        «-150 mm» at north
",
    keeps: "\
site
  vents        -150 mm

surface court
  level        -155 mm at north
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(level), Some(stated)) = (highest_at_building(surface), level_at_building(surface))
    else {
        return;
    };
    if lacks_minus(context, surface) {
        return;
    }
    let site = &context.job.site;
    let is_australian = context.region() == Region::Au;
    let all = [
        ("vents", &site.vents, Severity::Warning),
        (
            "weep holes",
            &site.weep_holes,
            if is_australian {
                Severity::Error
            } else {
                Severity::Warning
            },
        ),
    ];
    for (what, opening, severity) in all {
        let Some(opening) = opening else {
            continue;
        };
        let over = level - opening.value.si();
        if over < -SAME_LEVEL {
            continue;
        }
        let shown = context.show_length(over.max(0.0));
        let lies = match over > SAME_LEVEL {
            true => format!("the paving comes {shown} up the {what}"),
            false => format!("the paving comes right up to the {what}"),
        };
        let message = format!("{lies}: water will run in. Lower it, or hold it back from the wall");
        found.add(
            VENTS_COVERED
                .finding(stated.value.place, message)
                .severity(severity)
                .found(shown, Quantity::near(over, Dimension::LENGTH))
                .related(opening.place, format!("the {what}, as stated here")),
        );
    }
}
