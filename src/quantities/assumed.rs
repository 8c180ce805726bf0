//! What a mix is taken to be where the spec does not say.

use super::notes::{Amount, Notes};
use crate::materials::{Kind, MIX_DEFAULTS, Share};
use crate::model::{Material, Mix, MixUse, Origin, Sourced};
use crate::sources::Source;

static COMMON: Source = Source::COMMON_PRACTICE;

/// How much sand bulks when damp: as its material says, else the usual
/// figure. Nothing but sand bulks unless its material says so.
pub(super) fn bulking(material: &Material) -> Option<Sourced<f64>> {
    if let Some(own) = &material.bulking {
        return Some(Sourced {
            value: own.value.si(),
            origin: own.origin,
        });
    }
    let is_sand = material.kind.is_some_and(Kind::is_sand);
    is_sand.then(|| default("bulking of damp sand", &MIX_DEFAULTS.sand_bulking))
}

fn default(what: &'static str, share: &'static Share) -> Sourced<f64> {
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

/// The mass of water: as stated, against the cement; else in a slab's mix
/// half the cement, and otherwise a share of the dry mass by consistency.
pub(super) fn water(mix: &Mix, dry: f64, binder: f64, notes: &mut impl Notes) -> f64 {
    let stated = mix.water.as_ref().map(|water| Sourced {
        value: water.value.si(),
        origin: Origin::Line(water.place),
    });
    let slab = mix
        .is_for(MixUse::Slab)
        .then(|| default("water of a slab's mix", &MIX_DEFAULTS.slab_water));
    if let Some(ratio) = stated.or(slab).filter(|_| binder > 0.0) {
        let water = ratio.value * binder;
        notes.input(
            "water to cement",
            Amount::Number(ratio.value),
            Some(ratio.origin),
        );
        let terms = [Amount::Mass(binder), Amount::Number(ratio.value)];
        notes.step(
            "water",
            "{cement} × {water to cement}",
            &terms,
            Amount::Mass(water),
        );
        return water;
    }
    let Some(usual) = MIX_DEFAULTS.consistency(consistency_word(mix)) else {
        return 0.0;
    };
    let share = default("water by consistency", &usual.water);
    let water = share.value * dry;
    notes.input(
        "water to dry mass",
        Amount::Share(share.value),
        Some(share.origin),
    );
    let terms = [Amount::Mass(dry), Amount::Share(share.value)];
    notes.step(
        "water",
        "{dry mass} × {water to dry mass}",
        &terms,
        Amount::Mass(water),
    );
    water
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
    match usual.filter(|_| !mix.is_for(MixUse::Slab)) {
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
