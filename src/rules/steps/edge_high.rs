//! `edge-high`: an open side of steps to fall from.

use super::{flights, length};
use crate::findings::Severity;
use crate::model::Job;
use crate::quantities::Flight;
use crate::rules::documents::{APPROVED_K_GUARDS, IRC_GUARDS, NCC_GUARDS};
use crate::rules::falls::DROP;
use crate::rules::{Check, Context, Family, Found, Limit, Rule};

/// An open side of steps to fall from.
pub(crate) static EDGE_HIGH: Rule = Rule {
    name: "edge-high",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "How far the ground, or paving, lies below the treads beside them, left and right.",
    reason: "Anyone who steps aside or slips on the flight goes over its side.",
    remedy: "Bring the ground up beside the steps, or put up a guard and accept this, giving it as the reason.",
    limits: &[Limit {
        of: "the open side of steps",
        ..DROP
    }],
    sources: &[IRC_GUARDS, APPROVED_K_GUARDS, NCC_GUARDS],
    breaks: "\
site
  ground       -1300 mm

steps «garden-steps»
  from         -1300 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  risers       7
  handrail     both sides
",
    keeps: "\
site
  ground       -1000 mm

steps garden-steps
  from         -1000 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  risers       5
  handrail     both sides
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&EDGE_HIGH, "plain") else {
        return;
    };
    for (own, flight) in flights(context) {
        let drops = [1.0, -1.0].map(|way| {
            let drop = highest_drop(context.job, flight, way);
            drop.filter(|drop| !limit.allows_si(drop - ROUNDING))
        });
        let shown = |drop| limit.beside_si(drop, context.system());
        let (drop, sides) = match drops {
            [Some(left), Some(right)] if shown(left) == shown(right) => {
                (left, "on both sides".to_owned())
            }
            [Some(left), Some(right)] if left > right => (
                left,
                format!("on the left going up, and {} on the right", shown(right)),
            ),
            [Some(left), Some(right)] => (
                right,
                format!("on the right going up, and {} on the left", shown(left)),
            ),
            [Some(left), None] => (left, "on the left going up".to_owned()),
            [None, Some(right)] => (right, "on the right going up".to_owned()),
            [None, None] => continue,
        };
        let shown = shown(drop);
        let message = format!(
            "a drop of {shown} beside the treads, {sides}. {} is the most without a guard",
            limit.shown(context.system())
        );
        found.add(
            EDGE_HIGH
                .finding(own.name.place, message)
                .found(shown, length(drop))
                .against(&limit, context),
        );
    }
}

/// What adding up risers may be off by, in metres: a drop at the limit is none
/// over it.
const ROUNDING: f64 = 1e-6;

/// How far out, in metres, one looks for what lies beside the treads.
const BESIDE: f64 = 0.05;

/// The greatest height of a tread over what lies beside it; `None` if that is
/// not known of any.
fn highest_drop(job: &Job, flight: &Flight, way: f64) -> Option<f64> {
    let treads = 0..flight.treads();
    let drops = treads.filter_map(|index| {
        let (line, left) = flight.riser_line(index);
        let out = left.unit() * (way * (left.length() + BESIDE));
        let beside = line + flight.climbing * (0.5 * flight.going_m) + out;
        let level = flight.foot_m + flight.lowest_m() + f64::from(index) * flight.riser_m;
        Some(level - job.level_at(beside)?)
    });
    drops.max_by(f64::total_cmp)
}
