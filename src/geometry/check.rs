//! From a list of sides to one sound outline, or the reason why not.

use super::bounds::Bounds;
use super::edge::Edge;
use super::fault::{Fault, LARGEST, MOST_EDGES, measured};
use super::meet;
use super::outline::{Loop, Outline};
use super::point::Point;

/// The least bulge of an arc: it rises a twenty thousand millionth of its
/// chord.
const FLATTEST: f64 = 1e-10;

impl Outline {
    /// One loop of sides, walked in either direction, as an outline without
    /// holes. Sides of no length are dropped, and ends that miss each other
    /// by no more than rounding are joined.
    ///
    /// # Errors
    /// [`Fault::Open`], [`Fault::Crossed`] with the places of the two sides in
    /// `edges`, [`Fault::Empty`], [`Fault::NotFinite`], [`Fault::TooLarge`] or
    /// [`Fault::TooManyEdges`].
    pub fn new(edges: Vec<Edge>) -> Result<Outline, Fault> {
        if edges.len() > MOST_EDGES {
            return Err(Fault::TooManyEdges);
        }
        edges.iter().try_for_each(sound)?;
        let Some(bounds) = Bounds::of_all(edges.iter().map(Bounds::of_edge)) else {
            return Err(Fault::Empty);
        };
        let reach = bounds.reach();
        let kept = without_repeats(&edges, reach);
        let boundary = joined(kept.iter().map(|&(_, edge)| edge).collect(), reach)?;
        let area = boundary.signed_area();
        if let Some((at, first, second)) = crossing(&boundary, reach) {
            let place = |index: usize| kept.get(index).map_or(index, |&(place, _)| place);
            return Err(Fault::Crossed {
                at,
                edges: (place(first), place(second)),
            });
        }
        if area.abs() <= reach * boundary.length() {
            return Err(Fault::Empty);
        }
        let outer = if area > 0.0 {
            boundary
        } else {
            boundary.reversed()
        };
        Ok(Outline {
            outer,
            holes: Vec::new(),
        })
    }
}

/// Refuses a side that is not made of ordinary numbers.
pub(super) fn sound(edge: &Edge) -> Result<(), Fault> {
    for value in [
        edge.start.x,
        edge.start.y,
        edge.end.x,
        edge.end.y,
        edge.bulge,
    ] {
        measured(value)?;
    }
    if edge.is_arc() && edge.chord() != Default::default() && edge.length() > 8.0 * LARGEST {
        return Err(Fault::TooLarge);
    }
    Ok(())
}

/// The sides that have a length, each with its place in the list. An arc that
/// no measure could tell from a straight line becomes one.
fn without_repeats(edges: &[Edge], reach: f64) -> Vec<(usize, Edge)> {
    let has_length = |edge: &Edge| edge.start.distance(edge.end) > reach;
    let straightened = |edge: Edge| Edge {
        bulge: if edge.bulge.abs() < FLATTEST {
            0.0
        } else {
            edge.bulge
        },
        ..edge
    };
    edges
        .iter()
        .map(|&edge| straightened(edge))
        .enumerate()
        .filter(|(_, edge)| has_length(edge))
        .collect()
}

/// The loop in which every side starts exactly where the one before ends.
fn joined(mut edges: Vec<Edge>, reach: f64) -> Result<Loop, Fault> {
    let count = edges.len();
    if count == 0 {
        return Err(Fault::Empty);
    }
    let starts: Vec<Point> = edges.iter().map(|edge| edge.start).collect();
    for (edge, &next) in edges.iter_mut().zip(starts.iter().cycle().skip(1)) {
        let gap = edge.end.distance(next);
        if gap > 4.0 * reach {
            return Err(Fault::Open { at: edge.end, gap });
        }
        edge.end = next;
    }
    Ok(Loop { edges })
}

/// The first place where two sides of the loop meet other than end to start.
fn crossing(boundary: &Loop, reach: f64) -> Option<(Point, usize, usize)> {
    let edges = &boundary.edges;
    let bounds: Vec<Bounds> = edges
        .iter()
        .map(|edge| Bounds::of_edge(edge).grown(reach))
        .collect();
    for (second, later) in edges.iter().enumerate() {
        for (first, earlier) in edges.iter().enumerate().take(second) {
            let near = bounds
                .get(first)
                .zip(bounds.get(second))
                .is_some_and(|(a, b)| a.overlaps(b));
            if !near {
                continue;
            }
            let is_joint = |point: Point| {
                (second == first + 1 && point.distance(later.start) <= 4.0 * reach)
                    || (first == 0
                        && second + 1 == edges.len()
                        && point.distance(later.end) <= 4.0 * reach)
            };
            if let Some(at) = meet::meetings(earlier, later, reach)
                .into_iter()
                .find(|&point| !is_joint(point))
            {
                return Some((at, first, second));
            }
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::super::sample::{close, path};
    use super::*;

    fn line(from: (f64, f64), to: (f64, f64)) -> Edge {
        Edge::line(Point::new(from.0, from.1), Point::new(to.0, to.1), 0)
    }

    #[test]
    fn either_direction_gives_an_anticlockwise_outline() {
        let around = [(0., 0.), (4., 0.), (4., 3.), (0., 3.)];
        let mut back = around;
        back.reverse();
        for corners in [around, back] {
            let outline = Outline::new(path(&corners)).unwrap();
            assert!(close(outline.area(), 12.0));
            assert!(outline.outer.signed_area() > 0.0);
        }
    }

    #[test]
    fn repeated_points_are_dropped() {
        let outline = Outline::new(path(&[
            (0., 0.),
            (4., 0.),
            (4., 0.),
            (4., 3.),
            (0., 3.),
            (0., 0.),
        ]));
        assert_eq!(outline.map(|outline| outline.outer.edges.len()), Ok(4));
    }

    #[test]
    fn an_open_path_tells_its_gap() {
        let open = vec![
            line((0., 0.), (4., 0.)),
            line((4., 0.), (4., 3.)),
            line((4., 3.), (0., 0.5)),
        ];
        assert_eq!(
            Outline::new(open),
            Err(Fault::Open {
                at: Point::new(0.0, 0.5),
                gap: 0.5
            })
        );
    }

    #[test]
    fn what_encloses_nothing_is_empty() {
        let there_and_back = path(&[(0., 0.), (4., 0.)]);
        let cases = [
            vec![],
            there_and_back,
            path(&[(1., 1.)]),
            path(&[(1., 1.), (1., 1.)]),
        ];
        for edges in cases {
            let found = Outline::new(edges);
            assert!(
                matches!(found, Err(Fault::Empty | Fault::Crossed { .. })),
                "{found:?}"
            );
        }
    }

    #[test]
    fn a_bow_tie_names_the_two_sides_that_cross() {
        let found = Outline::new(path(&[(0., 0.), (4., 4.), (4., 0.), (0., 4.)]));
        assert_eq!(
            found,
            Err(Fault::Crossed {
                at: Point::new(2.0, 2.0),
                edges: (0, 2)
            })
        );
    }

    #[test]
    fn a_repeat_does_not_shift_the_sides_named() {
        let found = Outline::new(path(&[(0., 0.), (0., 0.), (4., 4.), (4., 0.), (0., 4.)]));
        assert_eq!(
            found,
            Err(Fault::Crossed {
                at: Point::new(2.0, 2.0),
                edges: (1, 3)
            })
        );
    }

    #[test]
    fn spikes_touches_and_crossing_arcs_are_refused() {
        let spike = path(&[(0., 0.), (4., 0.), (4., 3.), (4., 1.), (0., 1.)]);
        let touch = path(&[(0., 0.), (4., 0.), (4., 3.), (2., 0.), (0., 3.)]);
        let mut bay = path(&[(0., 0.), (4., 0.), (4., 1.), (0., 1.)]);
        if let Some(edge) = bay.get_mut(0) {
            edge.bulge = -1.0;
        }
        for edges in [spike, touch, bay] {
            let found = Outline::new(edges);
            assert!(matches!(found, Err(Fault::Crossed { .. })), "{found:?}");
        }
    }

    #[test]
    fn strange_numbers_are_refused() {
        let with = |x: f64| Outline::new(path(&[(0., 0.), (x, 0.), (4., 3.)]));
        assert_eq!(with(f64::NAN), Err(Fault::NotFinite));
        assert_eq!(with(f64::INFINITY), Err(Fault::NotFinite));
        assert_eq!(with(2e6), Err(Fault::TooLarge));
        assert!(with(1e6).is_ok());
        let many: Vec<(f64, f64)> = (0..1001)
            .map(|i| (f64::from(i), f64::from(i * i)))
            .collect();
        assert_eq!(Outline::new(path(&many)), Err(Fault::TooManyEdges));
    }

    #[test]
    fn a_tangent_joint_is_no_crossing() {
        // A stadium: the arcs meet the straight sides without a corner.
        let stadium = Outline::new(vec![
            line((6., 0.), (18., 0.)),
            Edge::arc(Point::new(18., 0.), Point::new(18., 12.), 1.0, 0),
            line((18., 12.), (6., 12.)),
            Edge::arc(Point::new(6., 12.), Point::new(6., 0.), 1.0, 0),
        ])
        .unwrap();
        assert!(close(stadium.area(), 257.097_335_529_2));
        assert!(close(stadium.perimeter(), 61.699_111_843_1));
    }
}
