//! How often loops run round a place: a ray is sent out from it, and the
//! sides that cross the ray are counted.

use super::edge::Edge;
use super::monotone;
use super::point::Point;

/// How often a side crosses the ray that runs east from `point`: northward
/// crossings count up, southward ones down.
pub(super) fn crossings_east(edge: &Edge, point: Point) -> i32 {
    if edge.is_arc() {
        monotone::parts(edge)
            .iter()
            .map(|part| crosses_east(part, point))
            .sum()
    } else {
        crosses_east(edge, point)
    }
}

/// Whether and which way a line or quarter arc crosses the ray east of
/// `point`. An end counts with the part above it, so that a ray through a
/// corner is crossed once or not at all.
pub(super) fn crosses_east(part: &Edge, point: Point) -> i32 {
    let (start, end) = (part.start, part.end);
    if (start.y <= point.y) == (end.y <= point.y) {
        return 0;
    }
    let way = if end.y > start.y { 1 } else { -1 };
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
