//! When the work is done: its first and last day, the bar chart, and the work
//! of each day.

use super::said;
use crate::analysis::Analysis;
use crate::drawing::{Block, Column, Holds, Row, Size, Table, schedule_chart};
use crate::quantities::{DAY_MINUTES, ScheduleFigures};
use crate::report::schedule::{day_by_day, hire_days};
use crate::report::trade::UNKNOWN;
use crate::report::words::counted;

/// When somebody is on site; nothing where the job says nothing of the work.
pub(crate) fn for_client(analysis: &Analysis) -> Vec<Block> {
    let Some(schedule) = analysis.figures.schedule.as_deref() else {
        return Vec::new();
    };
    vec![
        Block::Heading("On site".to_owned()),
        Block::Text(dates(schedule)),
    ]
}

/// The schedule for those who build; nothing where the job says nothing of the
/// work.
pub(crate) fn blocks(analysis: &Analysis, path: &str, size: Size) -> Vec<Block> {
    let Some(schedule) = analysis.figures.schedule.as_deref() else {
        return Vec::new();
    };
    let mut blocks = vec![
        Block::NewPage,
        Block::Heading("Schedule".to_owned()),
        Block::Text(format!(
            "{} {} on site.",
            dates(schedule),
            counted(schedule.crew as usize, "person", "people")
        )),
    ];
    let days = day_by_day(schedule).into_iter();
    let days = days.map(|(day, names)| (day, names.join("; ")));
    blocks.extend(table("Day by day", ["Day", "What is done"], days.collect()));
    let hires = hire_days(analysis, schedule);
    blocks.extend(table("Hire", ["What", "When it is needed"], hires));
    let chart = schedule_chart(analysis, path, Some(size));
    blocks.extend(chart.map(|chart| Block::Sheet(Box::new(chart))));
    blocks
}

/// From when to when, with the days that are kept for rain.
fn dates(schedule: &ScheduleFigures) -> String {
    let day = |moment: i64| match schedule.day(moment) {
        Some(day) => day.to_string(),
        None => format!("day {}", moment.div_euclid(DAY_MINUTES) + 1),
    };
    let Some(end) = schedule.end_min else {
        return format!("{UNKNOWN} When the work is done is not known.");
    };
    // A moment at the end of a day belongs to that day.
    let last = |moment: i64| day((moment - 1).max(0));
    let rain = schedule.end_with_rain_min;
    let rain = rain.map(|end| format!(", to {} with the days kept for rain", last(end)));
    format!(
        "From {} to {}{}.",
        day(0),
        last(end),
        rain.unwrap_or_default()
    )
}

/// A table of two columns under its heading; nothing without rows.
fn table(heading: &str, heads: [&str; 2], rows: Vec<(String, String)>) -> Vec<Block> {
    if rows.is_empty() {
        return Vec::new();
    }
    let [first, second] = heads;
    let columns = [(first, 3.0), (second, 10.0)].map(|(heading, share)| Column {
        heading: heading.to_owned(),
        share,
        holds: Holds::Words,
    });
    let rows = rows.into_iter().map(|(one, other)| Row {
        cells: vec![said(&one), said(&other)],
        is_total: false,
    });
    vec![
        Block::Subheading(heading.to_owned()),
        Block::Table(Table {
            columns: columns.to_vec(),
            rows: rows.collect(),
        }),
    ]
}
