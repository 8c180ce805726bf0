//! `step-proportion`: steps that no stride fits.

use super::going_short::GOING_SHORT;
use super::pitch_steep::PITCH_STEEP;
use super::riser_high::RISER_HIGH;
use super::riser_low::RISER_LOW;
use super::{APPROVED_K_STRIDE, NCC_STRIDE, flights, length};
use crate::findings::Severity;
use crate::model::Region;
use crate::quantities::Flight;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

/// Steps that no stride fits.
pub(crate) static STEP_PROPORTION: Rule = Rule {
    name: "step-proportion",
    family: Family::Steps,
    severity: Severity::Advisory,
    looks_at: "Two risers and a going together, which make a stride; not where mending a riser, the going or the pitch that is out of its own limits mends the stride too.",
    reason: "A stride too long or too short for the leg breaks the rhythm, and people stumble.",
    remedy: "Lower risers take deeper goings, higher ones shorter goings.",
    limits: &[
        Limit {
            row: "least",
            of: "two risers and a going",
            bound: Bound::Least,
            general: Value::practice(&["610 mm", "24 in"]),
            regions: &[
                (
                    Region::Uk,
                    Value {
                        written: &["550 mm"],
                        source: APPROVED_K_STRIDE,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["550 mm"],
                        source: NCC_STRIDE,
                    },
                ),
            ],
        },
        Limit {
            row: "most",
            of: "two risers and a going",
            bound: Bound::Most,
            general: Value::practice(&["686 mm", "27 in"]),
            regions: &[
                (
                    Region::Uk,
                    Value {
                        written: &["700 mm"],
                        source: APPROVED_K_STRIDE,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["700 mm"],
                        source: NCC_STRIDE,
                    },
                ),
            ],
        },
    ],
    sources: &[APPROVED_K_STRIDE, NCC_STRIDE, Source::COMMON_PRACTICE],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        «450 mm»
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
        let Some(going) = &own.going else { continue };
        if flight.treads() == 0 {
            continue;
        }
        for (row, verdict, remedy) in [
            ("least", "a short stride", "Make the goings deeper"),
            ("most", "a long stride", "Make the goings shorter"),
        ] {
            let Some(limit) = context.limit(&STEP_PROPORTION, row) else {
                continue;
            };
            // Risers go by the tape's mark, and so does their sum.
            let is_told = is_told(context, flight, limit.bound);
            if limit.allows_si(flight.stride_m) || is_told {
                continue;
            }
            let shown = limit.beside_si(flight.stride_m, context.system());
            let bound = match limit.bound {
                Bound::Least => "least",
                Bound::Most => "most",
            };
            let message = format!(
                "{verdict}: two risers and a going make {shown}. {} is the {bound}. {remedy}",
                limit.shown(context.system())
            );
            found.add(
                STEP_PROPORTION
                    .finding(going.place, message)
                    .found(shown, length(flight.stride_m))
                    .against(&limit, context),
            );
        }
    }
}

/// Whether another rule tells of a riser, the going or the pitch, and what it
/// asks for brings the stride nearer to this bound. Higher risers mend no
/// stride that is too long.
fn is_told(context: &Context<'_>, flight: &Flight, bound: Bound) -> bool {
    let misses = |rule: &'static Rule, value: f64| {
        let limit = context.limit(rule, "plain");
        limit.is_some_and(|limit| !limit.allows_si(value))
            && context.is_in_force(rule, rule.severity)
    };
    let is_riser_told = match bound {
        Bound::Most => misses(&RISER_HIGH, flight.riser_m),
        Bound::Least => misses(&RISER_LOW, flight.riser_m),
    };
    is_riser_told
        || misses(&GOING_SHORT, flight.going_m)
        || misses(&PITCH_STEEP, flight.pitch_degrees)
}
