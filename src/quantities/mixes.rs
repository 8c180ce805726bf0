//! Mixes over the whole job: what is mixed, in how many batches, of what.

use std::sync::Arc;

use indexmap::IndexMap;

use super::drains;
use super::figures::Figures;
use super::gauging::Gauging;
use super::measures::{Count, Mass, Share, Volume};
use super::term::Term;
use super::trace::Trace;
use crate::findings::Place;
use crate::model::{Job, Mix, Sold, Sourced, Substance, Surface};
use crate::units::Dimension;

/// The figures of a mix over the whole job.
#[derive(Debug, Clone, PartialEq)]
pub struct MixFigures {
    /// Its name.
    pub name: String,
    /// What is needed in place; 0 if nothing uses it.
    pub volume_m3: Option<f64>,
    /// What is mixed, waste included.
    pub mixed_m3: Option<f64>,
    /// How many batches that is, the last perhaps not full; `None` if the
    /// size of a batch is not stated.
    pub batches: Option<f64>,
    /// What it takes, in the order of its parts.
    pub ingredients: Vec<Ingredient>,
    /// The water.
    pub water_kg: Option<f64>,
    /// What one loose volume of cement makes.
    pub yield_per_cement: Option<f64>,
    /// Its density as laid, in kg/m³.
    pub fresh_density: Option<f64>,
    /// Its heading.
    pub place: Place,
}

/// What a mix takes of one material over the whole job.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// The material's name.
    pub material: String,
    /// Its dry mass.
    pub mass_kg: Option<f64>,
    /// Its loose volume as gauged, sand damp.
    pub loose_volume_m3: Option<f64>,
    /// How many packs that is, not rounded, if it is sold by a pack of a mass.
    pub packs: Option<f64>,
    /// The pack's word.
    pub pack: Option<String>,
}

impl MixFigures {
    /// The share of all that is mixed that goes into one batch of `batch_m3`.
    pub fn batch_share(&self, batch_m3: f64) -> Option<f64> {
        self.mixed_m3
            .filter(|mixed| *mixed > 0.0)
            .map(|mixed| batch_m3 / mixed)
    }
}

/// A place where a mix is used.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct MixUsed {
    pub what: String,
    pub place: Place,
    pub volume_m3: Option<f64>,
    pub waste: Option<Sourced<f64>>,
}

/// The mixes of a job by name: its own, then those that only a layer, a joint
/// or a drain brings in.
pub(crate) fn mixes_of(job: &Job) -> IndexMap<&str, &Arc<Mix>> {
    let surfaces = job.surfaces.iter();
    let of_surfaces = surfaces.flat_map(|surface| brought_in(surface));
    let others = drains::brought_in(job).chain(of_steps(job));
    with_others(job, of_surfaces.chain(others))
}

/// The mixes of a job by name, its own before the others.
pub(super) fn with_others<'a>(
    job: &'a Job,
    others: impl Iterator<Item = &'a Arc<Mix>>,
) -> IndexMap<&'a str, &'a Arc<Mix>> {
    let own = job.mixes.iter().map(|(name, mix)| (&**name, mix));
    let mut mixes: IndexMap<&str, &Arc<Mix>> = own.collect();
    for mix in others {
        mixes.entry(&mix.name.value).or_insert(mix);
    }
    mixes
}

/// The mixes that the layers and joints of a surface are of, and what its
/// edgings stand in.
pub(super) fn brought_in(surface: &Surface) -> impl Iterator<Item = &Arc<Mix>> {
    let layers = surface.build.iter().flat_map(|build| &build.value.layers);
    let joints = surface.joint.iter();
    let filling = joints.filter_map(|joint| joint.filling.as_ref());
    let footings = surface.edgings.iter();
    let footings = footings.filter_map(|edging| Some(&edging.footing.as_ref()?.of));
    let used = layers.map(|layer| &layer.of).chain(filling).chain(footings);
    used.filter_map(|used| match &used.value {
        Substance::Mix(mix) => Some(mix),
        _ => None,
    })
}

/// The mixes that flights of steps are built of.
pub(super) fn of_steps(job: &Job) -> impl Iterator<Item = &Arc<Mix>> {
    let parts = job.steps.iter().flat_map(|steps| steps.made_of());
    parts.filter_map(|(_, of)| of.mix())
}

/// Where a mix is used.
pub(super) fn uses(figures: &Figures, mix: &Mix) -> Vec<MixUsed> {
    let name = &mix.name.value;
    let mut uses = Vec::new();
    for surface in figures.surfaces.iter() {
        let layers = surface
            .layers
            .iter()
            .filter(|layer| layer.is_mix && !layer.is_existing && layer.material == *name);
        uses.extend(layers.map(|layer| MixUsed {
            what: format!("{} of {}", layer.role.word(), surface.name),
            place: layer.place,
            volume_m3: layer.volume_m3.filter(|_| layer.is_waste_known),
            waste: layer.waste,
        }));
        let joints = surface
            .new_joints()
            .into_iter()
            .filter(|joints| joints.is_mix && joints.material.as_ref() == Some(name));
        uses.extend(joints.map(|joints| MixUsed {
            what: format!("joints of {}", surface.name),
            place: joints.place,
            volume_m3: joints.volume_m3.filter(|_| joints.is_waste_known),
            waste: joints.waste,
        }));
        let footings = surface
            .edgings
            .iter()
            .filter_map(|edging| edging.footing.as_ref())
            .filter(|footing| footing.is_mix && footing.material == *name);
        uses.extend(footings.map(|footing| MixUsed {
            what: format!("edging of {}", surface.name),
            place: footing.place,
            volume_m3: footing.volume_m3.filter(|_| footing.is_waste_known),
            waste: footing.waste,
        }));
    }
    for steps in figures.steps.iter() {
        let parts = steps.parts();
        let of_mix = parts.filter(|(_, part)| part.is_mix && part.material == *name);
        uses.extend(of_mix.map(|(word, part)| MixUsed {
            what: format!("{word} of {}", steps.name),
            place: part.place,
            volume_m3: part.volume_m3.filter(|_| part.is_waste_known),
            waste: part.waste,
        }));
    }
    uses.extend(drains::mix_uses(&figures.drains, mix));
    uses
}

/// The figures of a mix from where it is used and what a measure of it makes.
pub(super) fn mix(
    mix: &Mix,
    uses: &[MixUsed],
    gauging: Option<&Gauging>,
    trace: &Trace,
) -> MixFigures {
    let volumes = volumes(uses, trace);
    let mixed = volumes.map(|(_, mixed)| mixed);
    let batches = mixed.and_then(|mixed| batches(mix, mixed, trace));
    let measures = mixed.zip(gauging).map(|(mixed, gauging)| {
        let one = trace.term("what one measure makes", Volume(gauging.volume_m3));
        let measures = trace.gives("measures", mixed / one);
        (measures, gauging)
    });
    let ingredients = mix.parts.iter().enumerate().map(|(index, part)| {
        let gauged = measures.and_then(|(measures, gauging)| {
            let gauged = gauging.parts.get(index)?;
            let one = trace.term("mass in one", Mass(gauged.mass_kg));
            let mass = trace.gives(&part.name.value, measures * one);
            let loose = gauged.loose_m3.map(|loose| measures.value * Volume(loose));
            Some((mass.value, loose))
        });
        let mass = gauged.map(|(mass, _)| mass);
        let material = part.material.as_ref();
        let sold = material.and_then(|material| material.sold.as_ref());
        let pack = match sold.map(|sold| &sold.value) {
            Some(Sold::Pack(pack)) if pack.content.dimension == Dimension::MASS => Some(pack),
            _ => None,
        };
        let packs = mass.zip(pack);
        let packs = packs.map(|(mass, pack)| mass / Mass(pack.content.si()));
        Ingredient {
            material: part.name.value.clone(),
            mass_kg: mass.map(|mass| mass.0),
            loose_volume_m3: gauged.and_then(|(_, loose)| Some(loose?.0)),
            packs: packs.map(|packs| packs.0),
            pack: pack.map(|pack| pack.word.clone()),
        }
    });
    let ingredients = ingredients.collect();
    let water = measures.map(|(measures, gauging)| {
        let one = trace.term("water in one", Mass(gauging.water_kg));
        trace.gives("water", measures * one)
    });
    MixFigures {
        name: mix.name.value.clone(),
        volume_m3: volumes.map(|(volume, _)| volume.value.0),
        mixed_m3: mixed.map(|mixed| mixed.value.0),
        batches: batches.map(|batches| batches.value.0),
        ingredients,
        water_kg: water.map(|water| water.value.0),
        yield_per_cement: gauging.and_then(Gauging::yield_per_cement),
        fresh_density: gauging.and_then(Gauging::fresh_density),
        place: mix.name.place,
    }
}

/// What is needed of a mix in place, and what is mixed, each use with its
/// waste; `None` if one of them is not known.
fn volumes<'t>(uses: &[MixUsed], trace: &'t Trace) -> Option<(Term<'t, Volume>, Term<'t, Volume>)> {
    let (mut in_place, mut mixed) = (Vec::new(), Vec::new());
    for used in uses {
        let volume = Volume(used.volume_m3?);
        let volume = trace.stated(&used.what, volume, used.place);
        in_place.push(volume.value);
        mixed.push(match &used.waste {
            Some(waste) => {
                let waste = trace.sourced("waste", waste, Share);
                let with_waste = volume * (1.0 + waste);
                let gives = format_args!("{} with its waste", used.what);
                trace.gives(gives, with_waste).value
            }
            None => volume.value,
        });
    }
    let one = uses.first().map_or("", |used| &used.what);
    let volume = trace.sum("volume in place", one, in_place.into_iter());
    let mixed = match uses.iter().any(|used| used.waste.is_some()) {
        true => trace.sum(
            "mixed",
            format_args!("{one} with its waste"),
            mixed.into_iter(),
        ),
        false => volume.called("mixed"),
    };
    Some((volume, mixed))
}

fn batches<'t>(mix: &Mix, mixed: Term<'t, Volume>, trace: &'t Trace) -> Option<Term<'t, Count>> {
    let stated = mix.batch.as_ref()?;
    let batch = Volume(stated.value.si());
    let batch = trace.stated("batch", batch, stated.place);
    let batches = (mixed / batch).rounded_up();
    let batches = batches.filter(|_| batch.value.0 > 0.0)?;
    Some(trace.gives("batches", batches))
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{
        area_of, catalogued, close, in_unit, job, layer, material, mix as a_mix, stated, surface,
    };
    use super::*;
    use crate::vocabulary::Role;

    fn mortar() -> Mix {
        let parts = [
            ("1", catalogued("portland-cement")),
            ("3", catalogued("sharp-sand")),
        ];
        a_mix("mortar", &parts)
    }

    /// A bed of 1 ft over 27 sq ft, and joints filled with the same mix.
    fn laid(mix: Mix, bed_waste: Option<&str>) -> MixFigures {
        let mut bed = layer(Role::Bed, mix.clone(), "1 ft");
        bed.waste = bed_waste.map(stated);
        let court = surface("court", area_of("27 ft", "1 ft"), vec![bed]);
        figures(&job(vec![court.jointed(
            "1/2 in",
            "1 in",
            Some(mix.into()),
        )]))
        .mixes[0]
            .as_ref()
            .clone()
    }

    #[test]
    fn waste_is_on_what_is_mixed() {
        for (own, bed, cubic_feet) in [
            (None, None, 27.0),
            (Some("10 %"), None, 29.7),
            (Some("10 %"), Some("20 %"), 32.4),
            (None, Some("20 %"), 32.4),
        ] {
            let mut mix = mortar();
            mix.waste = own.map(stated);
            let mut entry = layer(Role::Bed, mix, "1 ft");
            entry.waste = bed.map(stated);
            let court = surface("court", area_of("27 ft", "1 ft"), vec![entry]);
            let figures = figures(&job(vec![court]));
            let found = &figures.mixes[0];
            assert!(close(in_unit(found.volume_m3, "cu ft"), 27.0, 1e-12));
            assert!(close(in_unit(found.mixed_m3, "cu ft"), cubic_feet, 1e-12));
            let dry: f64 = found
                .ingredients
                .iter()
                .filter_map(|part| part.mass_kg)
                .sum();
            let fresh = dry + found.water_kg.unwrap();
            let density = found.fresh_density.unwrap();
            assert!(close(fresh, found.mixed_m3.unwrap() * density, 1e-12));
        }
    }

    #[test]
    fn batches_are_counted_whole() {
        for (batch, batches) in [
            (None, None),
            (Some("9 cu ft"), Some(3.0)),
            (Some("10 cu ft"), Some(3.0)),
            (Some("8.9 cu ft"), Some(4.0)),
            (Some("0 cu ft"), None),
        ] {
            let mut mix = mortar();
            mix.batch = batch.map(stated);
            let bed = layer(Role::Bed, mix, "1 ft");
            let court = surface("court", area_of("27 ft", "1 ft"), vec![bed]);
            assert_eq!(
                figures(&job(vec![court])).mixes[0].batches,
                batches,
                "{batch:?}"
            );
        }
    }

    #[test]
    fn a_use_that_is_not_known_leaves_the_sum_unknown() {
        // The joints have no units between them, so no share.
        let found = laid(mortar(), None);
        assert_eq!((found.volume_m3, found.mixed_m3), (None, None));
        assert_eq!(found.ingredients[0].mass_kg, None);
        assert!(found.yield_per_cement.is_some());
    }

    #[test]
    fn a_mix_that_nothing_uses_comes_to_nothing() {
        let mut job = job(vec![surface("court", area_of("1 ft", "1 ft"), Vec::new())]);
        Arc::make_mut(&mut job.mixes).insert("mortar".into(), mortar().into());
        let figures = figures(&job);
        assert_eq!(figures.mixes[0].volume_m3, Some(0.0));
        assert!(figures.orders.is_empty());
    }

    #[test]
    fn a_part_without_density_leaves_the_others_unknown() {
        let mix = a_mix(
            "m",
            &[
                ("1", catalogued("portland-cement")),
                ("3", material("dust")),
            ],
        );
        let figures = figures(&job(vec![surface(
            "court",
            area_of("1 ft", "1 ft"),
            vec![layer(Role::Bed, mix, "1 ft")],
        )]));
        assert!(
            figures.mixes[0]
                .ingredients
                .iter()
                .all(|part| part.mass_kg.is_none())
        );
        assert_eq!(figures.troubles.len(), 1, "{:?}", figures.troubles);
    }
}
