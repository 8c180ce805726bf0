//! `movement-offset`: joints of a slab that the paving on it does not follow.

use super::extent::length_m;
use crate::findings::Severity;
use crate::model::{Build, Surface};
use crate::rules::construction::Construction;
use crate::rules::documents::ANSI_JOINTS;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::Role;

/// Joints of a slab that the paving on it does not follow.
pub(crate) static MOVEMENT_OFFSET: Rule = Rule {
    name: "movement-offset",
    family: Family::Joints,
    severity: Severity::Warning,
    looks_at: "The spacing of movement joints in paving in mortar, against that of the joints in the slab under it. Not with a membrane between the two.",
    reason: "A slab moves at its joints; paving bonded over one cracks along it, wherever its own joints are.",
    remedy: "Put a movement joint over every joint of the slab, or an uncoupling membrane between.",
    limits: &[],
    sources: &[ANSI_JOINTS],
    breaks: "surface court
  build        mortar-set
  movement-joints every «3.5 m»

build mortar-set
  slab         slab-mix, 100 mm, joints every 3 m
",
    keeps: "surface court
  build        mortar-set
  movement-joints every 3 m

build mortar-set
  slab         slab-mix, 100 mm, joints every 3 m
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(slab) = build.layer(Role::Slab) else {
        return;
    };
    let (Some(beneath), Some(stated)) = (&slab.joints, &surface.movement_joints) else {
        return;
    };
    let is_apart = build.layer(Role::Membrane).is_some();
    if is_apart
        || Construction::of(build) != Construction::MortarSet
        || context.is_misread(surface.section)
    {
        return;
    }
    let below = beneath.value.si();
    // Within its first joint a slab has none to follow.
    let length = surface.outline.as_ref().and_then(length_m);
    if !length.is_some_and(|length| length > below + 1e-6) {
        return;
    }
    let shown = context.show(&beneath.value);
    let times = below / stated.value.si();
    if (times - times.round()).abs() < 0.01 && times > 0.5 {
        return;
    }
    let message = format!(
        "movement joints every {} miss the slab's, every {shown}; the paving will crack over them: line them up",
        context.show(&stated.value),
    );
    found.add(
        MOVEMENT_OFFSET
            .finding(stated.place, message)
            .related(beneath.place, "the slab's joints"),
    );
}
