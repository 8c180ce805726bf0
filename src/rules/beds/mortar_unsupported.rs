//! `mortar-unsupported`: mortared paving with no slab under it.

use crate::findings::Severity;
use crate::model::{Build, Region, Surface};
use crate::rules::construction::{self, Construction};
use crate::rules::documents::masonry_handbook;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Mortared paving with no slab under it.
pub(crate) static MORTAR_UNSUPPORTED: Rule = Rule {
    name: "mortar-unsupported",
    family: Family::Beds,
    severity: Severity::Advisory,
    looks_at: "Paving in mortar straight on aggregate or ground, with no slab. A warning in the US; silent in the UK, where flags are commonly laid so.",
    reason: "Mortar cannot bend: where the stone under it settles or heaves, bed and joints crack and water gets in.",
    remedy: "Put a 4 in (100 mm) concrete slab under the bed, or lay the paving on sand.",
    limits: &[],
    sources: &[
        masonry_handbook("fig. 8-31, mortared stone on a 4 in concrete base"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "surface court
  build        mortar-set

build mortar-set
  «bed          bed-mix, 40 mm»
  # no slab
",
    keeps: "surface court
  build        mortar-set

build mortar-set
  slab         slab-mix, 100 mm
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, _surface: &Surface, build: &Build, found: &mut Found) {
    let severity = match context.region() {
        Region::Uk => return,
        Region::Us => Severity::Warning,
        Region::Au | Region::General => Severity::Advisory,
    };
    let is_there = build
        .layer(Role::Paving)
        .is_some_and(|paving| paving.existing.is_some());
    let is_supported =
        is_there || construction::slab(build).is_some() || context.is_misread(build.section);
    if Construction::of(build) != Construction::MortarSet || is_supported {
        return;
    }
    let held = build
        .layer(Role::Bed)
        .or(build.layer(Role::Bond))
        .or(build.layer(Role::Slurry));
    let Some(held) = held else { return };
    let below = match construction::bases(build).next() {
        Some(base) => base.of.value.name(),
        None => "the ground",
    };
    let message = format!(
        "mortar on {below} with no slab cracks as soon as that moves: put a concrete slab under it, or lay the paving on sand"
    );
    let mut finding = MORTAR_UNSUPPORTED
        .finding(held.place, message)
        .severity(severity);
    if let Some(base) = construction::bases(build).next() {
        finding = finding.related(base.place, "it lies on this");
    }
    found.add(finding);
}
