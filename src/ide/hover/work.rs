//! The work that a line causes: when it is done, and how its time came about.

use super::workings;
use crate::analysis::Analysis;
use crate::findings::Place;
use crate::ide::cursor::Cursor;
use crate::quantities::{FigureRef, ScheduleFigures, Span, shown_hours};

/// So many tasks of one line are told in full.
const MOST: usize = 6;

/// The tasks of the line under the pointer, each with its time and why it is
/// not earlier; at the heading of the work the hours of all.
pub(crate) fn cards(analysis: &Analysis, cursor: &Cursor<'_>) -> Vec<String> {
    let (Some(schedule), Some(work)) = (
        analysis.figures.schedule.as_deref(),
        analysis.job.work.as_deref(),
    ) else {
        return Vec::new();
    };
    let word = cursor.in_file(cursor.line.word);
    let is_here = |place: Place| {
        let span = analysis.span(place);
        span.is_some_and(|(file, span)| file == 0 && span.start == word.start)
    };
    if is_here(work.place) {
        return workings::card(analysis, FigureRef::Hours)
            .into_iter()
            .collect();
    }
    let tasks = schedule.tasks.iter().enumerate();
    let here = tasks.filter(|(_, task)| is_here(task.place));
    let lines: Vec<String> = here
        .take(MOST)
        .map(|(index, _)| line(schedule, index))
        .collect();
    match lines.is_empty() {
        true => Vec::new(),
        false => vec![lines.concat()],
    }
}

fn line(schedule: &ScheduleFigures, index: usize) -> String {
    let Some(task) = schedule.tasks.get(index) else {
        return String::new();
    };
    let (Some(slot), Some(span)) = (task.slot, task.span) else {
        let why = task.unknown.as_deref().unwrap_or("its days are not known");
        return format!("- **{}**: {why}\n", task.name);
    };
    let hours = match (span, task.hours, task.hands) {
        (Span::ByTheClock(_), ..) | (_, None, _) | (_, _, None) => String::new(),
        (_, Some(hours), Some(1)) => format!(" · {}", shown_hours(hours)),
        (_, Some(hours), Some(hands)) => format!(" · {} of {hands}", shown_hours(hours)),
    };
    let times = schedule.from_to(slot.start_min, slot.end_min);
    let why = schedule.why(index).unwrap_or_default();
    format!("- **{}**: {times}{hours}; {why}\n", task.name)
}
