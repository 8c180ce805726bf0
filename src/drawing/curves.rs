//! Arcs as curves of two handles, for formats that know no arc.

use crate::geometry::{Edge, Point};

/// A curve from where the last one ended: two handles and its end.
pub(crate) type Curve = [Point; 3];

/// The curves that follow an edge; a quarter of a turn each at most, which is
/// true to 3 parts in 10,000 of the radius. None for a straight edge.
pub(crate) fn curves(edge: &Edge) -> Vec<Curve> {
    let sweep = edge.sweep();
    let radius = edge.radius();
    if !edge.is_arc() || !radius.is_finite() || radius > 1e6 {
        return Vec::new();
    }
    let parts = (sweep.abs() / std::f64::consts::FRAC_PI_2)
        .ceil()
        .clamp(1.0, 4.0);
    let step = edge.length() / parts;
    let handle = 4.0 / 3.0 * (sweep.abs() / parts / 4.0).tan() * radius;
    let mut curves = Vec::new();
    for part in 0..parts as u32 {
        let (from, to) = (f64::from(part) * step, f64::from(part + 1) * step);
        curves.push([
            edge.point_at(from) + edge.direction_at(from) * handle,
            edge.point_at(to) + edge.direction_at(to) * -handle,
            edge.point_at(to),
        ]);
    }
    curves
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn curves_keep_to_their_circle() {
        for bulge in [0.1, -0.4, 1.0, -2.0] {
            let edge = Edge::arc(Point::new(0.0, 0.0), Point::new(10.0, 3.0), bulge, 0);
            let (centre, radius) = (edge.centre().expect("a centre"), edge.radius());
            let mut from = edge.start;
            for [one, other, to] in curves(&edge) {
                // The middle of a curve.
                let sum = [(from, 1.0), (one, 3.0), (other, 3.0), (to, 1.0)];
                let middle = sum.iter().fold(Point::ORIGIN, |all, (at, share)| {
                    all + (*at - Point::ORIGIN) * (share / 8.0)
                });
                assert!((middle.distance(centre) - radius).abs() < 3e-4 * radius);
                from = to;
            }
            assert!(from.distance(edge.end) < 1e-9);
        }
        assert!(curves(&Edge::line(Point::ORIGIN, Point::new(1.0, 0.0), 0)).is_empty());
    }
}
