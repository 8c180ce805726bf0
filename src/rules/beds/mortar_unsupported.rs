//! `mortar-unsupported`: mortared paving with no slab under it.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Layer, Region, Surface};
use crate::rules::construction::{self, Binding, Construction};
use crate::rules::documents::masonry_handbook;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Mortared paving with no slab under it.
pub(crate) static MORTAR_UNSUPPORTED: Rule = Rule {
    name: "mortar-unsupported",
    family: Family::Beds,
    severity: Severity::Advisory,
    looks_at: "Paving in mortar straight on aggregate or ground with no slab, on a bed of sand, or on asphalt. A warning in the US and under cars; on foot not in the UK, where flags are commonly laid on aggregate.",
    reason: "Mortar cannot bend: where the stone under it settles or heaves, bed and joints crack and water gets in.",
    remedy: "Put a concrete slab of 100 mm (4 in) under the bed, or lay the paving on sand.",
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

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let is_there = build
        .layer(Role::Paving)
        .is_some_and(|paving| paving.existing.is_some());
    let is_in_mortar = Construction::of(build) == Construction::MortarSet;
    if is_there || !is_in_mortar || context.is_misread(build.section) {
        return;
    }
    let held = build
        .layer(Role::Bed)
        .or(build.layer(Role::Bond))
        .or(build.layer(Role::Slurry));
    let Some(held) = held else { return };
    let below = below(build);
    let on = below.map_or("the ground", |layer| layer.of.value.name());
    let (severity, message) = match below {
        Some(layer) if layer.of.value.kind() == Some(Kind::Asphalt) => (
            Severity::Warning,
            format!(
                "mortar does not hold on {on}, which moves and softens in the sun: take it up, or lay pavers on sand over it"
            ),
        ),
        Some(layer) if layer.role.value == Role::Bed => (
            Severity::Warning,
            format!(
                "mortar on {on} cracks as soon as that moves: bed it on the slab, or lay the paving on sand"
            ),
        ),
        _ if construction::slab(build).is_some() => return,
        _ => {
            let Some(severity) = severity_on_aggregate(context, surface, build) else {
                return;
            };
            let message = format!(
                "mortar on {on} with no slab cracks as soon as that moves: put a concrete slab under it, or lay the paving on sand"
            );
            (severity, message)
        }
    };
    let finding = MORTAR_UNSUPPORTED
        .finding(held.place, message)
        .severity(severity);
    found.add(match below {
        Some(layer) => finding.related(layer.place, "it lies on this"),
        None => finding,
    });
}

/// The layer that mortared paving lies on: the first under its mortar, sheets
/// left out.
fn below(build: &Build) -> Option<&Layer> {
    build.layers.iter().find(|layer| match layer.role.value {
        Role::Paving | Role::Bond | Role::Slurry => false,
        Role::Bed => Binding::of(&layer.of.value) == Binding::Loose,
        role => !role.is_sheet(),
    })
}

/// How much it matters where there is no slab. Thin flags under cars are told
/// of by flag-unsupported.
fn severity_on_aggregate(
    context: &Context<'_>,
    surface: &Surface,
    build: &Build,
) -> Option<Severity> {
    let is_driven = construction::is_driven(surface);
    let is_flag = construction::unit_kind(build).is_some_and(Kind::is_flag);
    match context.region() {
        Region::Uk if !is_driven || is_flag => None,
        Region::Uk | Region::Us => Some(Severity::Warning),
        Region::Au | Region::General if is_driven => Some(Severity::Warning),
        Region::Au | Region::General => Some(Severity::Advisory),
    }
}
