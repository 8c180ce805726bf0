//! Where water gets to that cannot get over an edge and runs along it.

use super::rim::{Fate, Part, Rim};
use super::running::Ground;
use crate::geometry::{ALONGSIDE, Beam, Point};

/// Edges that drop by less over a metre are level: no water runs along them.
const LEVEL: f64 = 2e-5;

/// So many corners are passed at most.
const MOST_CORNERS: usize = 64;

/// Where water that runs along an edge gets to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum End {
    /// Off a surface over one of its sides: the indices of both.
    Off {
        /// The surface, by its index in the job.
        surface: usize,
        /// Its side, by its index in the surface.
        side: u32,
        /// Where.
        at: Point,
    },
    /// Into a drain, by its index, or into a channel of which the surface
    /// alone tells.
    Drained(Option<usize>),
    /// It stands here, with nowhere to run.
    Stands {
        /// The surface, by its index in the job.
        surface: usize,
        /// Where.
        at: Point,
    },
    /// A fall or a level on the way is not known.
    Unknown,
}

/// Where the water gets to that comes to a part of a surface's rim.
pub(super) fn end(ground: &Ground, surface: usize, part: &Part) -> End {
    let mut at = Step::At(surface, *part, None);
    for _ in 0..MOST_CORNERS {
        match at {
            Step::At(surface, part, point) => at = onward(ground, surface, &part, point),
            Step::End(end) => return end,
        }
    }
    End::Unknown
}

enum Step {
    /// At a part of a rim: all along it, or at a point.
    At(usize, Part, Option<Point>),
    End(End),
}

fn onward(ground: &Ground, surface: usize, part: &Part, point: Option<Point>) -> Step {
    let Some(rim) = ground.rim(surface) else {
        return Step::End(End::Unknown);
    };
    let here = point.unwrap_or(part.edge.midpoint());
    match part.fate {
        Fate::Off => Step::End(match part.side {
            Some(side) => End::Off {
                surface,
                side,
                at: here,
            },
            None => End::Unknown,
        }),
        Fate::Drained(taker) => Step::End(End::Drained(taker)),
        Fate::Unknown(_) => Step::End(End::Unknown),
        Fate::Onto(other) => match ground.rim(other) {
            Some(theirs) => down(other, theirs, here),
            None => Step::End(End::Unknown),
        },
        Fate::Shut(_) => along(ground, surface, rim, part),
    }
}

/// Along a part to its lower end, and on from there.
fn along(ground: &Ground, surface: usize, rim: &Rim, part: &Part) -> Step {
    let Some(plane) = rim.plane else {
        return Step::End(End::Unknown);
    };
    let (start, end) = (part.edge.start, part.edge.end);
    let (first, last) = (plane.level_at(start), plane.level_at(end));
    let drop = LEVEL * part.edge.length();
    let sags = plane.levels_along(&part.edge).0 < first.min(last) - drop;
    let mouth = |at: Point| {
        let (taken, _) = ground.mouth_at(at)?;
        Some(Step::End(End::Drained(Some(taken))))
    };
    let stands = |at: Point| Step::End(End::Stands { surface, at });
    if sags {
        let lowest = part.edge.farthest(rim.downhill);
        return mouth(lowest).unwrap_or(stands(lowest));
    }
    if (first - last).abs() <= drop {
        // On the level it runs to what takes it at either end.
        let ends = [start, end]
            .into_iter()
            .filter_map(|end| ground.mouth_at(end));
        let nearest = ends.min_by(|(_, one), (_, other)| one.total_cmp(other));
        return match nearest {
            Some((taken, _)) => Step::End(End::Drained(Some(taken))),
            None => stands(part.edge.midpoint()),
        };
    }
    let is_after = last < first;
    let (corner, level) = if is_after {
        (end, last)
    } else {
        (start, first)
    };
    if let Some(taken) = mouth(corner) {
        return taken;
    }
    let Some(next) = rim.beside(part, is_after) else {
        return stands(corner);
    };
    if !matches!(next.fate, Fate::Shut(_)) {
        return Step::At(surface, *next, Some(corner));
    }
    let far = if is_after {
        next.edge.end
    } else {
        next.edge.start
    };
    let is_lower = plane.level_at(far) < level - LEVEL * next.edge.length();
    if is_lower && rim.presses(&next.edge) {
        return Step::At(surface, *next, Some(corner));
    }
    // Round a corner that juts out, and where an arc turns off the fall, the
    // water leaves the edge, down the fall.
    match foot(rim, corner) {
        Some((beam, at)) if plane.level_at(at) < level - drop => match rim.part(beam.exit.tag) {
            Some(part) => Step::At(surface, *part, Some(at)),
            None => stands(corner),
        },
        _ => stands(corner),
    }
}

/// Down a surface from a point of its rim.
fn down(surface: usize, rim: &Rim, from: Point) -> Step {
    let below = foot(rim, from).and_then(|(beam, at)| Some((rim.part(beam.exit.tag)?, at)));
    // What comes to the foot of a step lies in the corner there.
    let nearest = || {
        let near = rim
            .parts
            .iter()
            .map(|part| (part, part.edge.distance_to(from)));
        let near = near.min_by(|(_, one), (_, other)| one.total_cmp(other));
        near.filter(|(_, distance)| *distance <= 2.0 * ALONGSIDE)
            .map(|(part, _)| (part, from))
    };
    match below.or_else(nearest) {
        Some((part, at)) => Step::At(surface, *part, Some(at)),
        None => Step::End(End::Unknown),
    }
}

/// The beam that a point lies in, and where a drop there leaves it.
fn foot(rim: &Rim, point: Point) -> Option<(&Beam, Point)> {
    let feet = rim.beams.iter().filter_map(|beam| {
        let foot = beam.foot(rim.downhill, point)?;
        (foot.distance(point) > 2.0 * ALONGSIDE).then_some((beam, foot))
    });
    feet.min_by(|(_, one), (_, other)| one.distance(point).total_cmp(&other.distance(point)))
}
