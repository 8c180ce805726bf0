//! What each layer, joint, edging and mix needs of a material.

use std::sync::Arc;

use indexmap::IndexMap;
use rustc_hash::FxHashMap;

use super::layout::{LayoutFigures, breakage};
use super::measures::{Count, Length};
use super::mixes::{MixFigures, mixes_of};
use super::size::Size;
use super::states::{is_granular, own_waste_is_read};
use super::steps::StepsFigures;
use super::surface::SurfaceFigures;
use super::{Figures, drains};
use crate::findings::Place;
use crate::model::{Job, Material, Mix, Origin, Sourced, Substance, Surface};
use crate::vocabulary::Role;

/// What a need is for, which decides what it can be counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Purpose {
    /// A layer with a thickness.
    Layer(Role),
    /// A sheet.
    Sheet,
    /// The filling of joints.
    Joint,
    /// An edging.
    Edging,
    /// A part of a mix.
    Ingredient,
}

/// What one place needs of a material, in every way in which it is known;
/// waste is not in it yet.
#[derive(Debug, Clone, PartialEq)]
pub struct Need {
    /// What needs it: `base of terrace`.
    pub what: Arc<str>,
    /// The entry that needs it.
    pub place: Place,
    /// What kind of use it is.
    pub(super) purpose: Purpose,
    /// The size in which it is bought, where that is known and it is bought so.
    pub(super) size: Option<Size>,
    /// The mass.
    pub mass_kg: Option<f64>,
    /// The volume in place.
    pub volume_m3: Option<f64>,
    /// The volume as delivered: loose, of what lies in grains.
    pub loose_m3: Option<f64>,
    /// The area.
    pub area_m2: Option<f64>,
    /// The length.
    pub length_m: Option<f64>,
    /// The number of pieces.
    pub pieces: Option<f64>,
    /// The share wasted.
    pub waste: Option<Sourced<f64>>,
}

impl Need {
    /// Whether nothing is known of how much it is.
    pub(super) fn is_unknown(&self) -> bool {
        let masses = [self.mass_kg, self.volume_m3, self.loose_m3];
        let others = [self.area_m2, self.length_m, self.pieces];
        masses.iter().chain(&others).all(Option::is_none)
    }
}

/// What is needed of each material over the whole job, by name, in the order
/// of first use: surface by surface, then the drains, then the mixes.
pub(super) type Needs = IndexMap<String, (Arc<Material>, Vec<Arc<Need>>)>;

pub(super) fn needs(job: &Job, figures: &Figures) -> Needs {
    let of_surfaces = job.surfaces.iter().zip(figures.surfaces.iter());
    let of_surfaces = of_surfaces.map(|(surface, own)| wants(surface, own));
    let of_steps = wants_of_steps(job, &figures.steps);
    let of_drains = drains::wants(job, &figures.drains);
    let built: Vec<Wants> = of_surfaces.chain([of_steps, of_drains]).collect();
    let mixed = mixes_of(job).into_values();
    gathered(built.iter().flatten(), mixed.zip(figures.mixes.iter())).0
}

/// What a surface needs, each of a material.
pub(super) type Wants = Vec<(Arc<Material>, Arc<Need>)>;

/// What surfaces and drains need, and what the mixes do, material by material;
/// and for each need of a surface its material's place and its own among that
/// material's needs.
pub(super) fn gathered<'a>(
    built: impl Iterator<Item = &'a (Arc<Material>, Arc<Need>)>,
    mixes: impl Iterator<Item = (&'a Arc<Mix>, &'a Arc<MixFigures>)>,
) -> (Needs, Vec<(usize, usize)>) {
    let mut needs = Needs::new();
    // The same material is the same place in memory, nearly always.
    let mut places: FxHashMap<usize, usize> = FxHashMap::default();
    let mut add = |material: &Arc<Material>, need: &Arc<Need>| {
        let place = *places
            .entry(Arc::as_ptr(material).addr())
            .or_insert_with(|| {
                let entry = needs.entry(material.name.clone());
                let place = entry.index();
                entry.or_insert_with(|| (Arc::clone(material), Vec::new()));
                place
            });
        let all = needs.get_index_mut(place).map(|(_, (_, all))| all);
        let own = all.as_ref().map_or(0, |all| all.len());
        all.into_iter().for_each(|all| all.push(Arc::clone(need)));
        (place, own)
    };
    let places = built.map(|(material, need)| add(material, need));
    let places = places.collect();
    for (mix, figures) in mixes {
        let is_used = figures.volume_m3.is_none_or(|volume| volume > 0.0);
        for (part, ingredient) in mix
            .parts
            .iter()
            .zip(&figures.ingredients)
            .filter(|_| is_used)
        {
            let Some(material) = &part.material else {
                continue;
            };
            let need = Need {
                purpose: Purpose::Ingredient,
                mass_kg: ingredient.mass_kg,
                loose_m3: ingredient.loose_volume_m3,
                ..Need::new(figures.name.clone(), part.name.place)
            };
            add(material, &Arc::new(need));
        }
    }
    (needs, places)
}

/// What a surface needs: its layers from the top down, its joints, its
/// edgings.
pub(super) fn wants(surface: &Surface, own: &SurfaceFigures) -> Wants {
    let mut wants = Wants::new();
    let mut add = |material: &Arc<Material>, need: Need| {
        wants.push((Arc::clone(material), Arc::new(need)));
    };
    let layers = surface.build.iter().flat_map(|build| &build.value.layers);
    for (layer, figures) in layers
        .zip(&own.layers)
        .filter(|(layer, _)| layer.existing.is_none())
        // The units of a border are counted with what it borders.
        .filter(|(layer, _)| !(surface.is_border() && layer.role.value == Role::Paving))
    {
        let Substance::Material(material) = &layer.of.value else {
            continue;
        };
        let role = layer.role.value;
        let what = format!("{} of {}", role.word(), own.name);
        let purpose = match role.is_sheet() {
            true => Purpose::Sheet,
            false => Purpose::Layer(role),
        };
        let volume = figures.volume_m3;
        let laid_out = own.layout.as_ref().filter(|_| role == Role::Paving);
        let need = Need {
            purpose,
            size: Size::paved(surface, layer, material),
            mass_kg: figures.mass_kg,
            volume_m3: volume,
            loose_m3: if is_granular(material) {
                figures.loose_volume_m3
            } else {
                volume
            },
            area_m2: figures.needed_m2(),
            pieces: figures.units,
            waste: figures.waste,
            ..Need::new(what, layer.place)
        };
        let need = match laid_out {
            Some(layout) => need.laid_out(layout),
            None => need,
        };
        add(material, need.if_waste_is_known(figures.is_waste_known));
    }
    for (border, figures) in surface.borders.iter().zip(&own.borders) {
        let Substance::Material(material) = &border.material.value else {
            continue;
        };
        let need = Need {
            purpose: Purpose::Layer(Role::Paving),
            size: Size::bordering(surface, border, material),
            mass_kg: figures.mass_kg,
            volume_m3: figures.volume_m3,
            loose_m3: figures.volume_m3,
            area_m2: figures.area_m2,
            pieces: figures.units,
            waste: figures.waste,
            ..Need::new(format!("border of {}", own.name), border.place)
        };
        add(material, need.if_waste_is_known(figures.is_waste_known));
    }
    if let Some((figures, joint)) = own.new_joints().zip(surface.joint.as_ref())
        && let Some(Substance::Material(material)) = joint.filling.as_ref().map(|of| &of.value)
    {
        let need = Need {
            purpose: Purpose::Joint,
            mass_kg: figures.mass_kg,
            volume_m3: figures.volume_m3,
            loose_m3: match is_granular(material) {
                true => figures.loose_volume_m3,
                false => figures.volume_m3,
            },
            area_m2: own.area_m2.map(|area| area - own.under_steps_m2()),
            waste: figures.waste,
            ..Need::new(format!("joints of {}", own.name), joint.place)
        };
        add(material, need.if_waste_is_known(figures.is_waste_known));
    }
    for (edging, figures) in surface.edgings.iter().zip(&own.edgings) {
        let Substance::Material(material) = &edging.material.value else {
            continue;
        };
        let piece = material.unit.as_ref();
        let piece = piece.map(|(length, _)| Length(length.value.si()));
        let need = Need {
            purpose: Purpose::Edging,
            size: Size::own(material),
            length_m: figures.length_m,
            pieces: figures
                .length_m
                .zip(piece)
                .filter(|(_, piece)| piece.0 > 0.0)
                .map(|(length, piece)| (Length(length) / piece).0),
            waste: figures.waste,
            ..Need::new(format!("edging of {}", own.name), edging.place)
        };
        let is_known = match edging.waste {
            Some(_) => true,
            None => !edging.is_waste_unread && own_waste_is_read(&edging.material.value),
        };
        add(material, need.if_waste_is_known(is_known));
    }
    for (edging, figures) in surface.edgings.iter().zip(&own.edgings) {
        let (Some(footing), Some(figures)) = (&edging.footing, &figures.footing) else {
            continue;
        };
        let Substance::Material(material) = &footing.of.value else {
            continue;
        };
        let need = Need {
            purpose: Purpose::Layer(Role::Slab),
            mass_kg: figures.mass_kg,
            volume_m3: figures.volume_m3,
            loose_m3: figures.volume_m3,
            waste: figures.waste,
            ..Need::new(format!("under the edging of {}", own.name), edging.place)
        };
        add(material, need.if_waste_is_known(figures.is_waste_known));
    }
    wants
}

/// What the flights of steps need, each from the top down.
pub(super) fn wants_of_steps(job: &Job, figures: &[Arc<StepsFigures>]) -> Wants {
    let mut wants = Wants::new();
    for (own, figures) in job.steps.iter().zip(figures) {
        for ((role, of), (word, part)) in own.made_of().zip(figures.parts()) {
            let Some(material) = of.material() else {
                continue;
            };
            let need = Need {
                purpose: Purpose::Layer(role),
                size: part.size(material),
                mass_kg: part.mass_kg,
                volume_m3: part.volume_m3,
                loose_m3: match is_granular(material) {
                    true => part.loose_volume_m3,
                    false => part.volume_m3,
                },
                area_m2: part.area_m2,
                pieces: part.pieces,
                waste: part.waste,
                ..Need::new(format!("{word} of {}", figures.name), part.place)
            };
            let need = need.if_waste_is_known(part.is_waste_known);
            wants.push((Arc::clone(material), Arc::new(need)));
        }
    }
    wants
}

impl Need {
    pub(super) fn new(what: String, place: Place) -> Need {
        Need {
            what: what.into(),
            place,
            purpose: Purpose::Ingredient,
            size: None,
            mass_kg: None,
            volume_m3: None,
            loose_m3: None,
            area_m2: None,
            length_m: None,
            pieces: None,
            waste: None,
        }
    }

    /// What a lay-out takes, with what breaks of it; of paving whose waste is
    /// written, that holds.
    fn laid_out(self, layout: &LayoutFigures) -> Need {
        let is_written = |waste: &Sourced<f64>| matches!(waste.origin, Origin::Line(_));
        if self.waste.as_ref().is_some_and(is_written) {
            return self;
        }
        let stock = Count(layout.stock() as f64);
        let area = stock.0 * layout.module_m2;
        let more = self.area_m2.map_or(1.0, |own| area / own);
        let grown = |figure: Option<f64>| figure.map(|figure| figure * more);
        Need {
            mass_kg: grown(self.mass_kg),
            volume_m3: grown(self.volume_m3),
            loose_m3: grown(self.loose_m3),
            area_m2: Some(area),
            pieces: Some(stock.0),
            waste: Some(breakage()),
            ..self
        }
    }

    /// Without its waste it is not known what something takes.
    pub(super) fn if_waste_is_known(self, is_known: bool) -> Need {
        if is_known {
            return self;
        }
        Need {
            mass_kg: None,
            volume_m3: None,
            loose_m3: None,
            area_m2: None,
            length_m: None,
            pieces: None,
            waste: None,
            ..self
        }
    }
}
