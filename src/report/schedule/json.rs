//! The schedule as JSON, for programs: hours, and moments of the calendar as
//! ISO 8601 writes them. What is not known is null.

use crate::report::json;
use serde::Serialize;

use super::csv::written;
use super::text::unknown;
use crate::analysis::Analysis;
use crate::quantities::{Lag, ScheduleFigures, Span, TaskFigures, WorkOn, assumed_of_work};
use crate::report::cautions;
use crate::report::standing::Standing;

/// The schedule of a job as one JSON document.
pub fn schedule_json(analysis: &Analysis) -> String {
    let schedule = analysis.figures.schedule.as_deref();
    let heading = &analysis.job.heading;
    let document = Document {
        version: 1,
        title: heading.title.as_ref().map(|title| title.value.as_str()),
        check: Standing::of(analysis),
        schedule: schedule.map(|schedule| of_job(analysis, schedule)),
        assumed: assumed_of_work(&analysis.job, &analysis.figures),
        unknown: schedule.map(unknown).unwrap_or_default(),
        cautions: cautions(analysis),
    };
    json::written(&document)
}

/// What `drylay schedule --format json` writes: hours, and moments such as
/// `2027-04-12T08:00`, or `day 3 08:00` where the spec has no first day; null
/// where one is not known.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(in crate::report) struct Document<'a> {
    version: u32,
    title: Option<&'a str>,
    check: Standing,
    /// Null where the spec says nothing of work.
    schedule: Option<Schedule<'a>>,
    /// What was taken where nothing is stated.
    assumed: Vec<String>,
    /// Why figures are null.
    unknown: Vec<String>,
    /// What to heed on site; no findings.
    cautions: Vec<String>,
}

/// When what is done.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Schedule<'a> {
    first_day: Option<String>,
    crew: u32,
    /// Hours of work a day, breaks taken off.
    day_h: f64,
    /// Of all who do it together.
    hours: Option<f64>,
    end: Option<String>,
    /// With the days that rain takes.
    end_with_rain: Option<String>,
    /// In the order of the text.
    tasks: Vec<Task<'a>>,
}

/// A task.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Task<'a> {
    /// The trade's verb; null for a task of the spec's own.
    task: Option<&'static str>,
    name: &'a str,
    /// Null where it is of none.
    surface: Option<&'a str>,
    /// Null where it is of none.
    drain: Option<&'a str>,
    /// Null where it is of none.
    steps: Option<&'a str>,
    /// How many work at it.
    hands: Option<u32>,
    /// Of all who do it together.
    hours: Option<f64>,
    /// Working time, or time by the clock where nobody works.
    length_h: Option<f64>,
    /// Whether it goes on while nobody works, as curing does.
    by_the_clock: bool,
    /// Whether it may go on the next day.
    parted: bool,
    /// What it comes after.
    after: Vec<After>,
    start: Option<String>,
    end: Option<String>,
    /// Hours after midnight of day 1.
    start_h: Option<f64>,
    /// Hours after midnight of day 1.
    end_h: Option<f64>,
    /// How much later it may start and hold nothing up.
    float_h: Option<f64>,
    /// What it waits for.
    why: Option<String>,
    /// Why its days are not known.
    unknown: Option<&'a str>,
}

/// What a task comes after: the number of that task, and the wait.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct After {
    /// Counted from 0 in the list of tasks.
    task: usize,
    /// Null where it waits for the night or for working days, or is never
    /// done.
    wait_h: Option<f64>,
    overnight: bool,
    /// How many days of notice pass, from Monday to Friday.
    working_days: Option<u8>,
}

fn of_job<'a>(analysis: &'a Analysis, schedule: &'a ScheduleFigures) -> Schedule<'a> {
    let tasks = schedule.tasks.iter().enumerate();
    let at = |moment: i64| written(schedule, moment);
    Schedule {
        first_day: schedule.first_day.map(|day| day.to_string()),
        crew: schedule.crew,
        day_h: schedule.day_hours(),
        hours: schedule.hours,
        end: schedule.end_min.map(at),
        end_with_rain: schedule.end_with_rain_min.map(at),
        tasks: tasks
            .map(|(index, own)| task(analysis, schedule, index, own))
            .collect(),
    }
}

fn task<'a>(
    analysis: &'a Analysis,
    schedule: &ScheduleFigures,
    index: usize,
    own: &'a TaskFigures,
) -> Task<'a> {
    let hours = |minutes: i64| minutes as f64 / 60.0;
    let named = |is_meant: fn(&WorkOn) -> bool| own.of.filter(is_meant)?.name(&analysis.job);
    let length = own.span.map(|span| match span {
        Span::Parted(minutes) | Span::Whole(minutes) | Span::ByTheClock(minutes) => minutes,
    });
    let after = own.links.iter().map(|link| After {
        task: link.from,
        wait_h: match link.lag {
            Lag::Minutes(minutes) => Some(hours(minutes)),
            Lag::Overnight | Lag::Weekdays { .. } | Lag::Never => None,
        },
        overnight: link.lag == Lag::Overnight,
        working_days: match link.lag {
            Lag::Weekdays { days, .. } => Some(days),
            _ => None,
        },
    });
    let at = |moment: i64| written(schedule, moment);
    Task {
        task: own.task.map(|task| task.word()),
        name: &own.name,
        surface: named(|on| matches!(on, WorkOn::Surface(_))),
        drain: named(|on| matches!(on, WorkOn::Drain(_))),
        steps: named(|on| matches!(on, WorkOn::Steps(_))),
        hands: own.hands,
        hours: own.hours,
        length_h: length.map(hours),
        by_the_clock: matches!(own.span, Some(Span::ByTheClock(_))),
        parted: matches!(own.span, Some(Span::Parted(_))),
        after: after.collect(),
        start: own.slot.map(|slot| at(slot.start_min)),
        end: own.slot.map(|slot| at(slot.end_min)),
        start_h: own.slot.map(|slot| hours(slot.start_min)),
        end_h: own.slot.map(|slot| hours(slot.end_min)),
        float_h: own.slot.map(|slot| hours(slot.float_min)),
        why: schedule.why(index),
        unknown: own.unknown.as_deref(),
    }
}
