//! `drain-circular`: drains that lead round to one of themselves.

use rustc_hash::FxHashMap;

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
    for round in circles(context) {
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
}

/// The circles that drains make, each from its first drain on; each drain is
/// come to once, however long the ways are.
fn circles(context: &Context<'_>) -> Vec<Vec<usize>> {
    let drains = &context.job.drains;
    let mut named: FxHashMap<&str, usize> = FxHashMap::default();
    for (index, drain) in drains.iter().enumerate() {
        named.entry(&drain.name.value).or_insert(index);
    }
    let leads_to = |index: usize| {
        let to = drains.get(index)?.to.as_ref()?;
        named.get(to.value.drain()?).copied()
    };
    let mut walk_of: Vec<Option<usize>> = vec![None; drains.len()];
    let mut circles = Vec::new();
    for start in 0..drains.len() {
        let (mut way, mut next) = (Vec::new(), Some(start));
        while let Some(index) = next
            && let Some(walk) = walk_of.get_mut(index)
        {
            if walk.is_some() {
                break;
            }
            *walk = Some(start);
            way.push(index);
            next = leads_to(index);
        }
        // Only a way that comes back to itself is a circle.
        let Some(at) = next.and_then(|next| way.iter().position(|index| *index == next)) else {
            continue;
        };
        let mut round = way.split_off(at);
        let first = round.iter().min().copied();
        let place = round.iter().position(|index| Some(*index) == first);
        round.rotate_left(place.unwrap_or(0));
        circles.push(round);
    }
    circles
}
