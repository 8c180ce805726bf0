//! Trying a change of a surface's fall or level before it is offered as a
//! fix: what puts one thing right may put another wrong.

use super::{Check, Context, Family, Found, Rule, families};
use crate::geometry::{Plane, Point, Tag, Vector};
use crate::model::{Contact, Fall, Level, LevelAt, Stated, Surface};
use crate::units::Quantity;

/// The families whose rules hang on falls and levels.
const FAMILIES: &[Family] = &[Family::Falls, Family::Levels, Family::Ground];

/// How far out of level, as a slope, an edge may be and still hold one level.
const LEVEL_ENOUGH: f64 = 1e-9;

/// Whether a rule no longer speaks of a surface once it is changed, and no
/// other rule on falls, levels and ground speaks that did not before. Where
/// surfaces share an edge, a change of one moves it against the other.
pub(crate) fn is_mended(
    context: &Context<'_>,
    rule: &Rule,
    before: &Surface,
    after: &Surface,
) -> bool {
    let is_alone = |surface: &Surface| {
        let mut sides = surface.sides.iter();
        !sides.any(|side| matches!(side.contact, Contact::Surface(_)))
    };
    let was = speaking(context, before);
    is_alone(before)
        && speaking(context, after)
            .into_iter()
            .all(|name| name != rule.name && was.contains(&name))
}

/// The rules on falls, levels and ground that speak of a surface.
fn speaking(context: &Context<'_>, surface: &Surface) -> Vec<&'static str> {
    let mut found = Found::trial();
    let rules = FAMILIES.iter().flat_map(|family| families::of(*family));
    for rule in rules {
        match (rule.check, &surface.build) {
            (Check::Surface(check) | Check::SurfaceAndJob(check, _), _) => {
                check(context, surface, &mut found)
            }
            (
                Check::Built(check) | Check::BuiltAndJob(check, _) | Check::Units(check),
                Some(build),
            ) => check(context, surface, &build.value, &mut found),
            (Check::Layer(check), Some(build)) => build
                .value
                .layers
                .iter()
                .for_each(|layer| check(context, surface, &build.value, layer, &mut found)),
            _ => {}
        }
    }
    found.findings.iter().map(|finding| finding.rule).collect()
}

/// A surface with another fall, which goes one way only; nothing where an
/// edge that holds one level would fall along its length.
pub(crate) fn with_fall(surface: &Surface, slope: Quantity, toward: Vector) -> Option<Surface> {
    let place = match &surface.fall {
        Some(fall) => fall.place,
        None => surface.name.place,
    };
    let fall = Fall {
        slope: Stated::new(slope, place),
        toward,
        away_from: None,
        cross: None,
        place,
    };
    let gradient = fall.gradient();
    let mut after = surface.clone();
    after.fall = Some(fall);
    after.plane = None;
    for level in &surface.levels {
        let at = spot(surface, level, gradient)?;
        if after.plane.is_none() {
            after.plane = Some(Plane::through(level.value.value.si(), at, gradient));
        }
    }
    Some(after)
}

/// A surface whose one level is another.
pub(crate) fn with_level(surface: &Surface, level: Quantity) -> Option<Surface> {
    let mut after = surface.clone();
    let [only] = after.levels.as_mut_slice() else {
        return None;
    };
    let raised = level.si() - only.value.value.si();
    only.value.value = level;
    after.plane = surface.plane.map(|plane| plane.raised(raised));
    Some(after)
}

/// A point at which a level holds; nothing where it would not hold all along
/// its edge.
fn spot(surface: &Surface, level: &Level, gradient: Vector) -> Option<Point> {
    let LevelAt::Edge(_, tags) = &level.at else {
        return match level.at {
            LevelAt::Point(point) => Some(point),
            _ => None,
        };
    };
    let outline = surface.outline.as_ref()?;
    let is_along = |tag: Tag| {
        let side = surface.sides.get(tag as usize);
        side.is_some_and(|side| tags.contains(&side.edge))
    };
    let mut edges = outline.edges().filter(|edge| is_along(edge.tag)).peekable();
    let first = edges.peek()?.start;
    edges
        .all(|edge| !edge.is_arc() && gradient.dot(edge.chord().unit()).abs() <= LEVEL_ENOUGH)
        .then_some(first)
}
