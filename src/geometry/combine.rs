//! Adding, cutting and the common part of two outlines.

use super::fault::{Fault, MOST_EDGES};
use super::outline::Outline;
use super::point::Point;
use super::{meet, region};

/// The one outline that covers what either covers. Every piece of a side that
/// is left keeps its tag; where sides of both run along each other, that of
/// `a` is kept.
///
/// # Errors
/// [`Fault::Split`] if the two lie apart, [`Fault::Touching`] if they meet in
/// a point only, [`Fault::TooManyEdges`], [`Fault::Unclear`].
pub fn union(a: &Outline, b: &Outline) -> Result<Outline, Fault> {
    let pieces = region::added(a, b)?;
    if pieces.len() > 1
        && let Some(at) = touching(a, b)
    {
        return Err(Fault::Touching { at });
    }
    of_few_edges(only(pieces)?)
}

/// What is left of `a` without `b`: a hole where `b` lies inside, a bite
/// where it breaks the edge.
///
/// # Errors
/// [`Fault::Empty`] if nothing is left, [`Fault::Split`] if `a` falls in
/// pieces, [`Fault::TooManyEdges`], [`Fault::Unclear`].
pub fn difference(a: &Outline, b: &Outline) -> Result<Outline, Fault> {
    of_few_edges(only(difference_pieces(a, b)?)?)
}

/// The pieces of `a` that are left without `b`, perhaps none.
///
/// # Errors
/// [`Fault::Unclear`].
pub fn difference_pieces(a: &Outline, b: &Outline) -> Result<Vec<Outline>, Fault> {
    region::cut(a, b)
}

/// The pieces that both outlines cover, perhaps none.
///
/// # Errors
/// [`Fault::Unclear`].
pub fn intersection(a: &Outline, b: &Outline) -> Result<Vec<Outline>, Fault> {
    region::common(a, b)
}

/// The area that both outlines cover, in square metres; 0 if they only touch.
///
/// # Errors
/// [`Fault::Unclear`].
pub fn intersection_area(a: &Outline, b: &Outline) -> Result<f64, Fault> {
    Ok(intersection(a, b)?.iter().map(Outline::area).sum())
}

/// A point in which sides of both meet.
fn touching(a: &Outline, b: &Outline) -> Option<Point> {
    let reach = a.bounds().reach().max(b.bounds().reach());
    a.edges().find_map(|side| {
        b.edges()
            .find_map(|other| meet::meetings(side, other, reach).first().copied())
    })
}

/// The outline, if it has no more sides than one may be drawn with: shapes
/// added and cut without end would take ever longer.
fn of_few_edges(outline: Outline) -> Result<Outline, Fault> {
    if outline.edges().count() > MOST_EDGES {
        return Err(Fault::TooManyEdges);
    }
    Ok(outline)
}

/// The one outline, if it is one.
pub(super) fn only(mut pieces: Vec<Outline>) -> Result<Outline, Fault> {
    let count = pieces.len();
    match pieces.pop() {
        None => Err(Fault::Empty),
        Some(outline) if count == 1 => Ok(outline),
        Some(_) => Err(Fault::Split { pieces: count }),
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::super::Edge;
    use super::super::sample::{close, rectangle, rounded};
    use super::*;

    fn circle(x: f64, y: f64, radius: f64) -> Outline {
        Outline::circle(Point::new(x, y), radius, 9).unwrap()
    }

    /// What an operation gives: area, perimeter, number of sides, of holes.
    type Given = Result<(f64, f64, usize, usize), Fault>;

    fn described(found: &Result<Outline, Fault>) -> Given {
        let outline = found.as_ref().map_err(|&fault| fault)?;
        let sides = outline.edges().count();
        Ok((
            outline.area(),
            outline.perimeter(),
            sides,
            outline.holes.len(),
        ))
    }

    fn same(found: &Given, wanted: &Given) -> bool {
        match (found, wanted) {
            (Ok((area, perimeter, sides, holes)), Ok(wanted)) => {
                close(*area, wanted.0)
                    && close(*perimeter, wanted.1)
                    && (*sides, *holes) == (wanted.2, wanted.3)
            }
            (Err(Fault::Touching { at }), Err(Fault::Touching { at: wanted })) => {
                at.distance(*wanted) < 1e-9
            }
            _ => found == wanted,
        }
    }

    #[test]
    fn what_is_added() {
        let square = rectangle(0.0, 0.0, 4.0, 4.0);
        // The common part of two circles of radius 5, centres 6 apart: closed form.
        let lens = 50.0 * 0.6f64.acos() - 24.0;
        let cases: Vec<(&str, Outline, Outline, Given)> = vec![
            (
                "side by side",
                square.clone(),
                rectangle(4.0, 0.0, 2.0, 4.0),
                Ok((24.0, 20.0, 4, 0)),
            ),
            (
                "part of a side",
                square.clone(),
                rectangle(4.0, 1.0, 2.0, 2.0),
                Ok((20.0, 20.0, 8, 0)),
            ),
            (
                "overlapping",
                square.clone(),
                rectangle(2.0, 2.0, 4.0, 4.0),
                Ok((28.0, 24.0, 8, 0)),
            ),
            (
                "the same",
                square.clone(),
                square.clone(),
                Ok((16.0, 16.0, 4, 0)),
            ),
            (
                "inside",
                square.clone(),
                circle(2.0, 2.0, 1.0),
                Ok((16.0, 16.0, 4, 0)),
            ),
            (
                "inside, touching",
                square.clone(),
                circle(2.0, 1.0, 1.0),
                Ok((16.0, 16.0, 4, 0)),
            ),
            (
                "inscribed",
                square.clone(),
                circle(2.0, 2.0, 2.0),
                Ok((16.0, 16.0, 4, 0)),
            ),
            (
                "bay",
                square.clone(),
                circle(2.0, 0.0, 1.0),
                Ok((16.0 + PI / 2.0, 14.0 + PI, 6, 0)),
            ),
            (
                "circles",
                circle(0.0, 0.0, 5.0),
                circle(6.0, 0.0, 5.0),
                Ok((50.0 * PI - lens, 20.0 * (PI - 0.6f64.acos()), 4, 0)),
            ),
            (
                "apart",
                square.clone(),
                rectangle(5.0, 0.0, 2.0, 4.0),
                Err(Fault::Split { pieces: 2 }),
            ),
            (
                "a gap of a hair",
                square.clone(),
                rectangle(4.0001, 0.0, 2.0, 4.0),
                Err(Fault::Split { pieces: 2 }),
            ),
            (
                "corner to corner",
                square.clone(),
                rectangle(4.0, 4.0, 2.0, 2.0),
                Err(Fault::Touching {
                    at: Point::new(4.0, 4.0),
                }),
            ),
            (
                "tangent outside",
                square.clone(),
                circle(5.0, 2.0, 1.0),
                Err(Fault::Touching {
                    at: Point::new(4.0, 2.0),
                }),
            ),
            (
                "tangent circles",
                circle(0.0, 0.0, 3.0),
                circle(5.0, 0.0, 2.0),
                Err(Fault::Touching {
                    at: Point::new(3.0, 0.0),
                }),
            ),
        ];
        for (name, a, b, wanted) in cases {
            for (first, second) in [(&a, &b), (&b, &a)] {
                let found = described(&union(first, second));
                assert!(same(&found, &wanted), "{name}: {found:?}");
            }
        }
    }

    #[test]
    fn what_is_cut() {
        let square = rectangle(0.0, 0.0, 4.0, 4.0);
        let cases: Vec<(&str, Outline, Given)> = vec![
            (
                "hole",
                circle(2.0, 2.0, 1.0),
                Ok((16.0 - PI, 16.0 + 2.0 * PI, 6, 1)),
            ),
            (
                "hole touching a side",
                circle(2.0, 1.0, 1.0),
                Ok((16.0 - PI, 16.0 + 2.0 * PI, 6, 1)),
            ),
            (
                "bite",
                circle(2.0, 0.0, 1.0),
                Ok((16.0 - PI / 2.0, 14.0 + PI, 6, 0)),
            ),
            (
                "corner",
                rectangle(3.0, 3.0, 2.0, 2.0),
                Ok((15.0, 16.0, 6, 0)),
            ),
            (
                "slit to the edge",
                rectangle(1.0, 1.0, 1.0, 9.0),
                Ok((13.0, 22.0, 8, 0)),
            ),
            (
                "along the outside",
                rectangle(4.0, 0.0, 2.0, 4.0),
                Ok((16.0, 16.0, 4, 0)),
            ),
            (
                "far off",
                rectangle(9.0, 9.0, 2.0, 4.0),
                Ok((16.0, 16.0, 4, 0)),
            ),
            (
                "in two",
                rectangle(1.0, -1.0, 1.0, 9.0),
                Err(Fault::Split { pieces: 2 }),
            ),
            (
                "all of it",
                rectangle(-1.0, -1.0, 9.0, 9.0),
                Err(Fault::Empty),
            ),
            ("itself", square.clone(), Err(Fault::Empty)),
            (
                "inscribed",
                circle(2.0, 2.0, 2.0),
                Err(Fault::Split { pieces: 4 }),
            ),
        ];
        for (name, b, wanted) in cases {
            let found = described(&difference(&square, &b));
            assert!(same(&found, &wanted), "{name}: {found:?}");
        }
    }

    #[test]
    fn a_hole_that_breaks_out_is_a_bite() {
        let holed = difference(
            &rectangle(0.0, 0.0, 6.0, 4.0),
            &rectangle(2.0, 1.0, 1.0, 1.0),
        )
        .unwrap();
        assert_eq!(holed.holes.len(), 1);
        let broken = difference(&holed, &rectangle(2.5, -1.0, 0.25, 3.0)).unwrap();
        assert_eq!(broken.holes.len(), 0);
        assert!(close(broken.area(), 24.0 - 1.0 - 0.25));
        let filled = union(&holed, &rectangle(2.0, 1.0, 1.0, 1.0)).unwrap();
        assert!(filled.holes.is_empty() && close(filled.perimeter(), 20.0));
        let island = union(&holed, &rectangle(2.25, 1.25, 0.5, 0.5));
        assert_eq!(island, Err(Fault::Split { pieces: 2 }));
    }

    #[test]
    fn shapes_that_touch_in_several_points_stay_apart() {
        let square = rectangle(0.0, 0.0, 4.0, 4.0);
        let slotted = difference(&square, &rectangle(1.0, 1.0, 2.0, 9.0)).unwrap();
        let framed = difference(&square, &rectangle(1.0, 1.0, 2.0, 2.0)).unwrap();
        let plug = circle(2.0, 2.0, 1.0);
        for shape in [slotted, framed] {
            for (first, second) in [(&shape, &plug), (&plug, &shape)] {
                assert!(matches!(union(first, second), Err(Fault::Touching { .. })));
                assert_eq!(intersection_area(first, second), Ok(0.0));
                assert!(
                    difference(first, second).is_ok_and(|left| close(left.area(), first.area()))
                );
            }
        }
    }

    #[test]
    fn a_cut_and_a_hole_close_round_an_island() {
        // A hole like a U with a small one between its arms, and a bar across.
        let yard = rectangle(0.0, 0.0, 9.0, 9.0);
        let arms = difference(
            &rectangle(2.0, 2.0, 5.0, 4.0),
            &rectangle(3.0, 3.0, 3.0, 9.0),
        );
        let (arms, small, bar) = (
            arms.unwrap(),
            rectangle(4.0, 3.5, 1.0, 1.0),
            rectangle(1.0, 6.0, 7.0, 1.0),
        );
        for (first, second) in [(&arms, &small), (&small, &arms)] {
            let holed = difference(&difference(&yard, first).unwrap(), second).unwrap();
            let mut pieces = difference_pieces(&holed, &bar).unwrap();
            pieces.sort_by(|a, b| a.area().total_cmp(&b.area()));
            let found: Vec<(f64, usize)> = pieces
                .iter()
                .map(|piece| (piece.area(), piece.holes.len()))
                .collect();
            assert_eq!(found, [(8.0, 1), (81.0 - 20.0 - 7.0, 1)]);
            let filled = union(&holed, &bar).unwrap();
            assert!(close(filled.area(), 81.0 - 11.0 - 1.0) && filled.holes.len() == 2);
        }
    }

    #[test]
    fn slivers_are_measured() {
        // A strip of a hair, and a segment of a hair's rise.
        let square = rectangle(0.0, 0.0, 4.0, 4.0);
        for width in [1e-3, 1e-5, 1e-7] {
            let strip = intersection(&square, &rectangle(4.0 - width, -1.0, 4.0, 9.0)).unwrap();
            assert_eq!(strip.len(), 1);
            assert!((strip[0].area() - 4.0 * width).abs() < 1e-14);
            let disc = circle(6.0 - width, 2.0, 2.0);
            let found = intersection_area(&square, &disc).unwrap();
            let angle = 2.0 * (1.0 - 0.5 * width).acos();
            assert!(
                (found - 2.0 * (angle - angle.sin())).abs() < 1e-9,
                "{width}: {found}"
            );
        }
        assert_eq!(
            intersection_area(&square, &rectangle(4.0 - 1e-11, -1.0, 4.0, 9.0)),
            Ok(0.0)
        );
    }

    #[test]
    fn two_arms_that_meet_enclose_a_hole() {
        let open = difference(
            &rectangle(0.0, 0.0, 4.0, 4.0),
            &rectangle(1.0, 1.0, 2.0, 9.0),
        )
        .unwrap();
        let ring = union(&open, &rectangle(0.0, 4.0, 4.0, 1.0)).unwrap();
        assert_eq!(ring.holes.len(), 1);
        assert!(close(ring.area(), 20.0 - 6.0) && close(ring.perimeter(), 18.0 + 10.0));
    }

    #[test]
    fn scoops_and_rounded_corners_agree_with_the_closed_form() {
        let plain = rounded(0.0, 0.0, 20.0, 15.0, 3.0);
        assert!(
            close(plain.area(), 292.274_333_882_3) && close(plain.perimeter(), 64.849_555_921_5)
        );
        let scooped =
            difference(&rectangle(0.0, 0.0, 20.0, 15.0), &circle(20.0, 15.0, 4.0)).unwrap();
        assert!(
            close(scooped.area(), 287.433_629_385_6)
                && close(scooped.perimeter(), 68.283_185_307_2)
        );
        assert_eq!(scooped.edges_tagged(9).count(), 1);
    }

    #[test]
    fn every_piece_of_a_side_keeps_its_tag() {
        let patio = rectangle(0.0, 0.0, 6.0, 4.0);
        let found = union(&patio, &circle(3.0, 0.0, 1.0)).unwrap();
        let south: Vec<(f64, f64)> = found
            .edges_tagged(0)
            .map(|edge| (edge.start.x, edge.end.x))
            .collect();
        assert_eq!(south.len(), 2);
        assert!(close(
            south.iter().map(|(from, to)| to - from).sum::<f64>(),
            4.0
        ));
        assert_eq!(found.edges_tagged(9).count(), 1);
        // A side that was not cut comes out as it went in.
        let north: Vec<&Edge> = found.edges_tagged(2).collect();
        assert_eq!(north, patio.edges_tagged(2).collect::<Vec<_>>());
        // Where sides coincide, the first outline's tag is kept.
        let beside = Outline::rectangle(Point::new(0.0, 0.0), 6.0, 9.0, [10, 11, 12, 13]).unwrap();
        let both = union(&patio, &beside).unwrap();
        assert_eq!(both.edges_tagged(0).count(), 1);
        assert_eq!(both.edges_tagged(10).count(), 0);
        assert_eq!(
            both.edges_tagged(11).map(Edge::length).collect::<Vec<_>>(),
            [5.0]
        );
    }

    #[test]
    fn shapes_far_from_the_origin_are_as_exact_as_their_corners() {
        let far = |outline: &Outline| outline.moved(9e5, -9e5);
        let (square, bay) = (rectangle(0.0, 0.0, 4.0, 4.0), circle(2.0, 0.0, 1.0));
        let found = union(&far(&square), &far(&bay)).unwrap();
        assert!((found.area() - 16.0 - PI / 2.0).abs() < 1e-8);
        assert_eq!(found.edges().count(), 6);
    }
}
