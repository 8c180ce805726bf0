//! The moved outline traced at once, side by side and corner by corner.
//!
//! Most outlines come out whole when each side is moved and neighbours are
//! brought to where they meet: then no strips have to be joined. Where that
//! is not plain, because a side vanishes or two parts of the line run into
//! each other, nothing is given, and the strips tell.

use std::f64::consts::PI;

use super::super::bounds::Bounds;
use super::super::edge::{Edge, NO_TAG};
use super::super::meet;
use super::super::outline::{Loop, Outline};
use super::super::point::{Point, Vector};
use super::corner::MITRE_LIMIT;

/// Directions within this angle, in radians, are one.
pub(super) const TANGENT: f64 = 1e-9;

/// An inner corner sharper than this is left to the strips, as one whose
/// sides are shorter than they are moved: the strip of one side reaches
/// across the other there.
const SHARPEST: f64 = 0.5 * PI + 1e-6;

/// How two sides, moved or not, are brought together.
pub(super) struct Joint {
    /// Where the first one ends.
    pub ends: Point,
    /// The sides between them.
    pub between: Vec<Edge>,
    /// Where the second one starts.
    pub starts: Point,
}

/// What [`widened`](super::widened) gives, where it is plain.
pub(super) fn traced(
    outline: &Outline,
    beyond: f64,
    free: &dyn Fn(&Edge) -> bool,
) -> Option<Outline> {
    let reach = Bounds::of_all(outline.edges().map(Bounds::of_edge))?.reach();
    let outer = traced_loop(&outline.outer, beyond, free, reach)?;
    if outer.signed_area() <= 0.0 {
        return None;
    }
    let mut holes = Vec::with_capacity(outline.holes.len());
    for hole in &outline.holes {
        let shrunk = traced_loop(hole, beyond, free, reach)?;
        if shrunk.signed_area() >= 0.0 {
            return None;
        }
        holes.push(shrunk);
    }
    Some(Outline { outer, holes })
}

/// A loop with its free sides moved to their right; nothing unless every side
/// keeps some length and the loop stays simple.
fn traced_loop(
    boundary: &Loop,
    beyond: f64,
    free: &dyn Fn(&Edge) -> bool,
    reach: f64,
) -> Option<Loop> {
    if !boundary.edges.iter().any(free) {
        return Some(boundary.clone());
    }
    let joints: Option<Vec<Joint>> = boundary
        .with_neighbours()
        .map(|(_, edge, after)| {
            let moved = |side| match free(side) {
                true => moved(side, beyond),
                false => Some(*side),
            };
            let both = [moved(edge)?, moved(after)?];
            match (free(edge), free(after)) {
                (false, false) => Some(Joint::at(edge.end)),
                (true, true) => both_move([edge, after], both, beyond, reach),
                (true, false) => one_moves([edge, after], both, beyond),
                // Seen the other way round it is the same corner.
                (false, true) => one_moves_in_a_mirror([edge, after], both, beyond),
            }
        })
        .collect();
    let joints = joints?;
    let before = joints.iter().cycle().skip(joints.len().saturating_sub(1));
    let mut edges = Vec::with_capacity(2 * boundary.edges.len());
    for ((edge, before), after) in boundary.edges.iter().zip(before).zip(&joints) {
        let side = match free(edge) {
            true => moved(edge, beyond)?,
            false => *edge,
        };
        edges.push(cut_to(&side, before.starts, after.ends, reach)?);
        edges.extend(after.between.iter().copied());
    }
    let turns = boundary.signed_area().signum();
    // One that crosses or touches itself is refused here.
    let whole = Outline::new(edges.clone()).ok()?.outer;
    let kept = Loop { edges };
    (kept.signed_area().signum() == turns && whole.edges.len() == kept.edges.len()).then_some(kept)
}

/// A side moved to its right; nothing if an arc closes in on its centre.
pub(super) fn moved(edge: &Edge, beyond: f64) -> Option<Edge> {
    let moved = Edge {
        start: edge.start + edge.direction_at_start().right() * beyond,
        end: edge.end + edge.direction_at_end().right() * beyond,
        ..*edge
    };
    let radius = edge.radius();
    let is_left = !edge.is_arc() || radius + beyond * edge.bulge.signum() > 1e-6 * radius;
    is_left.then_some(moved)
}

impl Joint {
    pub(super) fn at(point: Point) -> Joint {
        Joint {
            ends: point,
            between: Vec::new(),
            starts: point,
        }
    }
}

/// The corner between two sides that move.
fn both_move(
    [edge, after]: [&Edge; 2],
    [moved, moved_after]: [Edge; 2],
    beyond: f64,
    reach: f64,
) -> Option<Joint> {
    let (arriving, leaving) = (edge.direction_at_end(), after.direction_at_start());
    let turn = arriving.angle_to(leaving);
    let shortest = edge.length().min(after.length());
    if turn < -SHARPEST || (turn < -TANGENT && shortest < beyond) {
        return None;
    }
    if turn.abs() <= TANGENT {
        return Some(Joint::at(moved.end));
    }
    if turn < 0.0 {
        let crossings = inner_crossings(&moved, &moved_after, reach);
        return match crossings.as_slice() {
            [only] => Some(Joint::at(*only)),
            _ => None,
        };
    }
    let reaching = 1.0 / (0.5 * turn).cos();
    if reaching > MITRE_LIMIT * (1.0 - 1e-9) {
        return None;
    }
    let apex = edge.end + (arriving.right() + leaving.right()).unit() * (beyond * reaching);
    Some(mitred(&moved, apex, &moved_after))
}

/// Two sides mitred at an apex: straight ones are lengthened, arcs run on
/// along their tangents.
pub(super) fn mitred(edge: &Edge, apex: Point, after: &Edge) -> Joint {
    let (mut joint, mut between) = (Joint::at(apex), Vec::new());
    if edge.is_arc() {
        joint.ends = edge.end;
        between.push(Edge::line(edge.end, apex, edge.tag));
    }
    if after.is_arc() {
        joint.starts = after.start;
        between.push(Edge::line(apex, after.start, after.tag));
    }
    joint.between = between;
    joint
}

/// Where two moved sides cross that are neighbours in an inner corner.
fn inner_crossings(edge: &Edge, after: &Edge, reach: f64) -> Vec<Point> {
    let found = meet::carried_on(edge, after, reach);
    let is_on = |side: &Edge, point: Point| {
        let along = side.distance_along(point);
        along > reach && along < side.length() - reach
    };
    found
        .into_iter()
        .filter(|point| is_on(edge, *point) && is_on(after, *point))
        .collect()
}

/// The corner between a straight side that moves and one that stays: the
/// strip ends on the line of the one that stays, or square where that goes on
/// in nearly the same line.
fn one_moves([edge, after]: [&Edge; 2], [moved, _]: [Edge; 2], beyond: f64) -> Option<Joint> {
    let met = met(
        edge,
        edge.direction_at_end(),
        after,
        after.direction_at_start(),
        beyond,
    )?;
    Some(match met {
        Met::Line(meets) => Joint::at(meets),
        Met::Square => Joint {
            ends: moved.end,
            between: vec![Edge::line(moved.end, edge.end, NO_TAG)],
            starts: edge.end,
        },
    })
}

/// The same where the first stays and the second moves.
fn one_moves_in_a_mirror(
    [edge, after]: [&Edge; 2],
    [_, moved]: [Edge; 2],
    beyond: f64,
) -> Option<Joint> {
    let onward = -after.direction_at_start();
    let met = met(after, onward, edge, -edge.direction_at_end(), beyond)?;
    Some(match met {
        Met::Line(meets) => Joint::at(meets),
        Met::Square => Joint {
            ends: edge.end,
            between: vec![Edge::line(edge.end, moved.start, NO_TAG)],
            starts: moved.start,
        },
    })
}

/// Where the strip of a side ends.
enum Met {
    Line(Point),
    Square,
}

/// The end of the strip of `edge`, which runs `onward` into a corner that the
/// neighbour `stays` leaves `along`.
fn met(edge: &Edge, onward: Vector, stays: &Edge, along: Vector, beyond: f64) -> Option<Met> {
    if edge.is_arc() || stays.is_arc() {
        return None;
    }
    let is_end = onward.dot(edge.chord()) > 0.0;
    let (corner, outward) = match is_end {
        true => (edge.end, onward.right()),
        false => (edge.start, onward.left()),
    };
    let aside = along.dot(outward);
    if aside.abs() * MITRE_LIMIT >= 1.0 {
        return Some(Met::Line(corner + along * (beyond / aside)));
    }
    // Back along the side itself there is no room for a square end.
    (along.dot(onward) > 0.0).then_some(Met::Square)
}

/// A side between two points on it or on its line; nothing if little or
/// nothing of it is left.
pub(super) fn cut_to(side: &Edge, start: Point, end: Point, reach: f64) -> Option<Edge> {
    if !side.is_arc() {
        // A cut of the side beyond its other end is no cut of it alone.
        let (from, to) = (side.distance_along(start), side.distance_along(end));
        let is_left = from < side.length() - reach && to > reach && to - from > reach;
        return is_left.then(|| Edge::line(start, end, side.tag));
    }
    if start == side.start && end == side.end {
        return Some(*side);
    }
    let (from, to) = (side.distance_along(start), side.distance_along(end));
    let is_within = from >= -reach && to <= side.length() + reach && to - from > reach;
    is_within.then(|| Edge {
        start,
        end,
        ..side.between(from, to)
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::super::sample::{
        cases, holed_shape, rectangle, rounded, shape, simple_shape,
    };
    use super::super::super::{Outline, Tag, difference, union};
    use super::super::widen::joined_strips;
    use super::*;

    fn near(found: f64, wanted: f64) -> bool {
        (found - wanted).abs() <= 1e-9 * wanted.abs().max(1.0)
    }

    /// Holds what is traced to what the strips come to.
    fn agrees(outline: &Outline, beyond: f64, fixed: &[Tag]) -> Result<bool, TestCaseError> {
        let free = |edge: &Edge| !fixed.contains(&edge.tag);
        let Some(traced) = traced(outline, beyond, &free) else {
            return Ok(false);
        };
        let Ok(wanted) = joined_strips(outline, beyond, &free) else {
            return Err(TestCaseError::fail("traced where the strips are unclear"));
        };
        prop_assert!(
            near(traced.area(), wanted.area()),
            "{} for {}",
            traced.area(),
            wanted.area()
        );
        prop_assert!(
            near(traced.perimeter(), wanted.perimeter()),
            "{traced:?}\n{wanted:?}"
        );
        prop_assert_eq!(traced.holes.len(), wanted.holes.len());
        for tag in (0..9).chain([NO_TAG]) {
            let length = |outline: &Outline| outline.edges_tagged(tag).map(Edge::length).sum();
            prop_assert!(near(length(&traced), length(&wanted)), "tag {tag}");
        }
        Ok(true)
    }

    #[test]
    fn plain_outlines_are_traced() {
        let bay = Outline::circle(Point::new(3.0, 0.0), 0.6, 7).unwrap();
        let court = rectangle(0.0, 0.0, 6.0, 4.0);
        let with_bay = union(&court, &bay).unwrap();
        for (outline, fixed) in [
            (&court, &[][..]),
            (&court, &[2]),
            (&court, &[1, 2]),
            (&with_bay, &[]),
            (&with_bay, &[2]),
            (&rounded(0.0, 0.0, 6.0, 4.0, 0.5), &[]),
            (&bay, &[]),
        ] {
            assert!(agrees(outline, 0.2, fixed).unwrap(), "{outline:?}");
        }
        // A notch that fills up is left to the strips.
        let notched = difference(&court, &rectangle(2.0, -1.0, 0.3, 2.0));
        assert!(!agrees(&notched.unwrap(), 0.2, &[]).unwrap());
    }

    proptest! {
        #![proptest_config(cases(512))]

        #[test]
        fn what_is_traced_is_what_the_strips_come_to(
            simple in simple_shape(), any in shape(), holed in holed_shape(),
            beyond in 0.01..1.5f64, fixed in proptest::collection::vec(0..6u32, 0..3),
        ) {
            for outline in [simple, any, holed] {
                agrees(&outline, beyond, &fixed)?;
            }
        }
    }
}
