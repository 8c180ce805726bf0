//! `trench-narrow`: the trench of a pipe too narrow to dig.

use super::pipe_unsuited::is_collector;
use super::readable;
use crate::findings::Severity;
use crate::model::DrainKind;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// The trench of a pipe too narrow to dig.
pub(crate) static TRENCH_NARROW: Rule = Rule {
    name: "trench-narrow",
    family: Family::Drains,
    severity: Severity::Advisory,
    looks_at: "How wide the trench of a pipe is: as wide as the pipe and what it is bedded in. Not of one that lies within what is dug for the paving.",
    reason: "No bucket, no chain and no spade digs so narrow: more is dug, carted and filled than the figures say, and a pipe in bare ground lies on stones.",
    remedy: "State what the pipe is bedded in, and how much of it lies round it.",
    limits: &[Limit::practice(
        "plain",
        "the width of the trench of a pipe",
        Bound::Least,
        &["150 mm", "6 in"],
    )],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
drain side-pipe
  «pipe         plastic-pipe, 110 mm, from (0 m, -6 m) to (4 m, -6 m)»
  fall         1:80
  invert       -620 mm
  to           \"storm drain\"
",
    keeps: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -6 m) to (4 m, -6 m)
  fall         1:80
  invert       -620 mm
  bedded       in gravel, 75 mm round
  to           \"storm drain\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&TRENCH_NARROW, "plain") else {
        return;
    };
    for (drain, figures) in readable(context.job, context.figures) {
        let dig = figures.dig.as_ref().filter(|dig| dig.bank_m3 > 0.0);
        let width = dig.and_then(|dig| dig.width_m);
        let is_pipe = drain.kind() == Some(DrainKind::Pipe) && drain.existing.is_none();
        // A collector lies in the stone of the base.
        let is_pipe = is_pipe && !(drain.bedded.is_none() && is_collector(context, drain));
        let Some(width) = width.filter(|width| is_pipe && !limit.allows_si(*width)) else {
            continue;
        };
        let shown = limit.beside_si(width, context.system());
        let mend = match drain.bedded {
            Some(_) => "Put more of it round the pipe",
            None => "Say what the pipe is bedded in, and how much lies round it",
        };
        let message = format!(
            "the trench of {} is {shown} wide: {} is the least that can be dug. {mend}",
            drain.name.value,
            limit.shown(context.system())
        );
        let place = drain.bedded.as_ref().map(|bedded| bedded.place);
        let place = place.or(drain.body.as_ref().map(|body| body.place));
        found.add(
            TRENCH_NARROW
                .finding(place.unwrap_or(drain.place), message)
                .found(shown, Quantity::near(width, Dimension::LENGTH))
                .against(&limit, context),
        );
    }
}
