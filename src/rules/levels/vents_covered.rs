//! `vents-covered`: paving up to or over the openings of a wall.

use super::{SAME_LEVEL, highest_at_building, lacks_minus, level_at_building};
use crate::findings::{Finding, Place, Severity};
use crate::model::{Region, Surface, Walls};
use crate::rules::documents::as_nzs_3727;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// How far plaster on a frame ends above paving.
const IRC_WEEP_SCREED: Source = Source::second_hand(
    "International Residential Code",
    "R703.7.2.1, weep screed 4 in above earth or 2 in above paved areas; printed by a school of inspectors",
);

/// Paving up to or over vents or weep holes.
pub(crate) static VENTS_COVERED: Rule = Rule {
    name: "vents-covered",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "Whether the paving at the building comes up to the lower edge of vents or weep holes, and how far it stays below the weep holes or the weep screed of framed walls.",
    reason: "Water runs in under the floor or into the cavity, and what has to dry out through them no longer can.",
    remedy: "Lower the paving, hold it back from the wall, or have the vents raised.",
    limits: &[Limit {
        row: "framed",
        of: "paving below the weep holes or weep screed of framed walls",
        bound: Bound::Least,
        general: Value {
            written: &["50 mm", "2 in"],
            source: IRC_WEEP_SCREED,
        },
        regions: &[],
    }],
    sources: &[
        as_nzs_3727("paving below the damp course, weep holes left clear"),
        IRC_WEEP_SCREED,
    ],
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

const WEEP_HOLES: &str = "weep holes";

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
            WEEP_HOLES,
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
            let is_screed = what == WEEP_HOLES;
            let near =
                is_screed.then(|| near_screed(context, -over, [stated.value.place, opening.place]));
            found.findings.extend(near.flatten());
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

/// Paving so far below the weep screed at the foot of plaster on a frame, or
/// the weep holes of another light skin, at the places of both levels.
fn near_screed(context: &Context<'_>, below: f64, [paving, screed]: [Place; 2]) -> Option<Finding> {
    let walls = context.job.site.walls.as_ref()?;
    let limit = context.limit(&VENTS_COVERED, "framed")?;
    if walls.value != Walls::Framed || limit.allows_si(below + SAME_LEVEL) {
        return None;
    }
    let shown = limit.beside_si(below, context.system());
    let message = format!(
        "the paving lies only {shown} below the weep holes of a framed wall: rain splashes in. {} is the least. Lower it",
        limit.shown(context.system())
    );
    let finding = VENTS_COVERED
        .finding(paving, message)
        .found(shown, Quantity::near(below, Dimension::LENGTH))
        .against(&limit, context)
        .related(screed, "the weep holes, as stated here");
    Some(finding.related(walls.place, "framed, as stated here"))
}
