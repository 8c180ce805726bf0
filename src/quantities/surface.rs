//! The figures of a surface.

use std::sync::Arc;

use super::borders::{BorderFigures, border, laid_m3};
use super::dig::{DigFigures, dig};
use super::edge_levels::{EdgeLevels, edge_levels, toward};
use super::edges::{EdgingFigures, MovementFigures, edges};
use super::footings::size_is_known;
use super::footprint::Footprint;
use super::footprints::SurfaceFootprints;
use super::joints::{JointFigures, joints};
use super::layers::{LayerFigures, layer};
use super::layout::{LayoutFigures, layout};
use super::levels::levels;
use super::repeats::{RepeatFigures, repeats};
use super::trace::Trace;
use super::trouble::{Trouble, TroubleKind};
use crate::geometry::{Point, Vector};
use crate::model::{Job, Surface};
use crate::vocabulary::Role;

/// The figures of a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct SurfaceFigures {
    /// Its name.
    pub name: String,
    /// The name of its shape.
    pub shape: Option<String>,
    /// Its area.
    pub area_m2: Option<f64>,
    /// The length of its edges, those of holes too.
    pub perimeter_m: Option<f64>,
    /// How its shape comes again, if it does.
    pub repeat: Option<RepeatFigures>,
    /// The steepest slope of its finished plane, as a fraction of one.
    pub fall: Option<f64>,
    /// Which way it falls, a unit vector of the plan.
    pub toward: Option<Vector>,
    /// Its highest less its lowest finished level.
    pub drop_m: Option<f64>,
    /// Its highest finished level against the datum.
    pub highest_m: Option<f64>,
    /// Its lowest finished level against the datum.
    pub lowest_m: Option<f64>,
    /// Where it is lowest; one such point if there are more.
    pub lowest_at: Option<Point>,
    /// The finished levels at its named edges.
    pub edge_levels: Vec<EdgeLevels>,
    /// How far its low edge lies over the ground, at the least and at the
    /// most; negative if below.
    pub low_edge_steps_m: Option<(f64, f64)>,
    /// The depth of all its layers together.
    pub depth_m: Option<f64>,
    /// Its layers from the top down.
    pub layers: Vec<LayerFigures>,
    /// Its borders, the outermost first.
    pub borders: Vec<BorderFigures>,
    /// How its units lie, if `laid` says where they start.
    pub layout: Option<LayoutFigures>,
    /// Its joints, if it has a `joint` entry.
    pub joints: Option<JointFigures>,
    /// Its edgings.
    pub edgings: Vec<EdgingFigures>,
    /// The length of the edges that meet the building.
    pub building_m: Option<f64>,
    /// The length of the isolation joint, if one is stated.
    pub isolation_joint_m: Option<f64>,
    /// The panels between its movement joints, if they are stated.
    pub movement: Option<MovementFigures>,
    /// The ground that is dug, in all its pieces.
    pub dug: Option<Arc<Footprint>>,
    /// The dig, if levels and ground are known.
    pub dig: Option<DigFigures>,
}

impl SurfaceFigures {
    /// Its joints, unless they lie there already with the paving.
    pub(super) fn new_joints(&self) -> Option<&JointFigures> {
        let paving = self.layer(Role::Paving);
        let is_existing = paving.is_some_and(|paving| paving.is_existing);
        self.joints.as_ref().filter(|_| !is_existing)
    }

    /// The ground that its paving covers.
    pub fn paved(&self) -> Option<&Footprint> {
        self.layer(Role::Paving)?.ground.as_deref()
    }

    /// How much of its paving gives way to steps, in square metres.
    pub fn under_steps_m2(&self) -> f64 {
        self.paved().map_or(0.0, |ground| ground.under_steps_m2)
    }

    /// The uppermost layer with this role.
    pub fn layer(&self, role: Role) -> Option<&LayerFigures> {
        self.layers.iter().find(|layer| layer.role == role)
    }
}

/// Works out the figures of a surface over the ground that is its own.
pub(super) fn surface(job: &Job, own: &Surface, footprints: &SurfaceFootprints) -> SurfaceFigures {
    let levels = levels(job, own, &Trace::silent());
    let edges = edges(job, own, &Trace::silent());
    let laid = laid_m3(job, own);
    let entries = own.build.iter().flat_map(|build| &build.value.layers);
    let paved = paved(own, footprints);
    let under_steps_m2 = paved.map_or(0.0, |ground| ground.under_steps_m2);
    SurfaceFigures {
        name: own.name.value.clone(),
        shape: own
            .shape
            .as_ref()
            .filter(|_| !own.is_border())
            .map(|shape| shape.value.name.value.clone()),
        area_m2: own.area_m2(),
        perimeter_m: own.perimeter_m(),
        repeat: repeats(own, &Trace::silent()),
        fall: levels.fall,
        toward: toward(own),
        drop_m: levels.drop_m,
        highest_m: levels.highest_m,
        lowest_m: levels.lowest_m,
        lowest_at: levels.lowest_at,
        edge_levels: edge_levels(own),
        low_edge_steps_m: levels.low_edge_steps_m,
        depth_m: own.build.as_ref().and_then(|build| build.value.depth_m()),
        layers: entries
            .zip(&footprints.layers)
            .map(|(entry, ground)| layer(own, entry, ground.clone(), laid, &Trace::silent()))
            .collect(),
        borders: (0..own.borders.len())
            .filter_map(|index| border(own, index, &Trace::silent()))
            .collect(),
        layout: layout(own, paved, &Trace::silent()),
        joints: own
            .joint
            .as_ref()
            .map(|joint| joints(own, joint, under_steps_m2, &Trace::silent())),
        edgings: edges.edgings,
        building_m: edges.building_m,
        isolation_joint_m: edges.isolation_joint_m,
        movement: edges.movement,
        dig: dig(job, own, footprints.dug.as_deref(), &Trace::silent()),
        dug: footprints.dug.clone(),
    }
}

/// The ground that the paving covers.
fn paved<'f>(own: &Surface, footprints: &'f SurfaceFootprints) -> Option<&'f Footprint> {
    let layers = own.build.iter().flat_map(|build| &build.value.layers);
    let mut both = layers.zip(&footprints.layers);
    let paving = both.find(|(layer, _)| layer.role.value == Role::Paving);
    paving?.1.as_deref()
}

/// Why joints and masses of a surface are not known; an order may say it
/// already.
pub(super) fn unsaid(own: &Surface, figures: &SurfaceFigures) -> Vec<Trouble> {
    let mut troubles = Vec::new();
    let mut add = |kind, name: &str, place, used| {
        troubles.push(Trouble {
            kind,
            name: name.to_owned(),
            place,
            uses: vec![used],
        });
    };
    let paving = figures
        .layer(Role::Paving)
        .filter(|paving| paving.area_m2.is_some());
    if let (Some(joints), Some(paving)) = (&figures.joints, paving)
        && joints.material.is_some()
        && joints.share.is_none()
    {
        let kind = TroubleKind::NoJointShare;
        add(kind, &figures.name, joints.place, paving.place);
    }
    for edging in &own.edgings {
        let Some(footing) = edging.footing.as_ref().filter(|_| !size_is_known(edging)) else {
            continue;
        };
        let (name, used) = (edging.material.value.name(), footing.of.place);
        add(TroubleKind::NoHeight, name, edging.material.place, used);
    }
    let entries = own.build.iter().flat_map(|build| &build.value.layers);
    for (entry, layer) in entries.zip(&figures.layers) {
        let Some(material) = entry.of.value.material() else {
            continue;
        };
        if layer.role.is_sheet() && layer.area_m2.is_some() && layer.sheet_m2.is_none() {
            let place = material.place.unwrap_or(layer.place);
            add(TroubleKind::NoRollSize, &material.name, place, layer.place);
        }
        if layer.volume_m3.is_some() && layer.mass_kg.is_none() {
            let place = material.place.unwrap_or(layer.place);
            add(TroubleKind::NoMass, &material.name, place, layer.place);
        }
    }
    troubles
}
