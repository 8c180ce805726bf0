//! `care-vibration`: plate compactors and breakers.

use super::caution::{HARMLESS, built_layers, say};
use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::Surface;
use crate::rules::construction::is_base;
use crate::rules::documents::HAND_ARM_VIBRATION;
use crate::rules::{Check, Context, Family, Found, Rule};

/// Plate compactors and breakers.
pub(crate) static CARE_VIBRATION: Rule = Rule {
    name: "care-vibration",
    family: Family::Cautions,
    severity: Severity::Advisory,
    looks_at: "A base of stone, which has to be compacted.",
    reason: "Hours at a compactor or breaker damage nerves and blood vessels of the hands, and the ears.",
    remedy: "Share the hours: a tool of 5 m/s² reaches the daily action value in two. Wear ear defenders and safety boots.",
    limits: &[],
    sources: &[HAND_ARM_VIBRATION],
    breaks: "job «\"Example court\"»
  units        metric
",
    keeps: HARMLESS,
    mended: None,
    check: Check::JobWith {
        holds: is_compacted,
        unless: None,
        check,
    },
};

/// Whether a base is compacted.
fn is_compacted(surface: &Surface) -> bool {
    built_layers(surface)
        .any(|layer| is_base(layer) && layer.of.value.kind().is_some_and(Kind::is_granular))
}

fn check(context: &Context<'_>, found: &mut Found) {
    say(
        &CARE_VIBRATION,
        "compactors and breakers hurt hands and ears: share the hours, wear hearing protection and safety boots",
        context,
        found,
    );
}
