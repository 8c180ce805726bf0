//! `joint-wide`: a joint too wide for what fills it.

use super::joint_row::joint_finding;
use crate::findings::{Finding, Severity};
use crate::model::{Build, Surface};
use crate::rules::construction::is_stepping_stone;
use crate::rules::documents::{bia_14a, icpi_permeable, icpi_tolerances};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, System};
use crate::vocabulary::Term;

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
    looks_at: "The width of joints, by what fills them and what they lie between; mortar between irregular stones may be any width. Of stepping stones of one shape, so many in all, the gap from one to the next: an advisory.",
    reason: "Sand washes out of a wide joint and the units stop locking; wide mortar shrinks and cracks along its edges. Over a gap longer than a stride nobody walks on the stones.",
    remedy: "Narrow the joint, or fill it with stabilised sand or stone chips; lay stepping stones closer.",
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
        most(
            "stride",
            "the gap between stepping stones",
            Value::practice(&["450 mm", "18 in"]),
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
    if let Some(finding) = stride(context, surface, build) {
        found.add(finding);
    }
}

/// Pieces that lie farther apart than this, in metres, are pads of their own:
/// nobody means to step from one to the next.
const APART: f64 = 1.5;

/// Stepping stones that lie farther apart than a stride.
fn stride(context: &Context<'_>, surface: &Surface, build: &Build) -> Option<Finding> {
    if !is_stepping_stone(surface, build) {
        return None;
    }
    let repeat = surface.repeat.as_ref()?;
    let gap = repeat.gap_m;
    let limit = context.limit(&JOINT_WIDE, "stride")?;
    if limit.allows_si(gap) || gap > APART {
        return None;
    }
    let shown = limit.beside_si(gap, context.system());
    let pace = match context.system() {
        System::Metric => "600 mm",
        System::Imperial => "24 in",
    };
    let message = format!(
        "a gap of {shown} is more than a stride; {} is the most from one stepping stone to the next: lay them at about {}",
        limit.shown(context.system()),
        Term::spacing(pace, context.region()),
    );
    let finding = JOINT_WIDE
        .finding(repeat.spacing.place, message)
        .severity(Severity::Advisory)
        .found(shown, Quantity::near(gap, Dimension::LENGTH));
    Some(finding.against(&limit, context))
}
