//! The laying pattern of a surface as lines: where units of one size meet.
//!
//! The lines are those of cells, a unit with its joint, so that they are the
//! middles of the joints. Each unit brings its lower and its left side, its
//! neighbours bring the others.

use crate::geometry::{Outline, Point, Vector};
use crate::model::Pattern;

/// Units narrower than this on paper are not drawn one by one.
pub(crate) const NARROWEST: f64 = 1.2;

/// How far the length of a unit may be from so many widths, as a share of a
/// width, in a pattern that is made of both.
const OFF_SQUARE: f64 = 0.2;

/// Where a pattern starts and which way its units lie.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Lattice {
    /// A corner of a unit.
    pub origin: Point,
    /// The way along the units, of length one.
    pub along: Vector,
    /// Length and width of a unit with its joint, in millimetres of paper.
    pub cell: (f64, f64),
    /// How far each row of running bond is moved on, as a part of a unit.
    pub offset: f64,
}

/// The lines of a pattern over an outline on paper, not yet cut at it; none
/// where it cannot be drawn at this size or with units of this shape.
pub(crate) fn lines(
    pattern: Pattern,
    lattice: &Lattice,
    outline: &Outline,
) -> Option<Vec<(Point, Point)>> {
    let (length, width) = lattice.cell;
    if !(width.min(length) >= NARROWEST && length.is_finite() && width.is_finite()) {
        return None;
    }
    let reach = Reach::of(lattice, outline);
    let local = match pattern {
        Pattern::Irregular | Pattern::Rings | Pattern::Courses | Pattern::Ashlar => return None,
        Pattern::RunningBond => courses(&reach, length, width, lattice.offset),
        Pattern::StackBond => courses(&reach, length, width, 0.0),
        Pattern::Herringbone => herringbone(&reach, widths(length, width)?, width),
        Pattern::BasketWeave => basket_weave(&reach, widths(length, width)?, width),
    };
    let across = lattice.along.left();
    let on_paper = |(x, y): (f64, f64)| lattice.origin + lattice.along * x + across * y;
    let placed = local.into_iter();
    Some(
        placed
            .map(|(from, to)| (on_paper(from), on_paper(to)))
            .collect(),
    )
}

type Local = Vec<((f64, f64), (f64, f64))>;

/// How many widths make a length, if it is a whole number.
fn widths(length: f64, width: f64) -> Option<i64> {
    let count = (length / width).round();
    let is_whole = (length / width - count).abs() <= OFF_SQUARE && (1.0..=12.0).contains(&count);
    is_whole.then_some(count as i64)
}

/// What an outline takes along a lattice and across it.
struct Reach {
    along: (f64, f64),
    across: (f64, f64),
}

impl Reach {
    fn of(lattice: &Lattice, outline: &Outline) -> Reach {
        let way = |direction: Vector| {
            let (least, most) = outline.extremes(direction);
            let start = direction.dot(lattice.origin - Point::ORIGIN);
            (least - start, most - start)
        };
        Reach {
            along: way(lattice.along),
            across: way(lattice.along.left()),
        }
    }

    /// The whole numbers of steps that cover a way, one more on either side.
    fn steps(way: (f64, f64), step: f64) -> std::ops::RangeInclusive<i64> {
        (way.0 / step).floor() as i64 - 1..=(way.1 / step).ceil() as i64 + 1
    }
}

/// Rows of units, each moved on by a part of a unit from the one before.
fn courses(reach: &Reach, length: f64, width: f64, moved: f64) -> Local {
    let mut lines = Vec::new();
    let (start, end) = (reach.along.0 - length, reach.along.1 + length);
    for row in Reach::steps(reach.across, width) {
        let y = row as f64 * width;
        lines.push(((start, y), (end, y)));
        let shift = length * (moved * row as f64).rem_euclid(1.0);
        for unit in Reach::steps((reach.along.0 - shift, reach.along.1 - shift), length) {
            let x = unit as f64 * length + shift;
            lines.push(((x, y), (x, y + width)));
        }
    }
    lines
}

/// The lower and the left side of a unit.
fn corner(lines: &mut Local, x: f64, y: f64, length: f64, height: f64) {
    lines.push(((x, y), (x + length, y)));
    lines.push(((x, y), (x, y + height)));
}

/// Units that meet at right angles, end against side: in the cell x, y the
/// way x − y, counted round twice the length of a unit, says which way the
/// unit there lies and how far along it the cell is.
fn herringbone(reach: &Reach, count: i64, width: f64) -> Local {
    let mut lines = Vec::new();
    let long = count as f64 * width;
    for row in Reach::steps((reach.across.0 - long, reach.across.1), width) {
        let round = 2 * count;
        for column in Reach::steps((reach.along.0 - long, reach.along.1), width) {
            let (x, y) = (column as f64 * width, row as f64 * width);
            match (column - row).rem_euclid(round) {
                0 => corner(&mut lines, x, y, long, width),
                last if last == round - 1 => corner(&mut lines, x, y, width, long),
                _ => {}
            }
        }
    }
    lines
}

/// Squares of units that lie along in one and across in the next.
fn basket_weave(reach: &Reach, count: i64, width: f64) -> Local {
    let mut lines = Vec::new();
    let long = count as f64 * width;
    for row in Reach::steps(reach.across, long) {
        for column in Reach::steps(reach.along, long) {
            let (x, y) = (column as f64 * long, row as f64 * long);
            for unit in 0..count {
                let moved = unit as f64 * width;
                match (column + row).rem_euclid(2) {
                    0 => corner(&mut lines, x, y + moved, long, width),
                    _ => corner(&mut lines, x + moved, y, width, long),
                }
            }
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Edge, Loop};

    fn field() -> Outline {
        let corners = [(0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0)];
        let points = corners.map(|(x, y)| Point::new(x, y));
        let pairs = points.iter().zip(points.iter().cycle().skip(1));
        Outline {
            outer: Loop {
                edges: pairs.map(|(a, b)| Edge::line(*a, *b, 0)).collect(),
            },
            holes: Vec::new(),
        }
    }

    fn drawn(pattern: Pattern, cell: (f64, f64)) -> Option<f64> {
        let lattice = Lattice {
            origin: Point::new(0.0, 0.0),
            along: Vector::new(1.0, 0.0),
            cell,
            offset: 0.5,
        };
        let field = field();
        let lines = lines(pattern, &lattice, &field)?;
        let length =
            |(from, to): &(Point, Point)| super::super::clip::length_inside(*from, *to, &field);
        Some(lines.iter().map(length).sum())
    }

    /// Each unit brings half its way round: its length and its width. Lines
    /// along the border of the field are counted whole, so allow for them.
    #[test]
    fn every_pattern_has_the_joints_of_its_units() {
        let expected = 60.0 * 40.0 / (4.0 * 2.0) * (4.0 + 2.0);
        for pattern in [
            Pattern::RunningBond,
            Pattern::StackBond,
            Pattern::Herringbone,
            Pattern::BasketWeave,
        ] {
            let found = drawn(pattern, (4.0, 2.0)).expect("it is drawn");
            assert!(
                (found - expected).abs() <= 200.0,
                "{pattern:?}: {found} and not {expected}"
            );
        }
    }

    #[test]
    fn what_cannot_be_drawn_true_is_not_drawn() {
        assert_eq!(drawn(Pattern::RunningBond, (2.0, 1.0)), None);
        assert_eq!(drawn(Pattern::Herringbone, (5.0, 2.0)), None);
        assert_eq!(drawn(Pattern::Irregular, (5.0, 2.0)), None);
        assert_eq!(drawn(Pattern::StackBond, (f64::INFINITY, 2.0)), None);
    }
}
