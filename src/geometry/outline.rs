//! A closed outline, with holes, and what is measured on it.

use super::bounds::Bounds;
use super::edge::{Edge, Tag};
use super::point::{Point, Vector};
use super::ray;

/// One closed line of sides, each starting where the one before ends.
/// Outer loops run anticlockwise, holes clockwise: the shape is on the left.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Loop {
    /// The sides in order.
    pub edges: Vec<Edge>,
}

/// One connected shape on the plan: an outer loop and the holes in it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outline {
    /// The line round it.
    pub outer: Loop,
    /// The lines round what is left out of it.
    pub holes: Vec<Loop>,
}

impl Loop {
    /// The first corner, from which areas and moments are taken so that a
    /// plan drawn far from its origin loses no precision.
    fn anchor(&self) -> Point {
        self.edges.first().map_or(Point::ORIGIN, |edge| edge.start)
    }

    /// The enclosed area in square metres, positive when anticlockwise.
    pub fn signed_area(&self) -> f64 {
        let anchor = self.anchor();
        let chords: f64 = self
            .edges
            .iter()
            .map(|edge| (edge.start - anchor).cross(edge.end - anchor))
            .sum();
        let segments: f64 = self.edges.iter().map(Edge::segment_area).sum();
        0.5 * chords + segments
    }

    /// The signed first moment of the area about `origin`, in cubic metres.
    fn moment(&self, origin: Point) -> Vector {
        let anchor = self.anchor();
        let about_anchor = self.edges.iter().fold(Vector::default(), |sum, edge| {
            let (start, end) = (edge.start - anchor, edge.end - anchor);
            sum + (start + end) * (start.cross(end) / 6.0) + edge.segment_moment(anchor)
        });
        about_anchor + (anchor - origin) * self.signed_area()
    }

    /// The length all round, in metres.
    pub fn length(&self) -> f64 {
        self.edges.iter().map(Edge::length).sum()
    }

    /// How often the loop runs round `point`, anticlockwise positive.
    pub(super) fn winding(&self, point: Point) -> i32 {
        self.edges
            .iter()
            .map(|edge| ray::crossings_east(edge, point))
            .sum()
    }

    /// The same loop walked the other way.
    pub(super) fn reversed(&self) -> Loop {
        Loop {
            edges: self.edges.iter().rev().map(Edge::reversed).collect(),
        }
    }

    pub(super) fn bounds(&self) -> Bounds {
        Bounds::of_all(self.edges.iter().map(Bounds::of_edge))
            .unwrap_or_else(|| Bounds::of_points(Point::ORIGIN, Point::ORIGIN))
    }

    /// Each side with the one before it and the one after it.
    pub(crate) fn with_neighbours(&self) -> impl Iterator<Item = (&Edge, &Edge, &Edge)> {
        let before = self
            .edges
            .iter()
            .cycle()
            .skip(self.edges.len().saturating_sub(1));
        let after = self.edges.iter().cycle().skip(1);
        before
            .zip(&self.edges)
            .zip(after)
            .map(|((before, edge), after)| (before, edge, after))
    }
}

impl Outline {
    /// The loops, the outer one first.
    pub fn loops(&self) -> impl Iterator<Item = &Loop> {
        std::iter::once(&self.outer).chain(&self.holes)
    }

    /// Every side: the outer ones in order, then those of the holes.
    pub fn edges(&self) -> impl Iterator<Item = &Edge> {
        self.loops().flat_map(|boundary| &boundary.edges)
    }

    /// The sides that carry `tag`.
    pub fn edges_tagged(&self, tag: Tag) -> impl Iterator<Item = &Edge> {
        self.edges().filter(move |edge| edge.tag == tag)
    }

    /// The area in square metres, holes taken off.
    pub fn area(&self) -> f64 {
        self.loops().map(Loop::signed_area).sum()
    }

    /// The length of every side, those of the holes too, in metres.
    pub fn perimeter(&self) -> f64 {
        self.loops().map(Loop::length).sum()
    }

    /// The centre of gravity of the area.
    pub fn centroid(&self) -> Point {
        let anchor = self.outer.anchor();
        let moment = self.loops().fold(Vector::default(), |sum, boundary| {
            sum + boundary.moment(anchor)
        });
        let area = self.area();
        if area > 0.0 {
            anchor + moment * (1.0 / area)
        } else {
            anchor
        }
    }

    /// The south-west and north-east corners of the upright rectangle around
    /// the outline, arcs included.
    pub fn bounding_box(&self) -> (Point, Point) {
        let bounds = self.bounds();
        (bounds.low, bounds.high)
    }

    pub(super) fn bounds(&self) -> Bounds {
        self.outer.bounds()
    }

    /// The corners, where one side meets the next, holes included.
    pub fn corners(&self) -> impl Iterator<Item = Point> {
        self.edges().map(|edge| edge.start)
    }

    /// The least and the greatest of `direction · p` over every point p of
    /// the outline, arcs exact. With the gradient of a plane as direction the
    /// difference is the drop of that plane over the outline.
    pub fn extremes(&self, direction: Vector) -> (f64, f64) {
        let anchor = self.outer.anchor();
        let (least, most) = self.extremes_from(anchor, direction);
        let shift = direction.dot(anchor - Point::ORIGIN);
        (least + shift, most + shift)
    }

    /// How far the outline reaches along a unit direction, in metres, arcs
    /// exact.
    pub fn extent(&self, direction: Vector) -> f64 {
        let (least, most) = self.extremes(direction);
        most - least
    }

    /// The least and the greatest of `direction · (p - origin)`.
    pub(super) fn extremes_from(&self, origin: Point, direction: Vector) -> (f64, f64) {
        self.outer
            .edges
            .iter()
            .map(|edge| edge.extremes(origin, direction))
            .reduce(|all, one| (all.0.min(one.0), all.1.max(one.1)))
            .unwrap_or((0.0, 0.0))
    }

    /// Whether `point` is in the shape; a point on the boundary is.
    pub fn contains(&self, point: Point) -> bool {
        let winding: i32 = self.loops().map(|boundary| boundary.winding(point)).sum();
        winding > 0 || self.distance_to_boundary(point) <= self.bounds().reach()
    }

    /// The shortest distance from `point` to any side, in metres.
    pub fn distance_to_boundary(&self, point: Point) -> f64 {
        self.edges()
            .map(|edge| edge.distance_to(point))
            .fold(f64::INFINITY, f64::min)
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::super::sample::{close, polygon, rectangle};
    use super::*;

    #[test]
    fn polygons_agree_with_the_closed_form() {
        let ell = polygon(&[
            (0., 0.),
            (20., 0.),
            (20., 8.),
            (12., 8.),
            (12., 15.),
            (0., 15.),
        ]);
        assert!(close(ell.area(), 244.0) && close(ell.perimeter(), 70.0));
        let five = polygon(&[(0., 0.), (18., 0.), (22., 9.), (14., 16.), (3., 13.)]);
        assert!(close(five.area(), 261.0) && close(five.perimeter(), 63.222_421_929_6));
    }

    #[test]
    fn curved_shapes_agree_with_the_closed_form() {
        let quarter = Outline::new(vec![
            Edge::line(Point::ORIGIN, Point::new(14.0, 0.0), 0),
            Edge::arc(
                Point::new(14.0, 0.0),
                Point::new(0.0, 14.0),
                (PI / 8.0).tan(),
                1,
            ),
            Edge::line(Point::new(0.0, 14.0), Point::ORIGIN, 2),
        ])
        .unwrap();
        assert!(close(quarter.area(), 153.938_040_025_9));
        assert!(close(quarter.perimeter(), 49.991_148_575_1));
        // The centre of gravity of a quarter circle is 4 r / 3 π from both sides.
        let centroid = quarter.centroid();
        assert!(close(centroid.x, 4.0 * 14.0 / (3.0 * PI)) && close(centroid.y, centroid.x));

        let bow = Outline::new(vec![
            Edge::arc(Point::ORIGIN, Point::new(20.0, 0.0), 0.4, 0),
            Edge::line(Point::new(20.0, 0.0), Point::new(20.0, 12.0), 1),
            Edge::line(Point::new(20.0, 12.0), Point::new(0.0, 12.0), 2),
            Edge::line(Point::new(0.0, 12.0), Point::ORIGIN, 3),
        ])
        .unwrap();
        assert!(close(bow.area(), 295.002_931_575_7) && close(bow.perimeter(), 66.069_369_872_5));

        let ten = 10.0 * (PI / 3.0).sin();
        let fifteen = 15.0 * (PI / 3.0).sin();
        let bulge = (PI / 12.0).tan();
        let sector = Outline::new(vec![
            Edge::line(Point::new(10.0, 0.0), Point::new(15.0, 0.0), 0),
            Edge::arc(Point::new(15.0, 0.0), Point::new(7.5, fifteen), bulge, 0),
            Edge::line(Point::new(7.5, fifteen), Point::new(5.0, ten), 0),
            Edge::arc(Point::new(5.0, ten), Point::new(10.0, 0.0), -bulge, 0),
        ])
        .unwrap();
        assert!(close(sector.area(), 65.449_846_949_8));
        assert!(close(sector.perimeter(), 36.179_938_779_9));
    }

    #[test]
    fn what_is_inside_counts_the_boundary() {
        let circle = Outline::circle(Point::ORIGIN, 2.0, 0).unwrap();
        let cases = [
            (0.0, 0.0, true),
            (2.0, 0.0, true),
            (0.0, -2.0, true),
            (1.4, 1.4, true),
            (1.5, 1.5, false),
            (0.0, 2.001, false),
            (-2.0, 2.0, false),
        ];
        for (x, y, inside) in cases {
            assert_eq!(circle.contains(Point::new(x, y)), inside, "{x}, {y}");
        }
        assert!(close(circle.distance_to_boundary(Point::ORIGIN), 2.0));
        assert!(close(
            circle.distance_to_boundary(Point::new(3.0, 4.0)),
            3.0
        ));
    }

    #[test]
    fn the_box_holds_the_arcs() {
        let circle = Outline::circle(Point::new(3.0, 4.0), 2.0, 0).unwrap();
        let (low, high) = circle.bounding_box();
        assert!(low.distance(Point::new(1.0, 2.0)) < 1e-12);
        assert!(high.distance(Point::new(5.0, 6.0)) < 1e-12);
        let (least, most) = circle.extremes(Vector::new(0.6, 0.8));
        assert!(close(least, 3.0) && close(most, 7.0));
    }

    #[test]
    fn a_side_knows_its_neighbours() {
        let square = rectangle(0.0, 0.0, 1.0, 1.0);
        for (before, edge, after) in square.outer.with_neighbours() {
            assert_eq!((before.end, edge.end), (edge.start, after.start));
        }
    }
}
