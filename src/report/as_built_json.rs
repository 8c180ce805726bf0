//! What was measured in the take-off as JSON: in SI, the unit in the key.

use serde::Serialize;

use crate::quantities::{MeasuredFigures, PointMeasured, Water};

/// What was measured of a surface, beside its design.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Measured<'a> {
    what: &'a str,
    /// Null where it is of none.
    surface: Option<&'a str>,
    /// What was measured: the finish, or the layer whose top it is.
    top: &'static str,
    /// How far it lies above its design; negative below.
    mean_off_m: Option<f64>,
    worst_off_m: Option<f64>,
    /// Of the plane through the readings, as a ratio.
    fall: Option<f64>,
    /// In degrees from north, clockwise.
    falls_toward_degrees: Option<f64>,
    /// `runs off`, `stands` or `unknown`.
    water: &'static str,
    /// How deep the water stands.
    standing_m: Option<f64>,
    points: Vec<PointLine>,
    takes: Option<TakesLine<'a>>,
}

/// A reading.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct PointLine {
    east_m: f64,
    north_m: f64,
    level_m: Option<f64>,
    design_m: Option<f64>,
    /// How far it lies above its design; negative below.
    off_m: Option<f64>,
}

/// What the layer above takes to make up the difference.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct TakesLine<'a> {
    role: &'static str,
    material: &'a str,
    designed_m: f64,
    mean_m: f64,
    least_m: f64,
    greatest_m: f64,
    /// More than designed; negative is less.
    more_m3: Option<f64>,
}

pub(super) fn measured(own: &MeasuredFigures) -> Measured<'_> {
    let plane = own.plane.as_ref();
    let way = plane.and_then(|plane| plane.fall_direction());
    let (water, standing) = match own.water {
        Water::RunsOff => ("runs off", None),
        Water::Stands { depth_m, .. } => ("stands", Some(depth_m)),
        Water::Unknown(_) => ("unknown", None),
    };
    let point = |own: &PointMeasured| PointLine {
        east_m: own.at.x,
        north_m: own.at.y,
        level_m: own.level_m,
        design_m: own.design_m,
        off_m: own.off_m,
    };
    Measured {
        what: &own.what,
        surface: own.surface.map(|_| own.name.as_str()),
        top: own.top.word(),
        mean_off_m: own.mean_m,
        worst_off_m: own.worst_point().map(|(_, off)| off),
        fall: plane.map(|plane| plane.slope()),
        falls_toward_degrees: way.map(|way| way.bearing()),
        water,
        standing_m: standing,
        points: own.points.iter().map(point).collect(),
        takes: own.takes.as_ref().map(|takes| TakesLine {
            role: takes.role.word(),
            material: &takes.material,
            designed_m: takes.designed_m,
            mean_m: takes.mean_m,
            least_m: takes.least_m,
            greatest_m: takes.greatest_m,
            more_m3: takes.more_m3,
        }),
    }
}
