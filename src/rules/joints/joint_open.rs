//! `joint-open`: open joints too wide for an accessible surface.

use crate::findings::Severity;
use crate::model::{Build, Surface};
use crate::rules::construction::{Binding, is_sand};
use crate::rules::documents::ADA_OPENINGS;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};

/// Open joints too wide for an accessible surface.
pub(crate) static JOINT_OPEN: Rule = Rule {
    name: "joint-open",
    family: Family::Joints,
    severity: Severity::Warning,
    looks_at: "Joints left open, or filled with loose stone, on an accessible surface.",
    reason: "Wheels, sticks and heels catch in a wide open joint.",
    remedy: "Narrow the joints, or fill them flush with mortar or stabilised sand.",
    limits: &[Limit {
        row: "plain",
        of: "an open joint on an accessible surface",
        bound: Bound::Most,
        general: Value {
            written: &["13 mm", "1/2 in"],
            source: ADA_OPENINGS,
        },
        regions: &[],
    }],
    sources: &[ADA_OPENINGS],
    breaks: "build sand-set
  paving       sandstone, 40 mm, waste 10 %
  bed          sharp-sand, 40 mm

surface court
  for          foot, accessible
  laid         running-bond, units 300 mm by 450 mm
  joint        «20 mm», filled with chip-stone
",
    keeps: "build sand-set
  paving       sandstone, 40 mm, waste 10 %
  bed          sharp-sand, 40 mm

surface court
  for          foot, accessible
  laid         running-bond, units 300 mm by 450 mm
  joint        12 mm, filled with chip-stone
",
    mended: None,
    check: Check::Units(check),
};

fn check(context: &Context<'_>, surface: &Surface, _build: &Build, found: &mut Found) {
    let (Some(accessible), Some(joint)) = (surface.accessible, &surface.joint) else {
        return;
    };
    let is_open = joint.filling.as_ref().is_none_or(|filling| {
        Binding::of(&filling.value) == Binding::Loose && !is_sand(&filling.value)
    });
    let Some(limit) = context.limit(&JOINT_OPEN, "plain") else {
        return;
    };
    if !is_open || limit.allows(&joint.width.value) {
        return;
    }
    let shown = limit.beside(&joint.width.value, context.system());
    let message = format!(
        "an open joint of {shown} catches wheels and sticks; {} is the most on an accessible surface: narrow it or fill it flush",
        limit.shown(context.system()),
    );
    found.add(
        JOINT_OPEN
            .finding(joint.width.place, message)
            .found(shown, Some(joint.width.value))
            .against(&limit, context)
            .related(accessible, "accessible"),
    );
}
