//! `risers-uneven`: risers that differ in height.

use super::steps_apart::{STEPS_APART, is_along_wall};
use super::{ABCB_EVEN, IRC_EVEN, flights, length};
use crate::findings::Severity;
use crate::model::Region;
use crate::quantities::Flight;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};

/// Risers that differ in height.
pub(crate) static RISERS_UNEVEN: Rule = Rule {
    name: "risers-uneven",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "The highest and the lowest riser of a flight, where what lies at its foot or at its top falls across it: the lowest and the top riser are higher at one end. What is left over from a whole number of marks of the tape can be shared out, and is not counted.",
    reason: "The foot learns the first riser and trips over the one that differs.",
    remedy: "Let the paving at the foot and at the top lie level across the flight, or turn its fall along it.",
    limits: &[Limit {
        row: "plain",
        of: "the difference between risers",
        bound: Bound::Most,
        general: Value {
            written: &["9.5 mm", "3/8 in"],
            source: IRC_EVEN,
        },
        regions: &[(
            Region::Au,
            Value {
                written: &["5 mm"],
                source: ABCB_EVEN,
            },
        )],
    }],
    sources: &[IRC_EVEN, ABCB_EVEN],
    breaks: "\
site
  ground       -700 mm at (3 m, -0.7 m), falling 1:20 toward east

steps garden-steps
  «from         ground»
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  handrail     both sides
",
    keeps: "\
site
  ground       -700 mm at (3 m, -0.7 m), falling 1:20 toward south

steps garden-steps
  from         ground
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
    let Some(limit) = context.limit(&RISERS_UNEVEN, "plain") else {
        return;
    };
    // One that climbs the wrong way takes its levels from the wrong ground.
    let is_told = context.is_in_force(&STEPS_APART, STEPS_APART.severity);
    let facing =
        flights(context).filter(|(own, flight)| !(is_told && is_along_wall(context, own, flight)));
    for (own, flight) in facing {
        let spread = spread_m(flight);
        if limit.allows_si(spread) {
            continue;
        }
        let across = |(left, right): (f64, f64)| (left - right).abs();
        let (foot, top) = (across(flight.foot_ends_m), across(flight.top_ends_m));
        let (ending, place) = match foot >= top {
            true => (&own.from, "foot"),
            false => (&own.to, "top"),
        };
        let place_of = ending.as_ref().map_or(own.place, |ending| ending.place);
        let shown = limit.beside_si(spread, context.system());
        let most = limit.shown(context.system());
        let message = format!(
            "the risers differ by {shown}: the ground or paving at the {place} falls across the flight. {most} is the most. Level it there"
        );
        found.add(
            RISERS_UNEVEN
                .finding(place_of, message)
                .found(shown, length(spread))
                .against(&limit, context),
        );
    }
}

/// By how much the risers of a flight differ, at either end or in the middle.
fn spread_m(flight: &Flight) -> f64 {
    let each = flight.rise_m / f64::from(flight.risers);
    let of = |foot: f64, top: f64| {
        let (up, down) = (top - flight.top_m, flight.foot_m - foot);
        match flight.risers {
            1 => vec![each + up + down],
            _ => vec![each + down, each + up],
        }
    };
    let (foot, top) = (flight.foot_ends_m, flight.top_ends_m);
    let ends = [of(foot.0, top.0), of(foot.1, top.1)].concat();
    let (low, high) = ends
        .into_iter()
        .chain([each])
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), riser| {
            (low.min(riser), high.max(riser))
        });
    high - low
}
