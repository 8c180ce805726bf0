//! `care-lifting`: paving units and bags that are lifted by hand.

use super::caution::{HARMLESS, built_layers, say};
use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::Surface;
use crate::rules::documents::NIOSH_LIFTING;
use crate::rules::wording::limit_as_written;
use crate::rules::{Check, Context, Family, Found, Rule, find};

/// Paving units and bags that are lifted by hand.
pub(crate) static CARE_LIFTING: Rule = Rule {
    name: "care-lifting",
    family: Family::Cautions,
    severity: Severity::Advisory,
    looks_at: "Paving laid by hand. Where lift-heavy names a piece, that takes its place.",
    reason: "Paving is lifted off the ground and laid bent over all day: backs, hands and feet suffer.",
    remedy: "Share heavy lifts or use a clamp, keep loads close, take turns, wear gloves and safety boots.",
    limits: &[],
    sources: &[NIOSH_LIFTING],
    breaks: "job «\"Example court\"»
  units        metric
",
    keeps: HARMLESS,
    mended: None,
    check: Check::JobWith {
        holds: is_lifted,
        unless: Some("lift-heavy"),
        check,
    },
};

/// Whether paving is laid piece by piece.
fn is_lifted(surface: &Surface) -> bool {
    built_layers(surface).any(|layer| layer.of.value.kind().is_some_and(Kind::is_unit))
}

fn check(context: &Context<'_>, found: &mut Found) {
    let limit = find("lift-heavy").and_then(|rule| context.limit(rule, "plain"));
    let lifts = match limit {
        Some(limit) => format!("lifts over {}", limit_as_written(&limit, context)),
        None => "heavy lifts".to_owned(),
    };
    let message = format!(
        "paving and bags are heavy: share {lifts}, take turns, wear gloves and safety boots"
    );
    say(&CARE_LIFTING, &message, context, found);
}
