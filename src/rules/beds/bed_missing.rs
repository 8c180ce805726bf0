//! `bed-missing`: units laid straight on stone.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Layer, Region, Surface};
use crate::rules::construction::{
    is_base, is_coated, is_jointed_fast, is_mortar, is_sand, is_stepping_stone, lies_on_slab, slab,
    unit_kind,
};
use crate::rules::documents::CMHA_BEDDING;
use crate::rules::wording::large_units;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Units laid straight on stone.
pub(crate) static BED_MISSING: Rule = Rule {
    name: "bed-missing",
    family: Family::Beds,
    severity: Severity::Error,
    looks_at: "Units that lie on a base of stone with no bed between; flags draw a warning. On a slab a warning too, where the joints are those of paving that is bedded or bonded, or a priming slurry is all that is to hold it. Not of stepping stones, nor of what lies dry on a slab.",
    reason: "Nothing takes up what the units and the base are out of true: the units rock on the stone, crack and never lie level. On a slab nothing holds them.",
    remedy: "Lay them on a bed of sharp sand, fine stone or mortar, or bond them to the slab, and state it.",
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
    let (Some(kind), Some(paving)) = (unit_kind(build), new_paving(build)) else {
        return;
    };
    let what = match kind.is_flag() {
        true => large_units(Some(kind), context),
        false => "pavers",
    };
    if build.has_lost_line || surface.is_build_lost() {
        return;
    }
    let (message, severity) = if let Some(below) = straight_on(surface, build) {
        let bed = match (is_coated(build), context.region()) {
            (true, _) => "bagged-mortar",
            (false, Region::Us) => "concrete-sand",
            (false, _) => "sharp-sand",
        };
        let message = format!(
            "nothing beds the {what}: straight on {} they rock. State the bed, as in bed {bed}",
            below.of.value.name()
        );
        match kind.is_flag() {
            true => (message, Severity::Warning),
            false => (message, Severity::Error),
        }
    } else if lies_on_slab(build) && is_jointed_fast(surface) {
        let message = format!(
            "nothing beds the {what} or bonds them to the slab, and their joints alone do not hold them. State it, as in bond thin-set or bed bagged-mortar"
        );
        (message, Severity::Warning)
    } else if let Some(primer) = primer_alone(build) {
        let message = format!(
            "{} is no adhesive: with no wet bed under it, it holds no {what} to a slab. Lay them on a bed of mortar, as in bed bagged-mortar, or bond them with thin-set",
            primer.of.value.name()
        );
        (message, Severity::Warning)
    } else {
        return;
    };
    let finding = BED_MISSING.finding(context.at(surface, paving.place), message);
    found.add(finding.severity(severity));
}

fn new_paving(build: &Build) -> Option<&Layer> {
    let paving = build.layer(Role::Paving)?;
    paving.existing.is_none().then_some(paving)
}

/// Whether flags lack the bed that would tell how they are held, and that is
/// told: what else is found of paving on sand may be nothing in mortar.
pub(in crate::rules) fn is_bed_of_flags_missing(
    context: &Context<'_>,
    surface: &Surface,
    build: &Build,
) -> bool {
    unit_kind(build).is_some_and(Kind::is_flag)
        && new_paving(build).is_some()
        && straight_on(surface, build).is_some()
        && context.is_in_force(&BED_MISSING, Severity::Warning)
}

/// The stone that units lie on with no bed between.
fn straight_on<'a>(surface: &Surface, build: &'a Build) -> Option<&'a Layer> {
    // A coat levels nothing: what matters is what it lies on.
    let coats = [Role::Paving, Role::Bond, Role::Slurry];
    let mut layers = build.layers.iter();
    let below = layers.find(|layer| {
        let role = layer.role.value;
        !role.is_sheet() && !coats.contains(&role)
    })?;
    let is_stone = is_base(below)
        && !is_mortar(&below.of.value)
        && below.of.value.kind().is_some_and(Kind::is_granular)
        // Sand that is called a base has a finding of its own.
        && !is_sand(&below.of.value);
    (is_stone && !is_stepping_stone(surface, build)).then_some(below)
}

/// The priming slurry that is all there is between units and their slab. It
/// joins their backs to a bed that is still wet.
fn primer_alone(build: &Build) -> Option<&Layer> {
    let mut coats =
        (build.layers.iter()).filter(|layer| matches!(layer.role.value, Role::Bond | Role::Slurry));
    let first = coats.next()?;
    let is_primer = |layer: &Layer| {
        let material = layer.of.value.material();
        material.and_then(|own| own.stock) == Some("priming-slurry")
    };
    let is_alone = build.layer(Role::Bed).is_none() && slab(build).is_some();
    (is_alone && is_primer(first) && coats.all(is_primer)).then_some(first)
}
