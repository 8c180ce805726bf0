//! `isolation-narrow`: an isolation joint too narrow to move.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Surface};
use crate::rules::construction::Construction;
use crate::rules::documents::JOINT_WIDTH;
use crate::rules::wording::limit_as_written;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};

/// An isolation joint too narrow to move.
pub(crate) static ISOLATION_NARROW: Rule = Rule {
    name: "isolation-narrow",
    family: Family::Joints,
    severity: Severity::Warning,
    looks_at: "The width of the isolation joint between rigid paving and the building.",
    reason: "A filler squeezes to about half its width and a sealant stretches by about a quarter; a narrower joint closes up and the paving pushes the wall.",
    remedy: "Widen the joint and fill it with foam and sealant.",
    limits: &[Limit {
        row: "plain",
        of: "an isolation joint",
        bound: Bound::Least,
        general: Value {
            written: &["10 mm", "3/8 in"],
            source: JOINT_WIDTH,
        },
        regions: &[],
    }],
    sources: &[JOINT_WIDTH],
    breaks: "surface court
  build        mortar-set
  isolation-joint «5 mm»
",
    keeps: "surface court
  build        mortar-set
  isolation-joint 10 mm
",
    mended: Some(
        "surface court
  build        mortar-set
  isolation-joint 10 mm
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let (Some(joint), Some(limit)) = (
        &surface.isolation_joint,
        context.limit(&ISOLATION_NARROW, "plain"),
    ) else {
        return;
    };
    if !Construction::of(build).is_rigid() || limit.allows(&joint.value) {
        return;
    }
    let shown = limit.beside(&joint.value, context.system());
    let message = format!(
        "an isolation joint of {shown} is too narrow to move; {} is the least: widen it",
        limit.shown(context.system()),
    );
    let text = limit_as_written(&limit, context);
    found.add(
        ISOLATION_NARROW
            .finding(joint.place, message)
            .found(shown, Some(joint.value))
            .against(&limit, context)
            .fix(Fix::judged(
                format!("Widen the joint to {text}"),
                joint.place,
                text,
            )),
    );
}
