//! `binder-missing`: a mix in which nothing sets.

use crate::findings::Severity;
use crate::materials::Kind;
use crate::model::{Mix, MixUse};
use crate::rules::construction::is_loose_mix;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// A mix in which nothing sets.
pub(crate) static BINDER_MISSING: Rule = Rule {
    name: "binder-missing",
    family: Family::Mixes,
    severity: Severity::Warning,
    looks_at: "A mix of sand and stone alone. A blend of sands for a bed is one that needs no binder.",
    reason: "A mix is mortar or concrete: with no cement or lime in it, it stays sand and stone, and what stands on it or in it comes loose.",
    remedy: "Add cement or lime to the parts, or name the sand or stone itself where nothing is to set.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "mix joint-mix
  for          joint
  «parts        4 sharp-sand»
",
    keeps: "mix joint-mix
  for          joint
  parts        1 portland-cement : 4 sharp-sand
",
    mended: None,
    check: Check::Mix(check),
};

fn check(_: &Context<'_>, mix: &Mix, found: &mut Found) {
    let mut kinds = mix
        .parts
        .iter()
        .filter_map(|part| part.material.as_ref()?.kind);
    let is_blend = kinds.all(Kind::is_sand) && mix.uses.iter().all(|own| own.value == MixUse::Bed);
    if !is_loose_mix(mix) || is_blend {
        return;
    }
    let message = format!(
        "{} has no cement or lime in it, so nothing binds it: add it to the parts",
        mix.name.value
    );
    let place = mix.parts_place.unwrap_or(mix.name.place);
    found.add(BINDER_MISSING.finding(place, message));
}
