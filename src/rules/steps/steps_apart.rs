//! `steps-apart`: steps that do not come to the surface that they lead to, or
//! from.

use super::{flights, length};
use crate::findings::Severity;
use crate::geometry::Point;
use crate::model::{Ending, Stated};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

/// Steps that do not come to the surface that they lead to, or from.
pub(crate) static STEPS_APART: Rule = Rule {
    name: "steps-apart",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "How far the foot and the top of a flight lie from the surfaces that it names.",
    reason: "A flight in the wrong place, or climbing the wrong way, takes its levels and its dig from the wrong ground.",
    remedy: "Look at where the flight stands, and at which way it climbs.",
    limits: &[Limit {
        row: "plain",
        of: "an end of a flight away from the surface that it names",
        bound: Bound::Most,
        general: Value {
            written: &["300 mm", "12 in"],
            source: Source::COMMON_PRACTICE,
        },
        regions: &[],
    }],
    sources: &[
        Source::computed("the shortest way from the middle of a riser's line to the outline"),
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
    }
}

fn apart(
    context: &Context<'_>,
    (which, ending): (&str, &Stated<Ending>),
    at: Point,
    found: &mut Found,
) {
    let Ending::Surface(name) = &ending.value else {
        return;
    };
    let mut surfaces = context.job.surfaces.iter();
    let surface = surfaces.find(|surface| surface.name.value == *name);
    let surface = surface.filter(|surface| surface.outline.is_some());
    let Some(surface) = surface.filter(|surface| !surface.contains(at)) else {
        return;
    };
    let away = surface.edges().map(|edge| edge.distance_to(at));
    let away = away.fold(f64::INFINITY, f64::min);
    let limit = context.limit(&STEPS_APART, "plain");
    let Some(limit) = limit.filter(|limit| !limit.allows_si(away)) else {
        return;
    };
    let shown = context.show_length(away);
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
