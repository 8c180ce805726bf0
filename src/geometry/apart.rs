//! How near two sides come to each other, and which way a side looks.

use super::bounds::Bounds;
use super::edge::Edge;
use super::meet;
use super::point::{Point, Vector};

/// Sides that come within this of each other, in metres, touch.
const TOUCH: f64 = 1e-9;

impl Edge {
    /// The shortest distance between two sides, in metres, arcs exact; 0
    /// where they cross or touch.
    pub fn distance_to_edge(&self, other: &Edge) -> f64 {
        let may_meet = Bounds::of_edge(self).grown(TOUCH);
        if may_meet.overlaps(&Bounds::of_edge(other))
            && !meet::meetings(self, other, TOUCH).is_empty()
        {
            return 0.0;
        }
        let own = [self.start, self.end].into_iter();
        let own = own.chain(self.points_facing(other));
        let theirs = [other.start, other.end].into_iter();
        let theirs = theirs.chain(other.points_facing(self));
        own.map(|point| other.distance_to(point))
            .chain(theirs.map(|point| self.distance_to(point)))
            .fold(f64::INFINITY, f64::min)
    }

    /// The points within an arc from which the shortest way to another side
    /// may lead: on the line of both centres, or at right angles to a
    /// straight side. None of a straight side.
    fn points_facing(&self, other: &Edge) -> impl Iterator<Item = Point> {
        let way = match (self.centre(), other.centre()) {
            (Some(own), Some(other)) => other - own,
            (Some(_), None) => other.chord().left(),
            (None, _) => Vector::default(),
        };
        [way, -way]
            .into_iter()
            .filter(|way| *way != Vector::default())
            .filter_map(|way| self.angle_facing(way))
            .map(|angle| self.point_at_angle(angle))
    }

    /// The least and the greatest of `way · n` along the side, n being the
    /// unit direction at right angles to it, into the shape when the loop
    /// runs anticlockwise.
    pub fn inward_share(&self, way: Vector) -> (f64, f64) {
        let [start, end] = [self.direction_at_start(), self.direction_at_end()]
            .map(|direction| direction.left().dot(way));
        let (mut least, mut most) = (start.min(end), start.max(end));
        if self.is_arc() && way != Vector::default() {
            // Into the shape is toward the centre of an arc that runs
            // anticlockwise, and away from that of one that does not.
            let outward = way * -self.bulge.signum();
            if self.angle_facing(outward).is_some() {
                most = way.length();
            }
            if self.angle_facing(-outward).is_some() {
                least = -way.length();
            }
        }
        (least, most)
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;
    use proptest::prelude::*;

    fn points(edge: &Edge) -> Vec<Point> {
        let steps = (0..=200).map(f64::from);
        steps
            .map(|step| edge.point_at(edge.length() * step / 200.0))
            .collect()
    }

    fn side() -> impl Strategy<Value = Edge> {
        let at = || -5.0..5.0_f64;
        (
            at(),
            at(),
            at(),
            at(),
            prop_oneof![Just(0.0), -1.5..1.5_f64],
        )
            .prop_filter("a length", |(a, b, c, d, _)| (a - c).hypot(b - d) > 0.1)
            .prop_map(|(a, b, c, d, bulge)| Edge::arc(Point::new(a, b), Point::new(c, d), bulge, 0))
    }

    proptest! {
        #![proptest_config(sample::cases(256))]

        #[test]
        fn sides_are_as_near_as_their_nearest_points(a in side(), b in side()) {
            let found = a.distance_to_edge(&b);
            let nearest = points(&a)
                .into_iter()
                .map(|point| b.distance_to(point))
                .fold(f64::INFINITY, f64::min);
            // No point of a is nearer, and one is nearly as near.
            prop_assert!(found <= nearest + 1e-9);
            prop_assert!(nearest <= found + a.length() / 200.0);
            prop_assert!((found - b.distance_to_edge(&a)).abs() < 1e-9);
        }

        #[test]
        fn a_side_looks_where_its_points_look(edge in side(), x in -1.0..1.0_f64, y in -1.0..1.0_f64) {
            let way = Vector::new(x, y);
            let (least, most) = edge.inward_share(way);
            for step in 0..=100 {
                let along = edge.length() * f64::from(step) / 100.0;
                let share = edge.direction_at(along).left().dot(way);
                prop_assert!(least <= share + 1e-9 && share <= most + 1e-9);
            }
        }
    }
}
