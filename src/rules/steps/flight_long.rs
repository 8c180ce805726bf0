//! `flight-long`: so many risers that nobody can rest, or stop a fall.

use super::{flights, risers_place};
use crate::findings::Severity;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, show};

/// How many risers an Australian flight may have.
const NCC_FLIGHTS: Source = Source::read(
    "National Construction Code of Australia, Building Code of Australia 2008, D2.13, an extract",
    "a flight of 2 to 18 risers",
);

/// So many risers that nobody can rest, or stop a fall.
pub(crate) static FLIGHT_LONG: Rule = Rule {
    name: "flight-long",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "How many risers a flight has from its foot to its top.",
    reason: "Nobody can rest on a long flight, and whoever falls at its top falls all the way down.",
    remedy: "Divide the flight with a landing.",
    limits: &[Limit {
        row: "plain",
        of: "the risers of one flight",
        bound: Bound::Most,
        general: Value {
            written: &["18"],
            source: NCC_FLIGHTS,
        },
        regions: &[],
    }],
    sources: &[NCC_FLIGHTS],
    breaks: "\
steps garden-steps
  from         -3.4 m
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        330 mm
  risers       «20»
  handrail     both sides
",
    keeps: "\
steps garden-steps
  from         -2.8 m
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        330 mm
  risers       16
  handrail     both sides
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&FLIGHT_LONG, "plain") else {
        return;
    };
    for (own, flight) in flights(context) {
        let risers = f64::from(flight.risers);
        if limit.allows_si(risers) {
            continue;
        }
        let message = format!(
            "{} risers in one flight; {} is the most. Put a landing in",
            flight.risers,
            show::number(limit.value.si())
        );
        found.add(
            FLIGHT_LONG
                .finding(risers_place(own), message)
                .found(
                    flight.risers.to_string(),
                    Quantity::near(risers, Dimension::NONE),
                )
                .against(&limit, context),
        );
    }
}
