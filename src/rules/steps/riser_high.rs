//! `riser-high`: risers too high to climb in comfort.

use super::riser_low::RISER_LOW;
use super::{flights, length, risers_place, with_risers};
use crate::findings::Severity;
use crate::model::Region;
use crate::quantities::{HIGHEST_RISER, HIGHEST_RISER_AU, HIGHEST_RISER_UK, fewest_risers};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

/// What stairs for all comers keep to and those of a house need not.
const PRIVATE_STAIR: Source = Source::memory(
    "Approved Document K (England, 2013)",
    "table 1.1, private stairs rise 150 to 220 mm",
);

/// Risers too high to climb in comfort.
pub(crate) static RISER_HIGH: Rule = Rule {
    name: "riser-high",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "The rise of each riser, from nosing to nosing. In the UK an advisory up to what stairs of a house may have, and nothing where one riser more would make them too low.",
    reason: "High risers tire people and trip them, above all the old, the young and anyone carrying something.",
    remedy: "Use more risers, each lower.",
    limits: &[
        Limit {
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
        },
        Limit {
            row: "private",
            of: "a riser of steps at a British house",
            bound: Bound::Most,
            general: Value {
                written: &["220 mm"],
                source: PRIVATE_STAIR,
            },
            regions: &[],
        },
    ],
    sources: &[
        HIGHEST_RISER.source,
        HIGHEST_RISER_UK.source,
        PRIVATE_STAIR,
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
        let fewest = fewest_risers(context.job, own, limit.value.si());
        let is_private = is_for_house(context, flight.riser_m);
        let too_low = context.limit(&RISER_LOW, "plain").zip(fewest);
        let too_low = too_low.is_some_and(|(least, (_, riser))| !least.allows_si(riser));
        // One more of them would be too low: so few are as good as it gets.
        if is_private && too_low {
            continue;
        }
        let finding = match is_private {
            true => finding.severity(Severity::Advisory),
            false => finding,
        };
        found.add(match fewest.filter(|_| !too_low) {
            Some((count, _)) => with_risers(finding, own, count),
            None => finding,
        });
    }
}

/// Whether risers that are too high for all comers will do at a house, where
/// the region lets them.
fn is_for_house(context: &Context<'_>, riser: f64) -> bool {
    let limit = context.limit(&RISER_HIGH, "private");
    context.region() == Region::Uk && limit.is_some_and(|limit| limit.allows_si(riser))
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
