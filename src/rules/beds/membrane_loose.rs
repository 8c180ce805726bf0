//! `membrane-loose`: a membrane under mortared paving that nothing bonds.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Layer, Surface};
use crate::rules::construction::is_mortar;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// A membrane under mortared paving that nothing bonds.
pub(crate) static MEMBRANE_LOOSE: Rule = Rule {
    name: "membrane-loose",
    family: Family::Beds,
    severity: Severity::Warning,
    looks_at: "Paving straight on a membrane with no bond coat or bed between, or bonded to a loose sheet of polythene or a liner, to which nothing sticks; and a crack membrane with no coat between it and the slab, an advisory.",
    reason: "A membrane carries the paving only if it is bonded on both sides; loose, the paving moves and its joints break.",
    remedy: "Bond the membrane to the slab with a slurry or thin-set, and the paving to the membrane.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "build mortar-set
  paving       sandstone, 40 mm, waste 10 %
  membrane     «crack-membrane»
  slurry       thin-set, 3 mm
  # no bed

surface court
  build        mortar-set
",
    keeps: "build mortar-set
  bond         thin-set, 3 mm
  membrane     crack-membrane
  slurry       thin-set, 3 mm
  # no bed

surface court
  build        mortar-set
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(at) = build
        .layers
        .iter()
        .position(|layer| layer.of.value.kind().is_some_and(Kind::is_membrane))
    else {
        return;
    };
    let (Some(membrane), above, below) = (
        build.layers.get(at),
        build.layers.get(..at).unwrap_or_default(),
        build.layers.get(at + 1..).unwrap_or_default(),
    ) else {
        return;
    };
    let is_paving = |layer: &Layer| {
        layer.role.value == Role::Paving && layer.of.value.kind().is_some_and(Kind::is_unit)
    };
    let is_on_slab = below.iter().any(|layer| layer.role.value == Role::Slab);
    if membrane.existing.is_some() || !is_on_slab || context.is_misread(build.section) {
        return;
    }
    let name = membrane.of.value.name();
    let place = context.at(surface, membrane.of.place);
    if above.last().is_some_and(is_paving) {
        let message = format!(
            "nothing bonds the paving to {name}: it will move and its joints break. Add a bond coat over it"
        );
        found.add(MEMBRANE_LOOSE.finding(place, message));
    } else if is_loose_sheet(membrane)
        && above
            .last()
            .is_some_and(|layer| matches!(layer.role.value, Role::Bond | Role::Slurry))
        && above.iter().any(is_paving)
    {
        let message = format!(
            "nothing sticks to {name}: the paving over it will come loose. Take a crack membrane"
        );
        found.add(MEMBRANE_LOOSE.finding(place, message));
    } else if membrane.of.value.kind() == Some(Kind::CrackMembrane)
        && !below.first().is_some_and(bonds)
    {
        let message = format!(
            "nothing bonds {name} to the slab: put a slurry or thin-set under it, unless it sticks by itself"
        );
        found.add(
            MEMBRANE_LOOSE
                .finding(place, message)
                .severity(Severity::Advisory),
        );
    }
}

/// Whether a membrane is a sheet of plastic, to which no mortar sticks. What is
/// only said to be a membrane may be painted on.
fn is_loose_sheet(layer: &Layer) -> bool {
    let stock = layer.of.value.material().and_then(|own| own.stock);
    matches!(stock, Some("polythene-sheet" | "impermeable-liner"))
}

/// Whether a layer bonds what lies on it to what lies below.
fn bonds(layer: &Layer) -> bool {
    matches!(layer.role.value, Role::Bond | Role::Slurry | Role::Bed) && is_mortar(&layer.of.value)
}
