//! What lies in a layer, over all surfaces that have it.

use indexmap::IndexMap;

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::findings::Place;
use crate::quantities::LayerFigures;
use crate::units::{System, show};

/// At a layer of a build: its mass and loose volume, or what else it is
/// bought by, summed over the surfaces that have the build.
pub(crate) fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    let mut sums: IndexMap<Place, Sum<'_>> = IndexMap::new();
    for surface in analysis.figures.surfaces.iter() {
        for layer in &surface.layers {
            sums.entry(layer.place)
                .or_insert_with(|| Sum::of(layer))
                .add(layer);
        }
    }
    for (place, sum) in sums {
        hints.add(HintKind::Layers, HintOf::Layer(place), place, || {
            sum.label(system)
        });
    }
}

/// The same layer over several surfaces; a figure that one of them does not
/// have is not known of all.
struct Sum<'a> {
    first: &'a LayerFigures,
    surfaces: usize,
    area: Option<f64>,
    sheet: Option<f64>,
    volume: Option<f64>,
    loose: Option<f64>,
    mass: Option<f64>,
    units: Option<f64>,
}

impl<'a> Sum<'a> {
    fn of(first: &'a LayerFigures) -> Sum<'a> {
        Sum {
            first,
            surfaces: 0,
            area: Some(0.0),
            sheet: Some(0.0),
            volume: Some(0.0),
            loose: Some(0.0),
            mass: Some(0.0),
            units: Some(0.0),
        }
    }

    fn add(&mut self, layer: &LayerFigures) {
        let add = |sum: &mut Option<f64>, more: Option<f64>| {
            *sum = sum.zip(more).map(|(sum, more)| sum + more);
        };
        self.surfaces += 1;
        add(&mut self.area, layer.area_m2);
        add(&mut self.sheet, layer.sheet_m2);
        add(&mut self.volume, layer.volume_m3);
        add(&mut self.loose, layer.loose_volume_m3);
        add(&mut self.mass, layer.mass_kg);
        add(&mut self.units, layer.units);
    }

    fn label(&self, system: System) -> Option<String> {
        let mut parts: Vec<String> = Vec::new();
        if self.first.role.is_sheet() {
            parts.extend(self.sheet.map(|area| show::area(area, system)));
        } else {
            parts.extend(
                self.units
                    .map(|units| format!("{} units", show::number(units.ceil()))),
            );
            parts.extend(self.mass.map(|mass| show::mass(mass, system)));
            let loose = self
                .loose
                .map(|loose| format!("{} loose", show::volume(loose, system)));
            parts.extend(loose.or(self.volume.map(|volume| show::volume(volume, system))));
        }
        if parts.is_empty() {
            return None;
        }
        if self.surfaces > 1 {
            parts.push(format!("{} surfaces", self.surfaces));
        }
        Some(parts.join(" · "))
    }
}
