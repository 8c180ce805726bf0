//! `off-outside`: days off that no work would have fallen on.

use crate::findings::Severity;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Days off that no work would have fallen on.
pub(crate) static OFF_OUTSIDE: Rule = Rule {
    name: "off-outside",
    family: Family::Work,
    severity: Severity::Advisory,
    looks_at: "Days off with dates that lie before the work begins.",
    reason: "The year is most likely wrong, and the schedule has people working on the holiday that is meant.",
    remedy: "Correct the date, or take the line out.",
    limits: &[],
    sources: &[Source::computed("the first day of the work")],
    breaks: "site
  services     located 2027-04-08

work
  start        2027-04-12
  off          «2026-05-03»
",
    keeps: "site
  services     located 2027-04-08

work
  start        2027-04-12
  off          2027-05-03
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(work) = &context.job.work else {
        return;
    };
    let Some(start) = &work.start else { return };
    for off in &work.off {
        let (_, last) = off.value;
        if last.since(start.value) >= 0 {
            continue;
        }
        let message = format!(
            "{last} lies before the work begins, {}: is the year right?",
            start.value
        );
        found.add(
            OFF_OUTSIDE
                .finding(off.place, message)
                .related(start.place, "the work begins here"),
        );
    }
}
