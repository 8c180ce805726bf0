//! `lime-alone`: hydrated lime as the only binder outdoors.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Mix, MixPart};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Hydrated lime as the only binder outdoors.
pub(crate) static LIME_ALONE: Rule = Rule {
    name: "lime-alone",
    family: Family::Mixes,
    severity: Severity::Warning,
    looks_at: "A mix whose only binder is hydrated lime.",
    reason: "Hydrated lime does not set with water but slowly in air: in the ground it stays soft, and the first frost breaks it up.",
    remedy: "Use natural hydraulic lime, or add cement.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "mix bed-mix
  parts        1 «hydrated-lime» : 3 sharp-sand
",
    keeps: "mix bed-mix
  parts        1 hydraulic-lime : 2 1/2 sharp-sand
",
    mended: None,
    check: Check::Mix(check),
};

fn check(_context: &Context<'_>, mix: &Mix, found: &mut Found) {
    let kind_of = |part: &MixPart| part.material.as_ref().and_then(|material| material.kind);
    if mix.are_parts_unread {
        return;
    }
    let mut lime = None;
    for part in &mix.parts {
        match kind_of(part) {
            Some(Kind::Lime) => lime = lime.or(Some(part)),
            // Another binder, or something that may be one.
            Some(kind) if kind.is_binder() || kind.is_premix() => return,
            None => return,
            Some(_) => {}
        }
    }
    let Some(lime) = lime else { return };
    let message = format!(
        "{} alone never hardens outdoors, and frost breaks it up: use hydraulic lime, or add cement",
        lime.name.value
    );
    found.add(LIME_ALONE.finding(lime.name.place, message));
}
