//! `joint-unfilled`: joints of which nothing says what fills them.

use crate::findings::{Finding, Severity};
use crate::model::{Build, Surface};
use crate::rules::construction::{Construction, is_stepping_stone, unit_kind};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::System;
use crate::vocabulary::Role;

/// Joints of which nothing says what fills them.
pub(crate) static JOINT_UNFILLED: Rule = Rule {
    name: "joint-unfilled",
    family: Family::Joints,
    severity: Severity::Advisory,
    looks_at: "The joints of units that are laid on a bed or bonded, where they or their filling are not stated; not of stepping stones, nor of slabs that lie dry.",
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
    let is_unclear = context.is_misread(surface.section);
    if !is_bedded || lies_dry || is_unclear || is_stepping_stone(surface, build) {
        return;
    }
    let Some(joint) = &surface.joint else {
        found
            .findings
            .extend(unstated(surface, build, context.system()));
        return;
    };
    if joint.filling.is_some() || joint.width.value.si() <= 0.0 {
        return;
    }
    let (_, filling) = usual(build, context.system());
    let message = format!(
        "nothing says what fills the joints: they stay open, and no filling is ordered. State it, as in filled with {filling}"
    );
    found.add(JOINT_UNFILLED.finding(joint.place, message));
}

/// Units of which nothing says how they are jointed.
fn unstated(surface: &Surface, build: &Build, system: System) -> Option<Finding> {
    let paving = build.layer(Role::Paving)?;
    let is_laid_here = paving.existing.is_none() && unit_kind(build).is_some();
    if !is_laid_here || surface.entry("joint").is_some() || build.has_lost_line {
        return None;
    }
    let (width, filling) = usual(build, system);
    let message = format!(
        "nothing says how {} is jointed, and nothing is ordered for it. State it, as in joint {width}, filled with {filling}",
        surface.name.value
    );
    Some(JOINT_UNFILLED.finding(surface.name.place, message))
}

/// How wide the joints of such a build commonly are, and what fills them. Sand
/// washes out of a pavement that does not give.
fn usual(build: &Build, system: System) -> (&'static str, &'static str) {
    let (metric, imperial, filling) = match Construction::of(build) {
        _ if build.permeable.is_some() => ("8 mm", "3/8 in", "chip-stone"),
        Construction::MortarSet => ("10 mm", "3/8 in", "bagged-mortar"),
        _ => ("3 mm", "1/8 in", "joint-sand"),
    };
    match system {
        System::Metric => (metric, filling),
        System::Imperial => (imperial, filling),
    }
}
