//! `joint-shallow`: a joint deeper than its units, or left too low.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Surface};
use crate::rules::construction::{Binding, Construction};
use crate::rules::documents::icpi_tolerances;
use crate::rules::wording::as_written;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

/// A joint deeper than its units, or left too low.
pub(crate) static JOINT_SHALLOW: Rule = Rule {
    name: "joint-shallow",
    family: Family::Joints,
    severity: Severity::Error,
    looks_at: "The stated depth of a joint against the thickness of its units, and how far sand or chips stop below the surface.",
    reason: "A joint ends where its units end: a deeper one orders too much. Filling left low lets units move and holds dirt.",
    remedy: "State the depth that is filled, or leave it out: then it is the thickness of the units.",
    limits: &[Limit {
        row: "plain",
        of: "loose filling below the surface",
        bound: Bound::Most,
        general: Value {
            written: &["13 mm", "1/2 in"],
            source: icpi_tolerances("joint filling below the surface, 1/2 in (13 mm) at most"),
        },
        regions: &[],
    }],
    sources: &[
        icpi_tolerances("joint filling below the surface"),
        Source::computed("depth against thickness"),
    ],
    breaks: "surface court
  joint        3 mm, depth «80 mm», filled with joint-sand
",
    keeps: "surface court
  joint        3 mm, depth 50 mm, filled with joint-sand
",
    mended: Some(
        "surface court
  joint        3 mm, depth 60 mm, filled with joint-sand
",
    ),
    check: Check::Units(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(joint) = &surface.joint else { return };
    let Some(paving) = build.layer(Role::Paving) else {
        return;
    };
    let (Some(depth), Some(thickness)) = (&joint.depth, &paving.thickness) else {
        return;
    };
    let shown = context.show(&depth.value);
    let unit = context.show_length(paving.thickest_m());
    let left = thickness.value.si() - depth.value.si();
    if depth.value.si() > paving.thickest_m() + 1e-9 {
        let message = format!(
            "a joint cannot be {shown} deep between units {unit} thick: correct one of the two"
        );
        let finding = JOINT_SHALLOW
            .finding(depth.place, message)
            .found(shown, Some(depth.value))
            .related(thickness.place, "the thickness of the units");
        found.add(match as_written(&thickness.value, context) {
            Some(text) => finding.fix(Fix::judged(
                format!("Fill the joint {text} deep"),
                depth.place,
                text,
            )),
            None => finding,
        });
        return;
    }
    let is_loose = joint.filling.as_ref().is_none_or(|filling| {
        let binding = Binding::of(&filling.value);
        matches!(binding, Binding::Loose | Binding::Stabilised)
    });
    let Some(limit) = context.limit(&JOINT_SHALLOW, "plain") else {
        return;
    };
    if !is_loose || Construction::of(build) != Construction::SandSet || limit.allows_si(left) {
        return;
    }
    let left_shown = limit.beside_si(left, context.system());
    let message = format!(
        "the filling stops {left_shown} below the surface; {} is the most: fill it higher",
        limit.shown(context.system()),
    );
    found.add(
        JOINT_SHALLOW
            .finding(depth.place, message)
            .severity(Severity::Advisory)
            .found(left_shown, Quantity::near(left, Dimension::LENGTH))
            .against(&limit, context)
            .related(thickness.place, "the thickness of the units"),
    );
}
