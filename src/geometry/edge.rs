//! One side of an outline: a straight line or an arc of a circle.

use std::f64::consts::{PI, TAU};

use super::point::{Point, Vector};

/// The caller's label for a side. It survives add, cut and offset.
pub type Tag = u32;

/// The tag of a side that an operation made and no source side lies behind.
pub const NO_TAG: Tag = Tag::MAX;

/// One side of an outline, from `start` to `end`, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Where it starts.
    pub start: Point,
    /// Where it ends.
    pub end: Point,
    /// 0 for a straight side; for an arc tan(sweep / 4), positive when the
    /// arc runs anticlockwise.
    pub bulge: f64,
    /// What it is known by.
    pub tag: Tag,
}

impl Edge {
    /// A straight side.
    pub const fn line(start: Point, end: Point, tag: Tag) -> Edge {
        Edge {
            start,
            end,
            bulge: 0.0,
            tag,
        }
    }

    /// An arc of the given bulge.
    pub const fn arc(start: Point, end: Point, bulge: f64, tag: Tag) -> Edge {
        Edge {
            start,
            end,
            bulge,
            tag,
        }
    }

    /// Whether the side is an arc.
    pub fn is_arc(&self) -> bool {
        self.bulge != 0.0
    }

    /// The straight way from start to end.
    pub fn chord(&self) -> Vector {
        self.end - self.start
    }

    /// The angle of the arc at its centre, in radians, anticlockwise
    /// positive; 0 for a straight side.
    pub fn sweep(&self) -> f64 {
        4.0 * self.bulge.atan()
    }

    /// The radius in metres; infinite for a straight side.
    pub fn radius(&self) -> f64 {
        let bulge = self.bulge.abs();
        self.chord().length() * (1.0 + bulge * bulge) / (4.0 * bulge)
    }

    /// One over the radius, positive when the arc runs anticlockwise.
    pub(super) fn curvature(&self) -> f64 {
        if self.is_arc() {
            self.bulge.signum() / self.radius()
        } else {
            0.0
        }
    }

    /// The centre of the arc; none for a straight side.
    pub fn centre(&self) -> Option<Point> {
        self.is_arc().then(|| self.start + self.to_centre())
    }

    /// The way from the start of an arc to its centre.
    pub(super) fn to_centre(self) -> Vector {
        let chord = self.chord();
        let rise = (1.0 - self.bulge * self.bulge) / (4.0 * self.bulge);
        chord * 0.5 + chord.left() * rise
    }

    /// The length along the side, in metres.
    pub fn length(&self) -> f64 {
        let chord = self.chord().length();
        if self.is_arc() {
            chord * (1.0 + self.bulge * self.bulge) * self.bulge.atan() / self.bulge
        } else {
            chord
        }
    }

    /// The point half way along the side.
    pub fn midpoint(&self) -> Point {
        let chord = self.chord();
        self.start + chord * 0.5 + chord.right() * (0.5 * self.bulge)
    }

    /// The unit direction of travel at the start.
    pub fn direction_at_start(&self) -> Vector {
        self.turned_chord(-1.0)
    }

    /// The unit direction of travel at the end.
    pub fn direction_at_end(&self) -> Vector {
        self.turned_chord(1.0)
    }

    /// The unit direction of travel `distance` metres from the start.
    pub fn direction_at(&self, distance: f64) -> Vector {
        let start = self.direction_at_start();
        if self.is_arc() {
            start.turned(distance * self.curvature())
        } else {
            start
        }
    }

    /// The direction of the chord, for an arc turned by half its sweep: the
    /// way that it turns for 1, the other way for -1.
    fn turned_chord(&self, way: f64) -> Vector {
        let chord = self.chord().unit();
        let (sin, cos) = self.half_sweep();
        chord * cos + chord.left() * (way * sin)
    }

    /// The sine and cosine of half the sweep, signed as the bulge is. Closed
    /// form for a bulge of tan(sweep / 4), with no angle worked out.
    fn half_sweep(&self) -> (f64, f64) {
        let square = self.bulge * self.bulge;
        let whole = 1.0 + square;
        (2.0 * self.bulge / whole, (1.0 - square) / whole)
    }

    /// The unit direction at right angles to a straight side, into the shape
    /// when the loop runs anticlockwise; none for an arc.
    pub fn inward_normal(&self) -> Option<Vector> {
        (!self.is_arc()).then(|| self.chord().unit().left())
    }

    /// The point `distance` metres along the side from its start.
    pub fn point_at(&self, distance: f64) -> Point {
        if self.is_arc() {
            self.point_at_angle(distance / self.radius())
        } else {
            self.start + self.chord().unit() * distance
        }
    }

    /// The point of an arc at `angle` radians from its start, counted in the
    /// direction of travel.
    pub(super) fn point_at_angle(&self, angle: f64) -> Point {
        let turn = 0.5 * angle * self.bulge.signum();
        let reach = 2.0 * self.radius() * (0.5 * angle).sin();
        self.start + self.direction_at_start().turned(turn) * reach
    }

    /// How far along the side, in metres, the point of it nearest to `point`
    /// lies. Beyond an end the line is carried on straight, the arc round its
    /// circle by the shorter way, so the answer may be negative or longer
    /// than the side.
    pub fn distance_along(&self, point: Point) -> f64 {
        if !self.is_arc() {
            return (point - self.start).dot(self.chord().unit());
        }
        let outward = -self.to_centre();
        let around =
            self.bulge.signum() * outward.angle_to(point - (self.start + self.to_centre()));
        // An angle is known up to a whole turn: take the turn that brings it
        // nearest to the middle of the arc.
        let middle = 0.5 * self.sweep().abs();
        let turns = ((middle - around) / TAU).round();
        (around + turns * TAU) * self.radius()
    }

    /// The part of the side between two distances from its start, in metres.
    /// A straight side may be lengthened that way, an arc within its circle.
    pub fn between(&self, from: f64, to: f64) -> Edge {
        let start = if from == 0.0 {
            self.start
        } else {
            self.point_at(from)
        };
        let end = if to == self.length() {
            self.end
        } else {
            self.point_at(to)
        };
        let bulge = if self.is_arc() {
            (self.sweep() * (to - from) / self.length() / 4.0).tan()
        } else {
            0.0
        };
        Edge {
            start,
            end,
            bulge,
            tag: self.tag,
        }
    }

    /// The same side walked the other way.
    pub fn reversed(&self) -> Edge {
        Edge {
            start: self.end,
            end: self.start,
            // Not -bulge, which would leave a straight side with -0.
            bulge: 0.0 - self.bulge,
            tag: self.tag,
        }
    }

    /// The shortest distance from `point` to the side, in metres.
    pub fn distance_to(&self, point: Point) -> f64 {
        let to_ends = self.start.distance(point).min(self.end.distance(point));
        if self.is_arc() {
            let centre = self.start + self.to_centre();
            let outward = (point - centre).unit();
            if outward == Vector::default() {
                return self.radius();
            }
            let foot = centre + outward * self.radius();
            if self.is_on_arc_side(foot) {
                self.off_circle(point).abs().min(to_ends)
            } else {
                to_ends
            }
        } else {
            let chord = self.chord();
            let along = (point - self.start).dot(chord);
            if along > 0.0 && along < chord.dot(chord) {
                chord.unit().cross(point - self.start).abs()
            } else {
                to_ends
            }
        }
    }

    /// Whether a point of the arc's circle lies on the arc itself.
    fn is_on_arc_side(&self, point: Point) -> bool {
        self.chord().cross(point - self.start) * self.bulge <= 0.0
    }

    /// How far outside the arc's circle `point` lies, in metres; negative
    /// inside. Worked from the start of the arc, so that a nearly straight
    /// arc with a far centre loses nothing.
    pub(super) fn off_circle(&self, point: Point) -> f64 {
        let from_start = point - self.start;
        let to_centre = self.to_centre();
        let excess = from_start.dot(from_start) - 2.0 * from_start.dot(to_centre);
        excess / ((from_start - to_centre).length() + to_centre.length())
    }

    /// The least and greatest of `direction · (p - origin)` over the points p
    /// of the side, the arc itself included.
    pub(super) fn extremes(&self, origin: Point, direction: Vector) -> (f64, f64) {
        let value = |point: Point| direction.dot(point - origin);
        let (start, end) = (value(self.start), value(self.end));
        let (mut least, mut most) = (start.min(end), start.max(end));
        if self.is_arc() && direction != Vector::default() {
            let (length, way) = (direction.length(), direction.unit());
            if self.faces(way) {
                most = most.max(start + length * self.reach_beyond_start(way));
            }
            if self.faces(-way) {
                least = least.min(start - length * self.reach_beyond_start(-way));
            }
        }
        (least, most)
    }

    /// Whether the outward normal of the arc points along the unit `way`
    /// somewhere between its ends.
    fn faces(&self, way: Vector) -> bool {
        // The normal half way along lies at right angles to the chord: the
        // others turn from it by up to half the sweep.
        let middle = self.chord().unit().right() * self.bulge.signum();
        let (sin, cos) = self.half_sweep();
        let (across, along) = (middle.cross(way).abs(), middle.dot(way));
        match cos > 0.0 {
            true => along > 0.0 && across < sin.abs(),
            false => along >= 0.0 || across > sin.abs(),
        }
    }

    /// How much farther along the unit `way` the arc's circle reaches than the
    /// start of the arc, in metres. Closed form: r (1 − cos a), as
    /// r sin² a / (1 + cos a) where that would cancel.
    fn reach_beyond_start(&self, way: Vector) -> f64 {
        let outward = self.direction_at_start().right() * self.bulge.signum();
        let (sin, cos) = (outward.cross(way), outward.dot(way));
        let share = match cos > 0.0 {
            true => sin * sin / (1.0 + cos),
            false => 1.0 - cos,
        };
        self.radius() * share
    }

    /// The point of the side that lies farthest along `way`, the arc itself
    /// included; the start where all lie as far.
    pub fn farthest(&self, way: Vector) -> Point {
        let facing = match self.is_arc() && way != Vector::default() {
            true => self.angle_facing(way),
            false => None,
        };
        if let Some(angle) = facing {
            return self.point_at_angle(angle);
        }
        match way.dot(self.chord()) > 0.0 {
            true => self.end,
            false => self.start,
        }
    }

    /// The angle from the start at which the outward normal of the arc points
    /// along `way`; none if it does so nowhere within the arc.
    pub(super) fn angle_facing(&self, way: Vector) -> Option<f64> {
        if !self.faces(way.unit()) {
            return None;
        }
        let turning = self.bulge.signum();
        let outward = self.direction_at_start().right() * turning;
        let angle = (turning * outward.angle_to(way)).rem_euclid(TAU);
        (angle < self.sweep().abs()).then_some(angle)
    }

    /// The signed area between the chord and the arc, in square metres,
    /// positive when the arc runs anticlockwise.
    /// Closed form: r² (θ − sin θ) / 2 for a sweep of θ.
    pub(super) fn segment_area(&self) -> f64 {
        let bulge = self.bulge;
        let square = bulge * bulge;
        let share = if bulge.abs() < 0.01 {
            // The closed form cancels for flat arcs; its series does not.
            bulge * (1.0 / 3.0 + square * (1.0 / 15.0 - square / 105.0))
        } else {
            let spread = 1.0 + square;
            (spread * spread * bulge.atan() - bulge * (1.0 - square)) / (8.0 * square)
        };
        let chord = self.chord();
        chord.dot(chord) * share
    }

    /// The signed first moment about `origin` of the piece between the chord
    /// and the arc, in cubic metres.
    /// Closed form: the moment about the arc's centre is chord³ / 12, toward
    /// the arc.
    pub(super) fn segment_moment(&self, origin: Point) -> Vector {
        if !self.is_arc() {
            return Vector::default();
        }
        let chord = self.chord();
        let centre = (self.start - origin) + self.to_centre();
        centre * self.segment_area() + chord.right() * (chord.dot(chord) / 12.0)
    }
}

/// The bulge of an arc of less than half a turn whose ends are `chord` apart
/// on a circle of the given radius.
pub(super) fn bulge_of_chord(chord: f64, radius: f64) -> f64 {
    let half = (chord / (2.0 * radius)).min(1.0);
    half / (1.0 + ((1.0 - half) * (1.0 + half)).sqrt())
}

/// The bulge of an arc that sweeps `angle` radians.
pub fn bulge_of_sweep(angle: f64) -> f64 {
    (angle.clamp(-2.0 * PI, 2.0 * PI) / 4.0).tan()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(found: f64, wanted: f64) -> bool {
        (found - wanted).abs() <= 1e-9 * wanted.abs().max(1.0)
    }

    fn arc(chord: f64, rise: f64) -> Edge {
        Edge::arc(Point::ORIGIN, Point::new(chord, 0.0), 2.0 * rise / chord, 7)
    }

    /// Chord and rise of a segment; radius, arc length and area, closed form.
    const SEGMENTS: [(f64, f64, f64, f64, f64); 5] = [
        (12.0, 2.0, 10.0, 12.870_022_175_9, 16.350_110_879_3),
        (21.0, 6.0, 12.1875, 25.308_373_069_5, 89.254_148_392_4),
        (20.0, 4.0, 14.5, 22.069_369_872_5, 55.002_931_575_7),
        (10.0, 5.0, 5.0, 15.707_963_267_9, 39.269_908_169_9),
        (
            8.0,
            6.0,
            4.333_333_333_3,
            17.035_091_203_0,
            43.576_030_939_7,
        ),
    ];

    #[test]
    fn segments_agree_with_the_closed_form() {
        for (chord, rise, radius, length, area) in SEGMENTS {
            let edge = arc(chord, rise);
            assert!(close(edge.radius(), radius), "radius on {chord}, {rise}");
            assert!(close(edge.length(), length), "length on {chord}, {rise}");
            assert!(close(edge.segment_area(), area), "area on {chord}, {rise}");
            assert!(close(edge.reversed().segment_area(), -area));
        }
    }

    #[test]
    fn a_point_along_an_arc_is_found_again() {
        for (chord, rise, ..) in SEGMENTS {
            for edge in [arc(chord, rise), arc(chord, rise).reversed()] {
                for tenth in 0..=10 {
                    let distance = edge.length() * f64::from(tenth) / 10.0;
                    let point = edge.point_at(distance);
                    assert!(close(edge.distance_along(point), distance));
                    assert!(edge.off_circle(point).abs() < 1e-12);
                    assert!(edge.distance_to(point) < 1e-12);
                }
                assert!(edge.point_at(edge.length()).distance(edge.end) < 1e-12);
                assert!(edge.midpoint().distance(edge.point_at(edge.length() / 2.0)) < 1e-12);
            }
        }
    }

    #[test]
    fn parts_of_a_side_add_up() {
        for edge in [
            arc(8.0, 6.0),
            arc(12.0, 2.0),
            Edge::line(Point::ORIGIN, Point::new(3.0, 4.0), 1),
        ] {
            let third = edge.length() / 3.0;
            let (first, rest) = (edge.between(0.0, third), edge.between(third, edge.length()));
            assert!(close(first.length() + rest.length(), edge.length()));
            assert!(close(first.radius().min(1e9), edge.radius().min(1e9)));
            assert!(first.end.distance(rest.start) < 1e-12);
        }
    }

    #[test]
    fn tangents_turn_by_half_the_sweep_each() {
        let quarter = Edge::arc(
            Point::new(1.0, 0.0),
            Point::new(0.0, 1.0),
            bulge_of_sweep(PI / 2.0),
            0,
        );
        assert!(
            quarter
                .direction_at_start()
                .distance_from(Vector::new(0.0, 1.0))
                < 1e-12
        );
        assert!(
            quarter
                .direction_at_end()
                .distance_from(Vector::new(-1.0, 0.0))
                < 1e-12
        );
        assert!(
            quarter
                .centre()
                .is_some_and(|centre| centre.distance(Point::ORIGIN) < 1e-12)
        );
    }

    impl Vector {
        fn distance_from(self, other: Vector) -> f64 {
            (self - other).length()
        }
    }

    #[test]
    fn a_nearly_straight_arc_keeps_its_precision() {
        let edge = Edge::arc(Point::ORIGIN, Point::new(10.0, 0.0), 1e-7, 0);
        assert!((edge.off_circle(edge.midpoint())).abs() < 1e-14);
        assert!((edge.point_at(edge.length() / 2.0)).distance(edge.midpoint()) < 1e-12);
        assert!((edge.segment_area() - 100.0 * 1e-7 / 3.0).abs() < 1e-17);
    }

    #[test]
    fn extremes_of_an_arc_lie_on_the_arc() {
        let bay = Edge::arc(Point::new(-8.0, 0.0), Point::new(8.0, 0.0), 1.0, 0);
        let (least, most) = bay.extremes(Point::ORIGIN, Vector::new(0.0, 1.0));
        assert!(close(least, -8.0) && close(most, 0.0));
        let (least, most) = bay
            .reversed()
            .extremes(Point::ORIGIN, Vector::new(1.0, -1.0));
        assert!(close(least, -8.0) && close(most, 8.0 * 2f64.sqrt()));
    }
}
