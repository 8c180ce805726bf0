//! The schedule as a table for a spreadsheet: one task a line, in the order
//! in which they begin.

use crate::analysis::Analysis;
use crate::quantities::{DAY_MINUTES, ScheduleFigures, WorkOn};
use crate::report::Summary;
use crate::report::takeoff_csv::harmless;

/// The heads of the columns.
const HEADS: [&str; 11] = [
    "task",
    "surface",
    "drain",
    "steps",
    "hands",
    "hours",
    "start",
    "end",
    "float h",
    "why not earlier",
    "not known",
];

/// The schedule of a job as comma-separated values, the first line the heads
/// of the columns, the next how many errors the check finds if there are any.
/// What is not known is left empty.
pub fn schedule_csv(analysis: &Analysis) -> String {
    let mut table = csv::Writer::from_writer(Vec::new());
    // Writing into memory never fails.
    let _ = table.write_record(HEADS);
    if let Some(errors) = Summary::standing(analysis).errors_found() {
        let row = ["check", "", "", "", "", "", "", "", "", "", &errors];
        let _ = table.write_record(row);
    }
    if let Some(schedule) = analysis.figures.schedule.as_deref() {
        for index in schedule.in_time() {
            let cells = cells(analysis, schedule, index).unwrap_or_default();
            let _ = table.write_record(cells.map(|cell| harmless(&cell)));
        }
    }
    let bytes = table.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

fn cells(analysis: &Analysis, schedule: &ScheduleFigures, index: usize) -> Option<[String; 11]> {
    let task = schedule.tasks.get(index)?;
    let named = |is_meant: fn(&WorkOn) -> bool| {
        let name = task
            .of
            .filter(is_meant)
            .and_then(|on| on.name(&analysis.job));
        name.unwrap_or_default().to_owned()
    };
    let slot = task.slot.as_ref();
    let at = |moment: i64| written(schedule, moment);
    Some([
        task.name.clone(),
        named(|on| matches!(on, WorkOn::Surface(_))),
        named(|on| matches!(on, WorkOn::Drain(_))),
        named(|on| matches!(on, WorkOn::Steps(_))),
        task.hands
            .map(|hands| hands.to_string())
            .unwrap_or_default(),
        task.hours.map(hundredths).unwrap_or_default(),
        slot.map(|slot| at(slot.start_min)).unwrap_or_default(),
        slot.map(|slot| at(slot.end_min)).unwrap_or_default(),
        slot.map(|slot| hundredths(slot.float_min as f64 / 60.0))
            .unwrap_or_default(),
        schedule.why(index).unwrap_or_default(),
        task.unknown.clone().unwrap_or_default(),
    ])
}

fn hundredths(hours: f64) -> String {
    ((hours * 100.0).round() / 100.0).to_string()
}

/// A moment for a program: `2027-04-12T08:00`, or `day 3 08:00` where days
/// have no dates.
pub(super) fn written(schedule: &ScheduleFigures, moment: i64) -> String {
    let minute = moment.rem_euclid(DAY_MINUTES);
    let time = format!("{:02}:{:02}", minute / 60, minute % 60);
    match schedule.day(moment) {
        Some(day) => format!("{day}T{time}"),
        None => format!("day {} {time}", moment.div_euclid(DAY_MINUTES) + 1),
    }
}
