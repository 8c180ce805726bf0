//! As built: what was measured beside what is designed, the plane through it,
//! whether water still runs off it, and which layer makes up the difference.

mod fit;
mod running_off;
mod takes;

use std::sync::Arc;

use super::dig::dug_through;
use super::measures::{Count, Length, Slope};
use super::surface::SurfaceFigures;
use super::term::Term;
use super::trace::Trace;
use crate::findings::Place;
use crate::geometry::{Plane, Point};
use crate::model::{Build, Job, Measured, Measurement, ReadBy, Surface};
use crate::vocabulary::Top;

pub use running_off::Water;
pub use takes::Takes;

/// A point as measured and as designed, in metres against the datum.
#[derive(Debug, Clone, PartialEq)]
pub struct PointMeasured {
    /// Where it is.
    pub at: Point,
    /// Its level; `None` where what it is read from is not known.
    pub level_m: Option<f64>,
    /// The level that it is designed at; `None` where levels, fall or a
    /// thickness are not known.
    pub design_m: Option<f64>,
    /// How far it is too high; negative where it is too low.
    pub off_m: Option<f64>,
    /// Whether it lies so far off the surface that it is no point of it: what
    /// is made of the readings leaves it out.
    pub is_outside: bool,
    /// Whether it lies on a border that stands on a build of its own, whose
    /// layers are meant there.
    pub is_on_border: bool,
    /// Its entry.
    pub place: Place,
}

/// What was measured of a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredFigures {
    /// What was measured, in the words of its heading.
    pub what: String,
    /// The surface, by its index; `None` if it could not be made out.
    pub surface: Option<usize>,
    /// The surface's name.
    pub name: String,
    /// The top that was measured.
    pub top: Top,
    /// The points, in order.
    pub points: Vec<PointMeasured>,
    /// How far the points are too high on average, in metres.
    pub mean_m: Option<f64>,
    /// The point that is farthest off, by its index.
    pub worst: Option<usize>,
    /// The plane that lies nearest to the points, by least squares; `None` of
    /// fewer than three, of points in line, or of a surface that falls to a
    /// drain.
    pub plane: Option<Plane>,
    /// Whether water runs off between the readings.
    pub water: Water,
    /// What the next layer makes up.
    pub takes: Option<Takes>,
    /// Another top that the readings agree with, where they do not with their
    /// own, and how far below that it lies; above it where negative.
    pub agrees_with: Option<(Top, f64)>,
    /// The heading's line.
    pub place: Place,
}

impl MeasuredFigures {
    /// The point that is farthest off, and how far.
    pub fn worst_point(&self) -> Option<(&PointMeasured, f64)> {
        let point = self.points.get(self.worst?)?;
        Some((point, point.off_m?))
    }
}

/// The figures of all that was measured, in order.
pub(super) fn all_measured(job: &Job, surfaces: &[Arc<SurfaceFigures>]) -> Vec<MeasuredFigures> {
    let own = |own: &Arc<Measured>| {
        let index = own.surface.as_ref().map(|surface| surface.value);
        let figures = index.and_then(|index| surfaces.get(index));
        measured(job, own, figures.map(AsRef::as_ref), &Trace::silent())
    };
    job.measured.iter().map(own).collect()
}

/// The figures of a `measured` section.
pub(super) fn measured(
    job: &Job,
    own: &Measured,
    figures: Option<&SurfaceFigures>,
    trace: &Trace,
) -> MeasuredFigures {
    let index = own.surface.as_ref().map(|surface| surface.value);
    let surface = index.and_then(|index| job.surfaces.get(index));
    let points: Vec<PointMeasured> = (1..)
        .zip(&own.points)
        .map(|(number, point)| {
            point_measured(
                job,
                surface.map(AsRef::as_ref),
                own.top,
                (number, point),
                trace,
            )
        })
        .collect();
    let inside = || points.iter().filter(|point| !point.is_outside);
    let offs: Vec<f64> = inside().filter_map(|point| point.off_m).collect();
    let all_known = !offs.is_empty() && offs.len() == inside().count() && !own.is_unread;
    let mean = all_known.then(|| {
        let sum = trace.sum(
            "all together too high",
            "the one point",
            offs.iter().map(|off| Length(*off)),
        );
        let count = trace.term("points", Count(offs.len() as f64));
        trace.gives("mean too high", sum / count)
    });
    let levels: Vec<(Point, f64)> = inside()
        .filter_map(|point| Some((point.at, point.level_m?)))
        .collect();
    // What falls to a drain lies in several planes.
    let is_of_one_plane = surface.is_none_or(|surface| surface.facets.is_empty());
    let plane = fit::nearest_plane(&levels).filter(|_| !own.is_unread && is_of_one_plane);
    if let Some(plane) = &plane {
        let how = "the plane through the points by least squares";
        trace.found("fall as built", Slope(plane.slope()), how);
    }
    let water = match (surface, own.is_unread) {
        (Some(surface), false) => running_off::water(job, surface, &levels),
        _ => Water::Unknown("a reading could not be made out"),
    };
    let by_size =
        |(_, one): &(usize, f64), (_, other): &(usize, f64)| one.abs().total_cmp(&other.abs());
    let numbered = points.iter().enumerate();
    let numbered = numbered.filter(|(_, point)| !point.is_outside);
    let numbered = numbered.filter_map(|(index, point)| Some((index, point.off_m?)));
    let worst = numbered.max_by(by_size).map(|(index, _)| index);
    let is_of_one_build = !points.iter().any(|point| point.is_on_border);
    let takes = surface
        .zip(figures)
        .filter(|_| all_known && is_of_one_build);
    let takes = takes.and_then(|(surface, figures)| {
        takes::takes(surface, figures, own.top, (&offs, mean?), trace)
    });
    MeasuredFigures {
        what: own.what.value.clone(),
        surface: index,
        name: surface.map_or_else(String::new, |surface| surface.name.value.clone()),
        top: own.top,
        mean_m: mean.map(|mean| mean.value.0),
        worst,
        plane,
        water,
        takes,
        agrees_with: surface
            .filter(|_| all_known && is_of_one_build)
            .and_then(|surface| agrees_with(surface, own.top, &offs)),
        points,
        place: own.place,
    }
}

fn point_measured(
    job: &Job,
    surface: Option<&Surface>,
    top: Top,
    (number, own): (u32, &Measurement),
    trace: &Trace,
) -> PointMeasured {
    let finish = surface.and_then(|surface| surface.plane_at(own.at.value));
    let finish = finish.map(|plane| {
        let name = format!("finished level at point {number}");
        trace.found(
            name,
            Length(plane.level_at(own.at.value)),
            "the finished plane there",
        )
    });
    let border = surface.and_then(|surface| border_at(job, surface, own.at.value));
    let depth = border.or(surface).and_then(|built| depth_to(built, top));
    let design = finish.zip(depth).map(|(finish, depth)| match top {
        Top::Finish => finish,
        _ => {
            let depth = trace.term(format!("depth to the {}", top.word()), Length(depth));
            trace.gives(format!("design level at point {number}"), finish - depth)
        }
    });
    let level = level_of(job, own, finish, number, trace);
    let off = level
        .zip(design)
        .map(|(level, design)| trace.gives(format!("point {number} too high"), level - design));
    PointMeasured {
        at: own.at.value,
        level_m: level.map(|level| level.value.0),
        design_m: design.map(|design| design.value.0),
        off_m: off.map(|off| off.value.0),
        is_outside: surface.is_some_and(|surface| is_outside(surface, own.at.value, top)),
        is_on_border: border.is_some(),
        place: own.place,
    }
}

/// How far outside a surface its readings may lie, in metres: those of a finish
/// on it, but for how a corner is taped; those below it as far as pegs stand,
/// clear of the dig.
const fn reach(top: Top) -> f64 {
    match top {
        Top::Finish => 0.1,
        _ => 1.0,
    }
}

fn is_outside(surface: &Surface, at: Point, top: Top) -> bool {
    let mut edges = surface.edges();
    surface.outline.is_some()
        && !surface.contains(at)
        && edges.all(|edge| edge.distance_to(at) > reach(top))
}

/// The border of a surface on a build of its own in which a point lies.
fn border_at<'a>(job: &'a Job, surface: &Surface, at: Point) -> Option<&'a Surface> {
    let mut all = job.surfaces.iter();
    let own = all.find(|own| own.border_of == Some(surface.index) && own.contains(at));
    own.map(AsRef::as_ref)
}

/// The level of a point as measured.
fn level_of<'t>(
    job: &Job,
    own: &Measurement,
    finish: Option<Term<'t, Length>>,
    number: u32,
    trace: &'t Trace,
) -> Option<Term<'t, Length>> {
    let gives = |term| Some(trace.gives(format!("level of point {number}"), term));
    match &own.taken {
        ReadBy::Level(level) => {
            let name = format!("level of point {number}");
            Some(trace.stated(name, Length(level.value.si()), level.place))
        }
        ReadBy::BelowString(depth) => {
            let setting_out = job.setting_out.as_ref();
            if setting_out.map_or(job.has_lost_heading, |own| own.is_unread("string")) {
                return None;
            }
            let finish = finish?;
            let depth = trace.stated("below the string", Length(depth.value.si()), depth.place);
            match setting_out.and_then(|own| own.string.as_ref()) {
                Some(string) => {
                    let height = Length(string.value.si());
                    let height = trace.stated("string above the finish", height, string.place);
                    gives(finish + height - depth)
                }
                None => gives(finish - depth),
            }
        }
        ReadBy::Staff(reading, sight) => {
            let sight = sight.as_ref()?;
            let name = format!("reading at point {number}");
            let reading = trace.stated(name, Length(reading.value.si()), reading.place);
            let back = Length(sight.reading.value.si());
            let back = trace.stated("reading on the known level", back, sight.reading.place);
            match &sight.on {
                Some(on) => {
                    let on = trace.stated("known level", Length(on.value.si()), on.place);
                    gives(on + back - reading)
                }
                None => gives(back - reading),
            }
        }
    }
}

/// Readings that lie nearer to a top than this, in metres, agree with it.
const AGREES: f64 = 0.01;

/// Two tops that lie no farther apart than this, in metres, are not told apart
/// by readings.
const APART: f64 = 0.03;

/// The top of a surface, other than their own, that all of several readings
/// agree with, and how far below their own it lies. They are off by so much.
fn agrees_with(surface: &Surface, own: Top, offs: &[f64]) -> Option<(Top, f64)> {
    let depth = depth_to(surface, own)?;
    if offs.len() < 2 {
        return None;
    }
    let tops = Top::ALL.iter().filter(|top| **top != own);
    let mut found = tops.filter_map(|top| Some((*top, depth_to(surface, *top)? - depth)));
    found.find(|(_, below)| {
        let agrees = |off: &f64| (off + below).abs() <= AGREES;
        below.abs() >= APART && offs.iter().all(agrees)
    })
}

/// How far below the finish a top lies, in metres; `None` where a thickness
/// above it is not known or there is no such layer.
fn depth_to(surface: &Surface, top: Top) -> Option<f64> {
    if top == Top::Finish {
        return Some(0.0);
    }
    let build: &Build = surface.build.as_ref()?.value.as_ref();
    if build.has_lost_line {
        return None;
    }
    let above = match top.role() {
        Some(role) => {
            let layers = build.layers.iter();
            let index = layers.clone().position(|layer| layer.role.value == role)?;
            build.layers.get(..index)?
        }
        None => {
            build.depth_m()?;
            dug_through(build)?
        }
    };
    let thick = above.iter().filter(|layer| !layer.role.value.is_sheet());
    thick
        .map(|layer| Some(layer.thickness.as_ref()?.value.si()))
        .sum()
}
