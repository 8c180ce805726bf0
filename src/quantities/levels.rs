//! Fall, drop and levels of a surface.

use super::measures::{Length, Slope};
use super::term::Term;
use super::trace::Trace;
use crate::geometry::{Edge, Plane, Point};
use crate::model::{Job, Origin, Surface};

/// Levels nearer than this, in metres, are one.
const LEVEL: f64 = 1e-9;

/// The levels of a surface.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct LevelFigures {
    pub fall: Option<f64>,
    pub drop_m: Option<f64>,
    pub highest_m: Option<f64>,
    pub lowest_m: Option<f64>,
    pub lowest_at: Option<Point>,
    /// How far the low edge lies over the ground, at the least and at the most.
    pub low_edge_steps_m: Option<(f64, f64)>,
}

/// The levels of a surface. Without a stated level the fall and the drop are
/// known all the same.
pub(super) fn levels(job: &Job, surface: &Surface, trace: &Trace) -> LevelFigures {
    if let Some(levels) = to_drain(job, surface, trace) {
        return levels;
    }
    let Some(plane) = surface.plane.or_else(|| from_fall(surface)) else {
        return LevelFigures::default();
    };
    for level in &surface.levels {
        trace.stated("level", level.value.value, level.place);
    }
    let slope = slope(surface, &plane, trace);
    if surface.outline.is_none() {
        return LevelFigures {
            fall: Some(slope.value.0),
            ..LevelFigures::default()
        };
    }
    let drop = drop(slope, &plane, surface, trace);
    let ends = surface.plane.is_some().then(|| {
        let over = surface.outlines().map(|one| plane.levels_over(one).1);
        let highest = over.fold(f64::NEG_INFINITY, f64::max);
        let how = "the finished plane over the outline";
        let highest = trace.found("highest level", Length(highest), how);
        let lowest = trace.gives("lowest level", highest - drop);
        (lowest, highest)
    });
    let lowest_at = lowest_point(surface, &plane);
    let ground = ends.zip(job.site.ground.as_ref());
    let low_edge_steps = ground.and_then(|((lowest, _), ground)| {
        let low = low_edge(surface, &plane);
        let levels = low.iter().map(|at| ground.plane.level_at(*at));
        let (least, most) = levels
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), level| {
                (low.min(level), high.max(level))
            });
        if !(least.is_finite() && most.is_finite()) {
            return None;
        }
        let step = |name: &str, below: f64| {
            let origin = ground.places.first().map(|place| Origin::Line(*place));
            let below = trace.input("ground there", Length(below), origin);
            trace.gives(name, lowest - below).value.0
        };
        // Ground along a level edge may slope.
        if most - least <= LEVEL {
            let step = step("over the ground at the low edge", most);
            return Some((step, step));
        }
        let at_least = step("least over the ground at the low edge", most);
        Some((
            at_least,
            step("most over the ground at the low edge", least),
        ))
    });
    LevelFigures {
        fall: Some(slope.value.0),
        drop_m: Some(drop.value.0),
        highest_m: ends.map(|(_, highest)| highest.value.0),
        lowest_m: ends.map(|(lowest, _)| lowest.value.0),
        lowest_at,
        low_edge_steps_m: low_edge_steps,
    }
}

/// The levels of a surface that falls from all its edges to a drain: the drop
/// is the stated slope over the run from the edge that lies farthest.
fn to_drain(job: &Job, surface: &Surface, trace: &Trace) -> Option<LevelFigures> {
    let fall = surface.fall_to.as_ref()?;
    let first = surface.facets.first()?;
    for level in &surface.levels {
        trace.stated("level", level.value.value, level.place);
    }
    let slope = trace.stated("fall at least", Slope(fall.least.value.si()), fall.place);
    let runs = surface.facets.iter().map(|own| own.run);
    let farthest = runs.fold(0.0, f64::max);
    let run = trace.term("run from the edge that lies farthest", Length(farthest));
    let drop = trace.gives("drop to the drain", slope * run);
    let corners = || {
        surface
            .facets
            .iter()
            .filter_map(|own| own.outline.corners().next())
    };
    let rim = first.plane.level_at(corners().next()?);
    let highest = trace.found("highest level", Length(rim), "the level of the edges");
    // A border ends where the field begins.
    let (drop, lowest_at) = match surface.is_border() {
        true => {
            let (drop, at) = drop_of_border(surface, rim)?;
            let how = "how far the planes fall from its edge to the field";
            (trace.found("drop", Length(drop), how), at)
        }
        false => (drop, first.foot()),
    };
    let lowest = trace.gives("lowest level", highest - drop);
    let steps = job.site.ground.as_ref().map(|ground| {
        let levels = corners().map(|at| rim - ground.plane.level_at(at));
        levels.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), step| {
            (low.min(step), high.max(step))
        })
    });
    if let Some((least, most)) = steps {
        trace.found(
            "least over the ground at the edges",
            Length(least),
            "the level less the ground there",
        );
        trace.found(
            "most over the ground at the edges",
            Length(most),
            "the level less the ground there",
        );
    }
    Some(LevelFigures {
        fall: Some(slope.value.0),
        drop_m: Some(drop.value.0),
        highest_m: Some(highest.value.0),
        lowest_m: Some(lowest.value.0),
        lowest_at: Some(lowest_at),
        low_edge_steps_m: steps,
    })
}

/// How far a border along the edges of such a surface falls from their level,
/// and where it is lowest.
fn drop_of_border(surface: &Surface, rim: f64) -> Option<(f64, Point)> {
    let parts = surface.parts();
    let corners = parts.iter().flat_map(|part| {
        let plane = part.plane;
        let corners = part.outline.corners();
        corners.filter_map(move |at| Some((plane?.level_at(at), at)))
    });
    let (lowest, at) = corners.min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some((rim - lowest, at))
}

/// The drop: the slope over the length of the outline along the fall.
fn drop<'t>(
    slope: Term<'t, Slope>,
    plane: &Plane,
    surface: &Surface,
    trace: &'t Trace,
) -> Term<'t, Length> {
    let Some(down) = plane.fall_direction() else {
        return trace.found("drop", Length(0.0), "the surface is level");
    };
    let ends = surface.outlines().map(|one| one.extremes(down));
    let ends = ends.reduce(|all, one| (all.0.min(one.0), all.1.max(one.1)));
    let (least, most) = ends.unwrap_or_default();
    let run = trace.term("length of the outline along the fall", Length(most - least));
    trace.gives("drop", slope * run)
}

/// A plane that falls as stated, at no particular level.
fn from_fall(surface: &Surface) -> Option<Plane> {
    let fall = surface.fall.as_ref()?;
    Some(Plane::through(0.0, Point::ORIGIN, fall.gradient()))
}

fn slope<'t>(surface: &Surface, plane: &Plane, trace: &'t Trace) -> Term<'t, Slope> {
    let steepest = Slope(plane.slope());
    let Some(fall) = &surface.fall else {
        return trace.found("steepest slope", steepest, "the plane through the levels");
    };
    let main = Slope(fall.slope.value.si());
    let main = trace.stated("fall", main, fall.slope.place);
    let Some((cross, _)) = &fall.cross else {
        return trace.found("steepest slope", steepest, "the fall");
    };
    let cross = trace.stated("cross fall", Slope(cross.value.si()), cross.place);
    let words = [
        "the length of ",
        " and ",
        " together, each in its direction",
    ];
    trace.gives("steepest slope", main.joined(words, cross, |_, _| steepest))
}

/// Where the low edge of a plane over an outline ends: one point, or the ends
/// of what lies as low as that.
fn low_edge(surface: &Surface, plane: &Plane) -> Vec<Point> {
    let Some(lowest) = lowest_point(surface, plane) else {
        return Vec::new();
    };
    let low = plane.level_at(lowest);
    let corners = rims(surface).map(|edge| edge.start);
    let as_low = corners.filter(|corner| plane.level_at(*corner) - low <= LEVEL);
    std::iter::once(lowest).chain(as_low).collect()
}

/// The lowest point of a plane over an outline: a corner, or where an arc
/// faces down the fall.
fn lowest_point(surface: &Surface, plane: &Plane) -> Option<Point> {
    let down = plane.fall_direction();
    let on_arcs = rims(surface).filter_map(|edge| {
        let foot = edge.centre()? + down? * edge.radius();
        (edge.distance_to(foot) <= 1e-9 * edge.radius()).then_some(foot)
    });
    rims(surface)
        .map(|edge| edge.start)
        .chain(on_arcs)
        .min_by(|a, b| plane.level_at(*a).total_cmp(&plane.level_at(*b)))
}

/// The edges round its outlines, those of holes left out.
fn rims(surface: &Surface) -> impl Iterator<Item = &Edge> {
    surface.outlines().flat_map(|one| &one.outer.edges)
}

/// Why no level of a surface is known.
pub fn no_levels(own: &Surface) -> &'static str {
    let has_fall = own.fall.is_some() || own.fall_to.is_some();
    match (own.levels.is_empty(), has_fall) {
        (true, true) => "no level is stated",
        (true, false) => "neither level nor fall is stated",
        (false, false) => "no fall is stated",
        (false, true) => "levels and fall do not settle how it lies",
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{area_of, close, job, line, si, stated, surface};
    use super::*;
    use crate::geometry::{Outline, Vector};
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
            assert!(close(found.low_edge_steps_m.unwrap().0, over_ground, 1e-9));
        }
    }

    #[test]
    fn the_low_edge_lies_over_sloping_ground_by_two_steps() {
        let court = surface("court", area_of("24 ft", "12 ft"), Vec::new());
        let court = court.falling("1 ft", "1:60");
        let mut job = job(vec![court]).on_ground("6 in");
        let level = figures(&job).surfaces[0].low_edge_steps_m.unwrap();
        assert_eq!(level.0, level.1);
        // The ground rises to the east, the court falls to the south.
        let ground = job.site.ground.as_mut().unwrap();
        let rise = Vector::new(0.01, 0.0);
        ground.plane = Plane::through(si("6 in"), Point::ORIGIN, rise);
        let (least, most) = figures(&job).surfaces[0].low_edge_steps_m.unwrap();
        assert!(close(most, level.1, 1e-9));
        assert!(close(most - least, 0.01 * si("24 ft"), 1e-9));
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
            (found.highest_m, found.lowest_m, found.low_edge_steps_m),
            (None, None, None)
        );
        court.fall = None;
        let found = figures(&job(vec![court])).surfaces[0].clone();
        assert_eq!((found.fall, found.drop_m), (None, None));
    }
}
