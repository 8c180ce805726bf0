//! The schedule as JSON, for programs: hours, and moments of the calendar as
//! ISO 8601 writes them. What is not known is null.

use serde::Serialize;

use super::csv::written;
use super::text::unknown;
use crate::analysis::Analysis;
use crate::quantities::{Lag, ScheduleFigures, Span, TaskFigures, assumed_of_work};
use crate::report::{Summary, cautions};

/// The schedule of a job as one JSON document.
pub fn schedule_json(analysis: &Analysis) -> String {
    let schedule = analysis.figures.schedule.as_deref();
    let heading = &analysis.job.heading;
    let standing = Summary::standing(analysis);
    let document = Document {
        version: 1,
        title: heading.title.as_ref().map(|title| title.value.as_str()),
        check: Standing {
            errors: standing.errors,
            warnings: standing.warnings,
        },
        schedule: schedule.map(|schedule| of_job(analysis, schedule)),
        assumed: assumed_of_work(&analysis.job, &analysis.figures),
        unknown: schedule.map(unknown).unwrap_or_default(),
        cautions: cautions(analysis),
    };
    // Strings and numbers under keys that are strings always serialise.
    let mut text = serde_json::to_string_pretty(&document).unwrap_or_default();
    text.push('\n');
    text
}

#[derive(Serialize)]
struct Document<'a> {
    version: u32,
    title: Option<&'a str>,
    check: Standing,
    schedule: Option<Schedule<'a>>,
    assumed: Vec<String>,
    unknown: Vec<String>,
    cautions: Vec<String>,
}

/// What the check of the spec finds.
#[derive(Serialize)]
struct Standing {
    errors: usize,
    warnings: usize,
}

#[derive(Serialize)]
struct Schedule<'a> {
    first_day: Option<String>,
    crew: u32,
    day_h: f64,
    hours: Option<f64>,
    end: Option<String>,
    end_with_rain: Option<String>,
    tasks: Vec<Task<'a>>,
}

#[derive(Serialize)]
struct Task<'a> {
    task: Option<&'static str>,
    name: &'a str,
    surface: Option<&'a str>,
    hands: Option<u32>,
    hours: Option<f64>,
    /// Working time, or time by the clock where nobody works.
    length_h: Option<f64>,
    by_the_clock: bool,
    parted: bool,
    after: Vec<After>,
    start: Option<String>,
    end: Option<String>,
    start_h: Option<f64>,
    end_h: Option<f64>,
    float_h: Option<f64>,
    why: Option<String>,
    unknown: Option<&'a str>,
}

/// What a task comes after: the number of that task, and the wait.
#[derive(Serialize)]
struct After {
    task: usize,
    wait_h: Option<f64>,
    overnight: bool,
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
    let surface = own.of.and_then(|of| analysis.job.surfaces.get(of));
    let length = own.span.map(|span| match span {
        Span::Parted(minutes) | Span::Whole(minutes) | Span::ByTheClock(minutes) => minutes,
    });
    let after = own.links.iter().map(|link| After {
        task: link.from,
        wait_h: match link.lag {
            Lag::Minutes(minutes) => Some(hours(minutes)),
            Lag::Overnight | Lag::Never => None,
        },
        overnight: link.lag == Lag::Overnight,
    });
    let at = |moment: i64| written(schedule, moment);
    Task {
        task: own.task.map(|task| task.word()),
        name: &own.name,
        surface: surface.map(|own| own.name.value.as_str()),
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
