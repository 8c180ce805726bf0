//! `going-short`: treads too short for a foot.

use super::pitch_steep::is_steep;
use super::{APPROVED_K_GENERAL, IRC_GOINGS, NCC_GOINGS, flights};
use crate::findings::Severity;
use crate::model::Region;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};

/// Treads too short for a foot.
pub(crate) static GOING_SHORT: Rule = Rule {
    name: "going-short",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "The going of the treads, from nosing to nosing; not where pitch-steep tells of the same.",
    reason: "Coming down onto half a foot, people slip off the tread.",
    remedy: "Make the goings deeper.",
    limits: &[Limit {
        row: "plain",
        of: "the going of a step",
        bound: Bound::Least,
        general: Value {
            written: &["254 mm", "10 in"],
            source: IRC_GOINGS,
        },
        regions: &[
            (
                Region::Uk,
                Value {
                    written: &["250 mm"],
                    source: APPROVED_K_GENERAL,
                },
            ),
            (
                Region::Au,
                Value {
                    written: &["240 mm"],
                    source: NCC_GOINGS,
                },
            ),
        ],
    }],
    sources: &[IRC_GOINGS, APPROVED_K_GENERAL, NCC_GOINGS],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        «230 mm»
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
    let Some(limit) = context.limit(&GOING_SHORT, "plain") else {
        return;
    };
    for (own, flight) in flights(context) {
        let Some(going) = &own.going else { continue };
        if flight.treads() == 0 || limit.allows(&going.value) || is_steep(context, flight) {
            continue;
        }
        let shown = limit.beside(&going.value, context.system());
        let message = format!(
            "a going of {shown} is too short for a foot; {} is the least. Make it deeper",
            limit.shown(context.system())
        );
        found.add(
            GOING_SHORT
                .finding(going.place, message)
                .found(shown, Some(going.value))
                .against(&limit, context),
        );
    }
}
