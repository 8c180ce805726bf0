//! `care-dust`: cutting stone, brick and concrete.

use super::caution::{HARMLESS, built_layers, say};
use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::Surface;
use crate::rules::documents::OSHA_SILICA;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::Term;

/// Cutting stone, brick and concrete.
pub(crate) static CARE_DUST: Rule = Rule {
    name: "care-dust",
    family: Family::Cautions,
    severity: Severity::Advisory,
    looks_at: "Stone, brick, concrete or tile, which has to be cut.",
    reason: "Silica dust from dry cutting scars the lungs for good.",
    remedy: "Cut outdoors with water at the blade or extraction; wear goggles, ear defenders and a fitted mask.",
    limits: &[],
    sources: OSHA_SILICA,
    breaks: "job «\"Example court\"»
  units        metric
",
    keeps: HARMLESS,
    mended: None,
    check: Check::JobWith {
        holds: is_cut,
        unless: None,
        check,
    },
};

/// Whether stone, brick, concrete or tile is laid.
fn is_cut(surface: &Surface) -> bool {
    built_layers(surface).any(|layer| layer.of.value.kind().is_some_and(Kind::is_unit))
}

fn check(context: &Context<'_>, found: &mut Found) {
    let message = format!(
        "cutting stone, brick or concrete makes silica dust: {}; protect eyes, ears and lungs",
        context.word(Term::WetCut)
    );
    say(&CARE_DUST, &message, context, found);
}
