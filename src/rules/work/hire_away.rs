//! `hire-away`: what is hired on other days than those of its work.

use crate::findings::Severity;
use crate::model::{Hire, Stretch};
use crate::quantities::{DAY_MINUTES, ScheduleFigures};
use crate::rules::wording::counted_days;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::Day;

/// What is hired on other days than those of its work.
pub(crate) static HIRE_AWAY: Rule = Rule {
    name: "hire-away",
    family: Family::Work,
    severity: Severity::Warning,
    looks_at: "What is kept on days that have dates, where the schedule has work that it is hired for on other days; and what is kept for fewer days than that work takes.",
    reason: "The machine is paid for while nobody needs it, and is gone on the day that the crew waits for it.",
    remedy: "Keep it on the days of its work, or leave the line out: then it is kept on the days that the schedule has.",
    limits: &[],
    sources: &[Source::computed("the days of its work in the schedule")],
    breaks: "site
  services     located 2027-04-08

work
  start        2027-04-12

hire plate-compactor
  for          compacting
  «kept         1 day, from 2027-06-12»
  price        £40/day
",
    keeps: "site
  services     located 2027-04-08

work
  start        2027-04-12

hire plate-compactor
  for          compacting
  kept         2 days, from 2027-04-14
  price        £40/day
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(schedule) = context.figures.schedule.as_deref() else {
        return;
    };
    for hire in context.job.hires.iter().filter(|own| !own.is_unread) {
        let Some(kept) = hire.kept.first() else {
            continue;
        };
        let name = &hire.name.value;
        let work = hire.work();
        let message = if let Some(missed) = missed(hire, schedule) {
            format!(
                "{name} is not there on {missed}, when the schedule has the {work} that it is for. Hire it for those days, or move the work"
            )
        } else if let Some((days, wanted)) = short(hire, schedule) {
            format!(
                "{name} is kept for {}, and the schedule has the {work} that it is for on {wanted}. Keep it for {wanted}",
                counted_days(days.into())
            )
        } else {
            continue;
        };
        found.add(HIRE_AWAY.finding(kept.place, message));
    }
}

/// The days of its work on which something is not kept; `None` where it always
/// is, and where it is not known.
pub(super) fn missed(hire: &Hire, schedule: &ScheduleFigures) -> Option<String> {
    let kinds = hire.kinds();
    let is_dated = hire.kept.iter().all(|kept| kept.from.is_some());
    let days = schedule.days_of(&kinds).filter(|_| is_dated)?;
    let date = |day: i64| schedule.day(day.saturating_mul(DAY_MINUTES));
    let is_kept = |day: Day| hire.kept.iter().any(|kept| has(kept, day));
    let missed = days
        .into_iter()
        .filter(|day| !date(*day).is_none_or(is_kept));
    let missed: Vec<i64> = missed.collect();
    let (first, more) = (missed.first()?, missed.len() - 1);
    Some(match more {
        0 => schedule.day_name(*first),
        1 => format!("{} and 1 day more", schedule.day_name(*first)),
        _ => format!("{} and {more} days more", schedule.day_name(*first)),
    })
}

/// For how many days something is kept, and on how many the schedule has its
/// work, where the first are fewer and nothing says which days they are.
fn short(hire: &Hire, schedule: &ScheduleFigures) -> Option<(u32, u32)> {
    let kinds = hire.kinds();
    let is_undated = hire.kept.iter().all(|kept| kept.from.is_none());
    let wanted = schedule.days_of(&kinds).filter(|_| is_undated)?;
    let wanted = u32::try_from(wanted.len()).ok()?;
    let days = hire
        .kept
        .iter()
        .fold(0, |sum: u32, kept| sum.saturating_add(kept.days));
    (days < wanted).then_some((days, wanted))
}

fn has(kept: &Stretch, day: Day) -> bool {
    kept.from.is_some_and(|from| {
        let since = day.since(from);
        since >= 0 && since < i64::from(kept.days)
    })
}
