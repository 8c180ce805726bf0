//! `invert-misplaced`: an invert stated at a point where the drain does not
//! run.

use super::readable;
use crate::findings::Severity;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// An invert stated at a point where the drain does not run.
pub(crate) static INVERT_MISPLACED: Rule = Rule {
    name: "invert-misplaced",
    family: Family::Drains,
    severity: Severity::Warning,
    looks_at: "How far the point of a stated invert lies from the drain on the plan.",
    reason: "A level taken beside the pipe is no level of the pipe: the whole run is then dug to a wrong depth.",
    remedy: "State the invert where the drain begins or ends, or at a point of it; look whether east and north are swapped.",
    limits: &[Limit::practice(
        "plain",
        "the distance of an invert's point from its drain",
        Bound::Most,
        &["150 mm", "6 in"],
    )],
    sources: &[Source::computed("the line of the drain on the plan")],
    breaks: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)
  fall         1:80
  «invert       -700 mm at (3 m, 2 m)»
  bedded       in gravel, 75 mm round
  to           \"storm drain\"
",
    keeps: "\
drain side-pipe
  pipe         plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)
  fall         1:80
  invert       -700 mm at (3 m, -1 m)
  bedded       in gravel, 75 mm round
  to           \"storm drain\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(limit) = context.limit(&INVERT_MISPLACED, "plain") else {
        return;
    };
    for (drain, _) in readable(context.job, context.figures) {
        for invert in &drain.inverts {
            let off = invert.at.and_then(|at| drain.distance_to(at));
            let Some(off) = off.filter(|off| !limit.allows_si(*off)) else {
                continue;
            };
            let shown = limit.beside_si(off, context.system());
            let message = format!(
                "this point lies {shown} from {}: no invert of it can be taken there; {} is the most. Are east and north swapped?",
                drain.name.value,
                limit.shown(context.system())
            );
            let finding = INVERT_MISPLACED
                .finding(invert.value.place, message)
                .found(shown, Quantity::near(off, Dimension::LENGTH))
                .against(&limit, context);
            found.add(match &drain.line {
                Some(line) => {
                    finding.related(line.place, format!("{} runs here", drain.name.value))
                }
                None => finding,
            });
        }
    }
}
