//! `handrail-missing`: a flight with nothing to hold on to.

use super::{IRC_HANDRAILS, flights};
use crate::findings::{Fix, Severity};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::units::{Dimension, Quantity, show};

/// A flight with nothing to hold on to.
pub(crate) static HANDRAIL_MISSING: Rule = Rule {
    name: "handrail-missing",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "The number of risers of a flight for which no handrail is stated.",
    reason: "On wet or icy steps a hand on a rail is what keeps people from falling.",
    remedy: "Put up a handrail, and state it.",
    limits: &[Limit {
        row: "plain",
        of: "risers without a handrail",
        bound: Bound::Most,
        general: Value {
            written: &["3"],
            source: IRC_HANDRAILS,
        },
        regions: &[],
    }],
    sources: &[IRC_HANDRAILS],
    breaks: "\
steps «garden-steps»
  from         -840 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
",
    keeps: "\
steps garden-steps
  from         -840 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  handrail     both sides
",
    mended: Some(
        "\
steps garden-steps
  handrail     both sides
  from         -840 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
",
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&HANDRAIL_MISSING, "plain") else {
        return;
    };
    for (own, flight) in flights(context) {
        let risers = f64::from(flight.risers);
        let is_unclear = own.handrail.is_none() && context.is_misread(own.section);
        if own.handrail.is_some() || limit.allows_si(risers) || is_unclear {
            continue;
        }
        let message = format!(
            "{} risers and no handrail; {} is the most without one. Put one up",
            flight.risers,
            show::number(limit.value.si())
        );
        found.add(
            HANDRAIL_MISSING
                .finding(own.name.place, message)
                .found(
                    flight.risers.to_string(),
                    Quantity::near(risers, Dimension::NONE),
                )
                .against(&limit, context)
                .fix(Fix::judged(
                    "State a handrail on both sides",
                    own.place.end(),
                    format!("\n  {:<12} both sides", "handrail"),
                )),
        );
    }
}
