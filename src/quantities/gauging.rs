//! What one measure of a mix takes and makes, by absolute volume.
//!
//! Each part has a mass and, by the density of its grains, a solid volume.
//! Solid volumes and water together, divided by one less the share of air,
//! are what the mix makes. Sand is gauged damp: a measure of it holds less
//! than a dry one by its bulking.

use super::assumed::{bulking, grain_density, voids, water};
use super::notes::{Amount, Notes};
use super::states::loose_density;
use super::trouble::{Trouble, TroubleKind};
use crate::materials::{Kind, MIX_DEFAULTS};
use crate::model::{Material, Measure, Mix, MixPart};
use crate::units::System;
use crate::units::unit::{CUBIC_FOOT, LITRE, POUND};

/// What one measure of a mix takes and makes: parts as written, each of a
/// cubic foot or ten litres, or by weight of a pound or a kilogram.
#[derive(Debug, Clone, PartialEq)]
pub struct Gauging {
    /// What goes in, in the order of the parts.
    pub parts: Vec<Gauged>,
    /// The water.
    pub water_kg: f64,
    /// The share of air in what is made.
    pub voids: f64,
    /// What is made.
    pub volume_m3: f64,
    /// The loose volume of the cement; of the lime where there is none.
    pub cement_m3: Option<f64>,
}

/// One part of a mix as it is measured out.
#[derive(Debug, Clone, PartialEq)]
pub struct Gauged {
    /// The material's name.
    pub material: String,
    /// Its dry mass.
    pub mass_kg: f64,
    /// Its loose volume, damp; `None` if its loose density is not known.
    pub loose_m3: Option<f64>,
}

impl Gauging {
    /// The mass of a cubic metre of the mix as it is laid.
    pub fn fresh_density(&self) -> Option<f64> {
        let dry: f64 = self.parts.iter().map(|part| part.mass_kg).sum();
        let density = (dry + self.water_kg) / self.volume_m3;
        density.is_finite().then_some(density)
    }

    /// What one volume of cement makes.
    pub fn yield_per_cement(&self) -> Option<f64> {
        self.cement_m3
            .filter(|cement| *cement > 0.0)
            .map(|cement| self.volume_m3 / cement)
    }
}

/// What one measure of a mix takes and makes, or what is missing to know it:
/// no trouble where the reading has found something already.
pub fn gauging(
    mix: &Mix,
    system: System,
    notes: &mut impl Notes,
) -> Result<Gauging, Option<Box<Trouble>>> {
    let mut parts = Vec::new();
    let (mut dry, mut solid, mut cement, mut lime) = (0.0, 0.0, 0.0, 0.0);
    let (mut cement_m3, mut lime_m3) = (None, None);
    for part in &mix.parts {
        let material = part.material.as_deref().ok_or(None)?;
        let gauged = measured(mix, part, material, system, notes)?;
        let grains = grain_density(material)
            .ok_or_else(|| lacking(TroubleKind::NoParticleDensity, mix, part, material))?;
        let mass = gauged.mass_kg;
        notes.input(
            &format!("{}, grains", material.name),
            Amount::Density(grains.value),
            Some(grains.origin),
        );
        let terms = [Amount::Mass(mass), Amount::Density(grains.value)];
        let volume = mass / grains.value;
        notes.step(
            &format!("{}, solid", material.name),
            "{mass} ÷ {grains}",
            &terms,
            Amount::Volume(volume),
        );
        dry += mass;
        solid += volume;
        match material.kind {
            Some(Kind::Cement | Kind::MasonryCement) => {
                cement += mass;
                cement_m3 = sum_known(cement_m3, gauged.loose_m3);
            }
            Some(kind) if kind.is_binder() => {
                lime += mass;
                lime_m3 = sum_known(lime_m3, gauged.loose_m3);
            }
            _ => {}
        }
        parts.push(gauged);
    }
    let binder = if cement > 0.0 { cement } else { lime };
    let water_kg = water(mix, dry, binder, notes);
    let water_m3 = water_kg / MIX_DEFAULTS.water_density;
    let voids = voids(mix);
    notes.input(
        "air in the mix",
        Amount::Share(voids.value),
        Some(voids.origin),
    );
    let volume_m3 = (solid + water_m3) / (1.0 - voids.value);
    let makes_something = volume_m3.is_finite() && volume_m3 > 0.0;
    if !makes_something {
        return Err(None);
    }
    notes.step(
        "makes",
        "({solid volume} + {water}) ÷ (1 − {air})",
        &[
            Amount::Volume(solid),
            Amount::Volume(water_m3),
            Amount::Share(voids.value),
        ],
        Amount::Volume(volume_m3),
    );
    let gauging = Gauging {
        parts,
        water_kg,
        voids: voids.value,
        volume_m3,
        cement_m3: cement_m3.or(lime_m3),
    };
    if let (Some(cement), Some(makes)) = (gauging.cement_m3, gauging.yield_per_cement()) {
        notes.step(
            "made by one volume of cement",
            "{what it makes} ÷ {cement, loose}",
            &[Amount::Volume(volume_m3), Amount::Volume(cement)],
            Amount::Number(makes),
        );
    }
    Ok(gauging)
}

fn sum_known(so_far: Option<f64>, more: Option<f64>) -> Option<f64> {
    more.map(|more| so_far.unwrap_or(0.0) + more)
}

fn lacking(
    kind: TroubleKind,
    mix: &Mix,
    part: &MixPart,
    material: &Material,
) -> Option<Box<Trouble>> {
    Some(Box::new(Trouble {
        kind,
        name: material.name.clone(),
        place: part.name.place,
        uses: vec![mix.name.place],
    }))
}

/// One part as it is measured out: by loose volume, damp, or by weight.
fn measured(
    mix: &Mix,
    part: &MixPart,
    material: &Material,
    system: System,
    notes: &mut impl Notes,
) -> Result<Gauged, Option<Box<Trouble>>> {
    let amount = part.amount.value.si();
    if amount.is_nan() || amount <= 0.0 {
        return Err(None);
    }
    let name = &material.name;
    let bulking = bulking(material);
    let damp = 1.0 + bulking.map_or(0.0, |bulking| bulking.value);
    let density = loose_density(material);
    notes.stated(
        &format!("{name}, parts"),
        Amount::Number(amount),
        part.amount.place,
    );
    if let Some(density) = density {
        let loose = Amount::Density(density.value.si());
        notes.input(&format!("{name}, loose"), loose, Some(density.origin));
    }
    if let Some(bulking) = bulking {
        notes.input(
            &format!("{name}, bulking"),
            Amount::Share(bulking.value),
            Some(bulking.origin),
        );
    }
    let (mass_kg, loose_m3) = match (mix.measure, density) {
        (Measure::Volume, None) => {
            return Err(lacking(TroubleKind::NoDensity, mix, part, material));
        }
        (Measure::Volume, Some(density)) => {
            let loose = amount * measure(system);
            let mass = loose * density.value.si() / damp;
            let (by, share) = (density.value.si(), damp - 1.0);
            let terms = [
                Amount::Volume(loose),
                Amount::Density(by),
                Amount::Share(share),
            ];
            let formula = match bulking {
                Some(_) => "{loose volume} × {density} ÷ (1 + {bulking})",
                None => "{loose volume} × {density}",
            };
            notes.step(
                &format!("{name}, mass"),
                formula,
                &terms,
                Amount::Mass(mass),
            );
            (mass, Some(loose))
        }
        (Measure::Weight, density) => {
            let mass = amount * weight(system);
            (
                mass,
                density.map(|density| mass / density.value.si() * damp),
            )
        }
    };
    Ok(Gauged {
        material: name.clone(),
        mass_kg,
        loose_m3,
    })
}

/// The volume of one part, in cubic metres.
fn measure(system: System) -> f64 {
    match system {
        System::Imperial => CUBIC_FOOT.size().to_f64(),
        System::Metric => 10.0 * LITRE.size().to_f64(),
    }
}

/// The mass of one part by weight, in kilograms.
fn weight(system: System) -> f64 {
    match system {
        System::Imperial => POUND.size().to_f64(),
        System::Metric => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{catalogued, close, line, material, mix, sourced, stated};
    use super::super::notes::Silent;
    use super::*;
    use crate::model::{Consistency, MixUse, Stated};

    fn gauged(mix: &Mix) -> Gauging {
        gauging(mix, System::Imperial, &mut Silent).unwrap()
    }

    fn mortar(sand: &str) -> Mix {
        mix(
            "mortar",
            &[
                ("1", catalogued("portland-cement")),
                (sand, catalogued("sharp-sand")),
            ],
        )
    }

    fn slab() -> Mix {
        let stone = Material {
            density: sourced("95 lb/cu ft"),
            particle_density: sourced("2650 kg/m3"),
            ..material("stone")
        };
        let parts = [
            ("1", catalogued("portland-cement")),
            ("2", catalogued("sharp-sand")),
            ("4", stone),
        ];
        Mix {
            uses: vec![Stated::new(MixUse::Slab, line(1))],
            ..mix("slab", &parts)
        }
    }

    #[test]
    fn yields_are_those_of_the_language() {
        for (consistency, yields) in [
            (Consistency::Dry, [2.159, 2.874, 3.589, 4.304]),
            (Consistency::Stiff, [2.126, 2.827, 3.528, 4.229]),
            (Consistency::Plastic, [2.142, 2.847, 3.551, 4.256]),
            (Consistency::Fluid, [2.222, 2.951, 3.680, 4.408]),
        ] {
            for (sand, printed) in ["2", "3", "4", "5"].into_iter().zip(yields) {
                let mut mortar = mortar(sand);
                mortar.consistency = Some(Stated::new(consistency, line(1)));
                let found = gauged(&mortar).yield_per_cement().unwrap();
                assert!(
                    (found - printed).abs() < 0.000_5,
                    "{consistency:?} 1:{sand}: {found}"
                );
            }
        }
    }

    #[test]
    fn a_slab_s_mix_takes_half_its_cement_of_water() {
        let found = gauged(&slab());
        assert!((found.yield_per_cement().unwrap() - 4.587).abs() < 0.000_5);
        assert!(close(found.water_kg, found.parts[0].mass_kg / 2.0, 1e-12));
        assert_eq!(found.voids, 0.02);
    }

    #[test]
    fn what_is_stated_goes_before_what_is_usual() {
        for base in [mortar("3"), slab()] {
            let stated = Mix {
                water: Some(stated("0.4")),
                voids: Some(stated("10 %")),
                ..base
            };
            let found = gauged(&stated);
            assert!(close(found.water_kg, found.parts[0].mass_kg * 0.4, 1e-12));
            assert_eq!(found.voids, 0.1);
        }
    }

    #[test]
    fn the_measure_makes_no_difference() {
        let [feet, metres] = [System::Imperial, System::Metric]
            .map(|system| gauging(&mortar("3"), system, &mut Silent).unwrap());
        for (a, b) in [
            (feet.yield_per_cement(), metres.yield_per_cement()),
            (feet.fresh_density(), metres.fresh_density()),
        ] {
            assert!(close(a.unwrap(), b.unwrap(), 1e-12));
        }
    }

    #[test]
    fn damp_sand_holds_less() {
        let dry = Material {
            bulking: sourced("0 %"),
            ..catalogued("sharp-sand")
        };
        let of_kind = Material {
            kind: Some(Kind::BeddingSand),
            density: sourced("100 lb/cu ft"),
            ..material("pit-sand")
        };
        for (sand, share) in [(dry, 1.0), (catalogued("sharp-sand"), 0.8), (of_kind, 0.8)] {
            let found = gauged(&mix(
                "m",
                &[("1", catalogued("portland-cement")), ("1", sand)],
            ));
            assert!(close(
                found.parts[1].mass_kg,
                found.parts[0].mass_kg * share * 100.0 / 94.0,
                1e-12
            ));
        }
    }

    #[test]
    fn what_a_mix_lacks_is_told() {
        let grains = Material {
            particle_density: None,
            kind: None,
            ..catalogued("sharp-sand")
        };
        let loose = Material {
            density: None,
            ..catalogued("sharp-sand")
        };
        for (sand, expected) in [
            (grains, TroubleKind::NoParticleDensity),
            (loose, TroubleKind::NoDensity),
        ] {
            let mix = mix("m", &[("1", catalogued("portland-cement")), ("3", sand)]);
            let trouble = gauging(&mix, System::Metric, &mut Silent)
                .unwrap_err()
                .unwrap();
            assert_eq!(
                (trouble.kind, trouble.name.as_str()),
                (expected, "sharp-sand")
            );
        }
    }

    #[test]
    fn what_the_reading_has_found_is_not_told_twice() {
        let mut unknown = mortar("3");
        unknown.parts[1].material = None;
        let cement = || catalogued("portland-cement");
        for mix in [
            mix("nothing", &[]),
            mix("none", &[("0", cement())]),
            unknown,
            Mix {
                voids: Some(stated("100 %")),
                ..mortar("3")
            },
        ] {
            assert_eq!(
                gauging(&mix, System::Metric, &mut Silent),
                Err(None),
                "{}",
                mix.name.value
            );
        }
    }
}
