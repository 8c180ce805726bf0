//! `drain-circular`: drains that lead round to one of themselves.

use crate::findings::Severity;
use crate::model::{Drain, Outfall};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Drains that lead round to one of themselves.
pub static DRAIN_CIRCULAR: Rule = Rule {
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
    let mut told: Vec<&str> = Vec::new();
    for drain in context.job.drains.iter() {
        let Some(to) = &drain.to else { continue };
        let round = matches!(context.job.outfall(&to.value), Some(Outfall::Circle));
        let round = round.then(|| circle(context, drain)).flatten();
        let Some(round) = round.filter(|_| !told.contains(&drain.name.value.as_str())) else {
            continue;
        };
        told.extend(&round);
        let named = round.iter().copied().take(MOST_NAMED);
        let rest = (round.len() > MOST_NAMED).then_some("others");
        let way: Vec<&str> = named.chain(rest).chain(round.first().copied()).collect();
        let message = format!(
            "the water goes round and never leaves: {}",
            way.join(" to ")
        );
        found.add(DRAIN_CIRCULAR.finding(to.place, message));
    }
}

/// The names of a circle that a drain is part of, itself first; none if it
/// only leads into one.
fn circle<'a>(context: &Context<'a>, first: &'a Drain) -> Option<Vec<&'a str>> {
    let mut round = vec![first.name.value.as_str()];
    let mut next = first;
    for _ in 0..context.job.drains.len() {
        let name = next.to.as_ref()?.value.drain()?;
        if name == first.name.value {
            return Some(round);
        }
        next = context.job.drain(name)?;
        round.push(&next.name.value);
    }
    None
}
