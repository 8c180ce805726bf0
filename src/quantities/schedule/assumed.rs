//! What is taken for granted of the work where the spec does not say.

use super::super::Figures;
use super::effort::{shown_pace, stated_curing};
use super::tasks::{Planned, planned};
use super::waits::{self, Law, UsualWait};
use crate::model::{Job, Work};
use crate::units::{System, show};
use crate::vocabulary::Task;

/// What is taken for granted where the spec does not say, each with its
/// source: the crew, the hours of the day, the temperature, the rates and the
/// waits. Nothing for a job without a schedule.
pub fn assumed(job: &Job, figures: &Figures) -> Vec<String> {
    let Some(work) = job.work.as_deref().filter(|_| figures.schedule.is_some()) else {
        return Vec::new();
    };
    let planned = planned(job, work, figures);
    let waits = usual_waits(job, work, &planned);
    let system = job.heading.system();
    let usual = show::temperature(waits::USUAL_K, system);
    let sets = waits.iter().any(|wait| wait.law != Law::None);
    let mut all = conditions(work, sets.then_some(&usual));
    let rates = planned
        .iter()
        .flat_map(|task| usual_rates(job, work, task, system));
    let waits = waits.into_iter().map(|wait| {
        let time = show::time(wait.hours * 3_600.0);
        let at = match wait.law {
            Law::None => String::new(),
            _ => format!(" at {usual}"),
        };
        format!("{}: {time}{at} ({})", wait.of, wait.source.cited())
    });
    for text in rates.chain(waits) {
        if !all.contains(&text) {
            all.push(text);
        }
    }
    all
}

/// Who works, when, and in which weather.
fn conditions(work: &Work, usual_air: Option<&String>) -> Vec<String> {
    let some = |text: &str, is_so: bool| is_so.then(|| text.to_owned());
    let names_days = work
        .day
        .as_ref()
        .is_some_and(|day| !day.weekdays.is_empty());
    [
        some("one person works", work.crew.is_none()),
        some(
            "day 1 is the first working day of a week",
            work.start.is_none(),
        ),
        some(
            "work from 8:00 to 16:30 with a break of 30 min",
            work.day.is_none(),
        ),
        some("work from Monday to Friday", !names_days),
        usual_air
            .filter(|_| work.temperature.is_none())
            .map(|air| format!("air of {air}")),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The rates of a task that are usual and not stated.
fn usual_rates(job: &Job, work: &Work, task: &Planned, system: System) -> Vec<String> {
    let Some(kind) = task.task() else {
        return Vec::new();
    };
    if kind == Task::Locating {
        let mut all = vec!["locating services: 1 h (common practice, no source)".to_owned()];
        if waits::has_notice(job) {
            all.push(format!(
                "notice before the dig: {} working days after the day of the call ({})",
                waits::NOTICE_DAYS,
                waits::LOCATE_SERVICES.cited()
            ));
        }
        return all;
    }
    let usual = task.usual.iter().filter(|_| task.rate(job, work).is_none());
    let paces = usual.flat_map(|(usual, _)| {
        let paces = usual.paces.iter();
        paces.map(move |pace| (usual.of, pace))
    });
    let reported = paces.map(|(of, pace)| {
        let part = match pace.part {
            "" => String::new(),
            part => format!(", {part}"),
        };
        let shown = shown_pace(pace.hours, pace.measures, system);
        format!("{of}{part}: {shown} ({})", pace.source.cited())
    });
    reported.collect()
}

/// The waits that are usual and not stated.
fn usual_waits(job: &Job, work: &Work, planned: &[Planned]) -> Vec<&'static UsualWait> {
    let mut all = Vec::new();
    for task in planned {
        let (Some(kind), Some(on)) = (task.task(), task.of) else {
            continue;
        };
        if kind == Task::Curing && stated_curing(job, work, on).is_none() {
            all.extend(waits::curing_of(job, on));
        }
        if work.waits.iter().any(|wait| wait.to == kind) {
            continue;
        }
        let before = task
            .follows
            .iter()
            .chain(&task.prefers)
            .filter_map(|from| planned.get(*from));
        all.extend(before.filter_map(|from| waits::between(job, from, task)));
    }
    all
}
