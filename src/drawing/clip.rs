//! Straight lines cut at an outline, so that a hatch ends where its surface
//! ends in every format.

use crate::geometry::{Edge, Outline, Point};

/// Two crossings nearer than this, as shares of the line, are one.
const SAME: f64 = 1e-9;

/// The pieces of a line that lie in an outline, in order.
pub(crate) fn inside(from: Point, to: Point, outline: &Outline) -> Vec<(Point, Point)> {
    pieces(from, to, outline, true)
}

/// The pieces of a line that lie outside it, in order.
pub(crate) fn outside(from: Point, to: Point, outline: &Outline) -> Vec<(Point, Point)> {
    pieces(from, to, outline, false)
}

/// How much of a line lies in an outline, in the line's own measure.
pub(crate) fn length_inside(from: Point, to: Point, outline: &Outline) -> f64 {
    inside(from, to, outline)
        .iter()
        .map(|(from, to)| from.distance(*to))
        .sum()
}

fn pieces(from: Point, to: Point, outline: &Outline, wanted: bool) -> Vec<(Point, Point)> {
    let mut cuts = vec![0.0, 1.0];
    for edge in outline.edges() {
        crossings(from, to, edge, &mut cuts);
    }
    cuts.sort_by(f64::total_cmp);
    let at = |share: f64| from + (to - from) * share;
    let mut kept: Vec<(f64, f64)> = Vec::new();
    for (start, end) in cuts.iter().zip(cuts.iter().skip(1)) {
        if end - start <= SAME || outline.contains(at(f64::midpoint(*start, *end))) != wanted {
            continue;
        }
        match kept.last_mut() {
            Some(last) if start - last.1 <= SAME => last.1 = *end,
            _ => kept.push((*start, *end)),
        }
    }
    kept.into_iter()
        .map(|(start, end)| (at(start), at(end)))
        .collect()
}

/// Adds where a line meets an edge, as shares of the line. One too many does
/// no harm: the pieces on both sides are then of one kind.
fn crossings(from: Point, to: Point, edge: &Edge, cuts: &mut Vec<f64>) {
    let way = to - from;
    let mut add = |share: f64| {
        if share > 0.0 && share < 1.0 {
            cuts.push(share);
        }
    };
    // Where an edge ends on the line: one that runs along it, or an arc that
    // only touches it, has no other crossing.
    let square = way.dot(way);
    for end in [edge.start, edge.end] {
        let off = end - from;
        if square > 0.0 && way.cross(off).abs() <= 1e-6 * square.sqrt() {
            add(off.dot(way) / square);
        }
    }
    if let Some(centre) = edge.centre() {
        let off = from - centre;
        let (a, half_b) = (way.dot(way), off.dot(way));
        let c = off.dot(off) - edge.radius() * edge.radius();
        let root = half_b * half_b - a * c;
        if a > 0.0 {
            // A line that only touches the arc is parted there, whatever
            // rounding makes of the root: its middle may be that very point.
            add(-half_b / a);
        }
        if a > 0.0 && root >= 0.0 {
            add((-half_b - root.sqrt()) / a);
            add((-half_b + root.sqrt()) / a);
        }
        return;
    }
    let side = edge.chord();
    let turn = way.cross(side);
    if turn == 0.0 {
        return;
    }
    let along = (edge.start - from).cross(way) / turn;
    if (-SAME..=1.0 + SAME).contains(&along) {
        add((edge.start - from).cross(side) / turn);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Loop, Outline, difference};

    fn square(low: f64, high: f64) -> Outline {
        let corners = [(low, low), (high, low), (high, high), (low, high)];
        let points = corners.map(|(x, y)| Point::new(x, y));
        let pairs = points.iter().zip(points.iter().cycle().skip(1));
        Outline {
            outer: Loop {
                edges: pairs.map(|(a, b)| Edge::line(*a, *b, 0)).collect(),
            },
            holes: Vec::new(),
        }
    }

    #[test]
    fn a_line_is_parted_at_holes_and_arcs() {
        let ring = difference(&square(0.0, 10.0), &square(4.0, 6.0)).expect("a ring");
        let (west, east) = (Point::new(-5.0, 5.0), Point::new(15.0, 5.0));
        let kept = inside(west, east, &ring);
        let ends: Vec<(f64, f64)> = kept.iter().map(|(a, b)| (a.x, b.x)).collect();
        assert_eq!(ends, [(0.0, 4.0), (6.0, 10.0)]);
        assert_eq!(outside(west, east, &ring).len(), 3);
        assert!((length_inside(west, east, &ring) - 8.0).abs() < 1e-9);

        let circle = Outline {
            outer: Loop {
                edges: vec![
                    Edge::arc(Point::new(3.0, 0.0), Point::new(-3.0, 0.0), 1.0, 0),
                    Edge::arc(Point::new(-3.0, 0.0), Point::new(3.0, 0.0), 1.0, 0),
                ],
            },
            holes: Vec::new(),
        };
        let across = length_inside(Point::new(-9.0, 0.0), Point::new(9.0, 0.0), &circle);
        assert!((across - 6.0).abs() < 1e-9);
        assert!(inside(Point::new(-9.0, 4.0), Point::new(9.0, 4.0), &circle).is_empty());
        let touching = (Point::new(-9.0, 3.0 + 1e-12), Point::new(9.0, 3.0 + 1e-12));
        assert!(inside(touching.0, touching.1, &circle).is_empty());
    }
}
