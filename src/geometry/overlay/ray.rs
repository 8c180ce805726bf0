//! How often loops run round a place: a ray is sent out from it, and the
//! sides that cross the ray are counted.

use super::super::edge::Edge;
use super::super::point::Point;
use super::bands::Bands;
use super::seam::Seam;
use super::weld::Weld;
use super::{Windings, monotone};

/// The windings just left and just right of a seam.
pub(super) struct Around {
    pub left: Windings,
    pub right: Windings,
}

/// How often a side crosses the ray that runs east from `point`: northward
/// crossings count up, southward ones down.
pub(in super::super) fn crossings_east(edge: &Edge, point: Point) -> i32 {
    if edge.is_arc() {
        monotone::parts(edge)
            .iter()
            .map(|part| crosses_east(part, point))
            .sum()
    } else {
        crosses_east(edge, point)
    }
}

/// The windings on both sides of every seam.
pub(super) fn windings(seams: &[Seam], weld: &Weld) -> Vec<Around> {
    let edges: Vec<Edge> = seams.iter().map(|seam| seam.edge(weld)).collect();
    let spans = |of: &dyn Fn(Point) -> f64| -> Vec<(f64, f64)> {
        let span = |edge: &Edge| {
            (
                of(edge.start).min(of(edge.end)),
                of(edge.start).max(of(edge.end)),
            )
        };
        edges.iter().map(span).collect()
    };
    let columns = Bands::new(&spans(&|point| point.x));
    let rows = Bands::new(&spans(&|point| point.y));
    seams
        .iter()
        .zip(&edges)
        .enumerate()
        .map(|(number, (seam, edge))| {
            // The ray leaves the seam as nearly at right angles as it can,
            // from the middle, where it is farthest from what it meets.
            let middle = edge.midpoint();
            let chord = edge.chord();
            let northward = chord.x.abs() >= chord.y.abs();
            let others = if northward {
                columns.at(middle.x)
            } else {
                rows.at(middle.y)
            };
            let mut beyond: Windings = [0, 0];
            for &other in others.iter().filter(|&&other| other != number) {
                let Some((crossed, edge)) = seams.get(other).zip(edges.get(other)) else {
                    continue;
                };
                let way = if northward {
                    crosses_north(edge, middle)
                } else {
                    crosses_east(edge, middle)
                };
                add(&mut beyond, crossed.strands, way);
            }
            let own = if northward {
                westward(edge)
            } else {
                northward_way(edge)
            };
            let mut behind = beyond;
            add(&mut behind, seam.strands, own);
            // The far side is on the left of an eastward or a southward seam.
            let (left, right) = if own < 0 {
                (beyond, behind)
            } else {
                (behind, beyond)
            };
            Around { left, right }
        })
        .collect()
}

fn add(sum: &mut Windings, strands: Windings, way: i32) {
    for (sum, count) in sum.iter_mut().zip(strands) {
        *sum += count * way;
    }
}

fn northward_way(part: &Edge) -> i32 {
    if part.end.y > part.start.y { 1 } else { -1 }
}

fn westward(part: &Edge) -> i32 {
    if part.end.x < part.start.x { 1 } else { -1 }
}

/// Whether and which way a line or quarter arc crosses the ray east of
/// `point`. An end counts with the part above it, so that a ray through a
/// corner is crossed once or not at all.
fn crosses_east(part: &Edge, point: Point) -> i32 {
    let (start, end) = (part.start, part.end);
    if (start.y <= point.y) == (end.y <= point.y) {
        return 0;
    }
    let way = northward_way(part);
    let is_east = if point.x < start.x.min(end.x) {
        true
    } else if point.x > start.x.max(end.x) {
        false
    } else if part.is_arc() {
        // The eastern half of a circle is walked north when anticlockwise;
        // it lies east of what is inside the circle.
        let eastern = (part.bulge > 0.0) == (way > 0);
        (part.off_circle(point) < 0.0) == eastern
    } else {
        (end - start).cross(point - start) * f64::from(way) > 0.0
    };
    if is_east { way } else { 0 }
}

/// The same for the ray that runs north: westward crossings count up.
fn crosses_north(part: &Edge, point: Point) -> i32 {
    let (start, end) = (part.start, part.end);
    if (start.x <= point.x) == (end.x <= point.x) {
        return 0;
    }
    let way = westward(part);
    let is_north = if point.y < start.y.min(end.y) {
        true
    } else if point.y > start.y.max(end.y) {
        false
    } else if part.is_arc() {
        let northern = (part.bulge > 0.0) == (way > 0);
        (part.off_circle(point) < 0.0) == northern
    } else {
        (end - start).cross(point - start) * f64::from(way) > 0.0
    };
    if is_north { way } else { 0 }
}
