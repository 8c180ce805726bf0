//! What a mix is taken to be where the spec does not say.

use super::measures::{Count, Mass, Share};
use super::term::Term;
use super::trace::Trace;
use crate::materials::{self, Kind, MIX_DEFAULTS};
use crate::model::{Material, Mix, Origin, Sourced};
use crate::sources::Source;

static COMMON: Source = Source::COMMON_PRACTICE;

/// How much sand bulks when damp: as its material says, else the usual
/// figure. Nothing but sand bulks unless its material says so.
///
/// Mortars of hydraulic lime are proportioned with dry sand, and what a maker
/// prints of them is met only so: there nothing bulks unless a line says so.
pub(super) fn bulking(mix: &Mix, material: &Material) -> Option<Sourced<f64>> {
    let is_stated = |own: &Sourced<_>| matches!(own.origin, Origin::Line(_));
    if mix.is_of_hydraulic_lime() && !material.bulking.as_ref().is_some_and(is_stated) {
        return None;
    }
    if let Some(own) = &material.bulking {
        return Some(Sourced {
            value: own.value.si(),
            origin: own.origin,
        });
    }
    let is_sand = material.kind.is_some_and(Kind::is_sand);
    is_sand.then(|| default("bulking of damp sand", &MIX_DEFAULTS.sand_bulking))
}

fn default(what: &'static str, share: &'static materials::Share) -> Sourced<f64> {
    Sourced {
        value: share.value,
        origin: Origin::Default {
            what,
            source: &share.source,
        },
    }
}

/// The density of a material's grains: as it says, else what is usual for
/// its kind.
pub(super) fn grain_density(material: &Material) -> Option<Sourced<f64>> {
    if let Some(own) = &material.particle_density {
        let own = Sourced {
            value: own.value.si(),
            origin: own.origin,
        };
        return (own.value > 0.0).then_some(own);
    }
    let value = match material.kind? {
        Kind::Cement => 3150.0,
        Kind::MasonryCement => 2900.0,
        Kind::HydraulicLime => 2700.0,
        Kind::Lime => 2350.0,
        kind if kind.is_sand() || kind.is_aggregate() => 2650.0,
        _ => return None,
    };
    Some(Sourced {
        value,
        origin: Origin::Default {
            what: "density of grains",
            source: &COMMON,
        },
    })
}

/// The mass of water: as stated, against the cement; else by consistency, in
/// a slab's mix against the cement and otherwise a share of the dry mass.
pub(super) fn water<'t>(
    mix: &Mix,
    dry: &[Mass],
    binder: Term<'t, Mass>,
    trace: &'t Trace,
) -> Term<'t, Mass> {
    let stated = mix.water.as_ref().map(|water| Sourced {
        value: water.value.si(),
        origin: Origin::Line(water.place),
    });
    let usual = MIX_DEFAULTS.consistency(consistency_word(mix));
    let slab = usual
        .filter(|_| mix.is_concrete())
        .map(|usual| default("water of a slab's mix", &usual.slab_water));
    if let Some(ratio) = stated.or(slab).filter(|_| binder.value.0 > 0.0) {
        let ratio = trace.sourced("water to cement", &ratio, Count);
        return trace.gives("water", binder * ratio);
    }
    let Some(usual) = usual else {
        return trace.term("water", Mass(0.0));
    };
    let share = default("water by consistency", &usual.water);
    let share = trace.sourced("water to dry mass", &share, Share);
    let dry = trace.sum("dry mass", "the one part", dry.iter().copied());
    trace.gives("water", dry * share)
}

/// The share of air in a mix: as stated, else by use and consistency.
pub(super) fn voids(mix: &Mix) -> Sourced<f64> {
    if let Some(stated) = &mix.voids {
        return Sourced {
            value: stated.value.si(),
            origin: Origin::Line(stated.place),
        };
    }
    let usual = MIX_DEFAULTS.consistency(consistency_word(mix));
    match usual.filter(|_| !mix.is_concrete()) {
        Some(usual) => default("air by consistency", &usual.voids),
        None => default("air in a slab's mix", &MIX_DEFAULTS.slab_voids),
    }
}

fn consistency_word(mix: &Mix) -> &'static str {
    mix.consistency
        .as_ref()
        .map(|stated| stated.value)
        .unwrap_or_default()
        .word()
}
