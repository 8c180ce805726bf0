//! Whether water runs off between readings: from each to a lower one beside
//! it, and from the lowest over an edge or into a drain.

use std::f64::consts::{PI, TAU};

use crate::geometry::Point;
use crate::model::{Contact, Job, Surface};

/// Nearer to an edge than this, in metres, water at a reading leaves by it.
const AT_EDGE: f64 = 0.3;

/// Less than this, in metres, is as level as anybody reads.
const LEVEL: f64 = 1e-4;

/// So many readings are compared, each with each.
const MOST: usize = 100;

/// Where water between readings goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Water {
    /// It runs off, from reading to reading.
    RunsOff,
    /// It stands about a reading.
    Stands {
        /// Where that was read.
        at: Point,
        /// How deep at least, in metres.
        depth_m: f64,
    },
    /// That cannot be known, and why.
    Unknown(&'static str),
}

/// Where water between readings goes. Of two readings that no third lies
/// between, water runs from the higher to the lower.
pub(super) fn water(job: &Job, surface: &Surface, levels: &[(Point, f64)]) -> Water {
    if levels.len() < 3 {
        return Water::Unknown("fewer than three readings");
    }
    if levels.len() > MOST {
        return Water::Unknown("more readings than are compared");
    }
    let mut deepest: Option<(Point, f64)> = None;
    let mut unknown = None;
    for (index, (at, level)) in levels.iter().enumerate() {
        let beside = beside(levels, index);
        let lowest = beside.fold(f64::INFINITY, f64::min);
        if lowest < *level - LEVEL || leaves(job, surface, *at) {
            continue;
        }
        let depth = lowest - level;
        if !is_inside(levels, index) {
            unknown = Some("no reading where the water would leave");
        } else if depth <= LEVEL {
            unknown = Some("readings beside each other are level");
        } else if deepest.is_none_or(|(_, most)| depth > most) {
            deepest = Some((*at, depth));
        }
    }
    match (deepest, unknown) {
        (Some((at, depth_m)), _) => Water::Stands { at, depth_m },
        (None, Some(why)) => Water::Unknown(why),
        (None, None) => Water::RunsOff,
    }
}

/// The levels of the readings beside one: those that no third lies between, in
/// the circle over the two.
fn beside(levels: &[(Point, f64)], index: usize) -> impl Iterator<Item = f64> + '_ {
    let own = levels.get(index).map_or(Point::ORIGIN, |(at, _)| *at);
    let others = levels.iter().enumerate();
    let others = others.filter(move |(other, _)| *other != index);
    others.filter_map(move |(other, (at, level))| {
        let middle = own.midpoint(*at);
        let radius = 0.5 * own.distance(*at);
        let mut thirds = levels.iter().enumerate();
        let is_between = thirds.any(|(third, (between, _))| {
            third != index && third != other && middle.distance(*between) < radius - 1e-9
        });
        (!is_between).then_some(*level)
    })
}

/// Whether water at a point leaves by a drain, or by an edge: one that is not
/// shut by the building, or has a channel.
fn leaves(job: &Job, surface: &Surface, at: Point) -> bool {
    let mut mouths = job.drains.iter().filter(|drain| drain.has_mouth());
    let is_near = |away: Option<f64>| away.is_some_and(|away| away <= AT_EDGE);
    if mouths.any(|drain| is_near(drain.distance_to(at))) {
        return true;
    }
    let mut near = surface
        .edges()
        .filter(|edge| edge.distance_to(at) <= AT_EDGE);
    near.any(|edge| {
        surface.contact(edge.tag) != Some(Contact::Building) || surface.channel(edge.tag).is_some()
    })
}

/// Whether other readings lie all round one.
fn is_inside(levels: &[(Point, f64)], index: usize) -> bool {
    let Some((own, _)) = levels.get(index) else {
        return false;
    };
    let others = levels.iter().filter(|(at, _)| at.distance(*own) > 0.0);
    let mut ways: Vec<f64> = others
        .map(|(at, _)| (at.y - own.y).atan2(at.x - own.x))
        .collect();
    ways.sort_by(f64::total_cmp);
    let (Some(first), Some(last)) = (ways.first(), ways.last()) else {
        return false;
    };
    let gaps = ways.iter().zip(ways.iter().skip(1));
    let widest = gaps
        .map(|(one, next)| next - one)
        .fold(first + TAU - last, f64::max);
    widest < PI - 1e-9
}
