//! `bed-missing`: units laid straight on stone.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Region, Surface};
use crate::rules::construction::{is_base, is_mortar, is_sand, is_stepping_stone, unit_kind};
use crate::rules::documents::CMHA_BEDDING;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Units laid straight on stone.
pub(crate) static BED_MISSING: Rule = Rule {
    name: "bed-missing",
    family: Family::Beds,
    severity: Severity::Error,
    looks_at: "Units that lie on a base of stone with no bed between; flags draw a warning. Not of stepping stones, nor of what lies dry on a slab.",
    reason: "Nothing takes up what the units and the base are out of true: the units rock on the stone, crack and never lie level.",
    remedy: "Lay them on a bed of sharp sand, fine stone or mortar, and state it.",
    limits: &[],
    sources: &[CMHA_BEDDING, Source::COMMON_PRACTICE],
    breaks: "\
build sand-set
  «paving       concrete-paver, 60 mm, waste 5 %»
  # no bed
",
    keeps: "\
build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(kind) = unit_kind(build) else { return };
    let layers = || {
        build
            .layers
            .iter()
            .filter(|layer| !layer.role.value.is_sheet())
    };
    let Some(paving) = build
        .layer(Role::Paving)
        .filter(|own| own.existing.is_none())
    else {
        return;
    };
    // A coat levels nothing: what matters is what it lies on.
    let coats = [Role::Paving, Role::Bond, Role::Slurry];
    let Some(below) = layers().find(|layer| !coats.contains(&layer.role.value)) else {
        return;
    };
    let is_stone = is_base(below)
        && !is_mortar(&below.of.value)
        && below.of.value.kind().is_some_and(Kind::is_granular)
        // Sand that is called a base has a finding of its own.
        && !is_sand(&below.of.value);
    let is_unclear = build.has_lost_line || surface.is_build_lost();
    if !is_stone || is_unclear || is_stepping_stone(surface, build) {
        return;
    }
    let (what, severity) = match kind.is_flag() {
        true => ("flags", Severity::Warning),
        false => ("pavers", Severity::Error),
    };
    let coats = [Role::Bond, Role::Slurry].map(|role| build.layer(role));
    let bed = match (coats.iter().any(Option::is_some), context.region()) {
        (true, _) => "bagged-mortar",
        (false, Region::Us) => "concrete-sand",
        (false, _) => "sharp-sand",
    };
    let message = format!(
        "nothing beds the {what}: straight on {} they rock. State the bed, as in bed {bed}",
        below.of.value.name()
    );
    let finding = BED_MISSING.finding(context.at(surface, paving.place), message);
    found.add(finding.severity(severity));
}
