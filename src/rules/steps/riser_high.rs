//! `riser-high`: risers too high to climb in comfort.

use super::{flights, length, risers_place, with_risers};
use crate::findings::Severity;
use crate::model::Region;
use crate::quantities::{HIGHEST_RISER, HIGHEST_RISER_AU, HIGHEST_RISER_UK};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};

/// Risers too high to climb in comfort.
pub(crate) static RISER_HIGH: Rule = Rule {
    name: "riser-high",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "The rise of each riser, from nosing to nosing.",
    reason: "High risers tire people and trip them, above all the old, the young and anyone carrying something.",
    remedy: "Use more risers, each lower.",
    limits: &[Limit {
        row: "plain",
        of: "a riser",
        bound: Bound::Most,
        general: Value {
            written: &["196 mm", "7 3/4 in"],
            source: HIGHEST_RISER.source,
        },
        regions: &[
            (
                Region::Uk,
                Value {
                    written: &["170 mm"],
                    source: HIGHEST_RISER_UK.source,
                },
            ),
            (
                Region::Au,
                Value {
                    written: &["190 mm"],
                    source: HIGHEST_RISER_AU.source,
                },
            ),
        ],
    }],
    sources: &[
        HIGHEST_RISER.source,
        HIGHEST_RISER_UK.source,
        HIGHEST_RISER_AU.source,
    ],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  risers       «2»
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
    let Some(limit) = context.limit(&RISER_HIGH, "plain") else {
        return;
    };
    for (own, flight) in flights(context) {
        if limit.allows_si(flight.riser_m) {
            continue;
        }
        let shown = limit.beside_si(flight.riser_m, context.system());
        let message = format!(
            "risers of {shown} are too high; {} is the most. Use more of them",
            limit.shown(context.system())
        );
        let finding = RISER_HIGH
            .finding(risers_place(own), message)
            .found(shown, length(flight.riser_m))
            .against(&limit, context);
        let fewest = (flight.rise_m / limit.value.si() - 1e-9).ceil();
        found.add(with_risers(finding, own, fewest));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantities::HighestRiser;

    /// The risers that are counted where a spec leaves their number out keep
    /// this very limit.
    #[test]
    fn the_limit_is_the_one_that_risers_are_counted_by() {
        for (region, counted) in [
            (Region::General, &HIGHEST_RISER),
            (Region::Us, &HIGHEST_RISER),
            (Region::Uk, &HIGHEST_RISER_UK),
            (Region::Au, &HIGHEST_RISER_AU),
        ] {
            let HighestRiser { written, source } = counted;
            let limit = RISER_HIGH.limits[0].value(region);
            assert_eq!((limit.written, &limit.source), (*written, source));
        }
    }
}
