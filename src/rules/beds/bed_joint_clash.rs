//! `bed-joint-clash`: joints and bed of which one is rigid and one gives.

use crate::findings::Severity;
use crate::model::{Build, Surface};
use crate::rules::construction::{Binding, Construction};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Joints and bed of which one is rigid and one gives.
pub static BED_JOINT_CLASH: Rule = Rule {
    name: "bed-joint-clash",
    family: Family::Beds,
    severity: Severity::Warning,
    looks_at: "Mortar joints between units on a bed of sand, and joints of loose sand or stone between units on a bed of mortar.",
    reason: "On a bed that gives, mortar joints crack and come out in pieces. On a bed that does not, water runs through loose joints and is held under the stone.",
    remedy: "Fill the joints of sand-set paving with sand, and those of mortared paving with mortar.",
    limits: &[],
    sources: &[Source::read(
        "BIA Technical Notes 14A (2017) and 14C (2011)",
        "flexible paving on sand and rigid paving in mortar, each with joints of its kind",
    )],
    breaks: "surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with «joint-mix»
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    keeps: "surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
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
    let (joints, remedy) = match (Construction::of(build), Binding::of(&filling.value)) {
        (Construction::SandSet, Binding::Mortar) => (
            "rigid",
            "a bed that gives: fill them with sand, or set the paving in mortar on a slab",
        ),
        (Construction::MortarSet, Binding::Loose) => (
            "loose",
            "a bed of mortar: fill them with mortar, or set the paving on sand",
        ),
        _ => return,
    };
    let message = format!(
        "the joints, of {}, are {joints} on {remedy}",
        filling.value.name()
    );
    found.add(
        BED_JOINT_CLASH
            .finding(filling.place, message)
            .related(bed.place, "the bed is stated here"),
    );
}
