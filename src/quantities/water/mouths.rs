//! Where drains take water inside a surface or at the end of a gutter: gullies,
//! and channels and trenches that follow no edge.

use crate::geometry::{ALONGSIDE, Edge, Point, Tag, Vector};
use crate::model::{DrainBody, DrainKind, DrainLine, Job};

/// How far off, in metres, a gully or the end of a channel still takes what
/// runs over an edge or comes to the end of a gutter.
pub const BESIDE: f64 = 0.3;

/// Where a drain takes water.
#[derive(Debug, Clone)]
pub(super) struct Mouth {
    /// The drain, by its index in the job.
    pub drain: usize,
    at: At,
}

#[derive(Debug, Clone, Copy)]
enum At {
    /// A gully: its middle, and how wide it is.
    Point(Point, f64),
    /// Along a straight line.
    Line(Edge),
}

impl Mouth {
    /// The mouths of a job's drains.
    pub(crate) fn all(job: &Job) -> Vec<Mouth> {
        let drains = job.drains.iter().enumerate();
        let mouths = drains.filter_map(|(drain, own)| {
            let body = &own.body.as_ref()?.value;
            let at = match (&own.line.as_ref()?.value, body) {
                (DrainLine::At(at), DrainBody::Gully { wide, .. }) => {
                    At::Point(*at, wide.as_ref().map_or(0.0, |wide| wide.value.si()))
                }
                (DrainLine::Straight(line), body) if body.kind() != DrainKind::Pipe => {
                    At::Line(*line)
                }
                _ => return None,
            };
            Some(Mouth { drain, at })
        });
        mouths.collect()
    }

    /// The line at which it takes what comes down a fall.
    pub(crate) fn across(&self, downhill: Vector, tag: Tag) -> Edge {
        match self.at {
            At::Point(middle, wide) => {
                let half = downhill.unit().left() * (0.5 * wide);
                Edge::line(middle + half * -1.0, middle + half, tag)
            }
            At::Line(line) => Edge { tag, ..line },
        }
    }

    /// How far along an edge it takes what runs along it, where it lies so
    /// near.
    pub(crate) fn feet(&self, edge: &Edge) -> impl Iterator<Item = f64> {
        let (points, half) = match self.at {
            At::Point(middle, wide) => ([Some(middle), None], 0.5 * wide),
            At::Line(line) => ([Some(line.start), Some(line.end)], 0.0),
        };
        let points = points.into_iter().flatten();
        let near = points.filter(move |point| edge.distance_to(*point) <= half + 2.0 * ALONGSIDE);
        near.map(|point| edge.distance_along(point))
    }

    /// How far it lies from a point at which a gutter ends, if it takes what
    /// comes there.
    pub(crate) fn off(&self, point: Point) -> Option<f64> {
        let off = match self.at {
            At::Point(middle, wide) => middle.distance(point) - 0.5 * wide,
            At::Line(line) => line.distance_to(point),
        };
        (off <= BESIDE).then_some(off)
    }
}
