//! What one measure of a mix takes and makes, by absolute volume.
//!
//! Each part has a mass and, by the density of its grains, a solid volume.
//! Solid volumes and water together, divided by one less the share of air,
//! are what the mix makes. Sand is gauged damp: a measure of it holds less
//! than a dry one by its bulking.

use super::assumed::{bulking, grain_density, voids, water};
use super::measures::{Count, Density, Mass, Share, Volume};
use super::states::loose_density;
use super::term::Term;
use super::trace::Trace;
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
        let dry: Mass = self.parts.iter().map(|part| Mass(part.mass_kg)).sum();
        let density = (dry + Mass(self.water_kg)) / Volume(self.volume_m3);
        density.0.is_finite().then_some(density.0)
    }

    /// What one volume of cement makes.
    pub fn yield_per_cement(&self) -> Option<f64> {
        let trace = Trace::silent();
        let yields = self.yields(&trace);
        yields.map(|yields| yields.value.0)
    }

    fn yields<'t>(&self, trace: &'t Trace) -> Option<Term<'t, Count>> {
        let cement = self.cement_m3.filter(|cement| *cement > 0.0)?;
        let cement = trace.term("cement, loose", Volume(cement));
        Some(trace.term("what it makes", Volume(self.volume_m3)) / cement)
    }
}

/// What one measure of a mix takes and makes, or what is missing to know it:
/// no trouble where the reading has found something already.
pub fn gauging(mix: &Mix, system: System) -> Result<Gauging, Option<Box<Trouble>>> {
    traced_gauging(mix, system, &Trace::silent())
}

/// The same, taken down.
pub(super) fn traced_gauging(
    mix: &Mix,
    system: System,
    trace: &Trace,
) -> Result<Gauging, Option<Box<Trouble>>> {
    if mix.are_parts_unread {
        return Err(None);
    }
    let mut parts = Vec::new();
    let (mut cement, mut lime) = (Binder::default(), Binder::default());
    let (mut dry, mut solid) = (Vec::new(), Vec::new());
    for part in &mix.parts {
        let material = part.material.as_deref().ok_or(None)?;
        let name = &material.name;
        let MeasuredOut { mass, loose } = measured_out(mix, part, material, system, trace)?;
        let grains = grain_density(material)
            .ok_or_else(|| lacking(TroubleKind::NoParticleDensity, mix, part, material))?;
        let grains = trace.sourced(format_args!("{name}, grains"), &grains, Density);
        let volume = mass.called("mass") / grains.called("grains");
        solid.push(trace.gives(format_args!("{name}, solid"), volume).value);
        dry.push(mass.value);
        match material.kind {
            Some(Kind::Cement | Kind::MasonryCement) => cement.add(mass.value, loose),
            Some(kind) if kind.is_binder() => lime.add(mass.value, loose),
            _ => {}
        }
        parts.push(Gauged {
            material: name.clone(),
            mass_kg: mass.value.0,
            loose_m3: loose.map(|loose| loose.0),
        });
    }
    let binder = if cement.mass.0 > 0.0 { cement } else { lime };
    let water = water(mix, &dry, trace.term("cement", binder.mass), trace);
    let water_density = Density(MIX_DEFAULTS.water_density);
    let water_volume = water / trace.term("density of water", water_density);
    let solid = trace.sum("solid volume", "the one part", solid.into_iter());
    let voids = voids(mix);
    let air = trace.sourced("air in the mix", &voids, Share).called("air");
    let makes = (solid + water_volume) / (1.0 - air);
    let makes_something = makes.value.0.is_finite() && makes.value.0 > 0.0;
    if !makes_something {
        return Err(None);
    }
    let makes = trace.gives("makes", makes);
    let gauging = Gauging {
        parts,
        water_kg: water.value.0,
        voids: voids.value,
        volume_m3: makes.value.0,
        cement_m3: cement.loose.or(lime.loose).map(|cement| cement.0),
    };
    if let Some(yields) = gauging.yields(trace) {
        trace.gives("made by one volume of cement", yields);
    }
    Ok(gauging)
}

/// What binds a mix: cement, or lime.
#[derive(Debug, Clone, Copy, Default)]
struct Binder {
    mass: Mass,
    /// Its volume; `None` if that is not known of its last part.
    loose: Option<Volume>,
}

impl Binder {
    fn add(&mut self, mass: Mass, loose: Option<Volume>) {
        self.mass = self.mass + mass;
        self.loose = loose.map(|more| self.loose.unwrap_or_default() + more);
    }
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

/// A part as it is measured out.
struct MeasuredOut<'t> {
    /// Its dry mass.
    mass: Term<'t, Mass>,
    /// Its loose volume, damp; `None` if its loose density is not known.
    loose: Option<Volume>,
}

/// A part as it is measured out: by loose volume, damp, or by weight.
fn measured_out<'t>(
    mix: &Mix,
    part: &MixPart,
    material: &Material,
    system: System,
    trace: &'t Trace,
) -> Result<MeasuredOut<'t>, Option<Box<Trouble>>> {
    let parts = Count(part.amount.value.si());
    if parts.0.is_nan() || parts.0 <= 0.0 {
        return Err(None);
    }
    let name = &material.name;
    let parts = trace.stated(format_args!("{name}, parts"), parts, part.amount.place);
    let density = loose_density(material).map(|density| {
        let name = format_args!("{name}, loose");
        let density = trace.sourced(name, density, |density| Density(density.si()));
        density.called("density")
    });
    let damp = bulking(mix, material).map(|bulking| {
        let bulking = trace.sourced(format_args!("{name}, bulking"), &bulking, Share);
        1.0 + bulking.called("bulking")
    });
    Ok(match (mix.measure, density) {
        (Measure::Volume, None) => {
            return Err(lacking(TroubleKind::NoDensity, mix, part, material));
        }
        (Measure::Volume, Some(density)) => {
            let loose = parts * trace.term("one part", measure(system));
            let mass = match damp {
                Some(damp) => loose * density / damp,
                None => loose * density,
            };
            let mass = trace.gives(format_args!("{name}, mass"), mass);
            MeasuredOut {
                mass,
                loose: Some(loose.value),
            }
        }
        (Measure::Weight, density) => {
            let mass = parts * trace.term("one part", weight(system));
            let mass = trace.gives(format_args!("{name}, mass"), mass);
            let loose = density.map(|density| match damp {
                Some(damp) => mass / density * damp,
                None => mass / density,
            });
            MeasuredOut {
                mass,
                loose: loose.map(|loose| loose.value),
            }
        }
    })
}

/// The volume of one part.
fn measure(system: System) -> Volume {
    match system {
        System::Imperial => Volume(CUBIC_FOOT.size().to_f64()),
        System::Metric => Volume(10.0 * LITRE.size().to_f64()),
    }
}

/// The mass of one part by weight.
fn weight(system: System) -> Mass {
    match system {
        System::Imperial => Mass(POUND.size().to_f64()),
        System::Metric => Mass(1.0),
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{catalogued, close, line, material, mix, sourced, stated};
    use super::*;
    use crate::model::{Consistency, MixUse, Stated};

    fn gauged(mix: &Mix) -> Gauging {
        gauging(mix, System::Imperial).unwrap()
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
    fn a_wetter_slab_takes_more_water() {
        for (consistency, ratio) in [
            (Consistency::Dry, 0.40),
            (Consistency::Stiff, 0.45),
            (Consistency::Plastic, 0.50),
            (Consistency::Fluid, 0.60),
        ] {
            let mut slab = slab();
            slab.consistency = Some(Stated::new(consistency, line(1)));
            let found = gauged(&slab);
            let water = found.parts[0].mass_kg * ratio;
            assert!(close(found.water_kg, water, 1e-12), "{consistency:?}");
        }
    }

    /// A maker's data sheet for NHL 3.5, known second hand: 305 kg of lime in
    /// a cubic metre of 1:2 and 244 kg, 10 % either way, of 1:2.5.
    #[test]
    fn lime_mortars_take_what_a_data_sheet_prints() {
        for (sand, printed) in [("2", 305.0), ("2.5", 244.0)] {
            // As the catalogue has it: no line of the job says how it bulks.
            let dry = Material {
                bulking: None,
                ..catalogued("sharp-sand")
            };
            let parts = [("1", catalogued("hydraulic-lime")), (sand, dry)];
            let found = gauged(&mix("lime-mortar", &parts));
            let lime = found.parts[0].mass_kg / found.volume_m3;
            assert!((lime / printed - 1.0).abs() < 0.1, "1:{sand}: {lime}");
        }
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
    fn a_part_is_a_cubic_foot_or_ten_litres() {
        for (system, cubic_metres) in [
            (System::Imperial, 0.3048_f64.powi(3)),
            (System::Metric, 0.01),
        ] {
            let found = gauging(&mortar("3"), system).unwrap();
            for (part, parts) in found.parts.iter().zip([1.0, 3.0]) {
                assert!(close(part.loose_m3.unwrap(), parts * cubic_metres, 1e-12));
            }
        }
    }

    #[test]
    fn the_measure_makes_no_difference() {
        let [feet, metres] =
            [System::Imperial, System::Metric].map(|system| gauging(&mortar("3"), system).unwrap());
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
            let trouble = gauging(&mix, System::Metric).unwrap_err().unwrap();
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
                gauging(&mix, System::Metric),
                Err(None),
                "{}",
                mix.name.value
            );
        }
    }
}
