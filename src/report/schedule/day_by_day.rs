//! The work of a schedule by its days, and the days on which what is hired is
//! needed.

use std::collections::BTreeMap;

use crate::analysis::Analysis;
use crate::quantities::{DAY_MINUTES, ScheduleFigures, Span};
use crate::report::trade::UNKNOWN;
use crate::report::words::{counted, listed};

/// The days on which something is done, each with the names of the tasks;
/// what only waits is no work.
pub(crate) fn day_by_day(schedule: &ScheduleFigures) -> Vec<(String, Vec<&str>)> {
    let mut days: BTreeMap<i64, Vec<&str>> = BTreeMap::new();
    for index in schedule.in_time() {
        let Some(task) = schedule.tasks.get(index) else {
            continue;
        };
        if matches!(task.span, Some(Span::ByTheClock(_))) {
            continue;
        }
        for (from, _) in schedule.stretches(index) {
            let day = days.entry(from.div_euclid(DAY_MINUTES)).or_default();
            day.push(&task.name);
        }
    }
    let days = days.into_iter();
    days.map(|(day, names)| (schedule.day_name(day), names))
        .collect()
}

/// What is hired, each with the days on which it is needed and what for.
pub(crate) fn hire_days(analysis: &Analysis, schedule: &ScheduleFigures) -> Vec<(String, String)> {
    let hires = analysis.job.hires.iter();
    let lines = hires.map(|hire| {
        let kinds = hire.kinds();
        let days = schedule.days_of(&kinds).unwrap_or_default();
        // Where work goes on between two stretches it goes back.
        let is_off = |day: i64| schedule.hours_of(day).is_none();
        let stretches = days.chunk_by(|day, next| (day + 1..*next).all(is_off));
        let stretches = stretches.filter_map(|own| Some((own.first()?, own.last()?)));
        let stretches: Vec<String> = stretches
            .map(|(first, last)| {
                schedule.days_from_to(first * DAY_MINUTES, (last + 1) * DAY_MINUTES)
            })
            .collect();
        let needed = match stretches.as_slice() {
            [] => UNKNOWN.to_owned(),
            stretches => {
                let count = counted(days.len(), "day", "days");
                format!("{}, {count}", stretches.join("; "))
            }
        };
        let words: Vec<&str> = kinds.iter().map(|task| task.word()).collect();
        let is_for = match words.is_empty() {
            true => String::new(),
            false => format!(", for {}", listed(&words)),
        };
        (hire.name.value.clone(), format!("{needed}{is_for}"))
    });
    lines.collect()
}
