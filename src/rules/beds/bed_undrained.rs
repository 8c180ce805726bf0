//! `bed-undrained`: a sheet that holds the water in the bed over it.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Surface};
use crate::rules::construction::Construction;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// A sheet that holds the water in the bed over it.
pub(crate) static BED_UNDRAINED: Rule = Rule {
    name: "bed-undrained",
    family: Family::Beds,
    severity: Severity::Warning,
    looks_at: "A membrane straight under a bed of sand or fine stone; not under a roof, nor where weeps or a channel let the water out.",
    reason: "Rain goes down through the joints and stands in the sand over the sheet: the bed pumps, washes out and heaves in frost.",
    remedy: "Leave the sheet out, or lay a fabric in its place, which lets water through.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
build sand-set
  bed          sharp-sand, 30 mm
  membrane     «polythene-sheet»
",
    keeps: "\
build sand-set
  bed          sharp-sand, 30 mm
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let is_let_out =
        surface.weeps.is_some() || !surface.channels.is_empty() || !surface.drained.is_empty();
    // A base that could not be read lies between, and lets the water out.
    let is_wet = surface.covered.is_none() && !is_let_out && !build.has_lost_line;
    if !is_wet || Construction::of(build) != Construction::SandSet {
        return;
    }
    let mut below = build.layers.iter();
    below.find(|layer| layer.role.value == Role::Bed);
    let Some(sheet) = below.next().filter(|layer| {
        layer.existing.is_none() && layer.of.value.kind().is_some_and(Kind::is_membrane)
    }) else {
        return;
    };
    let message = format!(
        "{} holds the water in the bed over it, which washes out and heaves: leave it out, or lay geotextile",
        sheet.of.value.name()
    );
    found.add(BED_UNDRAINED.finding(context.at(surface, sheet.of.place), message));
}
