//! `binder-missing`: a mix in which nothing sets.

use crate::findings::Severity;
use crate::model::{Mix, Substance, Surface};
use crate::rules::construction::{is_loose_mix, is_mortar};
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
    let is_it = |of: &Substance| of.mix().is_some_and(|own| own.name == mix.name);
    let is_wetted = mix.consistency.is_some();
    let in_surface = |surface: &Surface| {
        let build = surface.build.as_ref().map(|build| build.value.as_ref());
        let filling = surface.joint.as_ref().and_then(|own| own.filling.as_ref());
        let is_coated = build.is_some_and(|build| {
            build.layer(Role::Bond).is_some() || build.layer(Role::Slurry).is_some()
        });
        let has_mortar_bed = build.is_some_and(|build| {
            let bed = build.layer(Role::Bed);
            bed.is_some_and(|bed| is_mortar(&bed.of.value))
        });
        let has_mortar_joint = filling.is_some_and(|filling| is_mortar(&filling.value));
        let layers = build.into_iter().flat_map(|build| &build.layers);
        let mut layers = layers.filter(|layer| is_it(&layer.of.value));
        let is_layer = layers.any(|layer| match layer.role.value {
            Role::Slab | Role::Bond | Role::Slurry => true,
            Role::Bed => is_wetted || is_coated || has_mortar_joint,
            _ => false,
        });
        let is_joint = filling.is_some_and(|filling| is_it(&filling.value));
        let mut footings = surface
            .edgings
            .iter()
            .filter_map(|own| own.footing.as_ref());
        is_layer
            || is_joint && (is_wetted || is_coated || has_mortar_bed)
            || footings.any(|footing| is_it(&footing.of.value))
    };
    let mut steps = context.job.steps.iter().flat_map(|own| own.made_of());
    context.all_surfaces().iter().any(|own| in_surface(own))
        || steps.any(|(role, of)| role == Role::Slab && is_it(of))
}
