//! `binder-missing`: a mix in which nothing sets.

use super::each_use;
use crate::findings::Severity;
use crate::model::{Mix, Surface, UsedAs};
use crate::rules::construction::{is_coated, is_loose_mix, is_mortar};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// A mix in which nothing sets.
pub(crate) static BINDER_MISSING: Rule = Rule {
    name: "binder-missing",
    family: Family::Mixes,
    severity: Severity::Warning,
    looks_at: "A mix of sand and stone alone that is laid as a slab, a coat, the concrete of an edging or the core of steps, or as a bed or joints beside mortar. Blends that are to stay loose need no binder.",
    reason: "A mix is mortar or concrete: with no cement or lime in it, it stays sand and stone, and what stands on it or in it comes loose.",
    remedy: "Add cement or lime to the parts, or name the sand or stone itself where nothing is to set.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "surface court
  build        mortar-set

mix joint-mix
  for          joint
  «parts        4 sharp-sand»
",
    keeps: "surface court
  build        mortar-set

mix joint-mix
  for          joint
  parts        1 portland-cement : 4 sharp-sand
",
    mended: None,
    check: Check::Mix(check),
};

fn check(context: &Context<'_>, mix: &Mix, found: &mut Found) {
    if !is_loose_mix(mix) || !is_to_set(context, mix) {
        return;
    }
    let message = format!(
        "{} has no cement or lime in it, so nothing binds it: add it to the parts",
        mix.name.value
    );
    let place = mix.parts_place.unwrap_or(mix.name.place);
    found.add(BINDER_MISSING.finding(place, message));
}

/// Whether a mix is laid where something has to set: as a slab, a coat or the
/// concrete of an edging, and in beds and joints beside mortar.
fn is_to_set(context: &Context<'_>, mix: &Mix) -> bool {
    let is_wetted = mix.consistency.is_some();
    let mut is_to_set = false;
    each_use(context, mix, |surface, used| {
        let build = surface.and_then(|own| own.build.as_ref());
        let is_coated = build.is_some_and(|build| is_coated(&build.value));
        is_to_set |= match used.used {
            UsedAs::Layer(Role::Slab | Role::Bond | Role::Slurry) => true,
            UsedAs::Footing | UsedAs::Core => true,
            UsedAs::Layer(Role::Bed) => is_wetted || is_coated || has_mortar_joints(surface),
            UsedAs::Joint => {
                let bed = build.and_then(|build| build.value.layer(Role::Bed));
                is_wetted || is_coated || bed.is_some_and(|bed| is_mortar(&bed.of.value))
            }
            _ => false,
        };
    });
    is_to_set
}

fn has_mortar_joints(surface: Option<&Surface>) -> bool {
    let joint = surface.and_then(|own| own.joint.as_ref());
    let filling = joint.and_then(|joint| joint.filling.as_ref());
    filling.is_some_and(|filling| is_mortar(&filling.value))
}
