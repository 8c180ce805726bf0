//! `bed-joint-clash`: rigid joints on a bed that gives, or the reverse.

use crate::findings::Severity;
use crate::model::{Build, Substance, Surface};
use crate::rules::construction::{Binding, Construction, is_loose_mix};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Rigid joints on a bed that gives, or the reverse.
pub(crate) static BED_JOINT_CLASH: Rule = Rule {
    name: "bed-joint-clash",
    family: Family::Beds,
    severity: Severity::Warning,
    looks_at: "Mortar joints over a sand bed, sand or stone joints over a mortar bed or a bond coat, polymeric sand too, and cement joints over a lime bed. Not where bed or paving is there already.",
    reason: "Over sand, mortar joints crack and come out. Over mortar, loose joints let in water that the bed then holds under the stone. Over lime, hard joints do not give as the bed does.",
    remedy: "Sand joints over a sand bed, mortar joints over a mortar bed, lime over lime.",
    limits: &[],
    sources: &[
        Source::read(
            "BIA Technical Notes 14A (2017) and 14C (2011)",
            "flexible paving on sand and rigid paving in mortar, each with joints of its kind",
        ),
        Source::COMMON_PRACTICE,
    ],
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
    // What is bonded straight to a slab has its coat for a bed.
    let under = [Role::Bed, Role::Bond].into_iter();
    let Some(bed) = under.filter_map(|role| build.layer(role)).next() else {
        return;
    };
    let is_there = |role| {
        let layer = build.layer(role);
        layer.is_some_and(|layer| layer.existing.is_some())
    };
    if is_there(Role::Bed) || is_there(Role::Paving) {
        return;
    }
    // A mix that lacks its cement has a finding of its own.
    let lacks_binder = |of: &Substance| of.mix().is_some_and(|mix| is_loose_mix(mix));
    if lacks_binder(&filling.value) || lacks_binder(&bed.of.value) {
        return;
    }
    let is_harder = bed.of.value.sets_with_lime() && !filling.value.sets_with_lime();
    let (joints, remedy, severity) = match (Construction::of(build), Binding::of(&filling.value)) {
        (Construction::SandSet, Binding::Mortar) => (
            "mortar",
            "over a sand bed will crack out: use jointing sand, or bed the paving in mortar on a slab",
            Severity::Warning,
        ),
        (Construction::MortarSet, Binding::Loose) => (
            "loose",
            "over paving in mortar let in water that cannot get out: point them, or lay the paving on sand",
            Severity::Warning,
        ),
        // It sets only where what wets it drains away, and lets water in all the same.
        (Construction::MortarSet, Binding::Stabilised) => (
            "sand",
            "over paving in mortar let in water that cannot get out: point them, or lay the paving on sand",
            Severity::Warning,
        ),
        (Construction::MortarSet, Binding::Mortar) if is_harder => (
            "cement",
            "are harder than the lime bed and part from the stone as it moves: point it with lime too",
            Severity::Advisory,
        ),
        _ => return,
    };
    let message = format!("{joints} joints ({}) {remedy}", filling.value.name());
    found.add(
        BED_JOINT_CLASH
            .finding(filling.place, message)
            .severity(severity)
            .related(bed.place, "the bed"),
    );
}
