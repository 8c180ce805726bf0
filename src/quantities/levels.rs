//! Fall, drop and levels of a surface.

use super::notes::{Amount, Notes};
use crate::geometry::{Outline, Plane, Point};
use crate::model::{Job, Origin, Surface};

/// The levels of a surface.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct LevelFigures {
    pub fall: Option<f64>,
    pub drop_m: Option<f64>,
    pub highest_m: Option<f64>,
    pub lowest_m: Option<f64>,
    pub lowest_at: Option<Point>,
    pub low_edge_step_m: Option<f64>,
}

/// The levels of a surface. Without a stated level the fall and the drop are
/// known all the same.
pub(super) fn levels(job: &Job, surface: &Surface, notes: &mut impl Notes) -> LevelFigures {
    let Some(plane) = surface.plane.or_else(|| from_fall(surface)) else {
        return LevelFigures::default();
    };
    for level in &surface.levels {
        notes.stated("level", Amount::Quantity(&level.value.value), level.place);
    }
    let slope = plane.slope();
    slope_step(surface, slope, notes);
    let Some(outline) = &surface.outline else {
        return LevelFigures {
            fall: Some(slope),
            ..LevelFigures::default()
        };
    };
    let (lowest, highest) = plane.levels_over(outline);
    let lowest_at = lowest_point(outline, &plane);
    let known = surface.plane.is_some();
    let drop = highest - lowest;
    drop_steps(slope, (lowest, highest), known, notes);
    let ground = job.site.ground.as_ref().filter(|_| known).zip(lowest_at);
    let low_edge_step_m = ground.map(|(ground, at)| {
        let (finished, below) = (plane.level_at(at), ground.plane.level_at(at));
        let step = finished - below;
        let origin = ground.places.first().map(|place| Origin::Line(*place));
        notes.input("ground there", Amount::Length(below), origin);
        notes.step(
            "over the ground at the low edge",
            "{lowest level} − {ground there}",
            &[Amount::Length(finished), Amount::Length(below)],
            Amount::Length(step),
        );
        step
    });
    LevelFigures {
        fall: Some(slope),
        drop_m: Some(drop),
        highest_m: known.then_some(highest),
        lowest_m: known.then_some(lowest),
        lowest_at,
        low_edge_step_m,
    }
}

/// The drop as the slope over the length of the outline along the fall, and
/// the levels at its ends.
fn drop_steps(slope: f64, (lowest, highest): (f64, f64), known: bool, notes: &mut impl Notes) {
    let drop = Amount::Length(highest - lowest);
    if slope > 0.0 {
        let run = Amount::Length((highest - lowest) / slope);
        let formula = "{steepest slope} × {length of the outline along the fall}";
        notes.step("drop", formula, &[Amount::Slope(slope), run], drop);
    } else {
        notes.step("drop", "the surface is level", &[], drop);
    }
    if known {
        let high = Amount::Length(highest);
        notes.step(
            "highest level",
            "the finished plane over the outline",
            &[],
            high,
        );
        let terms = [high, drop];
        notes.step(
            "lowest level",
            "{highest level} − {drop}",
            &terms,
            Amount::Length(lowest),
        );
    }
}

/// A plane that falls as stated, at no particular level.
fn from_fall(surface: &Surface) -> Option<Plane> {
    let fall = surface.fall.as_ref()?;
    Some(Plane::through(0.0, Point::ORIGIN, fall.gradient()))
}

fn slope_step(surface: &Surface, slope: f64, notes: &mut impl Notes) {
    let Some(fall) = &surface.fall else {
        notes.step(
            "steepest slope",
            "the plane through the levels",
            &[],
            Amount::Slope(slope),
        );
        return;
    };
    let main = Amount::Slope(fall.slope.value.si());
    notes.stated("fall", main, fall.slope.place);
    if let Some((cross, _)) = &fall.cross {
        let second = Amount::Slope(cross.value.si());
        notes.stated("cross fall", second, cross.place);
        notes.step(
            "steepest slope",
            "the length of {fall} and {cross fall} together, each in its direction",
            &[main, second],
            Amount::Slope(slope),
        );
    } else {
        notes.step("steepest slope", "the fall", &[], Amount::Slope(slope));
    }
}

/// The lowest point of a plane over an outline: a corner, or where an arc
/// faces down the fall.
fn lowest_point(outline: &Outline, plane: &Plane) -> Option<Point> {
    let down = plane.fall_direction();
    let on_arcs = outline.outer.edges.iter().filter_map(|edge| {
        let foot = edge.centre()? + down? * edge.radius();
        (edge.distance_to(foot) <= 1e-9 * edge.radius()).then_some(foot)
    });
    outline
        .outer
        .edges
        .iter()
        .map(|edge| edge.start)
        .chain(on_arcs)
        .min_by(|a, b| plane.level_at(*a).total_cmp(&plane.level_at(*b)))
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{area_of, close, job, line, si, stated, surface};
    use super::*;
    use crate::geometry::Vector;
    use crate::model::Fall;
    use crate::quantities::figures;

    #[test]
    fn a_drop_is_over_the_whole_outline_arcs_included() {
        let circle = Outline::circle(Point::new(0.0, 0.0), si("8 ft"), 0).unwrap();
        for (outline, feet, lowest) in [
            (area_of("24 ft", "12 ft"), 12.0, Point::new(0.0, 0.0)),
            (circle, 16.0, Point::new(0.0, -si("8 ft"))),
        ] {
            let court = surface("court", outline, Vec::new()).falling("1 ft", "1:60");
            let job = job(vec![court]).on_ground("6 in");
            let found = figures(&job).surfaces[0].clone();
            assert!(close(
                found.drop_m.unwrap(),
                feet * si("1 ft") / 60.0,
                1e-12
            ));
            assert!(close(
                found.highest_m.unwrap() - found.lowest_m.unwrap(),
                found.drop_m.unwrap(),
                1e-12
            ));
            assert!(found.lowest_at.unwrap().distance(lowest) < 1e-9);
            let over_ground = found.lowest_m.unwrap() - si("6 in");
            assert!(close(found.low_edge_step_m.unwrap(), over_ground, 1e-9));
        }
    }

    #[test]
    fn a_fall_is_known_before_any_level() {
        let mut court = surface("court", area_of("24 ft", "12 ft"), Vec::new());
        court.fall = Some(Fall {
            slope: stated("2 %"),
            toward: Vector::new(0.0, -1.0),
            away_from: None,
            cross: None,
            place: line(1),
        });
        let found = figures(&job(vec![court.clone()])).surfaces[0].clone();
        assert!(close(found.fall.unwrap(), 0.02, 1e-12));
        assert!(close(found.drop_m.unwrap(), si("2.88 in"), 1e-12));
        assert_eq!(
            (found.highest_m, found.lowest_m, found.low_edge_step_m),
            (None, None, None)
        );
        court.fall = None;
        let found = figures(&job(vec![court])).surfaces[0].clone();
        assert_eq!((found.fall, found.drop_m), (None, None));
    }
}
