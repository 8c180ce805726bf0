//! `steps-apart`: steps that do not come to the surface that they lead to, or
//! from.

use super::{flights, length};
use crate::findings::Severity;
use crate::geometry::{Edge, Point};
use crate::model::{Ending, Stated, Steps, Surface};
use crate::quantities::Flight;
use crate::rules::slope::building_edges;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;

/// How squarely a flight climbs toward a wall at the least, as a cosine.
const FACING: f64 = 0.5;

/// So far past a riser's line, in metres, it is seen what lies there.
const BEHIND: f64 = 0.05;

/// So far down a flight, in metres, the edge of what it leads to is looked
/// for.
const FARTHEST: f64 = 1e3;

/// Steps that do not come to the surface that they lead to, or from.
pub(crate) static STEPS_APART: Rule = Rule {
    name: "steps-apart",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "How far the foot and the top of a flight lie from the surfaces that it names, on which side of the flight they lie, and how much of its top leads past the one above; of a flight to the floor, whether it climbs toward the wall that it stands at.",
    reason: "A flight in the wrong place, or climbing the wrong way, takes its levels and its dig from the wrong ground.",
    remedy: "Look at where the flight stands, and at which way it climbs.",
    limits: &[Limit::practice(
        "plain",
        "an end of a flight away from the surface that it names, or how much of its top leads past it",
        Bound::Most,
        &["300 mm", "12 in"],
    )],
    sources: &[
        Source::computed(
            "the shortest way from the middle of a riser's line to the outline, and the stretch of the line with no surface behind it",
        ),
        Source::COMMON_PRACTICE,
    ],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           «court»
  at           (3 m, -1 m), climbing north
  width        1.2 m
  going        350 mm
  handrail     both sides
",
    keeps: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  handrail     both sides
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for (own, flight) in flights(context) {
        if inside(context, own, flight, found) {
            continue;
        }
        if is_along_wall(context, own, flight) {
            let message = "these steps lead to the floor, but do not climb toward the wall that they stand at: part of the flight lies inside the building. Turn them to face the wall";
            let place = own.climbing.as_ref().map_or(own.place, |way| way.place);
            found.add(STEPS_APART.finding(place, message));
            continue;
        }
        let (foot, _) = flight.riser_line(0);
        let ends = [
            ("these steps begin", &own.from, foot),
            ("these steps end", &own.to, flight.at),
        ];
        for (which, ending, at) in ends {
            if let Some(ending) = ending {
                apart(context, (which, ending), at, found);
            }
        }
        if turned_round(context, own, flight, foot, found) {
            continue;
        }
        past_the_top(context, own, flight, found);
    }
}

/// Tells of a flight that lies on the surface at which it should begin or end;
/// whether it does.
fn turned_round(
    context: &Context<'_>,
    own: &Steps,
    flight: &Flight,
    foot: Point,
    found: &mut Found,
) -> bool {
    let step = flight.climbing * BEHIND;
    let ends = [
        ("ends", &own.to, flight.at, step),
        ("begins", &own.from, foot, -step),
    ];
    for (does, ending, at, off) in ends {
        let Some((name, surface)) = ending.as_ref().and_then(|own| named(context, own)) else {
            continue;
        };
        if surface.contains(at + off) || !surface.contains(at + -off) {
            continue;
        }
        let place = own.climbing.as_ref().map_or(own.place, |way| way.place);
        let message = format!(
            "these steps climb the wrong way: they lie on {name}, at whose edge the flight {does}. Turn them round"
        );
        let finding = STEPS_APART.finding(place, message);
        found.add(finding.severity(Severity::Error));
        return true;
    }
    false
}

/// Tells of a flight in the middle of the surface that it leads to, which
/// lies before its foot too; whether it does.
fn inside(context: &Context<'_>, own: &Steps, flight: &Flight, found: &mut Found) -> bool {
    let Some((name, surface)) = own.to.as_ref().and_then(|own| named(context, own)) else {
        return false;
    };
    let (foot, _) = flight.riser_line(0);
    let step = flight.climbing * BEHIND;
    if !surface.contains(flight.at + step) || !surface.contains(foot + -step) {
        return false;
    }
    let down = Edge::line(flight.at, flight.at + flight.climbing * -FARTHEST, 0);
    let stretches = surface
        .outlines()
        .flat_map(|own| own.stretches_inside(&down));
    let stretches = stretches.filter(|(from, _)| *from <= BEHIND);
    let to_edge = stretches.map(|(_, to)| to).fold(0.0, f64::max);
    let limit = context.limit(&STEPS_APART, "plain");
    if limit.is_none_or(|limit| limit.allows_si(to_edge - flight.run_m)) {
        return false;
    }
    let message = format!(
        "these steps stand inside {name}, to which they lead: its edge is {} farther down. Put the top riser there",
        context.show_length(to_edge)
    );
    let place = own.at.as_ref().map_or(own.place, |at| at.place);
    found.add(STEPS_APART.finding(place, message));
    true
}

/// Whether a flight leads to the floor inside and climbs along the wall at which
/// it ends, or away from it.
pub(super) fn is_along_wall(context: &Context<'_>, own: &Steps, flight: &Flight) -> bool {
    let to = own.to.as_ref().map(|ending| &ending.value);
    let Some(limit) = context.limit(&STEPS_APART, "plain") else {
        return false;
    };
    let surfaces = context.job.surfaces.iter();
    let walls = surfaces.flat_map(|surface| building_edges(surface));
    let near = walls.filter(|wall| limit.allows_si(wall.distance_to(flight.at)));
    let ways: Vec<f64> = near
        .filter_map(|wall| Some(-wall.inward_normal()?.dot(flight.climbing)))
        .collect();
    matches!(to, Some(Ending::Floor)) && !ways.is_empty() && ways.iter().all(|way| *way < FACING)
}

/// Tells of a top riser that is wider than what it leads to.
fn past_the_top(context: &Context<'_>, own: &Steps, flight: &Flight, found: &mut Found) {
    let Some((name, surface)) = own.to.as_ref().and_then(|own| named(context, own)) else {
        return;
    };
    let (at, left) = flight.riser_line(flight.treads());
    let behind = at + flight.climbing * BEHIND;
    if !surface.contains(behind) {
        return;
    }
    let line = Edge::line(behind + left, behind + -left, 0);
    let outlines = context.job.surfaces.iter().flat_map(|own| own.outlines());
    let inside = outlines.flat_map(|own| own.stretches_inside(&line));
    let led_to: f64 = inside.map(|(from, to)| to - from).sum();
    let past = line.length() - led_to;
    let limit = context.limit(&STEPS_APART, "plain");
    let Some(limit) = limit.filter(|limit| !limit.allows_si(past)) else {
        return;
    };
    let shown = limit.beside_si(past, context.system());
    let message = format!(
        "{shown} of the top riser leads past {name}, to nothing: make the flight narrower, or move it"
    );
    let place = own.width.as_ref().map_or(own.place, |width| width.place);
    found.add(
        STEPS_APART
            .finding(place, message)
            .found(shown, length(past))
            .against(&limit, context),
    );
}

/// The surface that a flight begins or ends at, with its name.
fn named<'a>(context: &Context<'a>, ending: &'a Stated<Ending>) -> Option<(&'a str, &'a Surface)> {
    let Ending::Surface(name) = &ending.value else {
        return None;
    };
    let mut surfaces = context.job.surfaces.iter();
    let surface = surfaces.find(|surface| surface.name.value == *name)?;
    surface
        .outline
        .is_some()
        .then_some((name.as_str(), surface.as_ref()))
}

fn apart(
    context: &Context<'_>,
    (which, ending): (&str, &Stated<Ending>),
    at: Point,
    found: &mut Found,
) {
    let Some((name, surface)) = named(context, ending).filter(|(_, own)| !own.contains(at)) else {
        return;
    };
    let away = surface.edges().map(|edge| edge.distance_to(at));
    let away = away.fold(f64::INFINITY, f64::min);
    let limit = context.limit(&STEPS_APART, "plain");
    let Some(limit) = limit.filter(|limit| !limit.allows_si(away)) else {
        return;
    };
    let shown = limit.beside_si(away, context.system());
    let message = format!(
        "{which} {shown} away from {name}: look at where they stand, and which way they climb"
    );
    found.add(
        STEPS_APART
            .finding(ending.place, message)
            .found(shown, length(away))
            .against(&limit, context),
    );
}
