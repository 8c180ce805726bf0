//! Flights of steps in the take-off as JSON: in SI, the unit in the key.

use serde::Serialize;

use super::takeoff_json::{Dig, dig};
use crate::model::Job;
use crate::quantities::{StepsFigures, StepsPart};

/// A flight of steps.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Steps<'a> {
    name: &'a str,
    /// The level that it climbs from.
    foot_m: Option<f64>,
    /// The level that it climbs to.
    top_m: Option<f64>,
    rise_m: Option<f64>,
    risers: Option<u32>,
    /// Whether the spec says how many; otherwise they are the fewest that the limits allow.
    risers_stated: bool,
    riser_m: Option<f64>,
    /// The lowest takes what a mark of the tape does not divide.
    lowest_riser_m: Option<f64>,
    /// Nosing to nosing.
    going_m: Option<f64>,
    width_m: Option<f64>,
    run_m: Option<f64>,
    pitch_degrees: Option<f64>,
    /// Twice the riser and the going.
    two_risers_and_going_m: Option<f64>,
    /// What it covers on the plan.
    plan_m2: Option<f64>,
    /// Its corners, east and north.
    plan: Option<Vec<[f64; 2]>>,
    /// What it covers of each surface.
    stands_on: Vec<StandsOn<'a>>,
    parts: Vec<StepPart<'a>>,
    dig: Option<Dig>,
}

/// What a flight covers of a surface.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct StandsOn<'a> {
    surface: &'a str,
    area_m2: f64,
}

/// What a flight is built of.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct StepPart<'a> {
    /// `tread`, `riser`, `core` or `base`.
    part: &'static str,
    material: &'a str,
    area_m2: Option<f64>,
    thickness_m: Option<f64>,
    volume_m3: Option<f64>,
    loose_volume_m3: Option<f64>,
    mass_kg: Option<f64>,
    pieces: Option<f64>,
    /// How long and how deep a piece is.
    piece_m: Option<[f64; 2]>,
    piece_kg: Option<f64>,
    /// What shows of a riser under the tread above.
    riser_shown_m: Option<f64>,
    /// The nearest heights below and above that whole courses make.
    rises_of_whole_courses_m: Option<[f64; 2]>,
}

/// A flight of a job.
pub(super) fn steps<'a>(job: &'a Job, figures: &'a StepsFigures) -> Steps<'a> {
    let flight = figures.flight.as_ref();
    let plan = flight.and_then(|flight| flight.plan.as_ref());
    let on = figures.stands_on.iter();
    Steps {
        name: &figures.name,
        foot_m: flight.map(|flight| flight.foot_m),
        top_m: flight.map(|flight| flight.top_m),
        rise_m: flight.map(|flight| flight.rise_m),
        risers: flight.map(|flight| flight.risers),
        risers_stated: flight.is_some_and(|flight| !flight.is_count_assumed),
        riser_m: flight.map(|flight| flight.riser_m),
        lowest_riser_m: flight.map(|flight| flight.lowest_m()),
        going_m: flight.map(|flight| flight.going_m),
        width_m: flight.map(|flight| flight.width_m),
        run_m: flight.map(|flight| flight.run_m),
        pitch_degrees: flight.map(|flight| flight.pitch_degrees),
        two_risers_and_going_m: flight.map(|flight| flight.stride_m),
        plan_m2: flight.map(|flight| flight.plan_m2),
        plan: plan.map(|plan| plan.corners().map(|corner| [corner.x, corner.y]).collect()),
        stands_on: on
            .filter_map(|(index, area_m2)| {
                Some(StandsOn {
                    surface: &job.surfaces.get(*index)?.name.value,
                    area_m2: *area_m2,
                })
            })
            .collect(),
        parts: figures.parts().map(part).collect(),
        dig: figures.dig.as_ref().map(dig),
    }
}

fn part<'a>((word, part): (&'static str, &'a StepsPart)) -> StepPart<'a> {
    let both = |(one, other): (f64, f64)| [one, other];
    StepPart {
        part: word,
        material: &part.material,
        area_m2: part.area_m2,
        thickness_m: part.thickness_m,
        volume_m3: part.volume_m3,
        loose_volume_m3: part.loose_volume_m3,
        mass_kg: part.mass_kg,
        pieces: part.pieces,
        piece_m: part.piece_m.map(both),
        piece_kg: part.piece_kg,
        riser_shown_m: part.shown_m,
        rises_of_whole_courses_m: part.fitting_m.map(both),
    }
}
