//! A line with a width: the strip of the plan that lies beside it.

use super::super::bounds::Bounds;
use super::super::check::sound;
use super::super::edge::{Edge, Tag};
use super::super::fault::{Fault, MOST_EDGES, measured};
use super::super::meet;
use super::super::outline::Outline;
use super::super::point::Point;
use super::traced::{Joint, TANGENT, cut_to, mitred, moved};

/// An arc that turns off the side before it by no more, in radians, was meant to
/// run on smoothly: its end was rounded.
const RUNS_ON: f64 = 2e-3;

/// How wide a ribbon is, and what its sides are known by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ribbon {
    /// How far it reaches to the left of the line, in metres.
    pub left: f64,
    /// How far it reaches to the right of the line, in metres.
    pub right: f64,
    /// The tag of all of its right side; the left keeps the tags of the line.
    pub right_tag: Tag,
    /// The tags of its square ends: where the line begins, and where it ends.
    pub end_tags: [Tag; 2],
}

/// What lies beside an open line: mitred at its corners, however far a mitre
/// reaches, concentric beside its arcs, square at both ends.
///
/// # Errors
/// [`Fault::Tight`] where an arc bends more sharply than what lies on its
/// inside allows; [`Fault::Crossed`], with the places of two sides in `line`,
/// where the line comes too near itself; [`Fault::Empty`],
/// [`Fault::NotFinite`], [`Fault::TooLarge`] or [`Fault::TooManyEdges`].
pub fn ribbon(line: &[Edge], ribbon: Ribbon) -> Result<Outline, Fault> {
    if line.len() > MOST_EDGES / 2 {
        return Err(Fault::TooManyEdges);
    }
    line.iter().try_for_each(sound)?;
    if measured(ribbon.left)? < 0.0 || measured(ribbon.right)? < 0.0 {
        return Err(Fault::NotPositive);
    }
    let Some(bounds) = Bounds::of_all(line.iter().map(Bounds::of_edge)) else {
        return Err(Fault::Empty);
    };
    let reach = bounds.reach();
    let forth: Vec<(usize, Edge)> = line.iter().copied().enumerate().collect();
    let back: Vec<(usize, Edge)> = forth
        .iter()
        .rev()
        .map(|(place, edge)| (*place, edge.reversed()))
        .collect();
    let mut right = side(&forth, ribbon.right, reach)?;
    for (_, edge) in &mut right {
        edge.tag = ribbon.right_tag;
    }
    let left = side(&back, ribbon.left, reach)?;
    let around = closed(right, left, ribbon.end_tags);
    let edges = around.iter().map(|(_, edge)| *edge).collect();
    Outline::new(edges).map_err(|fault| match fault {
        Fault::Crossed { at, edges } => {
            let of_line = |index: usize| around.get(index).map_or(0, |(place, _)| *place);
            Fault::Crossed {
                at,
                edges: (of_line(edges.0), of_line(edges.1)),
            }
        }
        other => other,
    })
}

/// Each side with the place in the line that it comes from.
type Sides = Vec<(usize, Edge)>;

/// Both sides with square ends between them, anticlockwise.
fn closed(right: Sides, left: Sides, [first, last]: [Tag; 2]) -> Sides {
    let cap = |from: &Sides, to: &Sides, tag| {
        let (place, before) = from.last()?;
        let (_, after) = to.first()?;
        Some((*place, Edge::line(before.end, after.start, tag)))
    };
    let (end, start) = (cap(&right, &left, last), cap(&left, &right, first));
    right
        .into_iter()
        .chain(end)
        .chain(left)
        .chain(start)
        .collect()
}

/// The line moved to its right.
fn side(line: &[(usize, Edge)], by: f64, reach: f64) -> Result<Sides, Fault> {
    let moved: Vec<Edge> = line
        .iter()
        .map(|(place, edge)| {
            moved(edge, by).ok_or(Fault::Tight {
                radius: edge.radius(),
                edge: *place,
            })
        })
        .collect::<Result<_, _>>()?;
    let ends = moved.first().zip(moved.last());
    let Some((first, last)) = ends.map(|(first, last)| (first.start, last.end)) else {
        return Ok(Vec::new());
    };
    let pairs = line.iter().zip(line.iter().skip(1));
    let inner = pairs
        .zip(moved.iter().zip(moved.iter().skip(1)))
        .map(|(own, moved)| joint(own, moved, by, reach));
    let mut joints = vec![Joint::at(first)];
    joints.extend(inner.collect::<Result<Vec<_>, _>>()?);
    joints.push(Joint::at(last));
    let mut sides = Vec::new();
    let between = joints.iter().zip(joints.iter().skip(1));
    for (((place, own), moved), (before, after)) in line.iter().zip(&moved).zip(between) {
        // A side that its corners leave nothing of: those beside it cross.
        let ends = (before.starts, after.ends);
        let cut = left_of(moved, ends, by * RUNS_ON, reach).ok_or(Fault::Crossed {
            at: own.midpoint(),
            edges: (place.saturating_sub(1), place + 1),
        })?;
        sides.push((*place, cut));
        sides.extend(after.between.iter().map(|edge| (*place, *edge)));
    }
    Ok(sides)
}

/// What corners leave of a side. Between a bend to the left and one to the
/// right a straight side may begin past its own end, as long as it runs on. An
/// arc whose ends were moved by no more than `slack` keeps its bend.
fn left_of(side: &Edge, (start, end): (Point, Point), slack: f64, reach: f64) -> Option<Edge> {
    if side.is_arc() {
        let near = |own: Point, at: Point| match own.distance(at) <= slack {
            true => own,
            false => at,
        };
        let cut = cut_to(side, near(side.start, start), near(side.end, end), reach)?;
        return Some(Edge { start, end, ..cut });
    }
    let along = side.distance_along(end) - side.distance_along(start);
    (along > reach).then(|| Edge::line(start, end, side.tag))
}

/// The corner between two sides of the line that are moved to their right.
fn joint(
    ((place, edge), (next, after)): (&(usize, Edge), &(usize, Edge)),
    (moved, moved_after): (&Edge, &Edge),
    by: f64,
    reach: f64,
) -> Result<Joint, Fault> {
    let (arriving, leaving) = (edge.direction_at_end(), after.direction_at_start());
    let turn = arriving.angle_to(leaving);
    if turn.abs() <= TANGENT || by == 0.0 {
        return Ok(Joint::at(moved.end));
    }
    let crossed = Fault::Crossed {
        at: edge.end,
        edges: (*place, *next),
    };
    let reaching = 1.0 / (0.5 * turn).cos();
    let apex = edge.end + (arriving.right() + leaving.right()).unit() * (by * reaching);
    // An arc as good as tangent meets the side before it where the mitre says:
    // on its own circle to less than can be measured.
    if turn.abs() <= RUNS_ON && (edge.is_arc() || after.is_arc()) {
        return Ok(Joint::at(apex));
    }
    if turn > 0.0 {
        return match (1.0..1e6).contains(&reaching) {
            true => Ok(mitred(moved, apex, moved_after)),
            false => Err(crossed),
        };
    }
    let nearest = |a: &Point, b: &Point| edge.end.distance(*a).total_cmp(&edge.end.distance(*b));
    let found = meet::carried_on(moved, moved_after, reach);
    found
        .into_iter()
        .min_by(nearest)
        .map(Joint::at)
        .ok_or(crossed)
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use proptest::prelude::*;

    use super::super::super::sample::{cases, close};
    use super::super::super::{Vector, bulge_of_sweep};
    use super::*;

    const TAGS: Ribbon = Ribbon {
        left: 0.5,
        right: 0.5,
        right_tag: 91,
        end_tags: [92, 93],
    };

    fn line(corners: &[(f64, f64)]) -> Vec<Edge> {
        let ends = corners.iter().zip(corners.iter().skip(1));
        (0..)
            .zip(ends)
            .map(|(tag, (from, to))| {
                Edge::line(Point::new(from.0, from.1), Point::new(to.0, to.1), tag)
            })
            .collect()
    }

    #[test]
    fn a_straight_line_is_a_rectangle() {
        let path = line(&[(0.0, 0.0), (4.0, 0.0)]);
        for (left, right, centre) in [(0.6, 0.6, 0.0), (1.2, 0.0, 0.6), (0.0, 1.2, -0.6)] {
            let found = ribbon(
                &path,
                Ribbon {
                    left,
                    right,
                    ..TAGS
                },
            )
            .unwrap();
            assert!(close(found.area(), 4.8) && close(found.perimeter(), 10.4));
            assert!(found.centroid().distance(Point::new(2.0, centre)) < 1e-12);
            for (tag, length) in [(0, 4.0), (91, 4.0), (92, 1.2), (93, 1.2)] {
                let sides: f64 = found.edges_tagged(tag).map(Edge::length).sum();
                assert!(close(sides, length), "{tag}");
            }
        }
    }

    #[test]
    fn an_arc_is_part_of_a_ring() {
        let quarter = bulge_of_sweep(0.5 * PI);
        let bend = [
            Edge::line(Point::new(-3.0, 0.0), Point::ORIGIN, 0),
            Edge::arc(Point::ORIGIN, Point::new(2.0, 2.0), quarter, 1),
        ];
        let found = ribbon(&bend, TAGS).unwrap();
        let wanted = 3.0 + 0.25 * PI * (2.5 * 2.5 - 1.5 * 1.5);
        assert!(close(found.area(), wanted), "{}", found.area());
    }

    #[test]
    fn what_leaves_no_clear_inside_is_refused() {
        let quarter = bulge_of_sweep(0.5 * PI);
        let tight = [Edge::arc(Point::ORIGIN, Point::new(0.4, 0.4), quarter, 0)];
        let fault = ribbon(&tight, TAGS);
        assert!(
            matches!(fault, Err(Fault::Tight { edge: 0, .. })),
            "{fault:?}"
        );
        for corners in [
            // Back beside itself, on itself, across itself, and round to its start.
            &[(0.0, 0.0), (4.0, 0.0), (4.0, 0.8), (0.0, 0.8)][..],
            &[(0.0, 0.0), (4.0, 0.0), (1.0, 0.0)],
            &[(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (2.0, 3.0), (2.0, -3.0)],
            &[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 0.0)],
        ] {
            let fault = ribbon(&line(corners), TAGS);
            assert!(
                matches!(fault, Err(Fault::Crossed { .. })),
                "{corners:?} {fault:?}"
            );
        }
    }

    #[test]
    fn an_arc_whose_end_was_rounded_runs_on() {
        // 4 m straight, then 30° of a bend of 3 m.
        let wanted = 1.2 * (4.0 + 3.0 * PI / 6.0);
        for end in [0.401_924, 0.402, 0.4019, 0.401, 0.403] {
            for side in [1.0, -1.0] {
                let (from, to) = (Point::new(4.0, 0.0), Point::new(5.5, side * end));
                let half = 0.5 * (to - from).length() / 3.0;
                let bulge = (0.5 * half.asin()).tan() * side;
                let path = [
                    Edge::line(Point::ORIGIN, from, 0),
                    Edge::arc(from, to, bulge, 1),
                ];
                let both = Ribbon {
                    left: 0.6,
                    right: 0.6,
                    ..TAGS
                };
                let found = ribbon(&path, both).unwrap().area();
                assert!((found - wanted).abs() < 0.002, "{end} {side}: {found}");
            }
        }
    }

    /// Lines whose steps are long beside their turns.
    fn bent() -> impl Strategy<Value = Vec<(f64, f64)>> {
        let step = (2.0..6.0f64, -1.2..1.2f64);
        proptest::collection::vec(step, 1..6).prop_map(|steps| {
            let (mut at, mut bearing, mut corners) = ((0.0, 0.0), 0.0f64, vec![(0.0, 0.0)]);
            for (length, turn) in steps {
                bearing += turn;
                at = (at.0 + length * bearing.cos(), at.1 + length * bearing.sin());
                corners.push(at);
            }
            corners
        })
    }

    proptest! {
        #![proptest_config(cases(512))]

        #[test]
        fn a_ribbon_is_as_large_as_its_line_is_long(
            corners in bent(), width in 0.2..1.2f64, turn in -3.0..3.0f64,
        ) {
            let both = Ribbon { left: width / 2.0, right: width / 2.0, ..TAGS };
            let path = line(&corners);
            let Ok(found) = ribbon(&path, both) else { return Ok(()) };
            // What a mitre gains on the outer side it loses on the inner.
            let length: f64 = path.iter().map(Edge::length).sum();
            prop_assert!(close(found.area(), width * length));
            let changed = |change: &dyn Fn(Point) -> Point| {
                let moved = path.iter().map(|edge| Edge {
                    start: change(edge.start),
                    end: change(edge.end),
                    ..*edge
                });
                ribbon(&moved.collect::<Vec<_>>(), both).map(|found| (found.area(), found.perimeter()))
            };
            let turned = |point: Point| Point::ORIGIN + Vector::new(point.x, point.y).turned(turn);
            let mirrored = |point: Point| Point::new(point.x, -point.y);
            for (area, around) in [changed(&turned).unwrap(), changed(&mirrored).unwrap()] {
                prop_assert!(close(area, found.area()) && close(around, found.perimeter()));
            }
            // Seen from its other end it is the same ribbon.
            let back: Vec<Edge> = path.iter().rev().map(Edge::reversed).collect();
            prop_assert!(close(ribbon(&back, both).unwrap().perimeter(), found.perimeter()));
        }
    }
}
