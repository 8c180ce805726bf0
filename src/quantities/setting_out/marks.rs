//! The two marks that pegs are taped from.

use super::sides::building_edges;
use crate::findings::Place;
use crate::geometry::{Edge, Point};
use crate::model::Job;

/// How far out of line, in metres, two stretches of a wall may be and still
/// be one.
const IN_LINE: f64 = 1e-3;

/// Two marks that stay.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Marks {
    /// The first, called A.
    pub first: Point,
    /// The second, called B.
    pub second: Point,
    /// Where they are stated; `None` for the ends of the building edge, which
    /// are taken where nothing is stated.
    pub place: Option<Place>,
}

/// The marks of a job: those stated, or the ends of the longest straight edge
/// against the building. `None` if there are neither, or what is stated could
/// not be made out.
pub(super) fn marks(job: &Job) -> Option<Marks> {
    let stated = job.setting_out.as_ref();
    if let Some(stated) = stated.and_then(|own| own.marks.as_ref()) {
        let (first, second) = stated.value;
        return Some(Marks {
            first,
            second,
            place: Some(stated.place),
        });
    }
    if stated.is_some_and(|own| own.is_unread("from")) {
        return None;
    }
    let walls = building_edges(job);
    let straight = walls.iter().filter(|edge| !edge.is_arc());
    let lines = straight.map(|edge| whole_line(edge, &walls));
    let longest = lines.reduce(|best, line| {
        let is_longer = line.0.distance(line.1) > best.0.distance(best.1) + IN_LINE;
        if is_longer { line } else { best }
    });
    longest.map(|(first, second)| Marks {
        first,
        second,
        place: None,
    })
}

/// The ends of a wall, with all edges that lie in one line with it, the
/// western (of a wall due north, the southern) first.
fn whole_line(edge: &Edge, walls: &[Edge]) -> (Point, Point) {
    let along = edge.chord().unit();
    let is_in_line = |point: Point| along.cross(point - edge.start).abs() <= IN_LINE;
    let in_line = walls
        .iter()
        .filter(|other| !other.is_arc() && is_in_line(other.start) && is_in_line(other.end));
    let mut ends: Vec<Point> = in_line.flat_map(|other| [other.start, other.end]).collect();
    ends.sort_by(|one, other| {
        let reach = |point: &Point| along.dot(*point - edge.start);
        reach(one).total_cmp(&reach(other))
    });
    let (first, last) = match (ends.first(), ends.last()) {
        (Some(first), Some(last)) => (*first, *last),
        _ => (edge.start, edge.end),
    };
    let is_west = (first.x - last.x)
        .total_cmp(&0.0)
        .then(first.y.total_cmp(&last.y));
    let nearly_north = (first.x - last.x).abs() <= IN_LINE;
    let swapped = match nearly_north {
        true => first.y > last.y,
        false => is_west.is_gt(),
    };
    if swapped {
        (last, first)
    } else {
        (first, last)
    }
}
