//! Where a job uses a material.

use crate::findings::Place;
use crate::model::{Job, Material, Measure, Substance};
use crate::rules::construction::is_in_checked_file;

/// One use of a material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Use {
    /// The entry of the checked file that leads to it.
    pub place: Place,
    /// Its thickness in metres, if it is a layer that has one.
    pub thickness: Option<f64>,
    /// Whether it is needed by volume: as a layer with a thickness, in joints
    /// or as a part of a mix that is measured so.
    pub is_by_volume: bool,
}

/// Every use of a material in the surfaces and mixes of a job, in order.
pub(super) fn uses(job: &Job, material: &Material) -> Vec<Use> {
    let is_it = |substance: &Substance| {
        substance
            .material()
            .is_some_and(|other| other.name == material.name)
    };
    let mut uses = Vec::new();
    for surface in &job.surfaces {
        if let Some(build) = &surface.build {
            for layer in &build.value.layers {
                if layer.existing.is_some() || !is_it(&layer.of.value) {
                    continue;
                }
                let thickness = Some(layer.thickness_m()).filter(|metres| *metres > 0.0);
                uses.push(Use {
                    place: nearest(layer.of.place, build.place),
                    thickness,
                    is_by_volume: thickness.is_some(),
                });
            }
        }
        let filling = surface
            .joint
            .as_ref()
            .and_then(|joint| joint.filling.as_ref());
        if let Some(filling) = filling.filter(|filling| is_it(&filling.value)) {
            uses.push(Use {
                place: filling.place,
                thickness: None,
                is_by_volume: true,
            });
        }
        for edging in &surface.edgings {
            if is_it(&edging.material.value) {
                uses.push(Use {
                    place: edging.material.place,
                    thickness: None,
                    is_by_volume: false,
                });
            }
        }
    }
    for mix in job.mixes.values() {
        for part in &mix.parts {
            let is_part = part
                .material
                .as_ref()
                .is_some_and(|other| other.name == material.name);
            if is_part && is_in_checked_file(part.name.place) {
                uses.push(Use {
                    place: part.name.place,
                    thickness: None,
                    is_by_volume: mix.measure == Measure::Volume,
                });
            }
        }
    }
    uses
}

fn nearest(place: Place, otherwise: Place) -> Place {
    if is_in_checked_file(place) {
        place
    } else {
        otherwise
    }
}
