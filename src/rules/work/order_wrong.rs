//! `order-wrong`: work that cannot be done in the order that is stated.

use crate::findings::Severity;
use crate::model::{Job, Surface};
use crate::quantities::Fault;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Task;

/// Work that cannot be done in the order that is stated.
pub(crate) static ORDER_WRONG: Rule = Rule {
    name: "order-wrong",
    family: Family::Work,
    severity: Severity::Error,
    looks_at: "Waits, tasks and orders against what is built: work that the job does not have, earlier work that waits for later, tasks that wait for themselves.",
    reason: "Work that waits for itself never gets a day, and a wait for what is not built never ends.",
    remedy: "Turn the wait round, name work that this job has, or take out what closes the circle.",
    limits: &[],
    sources: &[Source::computed("order of the tasks")],
    breaks: "work
  crew         2
  «wait         24 h from jointing to laying»
",
    keeps: "work
  crew         2
  wait         24 h from laying to jointing
",
    mended: None,
    check: Check::Job(check),
};

/// So many tasks of a circle are named.
const MOST_NAMED: usize = 3;

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(schedule) = &context.figures.schedule else {
        return;
    };
    let may_be_there = may_lack_work(context.job);
    for fault in &schedule.faults {
        let (place, message) = match fault {
            Fault::Nothing(..) if may_be_there => continue,
            Fault::Nothing(place, task, of) => (*place, nothing(*task, of.as_deref())),
            Fault::Backward(place, from, to) => {
                let (from, to) = (from.word(), to.word());
                let message =
                    format!("the wrong way round: {to} comes before {from}. Turn it round");
                (*place, message)
            }
            Fault::Circle(place, names) => (*place, circle(names)),
            Fault::TooManyHands(..) | Fault::LongerThanDay(..) => continue,
        };
        found.add(ORDER_WRONG.finding(place, message));
    }
}

/// Whether a line of what is built could not be read, and with it there may be
/// work that seems to be missing.
pub(super) fn may_lack_work(job: &Job) -> bool {
    let on = |own: &Surface| {
        own.build
            .as_ref()
            .is_some_and(|build| build.value.has_lost_line)
    };
    job.has_lost_heading
        || job.surfaces.iter().any(|own| {
            own.has_lost_line
                || own.joint.is_none() && own.entry("joint").is_some()
                || own.build.is_none()
                || own.is_build_lost()
                || on(own)
        })
        || job.drains.iter().any(|own| own.is_unread)
        || job.steps.iter().any(|own| own.has_lost_line)
}

fn nothing(task: Task, of: Option<&str>) -> String {
    let word = task.word();
    let place = of.map_or_else(|| "this job".to_owned(), |of| format!("`{of}`"));
    match task {
        Task::Sealing | Task::Stripping | Task::DryLaying => format!(
            "there is no {word} in {place}. To have it done, state its rate, as in `rate {word} 20 m2 per h`"
        ),
        _ => format!("there is no {word} in {place} to wait for: name work that is done there"),
    }
}

fn circle(names: &[String]) -> String {
    let shown: Vec<&str> = names.iter().take(MOST_NAMED).map(String::as_str).collect();
    let more = match names.len() > MOST_NAMED {
        true => " and others",
        false => "",
    };
    format!(
        "none of these can begin, as they wait for one another: {}{more}. Take one wait out",
        shown.join(", ")
    )
}
