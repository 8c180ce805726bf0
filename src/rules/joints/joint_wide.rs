//! `joint-wide`: a joint too wide for what fills it.

use super::joint_row::joint_finding;
use crate::findings::Severity;
use crate::model::{Build, Surface};
use crate::rules::documents::{bia_14a, icpi_permeable, icpi_tolerances};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

const fn most(row: &'static str, of: &'static str, general: Value) -> Limit {
    Limit {
        row,
        of,
        bound: Bound::Most,
        general,
        regions: &[],
    }
}

/// A joint too wide for what fills it.
pub(crate) static JOINT_WIDE: Rule = Rule {
    name: "joint-wide",
    family: Family::Joints,
    severity: Severity::Warning,
    looks_at: "The width of joints, by what fills them and what they lie between; mortar between irregular stones may be any width.",
    reason: "Sand washes out of a wide joint and the units stop locking; wide mortar shrinks and cracks along its edges.",
    remedy: "Narrow the joint, or fill it with stabilised sand or stone chips.",
    limits: &[
        most(
            "pavers",
            "sand between pavers",
            Value {
                written: &["5 mm", "3/16 in"],
                source: icpi_tolerances("joint width, 1/16 to 3/16 in (2 to 5 mm)"),
            },
        ),
        most(
            "permeable",
            "open joints of permeable pavers",
            Value {
                written: &["13 mm", "1/2 in"],
                source: icpi_permeable("joint width, 1/4 to 1/2 in (6 to 13 mm)"),
            },
        ),
        most(
            "flags",
            "plain sand between flags",
            Value::practice(&["13 mm", "1/2 in"]),
        ),
        most(
            "brick",
            "mortar between bricks",
            Value::practice(&["13 mm", "1/2 in"]),
        ),
        most(
            "brick-sanded",
            "sand between bricks that lie in mortar",
            Value::practice(&["13 mm", "1/2 in"]),
        ),
        most(
            "stone",
            "mortar between slabs",
            Value::practice(&["25 mm", "1 in"]),
        ),
    ],
    sources: &[
        icpi_tolerances("joint width"),
        bia_14a("joints of sand, 1/16 to 3/16 in"),
        icpi_permeable("joint width"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "surface court
  joint        «8 mm», filled with joint-sand
",
    keeps: "surface court
  joint        5 mm, filled with joint-sand
",
    mended: Some(
        "surface court
  joint        5 mm, filled with joint-sand
",
    ),
    check: Check::Units(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    if let Some(finding) = joint_finding(&JOINT_WIDE, "narrow", context, surface, build) {
        found.add(finding);
    }
}
