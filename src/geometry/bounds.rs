//! The upright rectangle around something, and how near is the same place.

use super::edge::Edge;
use super::point::{Point, Vector};

/// The smallest upright rectangle around something.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Bounds {
    pub low: Point,
    pub high: Point,
}

impl Bounds {
    /// Around two points.
    pub(crate) fn of_points(a: Point, b: Point) -> Bounds {
        Bounds {
            low: Point::new(a.x.min(b.x), a.y.min(b.y)),
            high: Point::new(a.x.max(b.x), a.y.max(b.y)),
        }
    }

    /// Around a side, the arc itself included.
    pub(crate) fn of_edge(edge: &Edge) -> Bounds {
        let (west, east) = edge.extremes(Point::ORIGIN, Vector::new(1.0, 0.0));
        let (south, north) = edge.extremes(Point::ORIGIN, Vector::new(0.0, 1.0));
        Bounds {
            low: Point::new(west, south),
            high: Point::new(east, north),
        }
    }

    /// Around all of them; none if there are none.
    pub(crate) fn of_all(parts: impl IntoIterator<Item = Bounds>) -> Option<Bounds> {
        parts.into_iter().reduce(|all, part| Bounds {
            low: Bounds::of_points(all.low, part.low).low,
            high: Bounds::of_points(all.high, part.high).high,
        })
    }

    /// Grown by `margin` on every side.
    pub(crate) fn grown(self, margin: f64) -> Bounds {
        let step = Vector::new(margin, margin);
        Bounds {
            low: self.low + -step,
            high: self.high + step,
        }
    }

    pub(crate) fn contains(&self, point: Point) -> bool {
        self.low.x <= point.x
            && point.x <= self.high.x
            && self.low.y <= point.y
            && point.y <= self.high.y
    }

    pub(crate) fn overlaps(&self, other: &Bounds) -> bool {
        self.low.x <= other.high.x
            && other.low.x <= self.high.x
            && self.low.y <= other.high.y
            && other.low.y <= self.high.y
    }

    /// Whether two rectangles overlap or lie within their reach of each other.
    pub(crate) fn is_near(&self, other: &Bounds) -> bool {
        let reach = Bounds::of_all([*self, *other]).map_or(0.0, |both| both.reach());
        self.overlaps(&other.grown(reach))
    }

    /// Within this distance, in metres, two points are the same: a thousand
    /// millionth of the size, and well above the rounding of coordinates.
    pub(crate) fn reach(&self) -> f64 {
        let size = self.low.distance(self.high);
        let far = self
            .low
            .x
            .abs()
            .max(self.low.y.abs())
            .max(self.high.x.abs())
            .max(self.high.y.abs());
        (1e-9 * size).max(8.0 * f64::EPSILON * far).max(1e-12)
    }
}
