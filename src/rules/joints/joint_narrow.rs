//! `joint-narrow`: a joint too narrow to be filled.

use super::joint_row::joint_finding;
use crate::findings::Severity;
use crate::model::{Build, Surface};
use crate::rules::documents::{bia_14a, icpi_permeable, icpi_tolerances};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

const fn least(row: &'static str, of: &'static str, general: Value) -> Limit {
    Limit {
        row,
        of,
        bound: Bound::Least,
        general,
        regions: &[],
    }
}

/// A joint too narrow to be filled.
pub(crate) static JOINT_NARROW: Rule = Rule {
    name: "joint-narrow",
    family: Family::Joints,
    severity: Severity::Warning,
    looks_at: "The width of joints, by what fills them and what they lie between.",
    reason: "Sand does not run into a joint that is too narrow, units that touch chip, and mortar cannot be pressed in.",
    remedy: "Widen the joint, with spacers if the units have none.",
    limits: &[
        least(
            "pavers",
            "sand between pavers",
            Value {
                written: &["2 mm", "1/16 in"],
                source: icpi_tolerances("joint width, 1/16 to 3/16 in (2 to 5 mm)"),
            },
        ),
        least(
            "permeable",
            "open joints of permeable pavers",
            Value {
                written: &["6 mm", "1/4 in"],
                source: icpi_permeable("joint width, 1/4 to 1/2 in (6 to 13 mm)"),
            },
        ),
        least(
            "coarse",
            "stone in the joints of units on sand",
            Value::practice(&["5 mm", "3/16 in"]),
        ),
        least(
            "coarse-20",
            "stone of 20 mm in the joints of units on sand",
            Value::practice(&["20 mm", "3/4 in"]),
        ),
        least(
            "coarse-60",
            "stone of 60 mm in the joints of units on sand",
            Value::practice(&["60 mm", "2 1/2 in"]),
        ),
        least(
            "brick",
            "mortar between bricks",
            Value::practice(&["6 mm", "1/4 in"]),
        ),
        least(
            "stone",
            "mortar between slabs",
            Value::practice(&["5 mm", "3/16 in"]),
        ),
        least(
            "setts",
            "mortar between setts",
            Value::practice(&["5 mm", "3/16 in"]),
        ),
        least(
            "resin",
            "jointing compound between units",
            Value::practice(&["3 mm", "1/8 in"]),
        ),
    ],
    sources: &[
        icpi_tolerances("joint width"),
        bia_14a("joints of sand, 1/16 to 3/16 in"),
        icpi_permeable("joint width"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "surface court
  joint        «1 mm», filled with joint-sand
",
    keeps: "surface court
  joint        2 mm, filled with joint-sand
",
    mended: Some(
        "surface court
  joint        2 mm, filled with joint-sand
",
    ),
    check: Check::Units(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    if let Some(finding) = joint_finding(&JOINT_NARROW, "widen", context, surface, build) {
        found.add(finding);
    }
}
