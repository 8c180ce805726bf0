//! `door-step`: too deep a step down from a door.

use super::door_misplaced::is_told;
use super::{SAME_LEVEL, floor_m, highest_at_building, is_garage_drive, level_at_building};
use crate::findings::{Place, Severity};
use crate::model::{Contact, Door, Ending, LevelAt, Region, Surface};
use crate::rules::documents::{APPROVED_K_STAIRS, NCC_RISERS, irc_landing};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Term;

/// Thresholds that a wheelchair gets over, in the US.
const ADA_THRESHOLDS: Source = Source::memory(
    "2010 ADA Standards for Accessible Design",
    "404.2.5, thresholds of 1/2 in (13 mm) at most",
);

/// The same in England.
const APPROVED_M_THRESHOLDS: Source = Source::memory(
    "Approved Document M, volume 1 (England, 2015)",
    "accessible thresholds, an upstand of 15 mm at most",
);

/// The same in Australia.
const AS_THRESHOLDS: Source = Source::memory(
    "AS 1428.1, Design for access and mobility",
    "thresholds of 35 mm at most, ramped: read the 2021 edition",
);

/// The paving outside a door lies too far below the floor.
pub(crate) static DOOR_STEP: Rule = Rule {
    name: "door-step",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "The step down from the floor at each door that is stated with door; where none is, at the highest point along the wall, unless other paving lies between. And the edge up from a drive into a garage.",
    reason: "Too deep a step is a fall waiting to happen, most of all at a door that people escape by.",
    remedy: "Raise the paving at the door, or put in a landing or a step. Say where the doors are, and which of them slide or swing in.",
    limits: &[
        Limit {
            row: "plain",
            of: "the step down from a door",
            bound: Bound::Most,
            general: Value {
                written: &["196 mm", "7 3/4 in"],
                source: irc_landing("R311.3.2, landing no more than 7-3/4 in below the threshold"),
            },
            regions: &[
                (
                    Region::Uk,
                    Value {
                        written: &["220 mm"],
                        source: APPROVED_K_STAIRS,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["190 mm"],
                        source: NCC_RISERS,
                    },
                ),
            ],
        },
        Limit {
            row: "exit",
            of: "the step down from an escape door that swings out over it",
            bound: Bound::Most,
            general: Value {
                written: &["38 mm", "1 1/2 in"],
                source: irc_landing("R311.3.1, landing no more than 1-1/2 in below the threshold"),
            },
            regions: &[],
        },
        Limit {
            row: "exit-clear",
            of: "the step down from an escape door that slides or swings in",
            bound: Bound::Most,
            general: Value {
                written: &["196 mm", "7 3/4 in"],
                source: irc_landing(
                    "R311.3.1, exception: 7-3/4 in where the door does not swing over the landing",
                ),
            },
            regions: &[],
        },
        Limit::practice(
            "garage",
            "the edge up from a drive into a garage",
            Bound::Most,
            &["40 mm", "1 1/2 in"],
        ),
        Limit {
            row: "accessible",
            of: "the step down from the door of an accessible way",
            bound: Bound::Most,
            general: Value {
                written: &["13 mm", "1/2 in"],
                source: ADA_THRESHOLDS,
            },
            regions: &[
                (
                    Region::Uk,
                    Value {
                        written: &["15 mm"],
                        source: APPROVED_M_THRESHOLDS,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["35 mm"],
                        source: AS_THRESHOLDS,
                    },
                ),
            ],
        },
    ],
    sources: &[
        irc_landing("R311.3, landings at doors"),
        APPROVED_K_STAIRS,
        NCC_RISERS,
        ADA_THRESHOLDS,
        APPROVED_M_THRESHOLDS,
        AS_THRESHOLDS,
    ],
    breaks: "\
site
  ground       -300 mm

surface court
  level        «-220 mm» at north
  door         at north
",
    keeps: "\
surface court
  level        -190 mm at north
  door         at north
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(floor), Some(stated)) = (floor_m(&context.job.site), level_at_building(surface))
    else {
        return;
    };
    let steps = steps(surface, floor).into_iter();
    let is_misplaced =
        |door: Option<&Door>| door.is_some_and(|door| is_told(context, surface, door));
    let steps = steps.filter(|(_, door)| !is_misplaced(*door));
    let missed = steps.filter_map(|(step, door)| {
        let limit = limit_of(context, surface, door)?;
        let over = step - limit.value.si();
        (!limit.allows_si(step - SAME_LEVEL)).then_some((over, step, door, limit))
    });
    let Some((_, step, door, limit)) = missed.max_by(|one, other| one.0.total_cmp(&other.0)) else {
        return;
    };
    // A door that could not be read may be one that people step down from.
    let is_lost = surface.has_lost_line || surface.entry("door").is_some();
    if door.is_none() && is_lost {
        return;
    }
    let is_known = door.is_some() || surface.exit.is_some();
    let is_stepped =
        is_onto_another(context, surface, floor - step) || has_flight_to_floor(context);
    if !is_known && is_stepped {
        return;
    }
    let shown = limit.beside_si(step, context.system());
    let most = limit.shown(context.system());
    let is_driven = is_at_garage_door(context, surface, door);
    let message = match (is_known, surface.exit) {
        _ if is_driven => {
            let doubt = if is_known {
                ""
            } else {
                ", if its door opens here"
            };
            format!(
                "the drive lies {shown} below the garage floor: no car gets over such an edge{doubt}. {most} is the most. Raise it"
            )
        }
        _ if is_for_wheels(surface, door) => format!(
            "a step of {shown} down from the door of an accessible way. {most} is the most. Raise the paving, or put in a ramp and a landing"
        ),
        (true, Some(_)) => format!(
            "a step of {shown} down from the {}. {most} is the most. Raise the paving, or put in a landing",
            context.word(Term::EscapeDoor)
        ),
        (true, None) => format!(
            "a step of {shown} down from the door. {most} is the most. Raise the paving, or put in a step"
        ),
        (false, _) => format!(
            "the paving lies {shown} below the floor: more than one step, if a door opens here. {most} is the most"
        ),
    };
    let severity = match (context.region(), is_known, is_for_wheels(surface, door)) {
        (_, false, _) => Severity::Advisory,
        _ if is_driven => Severity::Warning,
        (Region::Us, true, false) => Severity::Error,
        (_, true, _) => Severity::Warning,
    };
    let mut finding = DOOR_STEP
        .finding(stated.value.place, message)
        .severity(severity)
        .found(shown, Quantity::near(step, Dimension::LENGTH))
        .against(&limit, context);
    for (place, what) in reasons(context, surface, door) {
        finding = finding.related(place, what);
    }
    found.add(finding);
}

fn reasons(
    context: &Context<'_>,
    surface: &Surface,
    door: Option<&Door>,
) -> Vec<(Place, &'static str)> {
    let exit = surface.exit;
    let exit = exit.map(|exit| (exit, "an escape door opens on it, as stated here"));
    let door = door.map(|door| (door.place, "the door, as stated here"));
    let floor = context.job.site.floor.as_ref();
    let floor = floor.map(|floor| (floor.place, "the floor, as stated here"));
    [exit, door, floor].into_iter().flatten().collect()
}

/// How far each door is to step down onto a surface, in metres; where none is
/// stated, along the building where the surface is highest.
fn steps(surface: &Surface, floor: f64) -> Vec<(f64, Option<&Door>)> {
    if surface.doors.is_empty() {
        let level = highest_at_building(surface);
        return level
            .map(|level| (floor - level, None))
            .into_iter()
            .collect();
    }
    let doors = surface.doors.iter();
    doors
        .filter_map(|door| Some((floor - level_at(surface, door)?, Some(door))))
        .collect()
}

/// The finished level at a door, in metres; along an edge where it is highest.
fn level_at(surface: &Surface, door: &Door) -> Option<f64> {
    if !surface.has_levels() {
        return highest_at_building(surface);
    }
    match &door.at {
        LevelAt::Point(point) => surface.level_at(*point),
        LevelAt::Edge(_, tags) => {
            let edges = surface.outline.iter().flat_map(|outline| outline.edges());
            let along = edges.filter(|edge| {
                let side = surface.sides.get(edge.tag as usize);
                side.is_some_and(|side| tags.contains(&side.edge))
            });
            along
                .filter_map(|edge| Some(surface.plane_along(edge)?.levels_along(edge).1))
                .reduce(f64::max)
        }
        LevelAt::Whole => highest_at_building(surface),
    }
}

/// Whether paving beside a surface meets the building at a higher level, a
/// landing or a step that the door opens on in its place.
fn is_onto_another(context: &Context<'_>, surface: &Surface, level: f64) -> bool {
    surface.sides.iter().any(|side| {
        let Contact::Surface(index) = side.contact else {
            return false;
        };
        let other = context.beside(index);
        other.is_some_and(|other| {
            let theirs = highest_at_building(other);
            theirs.is_some_and(|theirs| theirs > level + SAME_LEVEL)
        })
    })
}

/// The limit that is in force for the doors onto a surface, the strictest
/// where there are several; nothing where none is known of.
pub(super) fn limit(context: &Context<'_>, surface: &Surface) -> Option<InForce> {
    let doors = surface.doors.iter().map(Some);
    let assumed = surface.doors.is_empty().then_some(None);
    let limits = doors
        .chain(assumed)
        .filter_map(|door| limit_of(context, surface, door));
    limits.min_by(|one, other| one.value.si().total_cmp(&other.value.si()))
}

/// Whether a door is one that wheelchairs go through: of an accessible surface
/// of which no door is stated nobody knows whether one opens there at all.
fn is_for_wheels(surface: &Surface, door: Option<&Door>) -> bool {
    surface.accessible.is_some() && door.is_some()
}

fn limit_of(context: &Context<'_>, surface: &Surface, door: Option<&Door>) -> Option<InForce> {
    let is_clear = door.is_some_and(|door| door.is_clear);
    let row = match (surface.exit, is_clear) {
        _ if is_at_garage_door(context, surface, door) => "garage",
        _ if is_for_wheels(surface, door) => "accessible",
        (None, _) => "plain",
        (Some(_), false) => "exit",
        (Some(_), true) => "exit-clear",
    };
    context.limit(&DOOR_STEP, row)
}

/// Whether cars go in over a surface: at a door that is stated, else at what
/// is called a garage, unless a damp course shows that the wall goes on there.
fn is_at_garage_door(context: &Context<'_>, surface: &Surface, door: Option<&Door>) -> bool {
    let site = &context.job.site;
    is_garage_drive(site, surface) && (door.is_some() || site.damp_course.is_none())
}

/// Whether a flight of steps leads up to the floor.
fn has_flight_to_floor(context: &Context<'_>) -> bool {
    let mut flights = context.job.steps.iter();
    flights.any(|own| matches!(own.to.as_ref().map(|to| &to.value), Some(Ending::Floor)))
}
