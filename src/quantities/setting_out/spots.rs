//! The points of drains and steps, and of shapes that come again: where pipes
//! begin, bend and end, gullies, the corners of pits and of flights, the middle
//! of each stone, all by two tapes from the marks.

use std::sync::Arc;

use super::marks::Marks;
use super::taping::{Taping, taping};
use crate::findings::Place;
use crate::geometry::{Edge, Outline, Point, Vector};
use crate::model::{Drain, DrainBody, DrainLine, Job, Steps, Surface};
use crate::quantities::WorkOn;
use crate::quantities::drains::{Course, DrainFigures, drains, grating};
use crate::quantities::steps::{self, StepsFigures};
use crate::quantities::trace::Trace;

/// Two points nearer than this, in metres, are one.
const ONE_POINT: f64 = 1e-6;

/// What a point is of a drain or of steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpotOf {
    /// Where a run begins.
    Head,
    /// Where a run turns, counted from its head.
    Bend(usize),
    /// Where a run ends.
    Outlet,
    /// An end of a run of which it is not known which way the water goes.
    End,
    /// The middle of a gully or a round pit.
    Middle,
    /// A corner of a pit, by whether it lies to the north and to the east.
    Corner(bool, bool),
    /// An end of the lowest riser, by whether it is to the left as one goes up.
    Foot(bool),
    /// An end of the top riser, by whether it is to the left as one goes up.
    Top(bool),
    /// The middle of one of several of a shape: which, counted from the one
    /// that the shape draws, and how many there are.
    Nth(usize, usize),
}

/// A point of a drain, of steps or of a shape that comes again.
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    /// What it is called on the sheet and on the plan: `D1`, `S3`.
    pub label: String,
    /// What it is of.
    pub on: WorkOn,
    /// The name of that.
    pub name: String,
    /// What it is of it.
    pub of: SpotOf,
    /// Where it lies.
    pub at: Point,
    /// The invert of a drain, the level of the foot or the top of steps, the
    /// finished level of a surface; `None` if it is not known.
    pub level_m: Option<f64>,
    /// The level of the grating of a gully or a channel there; `None` of what
    /// has none, and where it is not known.
    pub grating_m: Option<f64>,
    /// How it is found from the marks, if there are any.
    pub taping: Option<Taping>,
    /// The heading that it comes from.
    pub place: Place,
}

/// A point of something, with its level.
type Found = (SpotOf, Point, Option<f64>);

/// The points of the drains and steps of a job and of shapes that come again,
/// each in the order of its text.
pub(super) fn spots(job: &Job, marks: Option<&Marks>) -> Vec<Spot> {
    let mut all = Vec::new();
    let drains = job.drains.iter().zip(drains(job)).enumerate();
    let mut number = 0;
    for (index, (drain, figures)) in drains {
        let (on, named) = (WorkOn::Drain(index), (&drain.name.value, drain.place));
        let found = of_drain(job, drain, &figures);
        add(&mut all, ("D", &mut number), (on, named), found, marks);
        for spot in all.iter_mut().filter(|spot| spot.on == on) {
            spot.grating_m = grating(job, drain, spot.at);
        }
    }
    let mut number = 0;
    for (index, own) in job.steps.iter().enumerate() {
        let (on, named) = (WorkOn::Steps(index), (&own.name.value, own.place));
        let found = of_steps(job, own);
        add(&mut all, ("S", &mut number), (on, named), found, marks);
    }
    let mut number = 0;
    let repeated = job.surfaces.iter().enumerate();
    for (index, own) in repeated.filter(|(_, own)| own.repeat.is_some()) {
        let (on, named) = (WorkOn::Surface(index), (&own.name.value, own.place));
        let found = of_repeat(own);
        add(&mut all, ("R", &mut number), (on, named), found, marks);
    }
    all
}

/// The middles of all of a shape that comes again.
fn of_repeat(own: &Surface) -> Vec<Found> {
    let count = 1 + own.others.len();
    let middles = own.outlines().map(Outline::centroid);
    let numbered = (1..).zip(middles);
    let found = numbered.map(|(number, at)| (SpotOf::Nth(number, count), at, own.level_at(at)));
    found.collect()
}

fn add(
    all: &mut Vec<Spot>,
    (letter, number): (&str, &mut usize),
    (on, (name, place)): (WorkOn, (&String, Place)),
    found: Vec<Found>,
    marks: Option<&Marks>,
) {
    for (of, at, level_m) in found {
        *number += 1;
        all.push(Spot {
            label: format!("{letter}{number}"),
            on,
            name: name.clone(),
            of,
            at,
            level_m,
            grating_m: None,
            taping: marks.map(|marks| taping(marks, at, &Trace::silent())),
            place,
        });
    }
}

fn of_drain(job: &Job, drain: &Drain, figures: &DrainFigures) -> Vec<Found> {
    let Some(line) = drain.line.as_ref().map(|line| &line.value) else {
        return Vec::new();
    };
    if let DrainLine::At(middle) = line {
        return at_a_point(drain, *middle, figures.head_m);
    }
    let Some(course) = Course::of(job, drain) else {
        let ends = line.ends().into_iter();
        let ends = ends.flat_map(|(one, other)| [one, other]);
        return ends
            .map(|at| (SpotOf::End, middle(drain, at), None))
            .collect();
    };
    let mut found = vec![(SpotOf::Head, middle(drain, course.head), figures.head_m)];
    let edges = line.edges().iter();
    let joints: Vec<Point> = edges.flat_map(|edge| [edge.start, edge.end]).collect();
    let mut bends: Vec<Point> = Vec::new();
    for piece in &course.pieces {
        let is_joint = |at: &Point| joints.iter().any(|own| own.distance(*at) <= ONE_POINT);
        let at = piece.edge.end;
        if is_joint(&at) && at.distance(course.outlet) > ONE_POINT {
            bends.push(at);
        }
    }
    let level = |at: Point| {
        let (head, fall) = (figures.head_m?, figures.fall?);
        Some(head - fall * course.distance_along(at))
    };
    let numbered = (1..).zip(bends);
    found.extend(numbered.map(|(number, at)| {
        let of = SpotOf::Bend(number);
        (of, middle(drain, at), level(at))
    }));
    let outlet = middle(drain, course.outlet);
    found.push((SpotOf::Outlet, outlet, figures.outlet_m));
    found
}

/// The middle of a drain beside a point of its line: along an edge a channel
/// lies inside of that and a trench outside, as wide as is stated. What lies
/// inside is on the left.
fn middle(drain: &Drain, at: Point) -> Point {
    let Some(DrainLine::Along { edges, .. }) = drain.line.as_ref().map(|line| &line.value) else {
        return at;
    };
    let body = drain.body.as_ref().map(|body| &body.value);
    let left_m = match body {
        Some(DrainBody::Trench { wide, .. }) => -0.5 * wide.value.si(),
        _ => 0.5 * drain.channel_width().map_or(0.0, |wide| wide.value.si()),
    };
    let before = edges.iter().find(|edge| edge.end.distance(at) <= ONE_POINT);
    let after = edges
        .iter()
        .find(|edge| edge.start.distance(at) <= ONE_POINT);
    let ways = before.map(Edge::direction_at_end).into_iter();
    let ways = ways.chain(after.map(Edge::direction_at_start));
    let lefts: Vec<Vector> = ways.map(Vector::left).collect();
    match lefts[..] {
        // Where two edges meet, as far from both.
        [one, other] if one.dot(other) > -0.9 => {
            at + (one + other) * (left_m / (1.0 + one.dot(other)))
        }
        [one, ..] => at + one * left_m,
        [] => at,
    }
}

/// The corners of a pit with corners, the middle of anything else.
fn at_a_point(drain: &Drain, middle: Point, level: Option<f64>) -> Vec<Found> {
    let plan = drain.plan().filter(|plan| {
        let is_pit = drain.kind() == Some(crate::model::DrainKind::Soakaway);
        is_pit && plan.edges().all(|edge| !edge.is_arc())
    });
    match plan {
        None => vec![(SpotOf::Middle, middle, level)],
        Some(plan) => plan
            .corners()
            .map(|at| (SpotOf::Corner(at.y > middle.y, at.x > middle.x), at, level))
            .collect(),
    }
}

fn of_steps(job: &Job, own: &Steps) -> Vec<Found> {
    let figures: StepsFigures = steps::steps(job, own);
    let Some(flight) = &figures.flight else {
        return Vec::new();
    };
    let half = flight.climbing.left() * (0.5 * flight.width_m);
    let foot = flight.at + flight.climbing * -flight.run_m;
    let (low, high) = (Some(flight.foot_m), Some(flight.top_m));
    let mut found = vec![
        (SpotOf::Foot(true), foot + half, low),
        (SpotOf::Foot(false), foot + -half, low),
    ];
    // A single riser has its foot and its top in one line.
    if flight.treads() > 0 {
        found.push((SpotOf::Top(true), flight.at + half, high));
        found.push((SpotOf::Top(false), flight.at + -half, high));
    }
    found
}

/// The drains and flights of which it is not known where they lie.
pub fn unplaced<'a>(job: &'a Job, spots: &[Spot]) -> Vec<&'a str> {
    let is_placed = |on: WorkOn| spots.iter().any(|spot| spot.on == on);
    let drains = job.drains.iter().enumerate();
    let drains = drains.filter(|(index, _)| !is_placed(WorkOn::Drain(*index)));
    let steps = job.steps.iter().enumerate();
    let steps = steps.filter(|(index, _)| !is_placed(WorkOn::Steps(*index)));
    let name = |own: &'a Arc<Steps>| own.name.value.as_str();
    drains
        .map(|(_, own)| own.name.value.as_str())
        .chain(steps.map(|(_, own)| name(own)))
        .collect()
}
