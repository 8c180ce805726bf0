//! `drain-circular`: drains that lead round to one of themselves.

use crate::findings::Severity;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Drains that lead round to one of themselves.
pub(crate) static DRAIN_CIRCULAR: Rule = Rule {
    name: "drain-circular",
    family: Family::Drains,
    severity: Severity::Error,
    looks_at: "Drains that lead from one to the next and round again.",
    reason: "The water never leaves, so none of them has an outlet.",
    remedy: "Lead the lowest of them away: to a soakaway, or to what takes the water in quotes.",
    limits: &[],
    sources: &[Source::computed("the chain of the drains")],
    breaks: "\
drain side-gully
  gully        clay-gully, at (1 m, 0 m)
  to           «back-gully»

drain back-gully
  gully        clay-gully, at (1.1 m, 0 m)
  to           side-gully
",
    keeps: "\
drain side-gully
  gully        clay-gully, at (1 m, 0 m)
  to           back-gully

drain back-gully
  gully        clay-gully, at (1.1 m, 0 m)
  to           \"storm drain\"
",
    mended: None,
    check: Check::Job(check),
};

/// How many drains of a circle are named.
const MOST_NAMED: usize = 8;

fn check(context: &Context<'_>, found: &mut Found) {
    let drains = &context.job.drains;
    for round in drains.circles() {
        let names: Vec<&str> = round
            .iter()
            .filter_map(|index| Some(drains.get(*index)?.name.value.as_str()))
            .collect();
        let first = round.first().and_then(|first| drains.get(*first));
        let Some(to) = first.and_then(|first| first.to.as_ref()) else {
            continue;
        };
        let named = names.iter().copied().take(MOST_NAMED);
        let rest = (names.len() > MOST_NAMED).then_some("others");
        let way: Vec<&str> = named.chain(rest).chain(names.first().copied()).collect();
        let message = format!(
            "the water goes round and never leaves: {}",
            way.join(" to ")
        );
        found.add(DRAIN_CIRCULAR.finding(to.place, message));
    }
    for (index, drain) in drains.iter().enumerate() {
        let Some(overflow) = &drain.overflow else {
            continue;
        };
        let next = drains.at(&overflow.value);
        if next.is_some_and(|next| drains.lead_on(next, index)) {
            let message = format!(
                "what {} cannot hold comes back to it: lead its overflow to somewhere else",
                drain.name.value
            );
            found.add(DRAIN_CIRCULAR.finding(overflow.place, message));
        }
    }
}
