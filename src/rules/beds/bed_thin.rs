//! `bed-thin`: a setting bed too thin to take up unevenness.

use super::bed_row::{bed_finding, bed_row};
use crate::findings::Severity;
use crate::model::{Build, Layer, Region, Surface};
use crate::rules::documents::{STONE_BED, UK_SAND_BED, bia_14a, bia_29};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::{Known, Source};

/// A setting bed too thin to take up unevenness.
pub(crate) static BED_THIN: Rule = Rule {
    name: "bed-thin",
    family: Family::Beds,
    severity: Severity::Warning,
    looks_at: "The thickness of the bed, by what it is made of and what lies on it. Not sand under flags, which follows the stone. An advisory where the figure is from memory and the bed is as thick as the general one asks.",
    reason: "A thin bed cannot take up an uneven base: units rock on the high spots and lie hollow over the low ones.",
    remedy: "Lower the base and thicken the bed.",
    limits: &[
        Limit {
            row: "pavers",
            of: "sand under pavers",
            bound: Bound::Least,
            general: Value {
                written: &["19 mm", "3/4 in"],
                source: bia_14a("setting bed, 3/4 to 1 in after compaction"),
            },
            regions: &[(
                Region::Uk,
                Value {
                    written: &["30 mm"],
                    source: UK_SAND_BED,
                },
            )],
        },
        Limit::practice(
            "setts",
            "sand under setts",
            Bound::Least,
            &["25 mm", "1 in"],
        ),
        Limit::practice(
            "chips",
            "fine stone under pavers",
            Bound::Least,
            &["25 mm", "1 in"],
        ),
        Limit {
            row: "brick",
            of: "mortar under brick",
            bound: Bound::Least,
            general: Value {
                written: &["10 mm", "3/8 in"],
                source: bia_29("mortar setting bed"),
            },
            regions: &[],
        },
        Limit {
            row: "stone",
            of: "mortar under stone",
            bound: Bound::Least,
            general: Value {
                written: &["19 mm", "3/4 in"],
                source: STONE_BED,
            },
            regions: &[],
        },
    ],
    sources: &[
        bia_14a("setting bed, 3/4 to 1 in after compaction"),
        bia_29("mortar setting bed, 3/8 to 1 in"),
        STONE_BED,
        UK_SAND_BED,
        Source::COMMON_PRACTICE,
    ],
    breaks: "build sand-set
  bed          sharp-sand, «10 mm»
",
    keeps: "build sand-set
  bed          sharp-sand, 19 mm
",
    mended: Some(
        "build sand-set
  bed          sharp-sand, 19 mm
",
    ),
    check: Check::Layer(check),
};

fn check(
    context: &Context<'_>,
    _surface: &Surface,
    build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let Some(finding) = bed_finding(&BED_THIN, "thicken", context, build, layer) else {
        return;
    };
    let row = bed_row(build, layer).map(|(row, _)| row);
    let limit = row.and_then(|row| context.limit(&BED_THIN, row));
    let is_recalled =
        limit.is_some_and(|limit| limit.line.is_none() && limit.source.known == Known::Memory);
    // Below what every region asks for, memory is borne out.
    let general = row.and_then(|row| {
        let limits = context.limits;
        limits.in_force(&BED_THIN, row, Region::General)
    });
    let thickness = layer.thickness.as_ref();
    let is_enough_elsewhere =
        (general.zip(thickness)).is_none_or(|(limit, own)| limit.allows(&own.value));
    found.add(match is_recalled && is_enough_elsewhere {
        true => finding.severity(Severity::Advisory),
        false => finding,
    });
}
