//! `hire-idle`: hire that is paid for while the thing has no work.

use super::hire_away::missed;
use super::order_wrong::may_lack_work;
use crate::findings::{Finding, Severity};
use crate::model::Hire;
use crate::quantities::hire_as_scheduled;
use crate::rules::wording::counted_days;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::Money;
use crate::vocabulary::Task;

/// Hire that is paid for while the thing has no work.
pub(crate) static HIRE_IDLE: Rule = Rule {
    name: "hire-idle",
    family: Family::Work,
    severity: Severity::Advisory,
    looks_at: "What is hired for less time than the minimum that is paid for, for more days than the schedule has its work on where that costs more, or for work that the job does not have.",
    reason: "The days are paid for whether or not the machine works.",
    remedy: "Give it the work of the days that are paid for, or give it back when its work is done; or hire where the minimum is shorter.",
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
    for (index, hire) in context.job.hires.iter().enumerate() {
        if hire.is_unread {
            continue;
        }
        let idle = unpaid_for(context, hire)
            .or_else(|| without_work(context, hire))
            .or_else(|| outlasts_work(context, hire, index));
        if let Some(idle) = idle {
            found.add(idle);
        }
    }
}

/// Kept for less than is paid for.
fn unpaid_for(context: &Context<'_>, hire: &Hire) -> Option<Finding> {
    let minimum = hire.minimum.as_ref()?;
    // Stretches that follow one another may be paid for as one.
    let (days, kept) = match hire.kept.as_slice() {
        [kept] => (kept.days, Some(kept.place)),
        [] => {
            let kinds = hire.kinds();
            let days = context.figures.schedule.as_deref()?.days_of(&kinds)?;
            (u32::try_from(days.len()).ok()?, None)
        }
        _ => return None,
    };
    if days >= minimum.value {
        return None;
    }
    let paid = minimum.value;
    let verb = if kept.is_some() { "kept" } else { "needed" };
    let message = format!(
        "{} stands idle: {verb} for {}, but {paid} at least are paid for. Plan work for the other {}",
        hire.name.value,
        counted_days(days.into()),
        paid.saturating_sub(days)
    );
    let finding = HIRE_IDLE.finding(minimum.place, message);
    Some(match kept {
        Some(kept) => finding.related(kept, "how long it is kept"),
        None => finding,
    })
}

/// Hired for work of which the schedule has none.
fn without_work(context: &Context<'_>, hire: &Hire) -> Option<Finding> {
    let schedule = context.figures.schedule.as_deref()?;
    let is_done = |task: &Task| schedule.tasks.iter().any(|own| own.task == Some(*task));
    if hire.tasks.iter().any(|task| is_done(&task.value)) || may_lack_work(context.job) {
        return None;
    }
    let first = hire.tasks.first()?;
    let message = format!(
        "{} stands idle: this job has no {}. Name work that is done here",
        hire.name.value,
        hire.work().replace(" and ", " or ")
    );
    Some(HIRE_IDLE.finding(first.place, message))
}

/// Kept for longer than its work takes, and dearer for it.
fn outlasts_work(context: &Context<'_>, hire: &Hire, index: usize) -> Option<Finding> {
    let schedule = context.figures.schedule.as_deref()?;
    let kept = hire.kept.first()?;
    let stated = context.figures.money.as_deref()?.hires.get(index)?;
    let needed = hire_as_scheduled(hire, schedule, context.job.heading.currency());
    let (days, wanted) = (stated.days?, needed.days?);
    let kinds = hire.kinds();
    let work_days = schedule.days_of(&kinds)?;
    let spanned = work_days.last()? - work_days.first()? + 1;
    let (cost, least) = (stated.cost?, needed.cost?);
    let is_away = missed(hire, schedule).is_some();
    // A day more is what fetching it and bringing it back take.
    if is_away || i64::from(days) <= spanned + 1 || cost.cents <= least.cents {
        return None;
    }
    let saved = Money {
        cents: cost.cents - least.cents,
        ..cost
    };
    let message = format!(
        "{} stands idle: kept for {}, and needed for the {} on {wanted}. Give it back sooner, and save {saved}",
        hire.name.value,
        counted_days(days.into()),
        hire.work(),
    );
    Some(HIRE_IDLE.finding(kept.place, message))
}
