//! `bed-joint-clash`: rigid joints on a bed that gives, or the reverse.

use crate::findings::Severity;
use crate::model::{Build, Surface};
use crate::rules::construction::{Binding, Construction};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Rigid joints on a bed that gives, or the reverse.
pub(crate) static BED_JOINT_CLASH: Rule = Rule {
    name: "bed-joint-clash",
    family: Family::Beds,
    severity: Severity::Warning,
    looks_at: "Mortar joints over a sand bed, and sand or stone joints over a mortar bed. Not where bed or paving is there already.",
    reason: "Over sand, mortar joints crack and come out. Over mortar, loose joints let in water that the bed then holds under the stone.",
    remedy: "Sand joints over a sand bed, mortar joints over a mortar bed.",
    limits: &[],
    sources: &[Source::read(
        "BIA Technical Notes 14A (2017) and 14C (2011)",
        "flexible paving on sand and rigid paving in mortar, each with joints of its kind",
    )],
    breaks: "surface court
  joint        3 mm, filled with «joint-mix»
",
    keeps: "surface court
  joint        3 mm, filled with joint-sand
",
    mended: None,
    check: Check::Built(check),
};

fn check(_context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let filling = surface
        .joint
        .as_ref()
        .and_then(|joint| joint.filling.as_ref());
    let Some(filling) = filling else { return };
    let Some(bed) = build.layer(Role::Bed) else {
        return;
    };
    let is_there = |role| {
        let layer = build.layer(role);
        layer.is_some_and(|layer| layer.existing.is_some())
    };
    if is_there(Role::Bed) || is_there(Role::Paving) {
        return;
    }
    let (joints, remedy) = match (Construction::of(build), Binding::of(&filling.value)) {
        (Construction::SandSet, Binding::Mortar) => (
            "mortar",
            "over a sand bed will crack out: use jointing sand, or bed the paving in mortar on a slab",
        ),
        (Construction::MortarSet, Binding::Loose) => (
            "loose",
            "over a mortar bed let in water that cannot get out: point them, or lay the paving on sand",
        ),
        _ => return,
    };
    let message = format!("{joints} joints ({}) {remedy}", filling.value.name());
    found.add(
        BED_JOINT_CLASH
            .finding(filling.place, message)
            .related(bed.place, "the bed"),
    );
}
