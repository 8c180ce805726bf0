//! Arcs cut at their northmost, eastmost, southmost and westmost points, so
//! that each part fills one quarter of its circle at most and its box holds
//! no other part of the circle.

use super::edge::Edge;
use super::point::Vector;

const COMPASS: [Vector; 4] = [
    Vector::new(1.0, 0.0),
    Vector::new(0.0, 1.0),
    Vector::new(-1.0, 0.0),
    Vector::new(0.0, -1.0),
];

/// The side itself if straight, else the parts of the arc in order. Their
/// ends meet exactly, and the first and last end are those of the side.
pub(super) fn parts(edge: &Edge) -> Vec<Edge> {
    if !edge.is_arc() {
        return vec![*edge];
    }
    let sweep = edge.sweep().abs();
    // A cut this near to an end would leave a part of no length.
    let least = 1e-9;
    let mut stops: Vec<f64> = COMPASS
        .into_iter()
        .filter_map(|way| edge.angle_facing(way))
        .filter(|&angle| angle > least && angle < sweep - least)
        .collect();
    stops.sort_by(f64::total_cmp);
    stops.push(sweep);

    let mut parts = Vec::with_capacity(stops.len());
    let (mut start, mut from) = (edge.start, 0.0);
    let last = stops.len() - 1;
    for (place, to) in stops.into_iter().enumerate() {
        let end = if place == last {
            edge.end
        } else {
            edge.point_at_angle(to)
        };
        let bulge = if last == 0 {
            edge.bulge
        } else {
            ((to - from) / 4.0).tan() * edge.bulge.signum()
        };
        parts.push(Edge {
            start,
            end,
            bulge,
            tag: edge.tag,
        });
        (start, from) = (end, to);
    }
    parts
}

#[cfg(test)]
mod tests {
    use std::f64::consts::FRAC_PI_2;

    use super::super::point::Point;
    use super::*;

    #[test]
    fn a_part_fills_a_quarter_at_most() {
        for bulge in [0.05, 0.4, 1.0, 2.5, -0.3, -1.0, -6.0] {
            let edge = Edge::arc(Point::new(1.0, 2.0), Point::new(4.0, 3.0), bulge, 0);
            let parts = parts(&edge);
            let sweep: f64 = parts.iter().map(Edge::sweep).sum();
            assert!((sweep - edge.sweep()).abs() < 1e-12);
            assert!(
                parts
                    .iter()
                    .all(|part| part.sweep().abs() < FRAC_PI_2 + 1e-9)
            );
            assert!(
                parts
                    .iter()
                    .all(|part| (part.radius() - edge.radius()).abs() < 1e-12)
            );
            assert!(parts.windows(2).all(|pair| pair[0].end == pair[1].start));
        }
    }

    #[test]
    fn a_straight_side_is_one_part() {
        let edge = Edge::line(Point::ORIGIN, Point::new(4.0, 3.0), 0);
        assert_eq!(parts(&edge), vec![edge]);
    }
}
