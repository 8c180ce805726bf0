//! Arcs as a plan describes them: by radius, by height, through a point.

use super::edge::{Edge, Tag, bulge_of_chord};
use super::fault::{Fault, LARGEST, measured, positive};
use super::point::Point;

/// Which way an arc runs round its centre.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turning {
    /// As the hands of a clock, seen from above.
    Clockwise,
    /// Against them.
    Anticlockwise,
}

impl Turning {
    /// The other way round.
    pub fn reversed(self) -> Turning {
        match self {
            Turning::Clockwise => Turning::Anticlockwise,
            Turning::Anticlockwise => Turning::Clockwise,
        }
    }

    fn signed(self, bulge: f64) -> f64 {
        match self {
            Turning::Clockwise => -bulge,
            Turning::Anticlockwise => bulge,
        }
    }
}

impl Edge {
    /// The arc of the given radius between two points: the shorter way round,
    /// or with `long` the longer.
    ///
    /// # Errors
    /// [`Fault::TooFar`] if the points are more than two radii apart,
    /// [`Fault::Empty`] if they are the same, [`Fault::NotPositive`],
    /// [`Fault::NotFinite`], [`Fault::TooLarge`].
    pub fn arc_of_radius(
        start: Point,
        end: Point,
        radius: f64,
        turning: Turning,
        long: bool,
        tag: Tag,
    ) -> Result<Edge, Fault> {
        let (radius, span) = (positive(radius)?, span(start, end)?);
        // A half circle is often given by its radius: leave room for rounding.
        if span > 2.0 * radius * (1.0 + 1e-9) {
            return Err(Fault::TooFar { radius, span });
        }
        let short = bulge_of_chord(span, radius);
        let bulge = if long { 1.0 / short } else { short };
        Ok(Edge::arc(start, end, turning.signed(bulge), tag))
    }

    /// The arc that rises `height` metres over the chord between two points;
    /// more than half the chord makes it longer than a half circle.
    ///
    /// # Errors
    /// [`Fault::Empty`] if the points are the same, [`Fault::NotPositive`],
    /// [`Fault::NotFinite`], [`Fault::TooLarge`].
    pub fn arc_of_height(
        start: Point,
        end: Point,
        height: f64,
        turning: Turning,
        tag: Tag,
    ) -> Result<Edge, Fault> {
        let bulge = 2.0 * positive(height)? / span(start, end)?;
        Ok(Edge::arc(start, end, turning.signed(bulge), tag))
    }

    /// The arc from one point to another through a third; a straight side if
    /// the third lies between them in one line.
    ///
    /// # Errors
    /// [`Fault::Empty`] if two of the points are the same, [`Fault::TooLarge`]
    /// if the third lies in one line with them but not between,
    /// [`Fault::NotFinite`].
    pub fn arc_through(start: Point, middle: Point, end: Point, tag: Tag) -> Result<Edge, Fault> {
        span(start, middle)?;
        span(middle, end)?;
        let span = span(start, end)?;
        // The way turns at the middle by half the sweep.
        let bulge = (0.5 * (middle - start).angle_to(end - middle)).tan();
        let edge = Edge::arc(
            start,
            end,
            if bulge.abs() < 1e-12 { 0.0 } else { bulge },
            tag,
        );
        if 0.5 * span * bulge.abs() > LARGEST {
            Err(Fault::TooLarge)
        } else {
            Ok(edge)
        }
    }
}

fn span(start: Point, end: Point) -> Result<f64, Fault> {
    for value in [start.x, start.y, end.x, end.y] {
        measured(value)?;
    }
    let span = start.distance(end);
    if span > 0.0 {
        Ok(span)
    } else {
        Err(Fault::Empty)
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::close;
    use super::Turning::{Anticlockwise, Clockwise};
    use super::*;

    const ORIGIN: Point = Point::ORIGIN;

    /// Chord, rise, radius, arc length: closed form.
    const ARCS: [(f64, f64, f64, f64); 5] = [
        (12.0, 2.0, 10.0, 12.870_022_175_9),
        (21.0, 6.0, 12.1875, 25.308_373_069_5),
        (20.0, 4.0, 14.5, 22.069_369_872_5),
        (10.0, 5.0, 5.0, 15.707_963_267_9),
        (8.0, 6.0, 13.0 / 3.0, 17.035_091_203_0),
    ];

    #[test]
    fn the_three_ways_to_describe_an_arc_agree() {
        for (chord, rise, radius, length) in ARCS {
            let end = Point::new(chord, 0.0);
            let long = rise > chord / 2.0;
            let middle = Point::new(chord / 2.0, -rise);
            let found = [
                Edge::arc_of_radius(ORIGIN, end, radius, Anticlockwise, long, 3),
                Edge::arc_of_height(ORIGIN, end, rise, Anticlockwise, 3),
                Edge::arc_through(ORIGIN, middle, end, 3),
            ];
            for edge in found.into_iter().map(Result::unwrap) {
                assert!(close(edge.length(), length) && close(edge.radius(), radius));
                assert!(edge.midpoint().distance(middle) < 1e-6);
            }
        }
    }

    #[test]
    fn a_clockwise_arc_bulges_to_the_left() {
        let end = Point::new(4.0, 0.0);
        let edge = Edge::arc_of_height(ORIGIN, end, 1.0, Clockwise, 0).unwrap();
        assert!(edge.midpoint().distance(Point::new(2.0, 1.0)) < 1e-12);
        assert_eq!(
            Edge::arc_of_height(ORIGIN, end, 1.0, Clockwise.reversed(), 0),
            Ok(edge.reversed().mirrored_back())
        );
    }

    impl Edge {
        fn mirrored_back(&self) -> Edge {
            Edge {
                start: self.end,
                end: self.start,
                ..*self
            }
        }
    }

    #[test]
    fn arcs_that_cannot_be_are_refused() {
        let end = Point::new(4.0, 0.0);
        let radius = |radius: f64| Edge::arc_of_radius(ORIGIN, end, radius, Clockwise, false, 0);
        assert_eq!(
            radius(1.9),
            Err(Fault::TooFar {
                radius: 1.9,
                span: 4.0
            })
        );
        assert_eq!(radius(0.0), Err(Fault::NotPositive));
        assert_eq!(radius(f64::NAN), Err(Fault::NotFinite));
        assert!(radius(2.0).is_ok_and(|edge| close(edge.bulge, -1.0)));
        let through = |x: f64, y: f64| Edge::arc_through(ORIGIN, Point::new(x, y), end, 0);
        assert_eq!(through(0.0, 0.0), Err(Fault::Empty));
        assert_eq!(through(6.0, 0.0), Err(Fault::TooLarge));
        assert!(through(1.0, 0.0).is_ok_and(|edge| !edge.is_arc()));
        assert_eq!(
            Edge::arc_of_height(end, end, 1.0, Clockwise, 0),
            Err(Fault::Empty)
        );
    }
}
