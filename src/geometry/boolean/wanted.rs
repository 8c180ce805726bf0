//! What ought to bound a result, measured without the library.

use super::super::bounds::Bounds;
use super::super::edge::Edge;
use super::super::point::Point;
use super::super::ray::crosses_east;
use super::Operation;
use super::seam::{Seam, Shared};
use super::seams::Seams;

/// The area and the length of the boundary of a result.
#[derive(Debug, Clone, Copy)]
pub(super) struct Measures {
    area: f64,
    length: f64,
    /// How far off area and length may be.
    slack: f64,
    /// From where areas are taken.
    anchor: Point,
    /// Whether every seam of both loops bounds the result.
    pub all_kept: bool,
}

/// By Green's theorem the area is a sum over the seams that bound the result.
/// Whether one does is told by whether its middle lies within the other loop,
/// or if both loops have it, by whether they walk it the same way.
pub(super) fn measures(seams: &Seams, operation: Operation) -> Measures {
    let edges = seams
        .loops
        .each_ref()
        .map(|walk| -> Vec<Edge> { walk.iter().map(|seam| seams.edge(seam)).collect() });
    let ([a, b], [first, second]) = (&seams.loops, &edges);
    let around = edges.each_ref().map(|edges| {
        let each = edges.iter().map(Bounds::of_edge);
        Bounds::of_all(each).map(|all| all.grown(seams.weld.reach()))
    });
    let [around_first, around_second] = &around;
    let mut sum = Measures {
        area: 0.0,
        length: 0.0,
        slack: 0.0,
        anchor: first.first().map_or(Point::ORIGIN, |edge| edge.start),
        all_kept: true,
    };
    for (is_first, walk, own, other, around) in [
        (true, a, first, second, around_second),
        (false, b, second, first, around_first),
    ] {
        // Most lie clear of the other loop as a whole.
        let within = |edge: &Edge| {
            let may_be = around.as_ref();
            may_be.is_some_and(|around| around.contains(edge.midpoint())) && within(other, edge)
        };
        for (seam, edge) in walk.iter().zip(own) {
            let kept = match (seam.shared, operation) {
                (Shared::No, Operation::Add) => !within(edge),
                (Shared::No, Operation::Cut) => within(edge) != is_first,
                (Shared::No, Operation::Common) => within(edge),
                // The first loop's seam stands for both.
                (Shared::SameWay, Operation::Add | Operation::Common) => is_first,
                (Shared::OtherWay, Operation::Cut) => is_first,
                _ => false,
            };
            let backward = operation == Operation::Cut && !is_first;
            sum.add(edge, kept, if backward { -1.0 } else { 1.0 });
        }
    }
    sum
}

/// Whether the middle of a seam lies within a loop of seams.
fn within(boundary: &[Edge], seam: &Edge) -> bool {
    let middle = seam.midpoint();
    let crossings = boundary.iter().map(|edge| crosses_east(edge, middle));
    crossings.sum::<i32>() > 0
}

impl Measures {
    fn add(&mut self, edge: &Edge, kept: bool, way: f64) {
        let (area, length) = (area_from(self.anchor, edge), edge.length());
        self.slack += 1e-12 * area.abs().max(length);
        self.all_kept &= kept;
        if kept {
            self.area += way * area;
            self.length += length;
        }
    }

    /// Whether walks enclose the area and have the length.
    pub(crate) fn agree(&self, walks: &[Vec<Seam>], seams: &Seams) -> bool {
        let edges = walks.iter().flatten().map(|seam| seams.edge(seam));
        let (mut area, mut length) = (0.0, 0.0);
        for edge in edges {
            area += area_from(self.anchor, &edge);
            length += edge.length();
        }
        (area - self.area).abs() <= self.slack && (length - self.length).abs() <= self.slack
    }
}

/// The signed area between a seam and the lines from its ends to the anchor.
fn area_from(anchor: Point, edge: &Edge) -> f64 {
    0.5 * (edge.start - anchor).cross(edge.end - anchor) + edge.segment_area()
}
