//! `pitch-steep`: a flight as steep as a ladder.

use super::{APPROVED_K_PITCH, flights};
use crate::findings::Severity;
use crate::quantities::Flight;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::units::{Dimension, Quantity};

/// A flight as steep as a ladder.
pub(crate) static PITCH_STEEP: Rule = Rule {
    name: "pitch-steep",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "The pitch of a flight: the angle of a riser over a going. Replaces going-short and step-proportion.",
    reason: "On so steep a flight people come down backwards, or fall.",
    remedy: "Make the goings deeper, or the risers lower and more of them.",
    limits: &[Limit {
        row: "plain",
        of: "the pitch of steps",
        bound: Bound::Most,
        general: Value {
            written: &["42 deg"],
            source: APPROVED_K_PITCH,
        },
        regions: &[],
    }],
    sources: &[APPROVED_K_PITCH],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        «150 mm»
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
    let Some(limit) = context.limit(&PITCH_STEEP, "plain") else {
        return;
    };
    for (own, flight) in flights(context) {
        let Some(going) = &own.going else { continue };
        if flight.treads() == 0 || limit.allows_si(flight.pitch_degrees) {
            continue;
        }
        let shown = limit.beside_si(flight.pitch_degrees, context.system());
        let message = format!(
            "too steep to walk down: {shown}. {} is the most. Make the goings deeper",
            limit.shown(context.system())
        );
        found.add(
            PITCH_STEEP
                .finding(going.place, message)
                .found(
                    shown,
                    Quantity::near(flight.pitch_degrees, Dimension::ANGLE),
                )
                .against(&limit, context),
        );
    }
}

/// Whether this rule speaks of a flight, and as gravely as usual.
pub(super) fn is_steep(context: &Context<'_>, flight: &Flight) -> bool {
    let limit = context.limit(&PITCH_STEEP, "plain");
    limit.is_some_and(|limit| !limit.allows_si(flight.pitch_degrees))
        && context.is_in_force(&PITCH_STEEP, Severity::Warning)
}
