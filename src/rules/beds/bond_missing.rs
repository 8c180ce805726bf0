//! `bond-missing`: stone on a mortar bed with no bond coat.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Build, Surface};
use crate::rules::construction::{Construction, unit_kind};
use crate::rules::documents::{ANSI_CONTACT, PORCELAIN_PRIMER};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::units::System;
use crate::vocabulary::{Role, Term};

/// Stone on a mortar bed with no bond coat.
pub(crate) static BOND_MISSING: Rule = Rule {
    name: "bond-missing",
    family: Family::Beds,
    severity: Severity::Advisory,
    looks_at: "Natural stone and porcelain on a bed of mortar with no bond coat on their backs; a warning for porcelain. Not in lime, which needs none.",
    reason: "A stiff bed alone seldom grips the whole back of a slab outdoors; water gathers in the gaps and frost lifts it. Porcelain absorbs nothing and hardly grips at all.",
    remedy: "Coat the backs with a bond coat or priming slurry as they are laid.",
    limits: &[],
    sources: &[ANSI_CONTACT, PORCELAIN_PRIMER],
    breaks: "surface court
  build        mortar-set

build mortar-set
  # no bond
  bed          «bed-mix», 40 mm
",
    keeps: "surface court
  build        mortar-set
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, _surface: &Surface, build: &Build, found: &mut Found) {
    let kind = unit_kind(build);
    let is_stone = matches!(kind, Some(Kind::NaturalStone | Kind::Porcelain));
    let is_porcelain = kind == Some(Kind::Porcelain);
    let Some(bed) = build.layer(Role::Bed) else {
        return;
    };
    let above = build
        .layers
        .iter()
        .take_while(|layer| layer.role.value != Role::Bed);
    let is_coated = build.layer(Role::Bond).is_some()
        || above
            .into_iter()
            .any(|layer| layer.role.value == Role::Slurry)
        || bed.of.value.kind().is_some_and(Kind::is_bond_coat);
    if !is_stone
        || is_coated
        || bed.existing.is_some()
        || (bed.of.value.sets_with_lime() && !is_porcelain)
        || Construction::of(build) != Construction::MortarSet
        || context.is_misread(build.section)
    {
        return;
    }
    let coat = match context.system() {
        System::Metric => "bond priming-slurry, 2 mm",
        System::Imperial => "bond priming-slurry, 1/8 in",
    };
    let (severity, message) = match is_porcelain {
        true => (
            Severity::Warning,
            format!(
                "porcelain does not bond to a mortar bed by itself and will come loose: add a {}, above the bed, as in {coat}",
                context.word(Term::BondCoat)
            ),
        ),
        false => (
            Severity::Advisory,
            format!(
                "nothing bonds the stone to its mortar bed, and it may come loose: add a {}, above the bed, as in {coat}",
                context.word(Term::BondCoat)
            ),
        ),
    };
    found.add(
        BOND_MISSING
            .finding(bed.of.place, message)
            .severity(severity),
    );
}
