//! `services-unlocated`: a dig with a date, and no word of buried services.

use crate::findings::Severity;
use crate::quantities::{LOCATE_SERVICES, ScheduleFigures};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::{Task, Term};

/// A dig with a date, and no word of buried services.
pub(crate) static SERVICES_UNLOCATED: Rule = Rule {
    name: "services-unlocated",
    family: Family::Work,
    severity: Severity::Warning,
    looks_at: "A dig that has its day, with nothing said of when buried services were located. It takes the place of care-services.",
    reason: "Gas, power and water lie where patios are dug, and notice has to be given days before.",
    remedy: "Have them located and marked before the dig, and state the day: services located 2027-04-02.",
    limits: &[],
    sources: &[LOCATE_SERVICES],
    breaks: "work
  start        «2027-04-12»
",
    keeps: "site
  services     located 2027-04-08

work
  start        2027-04-12
",
    mended: None,
    check: Check::Job(check),
};

/// The moment at which the first dig begins.
pub(crate) fn first_dig(schedule: &ScheduleFigures) -> Option<i64> {
    let dug = |task: &&crate::quantities::TaskFigures| {
        matches!(task.task, Some(Task::Stripping | Task::Digging))
    };
    let tasks = schedule.tasks.iter().filter(dug);
    tasks.filter_map(|task| Some(task.slot?.start_min)).min()
}

fn check(context: &Context<'_>, found: &mut Found) {
    let (job, schedule) = (context.job, context.figures.schedule.as_deref());
    let start = job.work.as_ref().and_then(|work| work.start.as_ref());
    let (Some(start), Some(schedule)) = (start, schedule) else {
        return;
    };
    let site = &job.site;
    let is_told = site.services_located.is_some() || context.is_misread_at(site.place);
    let Some(dig) = first_dig(schedule).filter(|_| !is_told) else {
        return;
    };
    let message = format!(
        "the dig begins on {} and nothing says where cables and pipes lie: {}, and state the day",
        schedule.day_name(dig.div_euclid(crate::quantities::DAY_MINUTES)),
        context.word(Term::LocateServices)
    );
    found.add(SERVICES_UNLOCATED.finding(start.place, message));
}
