//! How a line or an arc passes through an outline.

use super::edge::Edge;
use super::meet;
use super::outline::Outline;

/// Two points of a line this near one another, in metres, are one.
const REACH: f64 = 1e-9;

impl Outline {
    /// The stretches of a line or an arc that lie inside, each by two
    /// distances in metres from its start, in order.
    pub fn stretches_inside(&self, edge: &Edge) -> Vec<(f64, f64)> {
        let length = edge.length();
        let meetings = self
            .edges()
            .flat_map(|side| meet::meetings(edge, side, REACH))
            .map(|point| edge.distance_along(point).clamp(0.0, length));
        let mut ends: Vec<f64> = meetings.chain([0.0, length]).collect();
        ends.sort_by(f64::total_cmp);
        ends.dedup_by(|one, other| (*one - *other).abs() <= REACH);
        let mut inside: Vec<(f64, f64)> = Vec::new();
        for (from, to) in ends.iter().zip(ends.iter().skip(1)) {
            if !self.contains(edge.point_at(0.5 * (from + to))) {
                continue;
            }
            match inside.last_mut() {
                Some((_, end)) if (*end - from).abs() <= REACH => *end = *to,
                _ => inside.push((*from, *to)),
            }
        }
        inside
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::point::Point;
    use super::super::sample::{close, rectangle, simple_shape};
    use super::*;

    fn line(from: (f64, f64), to: (f64, f64)) -> Edge {
        Edge::line(Point::new(from.0, from.1), Point::new(to.0, to.1), 0)
    }

    #[test]
    fn a_line_lies_inside_where_it_crosses() {
        let court = rectangle(0.0, 0.0, 4.0, 2.0);
        for (from, to, wanted) in [
            ((-1.0, 1.0), (5.0, 1.0), vec![(1.0, 5.0)]),
            ((1.0, 1.0), (5.0, 1.0), vec![(0.0, 3.0)]),
            ((1.0, 1.0), (2.0, 1.0), vec![(0.0, 1.0)]),
            ((-1.0, 3.0), (5.0, 3.0), vec![]),
            ((4.0, -1.0), (4.0, -3.0), vec![]),
        ] {
            assert_eq!(court.stretches_inside(&line(from, to)), wanted);
        }
    }

    proptest! {
        #[test]
        fn walked_the_other_way_as_much_lies_inside(
            court in simple_shape(),
            ends in [-5.0..5.0f64, -5.0..5.0, -5.0..5.0, -5.0..5.0],
        ) {
            let [a, b, c, d] = ends;
            let edge = line((a, b), (c, d));
            let much = |edge: &Edge| -> f64 {
                court.stretches_inside(edge).iter().map(|(from, to)| to - from).sum()
            };
            prop_assert!(close(much(&edge), much(&edge.reversed())));
            prop_assert!(much(&edge) <= edge.length() + 1e-9);
        }
    }
}
