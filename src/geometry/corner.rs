//! Corners rounded with a radius or cut off.

use std::f64::consts::PI;

use super::edge::{Edge, Tag, bulge_of_sweep};
use super::fault::{Fault, positive};
use super::meet;

/// The corner between two sides that follow each other, rounded: what is left
/// of the first side, the arc, what is left of the second. The sides may be
/// straight or arcs.
///
/// # Errors
/// [`Fault::NoCorner`] if the sides run on without one, [`Fault::NoRoom`] if
/// a side is too short for the radius, [`Fault::NotPositive`],
/// [`Fault::NotFinite`], [`Fault::TooLarge`].
pub fn rounded(before: &Edge, after: &Edge, radius: f64, tag: Tag) -> Result<[Edge; 3], Fault> {
    let radius = positive(radius)?;
    let turn = turn(before, after)?;
    let aside = radius.copysign(turn);
    let (room, more_room) = (before.length(), after.length());
    let short_of = |needed: f64| Fault::NoRoom {
        needed,
        available: room.min(more_room),
    };
    let (Some(first), Some(second)) = (left_of(before, aside), left_of(after, aside)) else {
        return Err(short_of(radius));
    };
    // The centre is `radius` off both sides; of two such places it is the one
    // near the corner.
    let centre = meet::carried_on(&first, &second, 1e-9 * radius)
        .into_iter()
        .min_by(|a, b| a.distance(before.end).total_cmp(&b.distance(before.end)))
        .ok_or(short_of(radius))?;
    let (stop, begin) = (before.distance_along(centre), after.distance_along(centre));
    let rounding = 1e-9 * radius;
    if stop < -rounding {
        return Err(Fault::NoRoom {
            needed: room - stop,
            available: room,
        });
    }
    if begin > more_room + rounding {
        return Err(Fault::NoRoom {
            needed: begin,
            available: more_room,
        });
    }
    if stop > room || begin < 0.0 {
        return Err(short_of(radius));
    }
    let (kept, left) = (
        before.between(0.0, stop.max(0.0)),
        after.between(begin.min(more_room), more_room),
    );
    let sweep = before
        .direction_at(stop)
        .angle_to(after.direction_at(begin));
    let arc = Edge::arc(kept.end, left.start, bulge_of_sweep(sweep), tag);
    Ok([kept, arc, left])
}

/// The corner between two sides that follow each other, cut off `leg` metres
/// along each: what is left of the first side, the cut, what is left of the
/// second.
///
/// # Errors
/// Those of [`rounded`].
pub fn chamfered(before: &Edge, after: &Edge, leg: f64, tag: Tag) -> Result<[Edge; 3], Fault> {
    let leg = positive(leg)?;
    turn(before, after)?;
    let rounding = 1e-9 * leg;
    for length in [before.length(), after.length()] {
        if leg > length + rounding {
            return Err(Fault::NoRoom {
                needed: leg,
                available: length,
            });
        }
    }
    let kept = before.between(0.0, (before.length() - leg).max(0.0));
    let left = after.between(leg.min(after.length()), after.length());
    Ok([kept, Edge::line(kept.end, left.start, tag), left])
}

/// The angle, in radians, by which the way turns left in the corner.
fn turn(before: &Edge, after: &Edge) -> Result<f64, Fault> {
    let turn = before
        .direction_at_end()
        .angle_to(after.direction_at_start());
    let is_corner = turn.abs() > 1e-9 && turn.abs() < PI - 1e-9;
    if is_corner {
        Ok(turn)
    } else {
        Err(Fault::NoCorner)
    }
}

/// The side moved `aside` metres to its left; none for an arc that closes in
/// on its centre.
fn left_of(edge: &Edge, aside: f64) -> Option<Edge> {
    let closes_in = edge.is_arc() && edge.radius() <= aside * edge.bulge.signum();
    (!closes_in).then(|| Edge {
        start: edge.start + edge.direction_at_start().left() * aside,
        end: edge.end + edge.direction_at_end().left() * aside,
        ..*edge
    })
}

#[cfg(test)]
mod tests {
    use super::super::sample::{close, path, rectangle};
    use super::super::{Outline, Point};
    use super::*;

    /// Two straight sides of 30 that meet in the origin at an inside angle.
    fn wedge(degrees: f64) -> (Edge, Edge) {
        let (sin, cos) = degrees.to_radians().sin_cos();
        let before = Edge::line(Point::new(30.0, 0.0), Point::ORIGIN, 0);
        (
            before,
            Edge::line(Point::ORIGIN, Point::new(30.0 * cos, 30.0 * sin), 1),
        )
    }

    #[test]
    fn fillets_agree_with_the_closed_form() {
        // Angle; tangent length r / tan(φ/2), arc r (π − φ) and area cut off
        // r² (cot(φ/2) − (π − φ)/2) for r = 3.
        let cases = [
            (60.0, 5.196_152_422_7, 2.0 * PI, 6.163_679_307_4),
            (90.0, 3.0, 4.712_388_980_4, 1.931_416_529_4),
            (120.0, 1.732_050_807_6, PI, 0.483_763_442_3),
            (135.0, 1.242_640_687_1, 2.356_194_490_2, 0.193_630_326_1),
        ];
        for (degrees, tangent, length, cut) in cases {
            let (before, after) = wedge(degrees);
            for (first, second) in [(before, after), (after.reversed(), before.reversed())] {
                let [kept, arc, left] = rounded(&first, &second, 3.0, 9).unwrap();
                assert!(
                    close(kept.length(), 30.0 - tangent) && close(left.length(), 30.0 - tangent)
                );
                assert!(close(arc.length(), length) && close(arc.radius(), 3.0) && arc.tag == 9);
            }
            let closing = Edge::line(after.end, before.start, 2);
            let sharp = Outline::new(vec![before, after, closing]).unwrap();
            let [kept, arc, left] = rounded(&before, &after, 3.0, 9).unwrap();
            let soft = Outline::new(vec![kept, arc, left, closing]).unwrap();
            assert!((sharp.area() - soft.area() - cut).abs() < 1e-9);
        }
    }

    #[test]
    fn one_corner_of_a_rectangle() {
        let sides = path(&[(0., 0.), (20., 0.), (20., 15.), (0., 15.)]);
        let [kept, arc, left] = rounded(&sides[0], &sides[1], 5.0, 9).unwrap();
        let outline = Outline::new(vec![kept, arc, left, sides[2], sides[3]]).unwrap();
        assert!(
            close(outline.area(), 294.634_954_084_9)
                && close(outline.perimeter(), 67.853_981_634_0)
        );
        let [kept, cut, left] = chamfered(&sides[0], &sides[1], 5.0, 9).unwrap();
        let outline = Outline::new(vec![kept, cut, left, sides[2], sides[3]]).unwrap();
        assert!(close(outline.area(), 300.0 - 12.5));
    }

    #[test]
    fn a_side_may_be_used_up_but_not_more() {
        let square = rectangle(0.0, 0.0, 4.0, 4.0).outer.edges;
        assert!(rounded(&square[0], &square[1], 4.0, 9).is_ok());
        assert!(chamfered(&square[0], &square[1], 4.0, 9).is_ok());
        let short = Err(Fault::NoRoom {
            needed: 5.0,
            available: 4.0,
        });
        assert_eq!(rounded(&square[0], &square[1], 5.0, 9), short);
        assert_eq!(chamfered(&square[0], &square[1], 5.0, 9), short);
        let on = Edge::line(Point::new(4.0, 0.0), Point::new(9.0, 0.0), 0);
        assert_eq!(rounded(&square[0], &on, 1.0, 9), Err(Fault::NoCorner));
        assert_eq!(
            rounded(&square[0], &square[1], -1.0, 9),
            Err(Fault::NotPositive)
        );
    }

    #[test]
    fn a_corner_with_an_arc_is_rounded_too() {
        // A straight side that runs into a half circle at right angles.
        let before = Edge::line(Point::new(-9.0, 0.0), Point::new(-2.0, 0.0), 0);
        let bay = Edge::arc(Point::new(-2.0, 0.0), Point::new(2.0, 0.0), 1.0, 1);
        let [kept, arc, left] = rounded(&before, &bay, 0.5, 9).unwrap();
        assert!(close(arc.radius(), 0.5) && close(left.radius(), 2.0));
        // Centre 0.5 below the line and 2.5 from the bay's centre.
        assert!(close(kept.end.x, -(2.5f64 * 2.5 - 0.25).sqrt()));
        let smooth =
            |a: &Edge, b: &Edge| a.direction_at_end().angle_to(b.direction_at_start()).abs();
        assert!(smooth(&kept, &arc) < 1e-9 && smooth(&arc, &left) < 1e-9);
    }
}
