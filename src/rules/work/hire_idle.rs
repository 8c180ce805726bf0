//! `hire-idle`: hire that is paid for longer than the thing is kept.

use crate::findings::Severity;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Hire that is paid for longer than the thing is kept.
pub(crate) static HIRE_IDLE: Rule = Rule {
    name: "hire-idle",
    family: Family::Work,
    severity: Severity::Advisory,
    looks_at: "What is hired for less time than the minimum that is paid for.",
    reason: "The days of the minimum are paid for whether or not the machine works.",
    remedy: "Keep it for the days that are paid for, and give it the work of another day; or hire where the minimum is shorter.",
    limits: &[],
    sources: &[Source::computed("days paid for less days kept")],
    breaks: "hire plate-compactor
  for          compacting
  kept         1 day
  price        £40/day
  minimum      «3 days»
",
    keeps: "hire plate-compactor
  for          compacting
  kept         3 days
  price        £40/day
  minimum      3 days
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for hire in context.job.hires.iter() {
        let Some(minimum) = &hire.minimum else {
            continue;
        };
        // Stretches that follow one another may be paid for as one.
        let [kept] = hire.kept.as_slice() else {
            continue;
        };
        if kept.days >= minimum.value {
            continue;
        }
        let (paid, days) = (minimum.value, kept.days);
        let idle = paid.saturating_sub(days);
        let message = format!(
            "{} stands idle: kept for {}, but {paid} at least are paid for. Plan work for the other {idle}",
            hire.name.value,
            match days {
                1 => "1 day".to_owned(),
                _ => format!("{days} days"),
            }
        );
        found.add(
            HIRE_IDLE
                .finding(minimum.place, message)
                .related(kept.place, "how long it is kept"),
        );
    }
}
