//! Levels at the building, and levels that must agree.

mod clearance;
mod datum_missing;
mod door_conflict;
mod door_misplaced;
mod door_step;
mod floor_unknown;
mod level_above_floor;
mod level_high;
mod level_missing;
mod level_unclear;
mod levels_disagree;
mod meets_missing;
mod siding_close;
mod soak_near;
mod soakaway_slow;
mod vents_covered;

use super::wording::as_written;
use super::{Context, Found, Rule, slope, trial};
use crate::findings::Fix;
use crate::geometry::Tag;
use crate::model::{Level, LevelAt, Site, Surface, Use};
use crate::units::{Dimension, Quantity};
use crate::vocabulary::entry;

/// The rules of this family, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &datum_missing::DATUM_MISSING,
    &floor_unknown::FLOOR_UNKNOWN,
    &meets_missing::MEETS_MISSING,
    &level_missing::LEVEL_MISSING,
    &level_unclear::LEVEL_UNCLEAR,
    &level_above_floor::LEVEL_ABOVE_FLOOR,
    &level_high::LEVEL_HIGH,
    &levels_disagree::LEVELS_DISAGREE,
    &door_step::DOOR_STEP,
    &door_misplaced::DOOR_MISPLACED,
    &door_conflict::DOOR_CONFLICT,
    &siding_close::SIDING_CLOSE,
    &vents_covered::VENTS_COVERED,
    &soak_near::SOAK_NEAR,
    &soakaway_slow::SOAKAWAY_SLOW,
];

/// Levels that differ by less, in metres, are the same: a hundredth of a
/// millimetre.
const SAME_LEVEL: f64 = 1e-5;

/// Whether the level of a surface most likely lacks its minus, which
/// `level-above-floor` asks: all else that is wrong with it comes of that. Not
/// where that rule is eased, switched off, or accepted in the surface, so that
/// nothing worse is kept back.
pub(super) fn lacks_minus(context: &Context<'_>, surface: &Surface) -> bool {
    let rule = &level_above_floor::LEVEL_ABOVE_FLOOR;
    let is_accepted = context.job.accepts.iter().any(|accept| {
        accept.rule.value == rule.name
            && accept.inside_section
            && accept.place.section == surface.section
    });
    let floor = floor_m(&context.job.site);
    let (Some(level), Some(floor)) = (highest_at_building(surface), floor) else {
        return false;
    };
    level > floor + SAME_LEVEL
        && level_above_floor::without_minus(surface, floor).is_some()
        && context.is_in_force(rule, rule.severity)
        && !is_accepted
}

/// Whether cars drive in over a surface, at a door that is stated or at what is
/// called a garage: it lies all but level with that floor, and the damp course
/// beside the door well above.
fn is_garage_drive(site: &Site, surface: &Surface) -> bool {
    let names_garage = |text: &str| text.to_lowercase().contains("garage");
    let datum = site.datum.as_ref();
    let is_at_garage = || {
        datum.is_some_and(|datum| names_garage(&datum.value))
            || (surface.meets.iter()).any(|edge| names_garage(&edge.value.0))
    };
    surface.used_for == Use::Drive
        && !surface.meets.is_empty()
        && (!surface.doors.is_empty() || is_at_garage())
}

/// The highest finished level of a surface against the building, in metres:
/// from its plane, else from a level stated at such an edge.
fn highest_at_building(surface: &Surface) -> Option<f64> {
    highest_along(surface, |_| true)
}

/// The same where no drain channel keeps the wall dry.
fn highest_undrained(surface: &Surface) -> Option<f64> {
    highest_along(surface, |edge| surface.channel_at(edge).is_none())
}

/// The same along some of the shape's edges.
fn highest_along(surface: &Surface, counts: impl Fn(Tag) -> bool) -> Option<f64> {
    let of_shape = |tag: Tag| surface.sides.get(tag as usize).map(|side| side.edge);
    let level = match surface.has_levels() {
        true => slope::building_edges(surface)
            .filter(|edge| of_shape(edge.tag).is_none_or(&counts))
            .filter_map(|edge| Some(surface.plane_along(edge)?.levels_along(edge).1))
            .reduce(f64::max),
        false => surface
            .levels
            .iter()
            .filter(|level| is_at_building(surface, level) && is_along(level, &counts))
            .map(|level| level.value.value.si())
            .reduce(f64::max),
    };
    level.filter(|level| level.is_finite())
}

/// Whether a level is stated at an edge against the building.
fn is_at_building(surface: &Surface, level: &Level) -> bool {
    let LevelAt::Edge(_, tags) = &level.at else {
        return false;
    };
    surface
        .meets
        .iter()
        .any(|meets| meets.value.1.iter().any(|tag| tags.contains(tag)))
}

/// Whether a level is stated along one of some edges.
fn is_along(level: &Level, counts: impl Fn(Tag) -> bool) -> bool {
    match &level.at {
        LevelAt::Edge(_, tags) => tags.iter().any(|tag| counts(*tag)),
        LevelAt::Point(_) | LevelAt::Whole => false,
    }
}

/// The level entry that sets a surface's level at the building: the one at
/// such an edge, else the first.
fn level_at_building(surface: &Surface) -> Option<&Level> {
    surface
        .levels
        .iter()
        .find(|level| is_at_building(surface, level))
        .or_else(|| surface.levels.first())
}

/// The fix that states a level anew, as the whole entry, so that it may have
/// been stated below the datum; nothing where it would be rounded.
fn restated(context: &Context<'_>, title: &str, level: &Level, metres: f64) -> Option<Fix> {
    let written = |metres| as_written(&Quantity::near(metres, Dimension::LENGTH)?, context);
    let text = context.show_length(metres);
    let at = match &level.at {
        LevelAt::Edge(name, _) => format!(" at {name}"),
        LevelAt::Point(point) => format!(" at ({}, {})", written(point.x)?, written(point.y)?),
        LevelAt::Whole => String::new(),
    };
    let entry = entry("level", &format!("{text}{at}"));
    Some(Fix::judged(format!("{title} {text}"), level.place, entry))
}

/// The fix that moves a whole surface to another level for a rule. Only where
/// one level at the building sets it, and nothing else goes wrong.
fn moved(
    context: &Context<'_>,
    rule: &Rule,
    surface: &Surface,
    title: &str,
    metres: f64,
    found: &Found,
) -> Option<Fix> {
    let [level] = surface.levels.as_slice() else {
        return None;
    };
    if !is_at_building(surface, level) || found.is_trial() || context.is_misread(surface.section) {
        return None;
    }
    let after = trial::with_level(surface, Quantity::near(metres, Dimension::LENGTH)?)?;
    trial::is_mended(context, rule, surface, &after)
        .then(|| restated(context, title, level, metres))
        .flatten()
}

/// The level of the finished floor, in metres.
fn floor_m(site: &Site) -> Option<f64> {
    site.floor.as_ref().map(|floor| floor.value.si())
}
