//! Two loops added, cut or brought to their common part: the work of
//! `cavalier_contours`, with the names and the exact places of the sides kept.
//!
//! The library knows nothing of tags and gives places only nearly. Left to
//! itself it also loses the common part of some shapes, once in about 3,600
//! random pairs, where an arc ends on a line that both have. So the sides are
//! first divided where the loops meet ([`part`], [`seam`]), and the library
//! ([`library`]) is given loops that meet in common corners and along common
//! sides only. Every side it gives back is then a piece of a side it was
//! given, of which tag, ends and circle are known ([`walk`]). What it gives
//! back is measured against what ought to bound the result ([`wanted`]); when
//! it differs the library is asked otherwise, and in the end the answer is
//! [`Fault::Unclear`].

mod between;
mod library;
mod part;
mod seam;
mod seams;
mod walk;
mod wanted;
mod weld;

use super::bounds::Bounds;
use super::fault::{Fault, MOST_EDGES};
use super::outline::Loop;
use library::Asking;
use seams::Seams;

/// What is done with two loops.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Operation {
    /// What either encloses.
    Add,
    /// What the first encloses and the second does not.
    Cut,
    /// What both enclose.
    Common,
}

/// Whose tag is kept where sides of both loops coincide.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Named {
    First,
    Second,
}

/// The greatest number of sides of both loops.
const MOST_SIDES: usize = 12 * MOST_EDGES;

/// What comes of two anticlockwise loops: anticlockwise loops, and clockwise
/// ones for the holes in them. Loops that meet in points only stay apart, and a hole that
/// touches the loop around it stays a hole.
///
/// # Errors
/// [`Fault::TooManyEdges`], [`Fault::TooLarge`], or [`Fault::Unclear`] when
/// sides lie so close together that they cannot be told apart.
pub(super) fn combined(
    a: &Loop,
    b: &Loop,
    operation: Operation,
    named: Named,
) -> Result<Vec<Loop>, Fault> {
    if a.edges.len() + b.edges.len() > MOST_SIDES {
        return Err(Fault::TooManyEdges);
    }
    let finite = |boundary: &Loop| boundary.edges.iter().all(|edge| edge.start.is_finite());
    if !finite(a) || !finite(b) {
        return Err(Fault::TooLarge);
    }
    let both = || vec![a.clone(), b.clone()];
    let bounds = [a.bounds(), b.bounds()];
    let [first, second] = &bounds;
    if !first.is_near(second) {
        return Ok(match operation {
            Operation::Add => both(),
            Operation::Cut => vec![a.clone()],
            Operation::Common => Vec::new(),
        });
    }
    let reach = Bounds::of_all(bounds).map_or(0.0, |all| all.reach());
    // What is unclear at one reach is usually clear at a wider one, where
    // sides that all but coincide are taken as one.
    for factor in [1.0, 8.0, 64.0] {
        let seams = Seams::between(a, b, named, factor * reach).ok_or(Fault::TooManyEdges)?;
        let wanted = wanted::measures(&seams, operation);
        if operation == Operation::Add && wanted.all_kept {
            return Ok(both());
        }
        for asking in Asking::WAYS {
            let found = library::combined(&seams, operation, asking)
                .filter(|walks| wanted.agree(walks, &seams));
            if let Some(walks) = found {
                return Ok(walk::loops(walks, &seams));
            }
        }
    }
    Err(Fault::Unclear)
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::super::edge::Edge;
    use super::super::point::Point;
    use super::super::sample::{close, rectangle};
    use super::*;

    /// Areas of the loops, holes negative, in order.
    fn areas(a: &Loop, b: &Loop, operation: Operation) -> Vec<f64> {
        let mut areas: Vec<f64> = combined(a, b, operation, Named::First)
            .unwrap()
            .iter()
            .map(Loop::signed_area)
            .collect();
        areas.sort_by(f64::total_cmp);
        areas
    }

    #[test]
    fn an_arc_that_ends_on_a_common_line_is_no_trouble() {
        // A half disc hung from a line, and a rectangle whose east side is the
        // tangent at its east end: left to itself the library finds nothing
        // in common.
        let (radius, rise) = (1.524, 0.690_927_828_501_453);
        let (west, east) = (Point::new(2.8956, rise), Point::new(5.9436, rise));
        let disc = Loop {
            edges: vec![Edge::arc(west, east, 1.0, 4), Edge::line(east, west, 0)],
        };
        let square = rectangle(1.3716, -0.4572, 4.572, 2.1336).outer;
        let apothem: f64 = rise + 0.4572;
        let below = radius * radius * (apothem / radius).acos()
            - apothem * (radius * radius - apothem * apothem).sqrt();
        let half = 0.5 * PI * radius * radius;
        let cases = [
            (Operation::Common, half - below),
            (Operation::Cut, below),
            (Operation::Add, 4.572 * 2.1336 + below),
        ];
        for (operation, wanted) in cases {
            let found = areas(&disc, &square, operation);
            assert!(
                found.len() == 1 && close(found[0], wanted),
                "{operation:?}: {found:?}"
            );
        }
    }

    #[test]
    fn a_wide_arc_tangent_in_a_corner_of_a_thin_strip_is_no_trouble() {
        // Strips such as come of widening: the arc of the second leaves the
        // side of the first where it is tangent to it.
        let at = Point::new;
        let (west, east) = (2.743_146_256_145_940_3, 2.7432);
        let (low, high) = (-1.219_200_000_000_000_3, -1.188_178_074_350_770_4);
        let side = |from: (f64, f64), to: (f64, f64), bulge: f64| {
            Edge::arc(at(from.0, from.1), at(to.0, to.1), bulge, 4)
        };
        let [corner, foot] = [(east, -1.198_562_5), (west, low)];
        let far = (2.774_167_761_030_521_5, -1.219_361_572_529_423_1);
        let last = (2.774_221_925_649_23, -1.198_562_499_999_999_8);
        let bulge = 0.001_302_089_956_154_003_4;
        let strip = Loop {
            edges: vec![
                side(foot, (east, low), 0.0),
                side((east, low), (east, high), 0.0),
                side((east, high), (west, high), 0.0),
                side((west, high), foot, 0.0),
            ],
        };
        let bent = Loop {
            edges: vec![
                side(corner, foot, -bulge),
                side(foot, far, 0.0),
                side(far, last, bulge),
                side(last, corner, 0.0),
            ],
        };
        let of = |operation| areas(&strip, &bent, operation).iter().sum::<f64>();
        let common = of(Operation::Common);
        let whole = strip.signed_area() + bent.signed_area();
        assert!(common > 0.0 && close(of(Operation::Add), whole - common));
        assert!(close(of(Operation::Cut), strip.signed_area() - common));
    }

    #[test]
    fn holes_come_clockwise() {
        let (yard, pond) = (rectangle(0.0, 0.0, 6.0, 4.0), rectangle(1.0, 1.0, 2.0, 1.0));
        assert_eq!(
            areas(&yard.outer, &pond.outer, Operation::Cut),
            [-2.0, 24.0]
        );
        assert_eq!(areas(&yard.outer, &pond.outer, Operation::Add), [24.0]);
        assert!(areas(&pond.outer, &yard.outer, Operation::Cut).is_empty());
        assert_eq!(areas(&pond.outer, &pond.outer, Operation::Common), [2.0]);
    }

    /// A comb whose teeth, so many of them, point up or, turned, to the east.
    fn comb(teeth: u32, is_turned: bool) -> Loop {
        let long = f64::from(2 * teeth + 2);
        let mut corners = vec![(0.0, 0.0), (long, 0.0)];
        for tooth in (0..teeth).rev() {
            let at = f64::from(2 * tooth);
            corners.extend([(at + 1.0, 1.0), (at + 1.0, long), (at, long), (at, 0.5)]);
        }
        let turned = |(x, y): (f64, f64)| match is_turned {
            true => Point::new(y - 0.25, x - 0.25),
            false => Point::new(x, y),
        };
        let corners: Vec<Point> = corners.into_iter().map(turned).collect();
        let next = corners.iter().cycle().skip(1);
        let pairs = corners.iter().zip(next);
        let edges = pairs.map(|(a, b)| Edge::line(*a, *b, 0)).collect();
        let comb = Loop { edges };
        match is_turned {
            true => comb.reversed(),
            false => comb,
        }
    }

    #[test]
    fn loops_that_meet_too_often_are_soon_given_up() {
        let [one, other] = [comb(200, false), comb(200, true)];
        let mut weld = weld::Weld::new(1e-9);
        assert!(part::divided(&one, &other, &mut weld).is_none());
        assert!(
            weld.points().len() < 5 * MOST_EDGES,
            "{}",
            weld.points().len()
        );
        for operation in [Operation::Add, Operation::Cut, Operation::Common] {
            let found = combined(&one, &other, operation, Named::First);
            assert!(matches!(found, Err(Fault::TooManyEdges)));
        }
    }
}
