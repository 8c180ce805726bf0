//! Where the water of a surface goes, as JSON: in SI, the unit in the key.

use serde::Serialize;

use crate::model::{Job, Surface};
use crate::quantities::{End, Fate, SurfaceWater, Way};

/// Where the water of a surface goes.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Draining<'a> {
    /// The share of the rain that runs off.
    runoff: Option<f64>,
    /// The area times that share.
    weighted_m2: Option<f64>,
    /// By which edges it leaves; null where its fall is not known.
    ways: Option<Vec<WayOut<'a>>>,
}

/// The water that leaves by an edge.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct WayOut<'a> {
    /// Null where a drain inside the surface takes it.
    edge: Option<String>,
    /// `off`, `onto` another surface, `drained`, `along` the edge, or `unknown`.
    fate: &'static str,
    /// The surface that takes it.
    onto: Option<&'a str>,
    /// The drain that takes it in the end.
    drain: Option<&'a str>,
    /// Whether the water stands at the edge.
    stands: bool,
    /// Of this surface.
    area_m2: f64,
    /// Of this surface's area.
    share: f64,
    weighted_m2: Option<f64>,
    /// With what comes from other surfaces.
    all_m2: Option<f64>,
    all_weighted_m2: Option<f64>,
    /// In the fiercest storm that is stated.
    flow_m3_per_s: Option<f64>,
}

pub(super) fn water<'a>(job: &'a Job, own: &Surface, water: &SurfaceWater) -> Draining<'a> {
    let ways = water.ways.as_ref();
    Draining {
        runoff: water.runoff.as_ref().map(|runoff| runoff.value),
        weighted_m2: water.weighted_m2,
        ways: ways.map(|ways| ways.iter().map(|way| way_out(job, own, way)).collect()),
    }
}

fn way_out<'a>(job: &'a Job, own: &Surface, way: &Way) -> WayOut<'a> {
    let (fate, onto) = match way.fate {
        Fate::Off => ("off", None),
        Fate::Onto(other) => ("onto", Some(other)),
        Fate::Drained(_) => ("drained", None),
        Fate::Shut(_) => ("along", None),
        Fate::Unknown(other) => ("unknown", Some(other)),
    };
    let other = onto.and_then(|other| job.surfaces.get(other));
    let drain = way.taker().and_then(|index| job.drains.get(index));
    WayOut {
        edge: way.edge.map(|edge| own.edge_name(edge)),
        fate,
        onto: other.map(|other| other.name.value.as_str()),
        drain: drain.map(|drain| drain.name.value.as_str()),
        stands: matches!(way.end, Some(End::Stands { .. })),
        area_m2: way.area_m2,
        share: way.share,
        weighted_m2: way.weighted_m2,
        all_m2: way.all.area_m2,
        all_weighted_m2: way.all.weighted_m2,
        flow_m3_per_s: way.flow,
    }
}
