//! `riser-low`: risers so low that people trip over them.

use super::riser_high::RISER_HIGH;
use super::{ADA_TREADS, APPROVED_K_GENERAL, flights, length, risers_place, with_risers};
use crate::findings::Severity;
use crate::model::Region;
use crate::quantities::fewest_risers;
use crate::rules::documents::NCC_RISERS;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};

/// Risers so low that people trip over them.
pub(crate) static RISER_LOW: Rule = Rule {
    name: "riser-low",
    family: Family::Steps,
    severity: Severity::Advisory,
    looks_at: "The rise of each riser, from nosing to nosing.",
    reason: "A low riser is not seen, and the foot that is not lifted for it trips.",
    remedy: "Use fewer risers, or a ramp.",
    limits: &[Limit {
        row: "plain",
        of: "a riser",
        bound: Bound::Least,
        general: Value {
            written: &["100 mm", "4 in"],
            source: ADA_TREADS,
        },
        regions: &[
            (
                Region::Uk,
                Value {
                    written: &["150 mm"],
                    source: APPROVED_K_GENERAL,
                },
            ),
            (
                Region::Au,
                Value {
                    written: &["115 mm"],
                    source: NCC_RISERS,
                },
            ),
        ],
    }],
    sources: &[ADA_TREADS, APPROVED_K_GENERAL, NCC_RISERS],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  risers       «6»
  handrail     both sides
",
    keeps: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  risers       3
  handrail     both sides
",
    mended: Some(
        "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  risers       3
  handrail     both sides
",
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let (Some(limit), Some(most)) = (
        context.limit(&RISER_LOW, "plain"),
        context.limit(&RISER_HIGH, "plain"),
    ) else {
        return;
    };
    for (own, flight) in flights(context) {
        if limit.allows_si(flight.riser_m) {
            continue;
        }
        let shown = limit.beside_si(flight.riser_m, context.system());
        let message = format!(
            "risers of {shown} are easily missed; {} is the least. Use fewer, or a ramp",
            limit.shown(context.system())
        );
        let finding = RISER_LOW
            .finding(risers_place(own), message)
            .found(shown, length(flight.riser_m))
            .against(&limit, context);
        let fewest = fewest_risers(context.job, own, most.value.si());
        let fewer = fewest.filter(|(count, _)| *count < flight.risers);
        // One fewer would be too high: so many are as good as it gets.
        if flight.risers > 1 && fewer.is_none() {
            continue;
        }
        // One riser that is too low is a lip, and no number of risers helps.
        found.add(match fewer {
            Some((count, _)) => with_risers(finding, own, count),
            None => finding,
        });
    }
}
