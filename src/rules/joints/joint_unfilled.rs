//! `joint-unfilled`: joints of which nothing says what fills them.

use crate::findings::Severity;
use crate::model::{Build, Surface};
use crate::rules::construction::{Construction, is_stepping_stone};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Joints of which nothing says what fills them.
pub(crate) static JOINT_UNFILLED: Rule = Rule {
    name: "joint-unfilled",
    family: Family::Joints,
    severity: Severity::Advisory,
    looks_at: "The joints of units that are laid on a bed or bonded, where their filling is not stated; not of stepping stones, nor of slabs that lie dry.",
    reason: "Open joints let the units rock and the bed wash out, and what fills them is missing from the order.",
    remedy: "State what they are filled with: sand, chips, mortar.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
surface court
  «joint        3 mm»
",
    keeps: "\
surface court
  joint        3 mm, filled with joint-sand
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let is_bedded = matches!(
        Construction::of(build),
        Construction::SandSet | Construction::MortarSet
    );
    let lies_dry = build.layer(Role::Bed).is_none() && build.layer(Role::Bond).is_none();
    let Some(joint) = surface
        .joint
        .as_ref()
        .filter(|joint| joint.filling.is_none())
    else {
        return;
    };
    let is_left_open = is_stepping_stone(surface, build) || joint.width.value.si() <= 0.0;
    if !is_bedded || lies_dry || is_left_open || context.is_misread(surface.section) {
        return;
    }
    let message = "nothing says what fills the joints: they stay open, and no filling is ordered. State it, as in filled with";
    found.add(JOINT_UNFILLED.finding(joint.place, message));
}
