//! The outline with some or all of its sides moved.

use super::super::combine::only;
use super::super::edge::Edge;
use super::super::fault::{Fault, measured};
use super::super::outline::{Loop, Outline};
use super::super::region;
use super::corner::corner;
use super::strip::{Sides, strip};
use super::traced::traced;

/// The outline pushed out by `beyond` metres along the sides for which `free`
/// holds, into the holes too; the others stay.
///
/// Straight corners between free sides stay square, arcs become concentric
/// arcs, and where an arc meets a side the tangents are mitred; a corner whose
/// mitre would reach more than four times `beyond` is cut square at `beyond`.
/// Where a free side runs into one that is not free the strip ends on that
/// side's line (the tangent of an arc), which is lengthened for it.
///
/// # Errors
/// [`Fault::NotPositive`] for a negative `beyond`, [`Fault::NotFinite`],
/// [`Fault::TooLarge`], [`Fault::Unclear`].
pub fn widened(
    outline: &Outline,
    beyond: f64,
    free: &dyn Fn(&Edge) -> bool,
) -> Result<Outline, Fault> {
    if measured(beyond)? < 0.0 {
        return Err(Fault::NotPositive);
    }
    if beyond == 0.0 {
        return Ok(outline.clone());
    }
    match traced(outline, beyond, free) {
        Some(traced) => Ok(traced),
        None => joined_strips(outline, beyond, free),
    }
}

/// The same, from the strips that the free sides sweep.
pub(super) fn joined_strips(
    outline: &Outline,
    beyond: f64,
    free: &dyn Fn(&Edge) -> bool,
) -> Result<Outline, Fault> {
    let mut wide = outline.clone();
    for strip in swept(outline.loops(), beyond, free)? {
        wide = only(region::added(&wide, &strip)?)?;
    }
    Ok(wide)
}

/// The outline moved out by `distance` metres on every side, straight corners
/// square; a negative distance moves it in.
///
/// # Errors
/// Those of [`widened`] and [`inset`].
pub fn outset(outline: &Outline, distance: f64) -> Result<Outline, Fault> {
    if measured(distance)? < 0.0 {
        inset(outline, -distance)
    } else {
        widened(outline, distance, &|_| true)
    }
}

/// The outline moved in by `distance` metres on every side, straight corners
/// square; a negative distance moves it out.
///
/// # Errors
/// [`Fault::Empty`] when nothing is left, [`Fault::Split`] when it falls in
/// pieces, and those of [`widened`].
pub fn inset(outline: &Outline, distance: f64) -> Result<Outline, Fault> {
    if measured(distance)? < 0.0 {
        return outset(outline, -distance);
    }
    if distance == 0.0 {
        return Ok(outline.clone());
    }
    let around: Vec<Loop> = outline.loops().map(Loop::reversed).collect();
    let mut pieces = vec![outline.clone()];
    for strip in swept(&around, distance, &|_| true)? {
        let mut left = Vec::with_capacity(pieces.len());
        for piece in &pieces {
            left.extend(region::cut(piece, &strip)?);
        }
        pieces = left;
    }
    only(pieces)
}

/// What is left of the outline, perhaps in several pieces or none, when the
/// sides for which `free` holds are moved in by `by` metres; the others stay,
/// and where a side that moves meets one that stays it ends on that side's
/// line. Sides keep their tags.
///
/// # Errors
/// [`Fault::NotPositive`] for a negative `by`, [`Fault::NotFinite`],
/// [`Fault::TooLarge`], [`Fault::Unclear`].
pub fn narrowed(
    outline: &Outline,
    by: f64,
    free: &dyn Fn(&Edge) -> bool,
) -> Result<Vec<Outline>, Fault> {
    if measured(by)? < 0.0 {
        return Err(Fault::NotPositive);
    }
    let mut pieces = vec![outline.clone()];
    if by == 0.0 {
        return Ok(pieces);
    }
    let around: Vec<Loop> = outline.loops().map(Loop::reversed).collect();
    for strip in swept(&around, by, free)? {
        let mut left = Vec::with_capacity(pieces.len());
        for piece in &pieces {
            left.extend(region::cut(piece, &strip)?);
        }
        pieces = left;
    }
    Ok(pieces)
}

/// What the free sides of loops sweep on their right.
fn swept<'a>(
    loops: impl IntoIterator<Item = &'a Loop>,
    beyond: f64,
    free: &dyn Fn(&Edge) -> bool,
) -> Result<Vec<Outline>, Fault> {
    let mut pieces = Vec::new();
    for (before, edge, after) in loops.into_iter().flat_map(Loop::with_neighbours) {
        if !free(edge) {
            continue;
        }
        let fixed = |neighbour| (!free(neighbour)).then_some(neighbour);
        let sides = Sides {
            before: fixed(before),
            after: fixed(after),
        };
        pieces.extend(strip(edge, beyond, sides));
        if free(after) {
            pieces.push(corner(edge, after, beyond));
        }
    }
    let pieces: Result<Vec<Outline>, Fault> = pieces
        .into_iter()
        .filter_map(|piece| match Outline::new(piece) {
            // Too thin to measure.
            Err(Fault::Empty) => None,
            Err(Fault::Crossed { .. }) => Some(Err(Fault::Unclear)),
            other => Some(other),
        })
        .collect();
    region::united(pieces?)
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::super::super::sample::{close, path, polygon, rectangle, rounded};
    use super::super::super::{NO_TAG, Point, difference, union};
    use super::*;

    const FOOT: f64 = 0.3048;

    fn but(fixed: &'static [u32]) -> impl Fn(&Edge) -> bool {
        move |edge| !fixed.contains(&edge.tag)
    }

    /// 28 by 12 ft along a wall to the north, with a round bay of radius 8 ft
    /// to the south.
    fn terrace() -> Outline {
        let floor = rectangle(0.0, -12.0 * FOOT, 28.0 * FOOT, 12.0 * FOOT);
        let bay = Outline::circle(Point::new(14.0 * FOOT, -12.0 * FOOT), 8.0 * FOOT, 4).unwrap();
        union(&floor, &bay).unwrap()
    }

    /// Nine significant figures, as worked by hand.
    fn exact(found: f64, wanted: f64) -> bool {
        (found - wanted).abs() <= 1e-12 * wanted
    }

    #[test]
    fn the_strip_ends_on_the_line_of_the_building() {
        let patio = rectangle(0.0, 0.0, 24.0 * FOOT, 12.0 * FOOT);
        let base = widened(&patio, 0.5 * FOOT, &but(&[2])).unwrap();
        assert!(exact(base.area() / (FOOT * FOOT), 312.5));
        assert_eq!(base.edges().count(), 4);
        // The building's line is lengthened and still the building's.
        let wall: f64 = base.edges_tagged(2).map(Edge::length).sum();
        assert!(exact(wall / FOOT, 25.0));
    }

    #[test]
    fn a_terrace_with_a_bay_is_widened_round_the_bay() {
        let terrace = terrace();
        assert!(exact(terrace.area(), 40.555_053_694_725_08));
        assert!(exact(terrace.perimeter(), 27.167_659_526_513_354));
        let base = widened(&terrace, 0.5 * FOOT, &but(&[2])).unwrap();
        assert!(exact(base.area(), 43.431_701_028_782_605));
        let bay: Vec<f64> = base
            .edges_tagged(4)
            .map(|edge| edge.radius() / FOOT)
            .collect();
        assert!(bay.len() == 1 && bay.iter().all(|&radius| close(radius, 8.5)));
    }

    #[test]
    fn a_hole_shrinks_and_vanishes() {
        let court = difference(
            &rectangle(0.0, 0.0, 9.0, 4.5),
            &Outline::rectangle(Point::new(4.4, 1.5), 1.2, 1.2, [8; 4]).unwrap(),
        )
        .unwrap();
        assert!(exact(court.area(), 39.06) && exact(court.perimeter(), 31.8));
        let base = widened(&court, 0.15, &but(&[2])).unwrap();
        assert!(exact(base.area(), 42.435));
        assert_eq!(base.holes.len(), 1);
        let full = widened(&court, 0.6, &but(&[0, 1, 2, 3])).unwrap();
        assert!(full.holes.is_empty() && exact(full.area(), 40.5));
        let kept = widened(&court, 0.15, &but(&[8])).unwrap();
        assert!(exact(kept.area(), 9.3 * 4.8 - 1.44));
    }

    #[test]
    fn outsets_and_insets_agree_with_the_closed_form() {
        let ell = polygon(&[
            (0., 0.),
            (20., 0.),
            (20., 8.),
            (12., 8.),
            (12., 15.),
            (0., 15.),
        ]);
        let disc = Outline::circle(Point::new(1.0, 2.0), 3.0, 0).unwrap();
        let cases = [
            (
                "rectangle out",
                outset(&rectangle(0., 0., 4., 3.), 0.5),
                20.0,
                18.0,
            ),
            (
                "rectangle in",
                inset(&rectangle(0., 0., 4., 3.), 0.5),
                6.0,
                10.0,
            ),
            (
                "a negative outset",
                outset(&rectangle(0., 0., 4., 3.), -0.5),
                6.0,
                10.0,
            ),
            ("L out", outset(&ell, 1.0), 244.0 + 70.0 + 4.0, 78.0),
            ("L in", inset(&ell, 1.0), 244.0 - 70.0 + 4.0, 62.0),
            ("circle out", outset(&disc, 0.5), 12.25 * PI, 7.0 * PI),
            ("circle in", inset(&disc, 0.5), 6.25 * PI, 5.0 * PI),
            (
                "rounded out",
                outset(&rounded(0., 0., 20., 15., 3.), 1.0),
                22. * 17. - (4. - PI) * 16.,
                78. - (8. - 2. * PI) * 4.,
            ),
            (
                "rounded in",
                inset(&rounded(0., 0., 20., 15., 3.), 1.0),
                18. * 13. - (4. - PI) * 4.,
                62. - (8. - 2. * PI) * 2.,
            ),
            (
                "past its corners",
                inset(&rounded(0., 0., 20., 15., 3.), 4.0),
                12. * 7.,
                38.,
            ),
            ("nothing", outset(&ell, 0.0), 244.0, 70.0),
        ];
        for (name, found, area, perimeter) in cases {
            let found = found.unwrap();
            assert!(
                close(found.area(), area),
                "{name}: {} for {area}",
                found.area()
            );
            assert!(close(found.perimeter(), perimeter), "{name}: {found:#?}");
        }
        assert!(
            outset(&ell, 1.0)
                .unwrap()
                .edges()
                .all(|edge| edge.tag != NO_TAG)
        );
    }

    #[test]
    fn what_cannot_be_moved_in_is_told() {
        let dumbbell = polygon(&[
            (0., 0.),
            (4., 0.),
            (4., 1.8),
            (6., 1.8),
            (6., 0.),
            (10., 0.),
            (10., 4.),
            (6., 4.),
            (6., 2.2),
            (4., 2.2),
            (4., 4.),
            (0., 4.),
        ]);
        assert_eq!(inset(&dumbbell, 0.5), Err(Fault::Split { pieces: 2 }));
        assert!(inset(&dumbbell, 0.1).is_ok());
        assert_eq!(inset(&rectangle(0., 0., 4., 3.), 1.5), Err(Fault::Empty));
        assert_eq!(inset(&rectangle(0., 0., 4., 3.), 9.0), Err(Fault::Empty));
        assert_eq!(widened(&dumbbell, -1.0, &|_| true), Err(Fault::NotPositive));
        assert_eq!(
            widened(&dumbbell, f64::NAN, &|_| true),
            Err(Fault::NotFinite)
        );
        assert_eq!(outset(&dumbbell, 1e30), Err(Fault::TooLarge));
    }

    #[test]
    fn a_long_mitre_is_cut_square() {
        // A point of 2 atan(1/10): the mitre would reach 10.05 times as far.
        let spear = polygon(&[(0., 1.), (0., -1.), (10., 0.)]);
        let found = outset(&spear, 0.1).unwrap();
        let (_, high) = found.bounding_box();
        assert!(close(high.x, 10.1));
        // A point of 2 atan(1/2): 2.236 times, so it stays.
        let wedge = polygon(&[(0., 1.), (0., -1.), (2., 0.)]);
        let (_, high) = outset(&wedge, 0.1).unwrap().bounding_box();
        assert!(close(high.x, 2.0 + 0.1 * 5f64.sqrt()));
    }

    #[test]
    fn strips_at_a_slanting_wall() {
        // The wall (1) leaves the free south side (0) at 45°; 3 and 2 do not move.
        let lean = |x: f64| polygon(&[(0., 0.), (4., 0.), (4. + x, 2.), (0., 2.)]);
        let cases = [
            ("outward", lean(2.0), 0.4 * 4.0 - 0.5 * 0.16),
            ("upright", lean(0.0), 0.4 * 4.0),
            ("inward", lean(-2.0), 0.4 * 4.0 + 0.5 * 0.16),
        ];
        for (name, shape, strip) in cases {
            let found = widened(&shape, 0.4, &but(&[1, 2, 3])).unwrap();
            assert!(close(found.area() - shape.area(), strip), "{name}");
        }
        // Walls that close in from both sides leave a triangle of the strip.
        let keel = polygon(&[(0., 0.), (1., 0.), (3., 2.), (-2., 2.)]);
        let found = widened(&keel, 0.6, &but(&[1, 2, 3])).unwrap();
        assert!(close(found.area() - keel.area(), 0.25));
    }

    #[test]
    fn a_side_in_line_with_the_building_ends_square() {
        let patio =
            Outline::new(path(&[(0., 0.), (6., 0.), (6., 4.), (4., 4.), (0., 4.)])).unwrap();
        let found = widened(&patio, 0.15, &but(&[3])).unwrap();
        assert!(close(
            found.area(),
            24.0 + 0.15 * (6.3 + 4.0 + 4.0 + 2.15) + 0.0225 - 0.0225
        ));
    }

    #[test]
    fn an_arc_that_runs_into_the_wall_ends_on_its_line() {
        let arc = |bulge: f64| {
            Outline::new(vec![
                Edge::arc(Point::new(-3.0, 0.0), Point::new(3.0, 0.0), bulge, 0),
                Edge::line(Point::new(3.0, 0.0), Point::new(-3.0, 0.0), 1),
            ])
            .unwrap()
        };
        let half = widened(&arc(1.0), 0.5, &but(&[1])).unwrap();
        assert!(close(half.area(), 0.5 * PI * 3.5 * 3.5));
        // More than half a circle: radius 5, centre 4 above the wall line.
        let more = widened(&arc(3.0), 0.5, &but(&[1])).unwrap();
        let run = (5.5f64 * 5.5 - 16.0).sqrt();
        let segment = 5.5 * 5.5 * (PI - (run / 5.5).asin()) + 4.0 * run;
        assert!(close(more.area(), segment), "{} {segment}", more.area());
        // Less than half: tangents run on to the wall.
        let less = arc(1.0 / 3.0);
        let found = widened(&less, 0.5, &but(&[1])).unwrap();
        let sector = 0.5 * less.outer.edges[0].sweep() * (5.5 * 5.5 - 25.0);
        let mitre = 0.5 * 0.5 * (0.5 * 4.0 / 3.0);
        assert!(close(found.area() - less.area(), sector + 2.0 * mitre));
        // Rounded into the wall: the strip does not pass the wall's line.
        let tangent = widened(&rounded(0., 0., 8., 6., 2.), 0.5, &but(&[2])).unwrap();
        assert!(close(tangent.bounding_box().1.y, 6.0));
    }

    #[test]
    fn a_round_notch_fills_up() {
        let notched = difference(
            &rectangle(0.0, 0.0, 6.0, 4.0),
            &Outline::circle(Point::new(3.0, 0.0), 1.0, 4).unwrap(),
        )
        .unwrap();
        let part = widened(&notched, 0.4, &but(&[0, 1, 2, 3])).unwrap();
        assert!(close(part.area(), 24.0 - 0.5 * PI * 0.36));
        let full = widened(&notched, 1.5, &but(&[0, 1, 2, 3])).unwrap();
        assert!(close(full.area(), 24.0));
    }
}
