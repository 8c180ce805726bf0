//! Where one outline runs along another.

use super::bounds::Bounds;
use super::edge::Edge;
use super::outline::Outline;

/// A stretch of a side, by the distances from the side's start, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// The side.
    pub edge: Edge,
    /// Where the stretch begins on it.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
}

/// Sides no farther apart than this, in metres, run along each other: a tenth
/// of a millimetre, less than can be set out.
pub const ALONGSIDE: f64 = 1e-4;

impl Stretch {
    /// The length, in metres.
    pub fn length(&self) -> f64 {
        self.to - self.from
    }

    /// The stretch as a side of its own.
    pub fn part(&self) -> Edge {
        self.edge.between(self.from, self.to)
    }

    /// Whether `edge`, a part of the same side, lies within the stretch.
    pub fn covers(&self, edge: &Edge) -> bool {
        let middle = edge.midpoint();
        let along = self.edge.distance_along(middle);
        edge.tag == self.edge.tag
            && edge.is_arc() == self.edge.is_arc()
            && self.edge.distance_to(middle) <= ALONGSIDE
            && along > self.from
            && along < self.to
    }
}

/// The stretches of the sides of `a` that run along sides of `b`, in the
/// order of the sides of `a`: on one line, or on arcs of one circle.
pub fn shared(a: &Outline, b: &Outline) -> Vec<Stretch> {
    let near = b.bounds().grown(ALONGSIDE);
    if !a.bounds().overlaps(&near) {
        return Vec::new();
    }
    a.edges()
        .filter(|edge| Bounds::of_edge(edge).overlaps(&near))
        .flat_map(|&edge| {
            let found = b
                .edges()
                .filter_map(|other| alongside(&edge, other))
                .collect();
            merged(found)
                .into_iter()
                .map(move |(from, to)| Stretch { edge, from, to })
        })
        .collect()
}

/// The distances along `edge` between which `other` runs along it.
fn alongside(edge: &Edge, other: &Edge) -> Option<(f64, f64)> {
    if edge.is_arc() != other.is_arc() {
        return None;
    }
    let same_way = if edge.is_arc() {
        let apart = edge.centre()?.distance(other.centre()?);
        if apart > ALONGSIDE || (edge.radius() - other.radius()).abs() > ALONGSIDE {
            return None;
        }
        (edge.bulge > 0.0) == (other.bulge > 0.0)
    } else {
        edge.chord().dot(other.chord()) > 0.0
    };
    let other = if same_way { *other } else { other.reversed() };
    let length = edge.length();
    let (mut from, mut to) = (
        edge.distance_along(other.start),
        edge.distance_along(other.end),
    );
    if edge.is_arc() {
        // Count both ends from the middle of the other arc, so that an arc
        // that runs past an end of this one is not taken for its far side.
        let middle = edge.distance_along(other.midpoint());
        (from, to) = (middle - other.length() / 2.0, middle + other.length() / 2.0);
    }
    (from, to) = (from.max(0.0), to.min(length));
    let runs = to - from > 10.0 * ALONGSIDE;
    let on = |distance: f64| other.distance_to(edge.point_at(distance)) <= ALONGSIDE;
    (runs && on(from) && on(to) && on(0.5 * (from + to))).then_some((from, to))
}

/// Stretches that overlap or follow each other, as one.
fn merged(mut stretches: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    stretches.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut merged: Vec<(f64, f64)> = Vec::new();
    for (from, to) in stretches {
        match merged.last_mut() {
            Some((_, end)) if from <= *end + ALONGSIDE => *end = end.max(to),
            _ => merged.push((from, to)),
        }
    }
    merged
}

#[cfg(test)]
mod tests {
    use super::super::sample::{close, rectangle};
    use super::super::{Point, union, widened};
    use super::*;

    fn spans(a: &Outline, b: &Outline) -> Vec<(f64, f64)> {
        shared(a, b)
            .iter()
            .map(|stretch| (stretch.from, stretch.to))
            .collect()
    }

    #[test]
    fn straight_sides_share_a_stretch() {
        let patio = rectangle(0.0, 0.0, 6.0, 4.0);
        let cases = [
            (
                "whole side",
                rectangle(6.0, 0.0, 2.0, 4.0),
                vec![(0.0, 4.0)],
            ),
            (
                "part of it",
                rectangle(6.0, 1.0, 2.0, 2.0),
                vec![(1.0, 3.0)],
            ),
            (
                "beyond its end",
                rectangle(6.0, 3.0, 2.0, 5.0),
                vec![(3.0, 4.0)],
            ),
            (
                "a hair apart",
                rectangle(6.00005, 1.0, 2.0, 2.0),
                vec![(1.0, 3.0)],
            ),
            ("a joint apart", rectangle(6.0015, 1.0, 2.0, 2.0), vec![]),
            ("a corner only", rectangle(6.0, 4.0, 2.0, 2.0), vec![]),
            ("far off", rectangle(60.0, 4.0, 2.0, 2.0), vec![]),
        ];
        for (name, other, wanted) in cases {
            let found = spans(&patio, &other);
            assert_eq!(found.len(), wanted.len(), "{name}: {found:?}");
            for ((from, to), (first, last)) in found.into_iter().zip(wanted) {
                assert!(
                    (from - first).abs() < 1e-9 && (to - last).abs() < 1e-9,
                    "{name}: {from}, {to}"
                );
            }
        }
    }

    #[test]
    fn arcs_of_one_circle_share_a_stretch() {
        let bed = Outline::circle(Point::new(6.0, 2.0), 1.0, 7).unwrap();
        let patio = super::super::difference(&rectangle(0.0, 0.0, 6.0, 4.0), &bed).unwrap();
        let found = shared(&patio, &bed);
        let length: f64 = found.iter().map(Stretch::length).sum();
        assert!(close(length, std::f64::consts::PI), "{found:?}");
        assert!(found.iter().all(|stretch| stretch.edge.tag == 7));
        let back: f64 = shared(&bed, &patio).iter().map(Stretch::length).sum();
        assert!(close(back, length));
        let wider = Outline::circle(Point::new(6.0, 2.0), 1.01, 7).unwrap();
        assert_eq!(shared(&patio, &wider), vec![]);
    }

    #[test]
    fn a_shared_stretch_is_not_widened() {
        let patio = rectangle(0.0, 0.0, 6.0, 4.0);
        let path = rectangle(6.0, 1.0, 5.0, 1.0);
        let stretches = shared(&patio, &path);
        let parted = patio.divided(&stretches);
        assert_eq!(parted.edges().count(), 6);
        assert!(close(parted.perimeter(), patio.perimeter()) && close(parted.area(), patio.area()));
        let free = |edge: &Edge| !stretches.iter().any(|stretch| stretch.covers(edge));
        let wide = widened(&parted, 0.1, &free).unwrap();
        // All round less the square-ended gap where the path goes off.
        assert!(close(wide.area(), 6.2 * 4.2 - 0.1 * 1.0));
        assert!(union(&patio, &path).is_ok());
    }
}
