//! `bed-thick`: a setting bed thicker than it can be and still hold.

use super::bed_row::bed_finding;
use crate::findings::Severity;
use crate::model::{Build, Layer, Region, Surface};
use crate::rules::documents::{
    STONE_BED, bia_14a, bia_29, icpi_tolerances, masonry_handbook, nhbc,
};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

const TWO_INCHES: &[&str] = &["50 mm", "2 in"];

/// A setting bed thicker than it can be and still hold.
pub(crate) static BED_THICK: Rule = Rule {
    name: "bed-thick",
    family: Family::Beds,
    severity: Severity::Warning,
    looks_at: "The thickness of the bed, by what it is made of and what lies on it.",
    reason: "Thick sand ruts under the units, and is often there to make up a low base. Thick mortar shrinks away from the stone.",
    remedy: "Bring the base up and thin the bed.",
    limits: &[
        Limit {
            row: "pavers",
            of: "sand under pavers",
            bound: Bound::Most,
            general: Value {
                written: TWO_INCHES,
                source: nhbc("2011, Appendix 9.2-A, 50 mm of sand under blocks"),
            },
            regions: &[
                (
                    Region::Us,
                    Value {
                        written: &["38 mm", "1 1/2 in"],
                        source: icpi_tolerances(
                            "bedding sand, 1 in nominal; 1-1/2 in is the usual most",
                        ),
                    },
                ),
                (
                    Region::Uk,
                    Value {
                        written: &["50 mm"],
                        source: nhbc("2011, Appendix 9.2-A, 50 mm of sand under blocks"),
                    },
                ),
            ],
        },
        Limit {
            row: "flags",
            of: "sand under flags",
            bound: Bound::Most,
            general: Value {
                written: TWO_INCHES,
                source: masonry_handbook("p. 314, flagstone on 2 in of compacted sand"),
            },
            regions: &[],
        },
        Limit::practice(
            "setts",
            "sand under setts",
            Bound::Most,
            &["65 mm", "2 1/2 in"],
        ),
        Limit::practice(
            "chips",
            "fine stone under pavers",
            Bound::Most,
            &["75 mm", "3 in"],
        ),
        Limit {
            row: "brick",
            of: "mortar under brick",
            bound: Bound::Most,
            general: Value {
                written: &["25 mm", "1 in"],
                source: bia_29("mortar setting bed"),
            },
            regions: &[],
        },
        Limit {
            row: "stone",
            of: "mortar under stone",
            bound: Bound::Most,
            general: Value {
                written: TWO_INCHES,
                source: STONE_BED,
            },
            regions: &[],
        },
    ],
    sources: &[
        icpi_tolerances("bedding sand, 1 in nominal"),
        bia_14a("setting bed, 3/4 to 1 in after compaction"),
        bia_29("mortar setting bed, 3/8 to 1 in"),
        masonry_handbook("p. 304 and p. 314"),
        STONE_BED,
        Source::COMMON_PRACTICE,
    ],
    breaks: "build sand-set
  bed          sharp-sand, «60 mm»
",
    keeps: "build sand-set
  bed          sharp-sand, 50 mm
",
    mended: Some(
        "build sand-set
  bed          sharp-sand, 50 mm
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
    if let Some(finding) = bed_finding(&BED_THICK, "thin", context, build, layer) {
        found.add(finding);
    }
}
