//! When the work is done: its first and last day, the bar chart, and the work
//! of each day.

use super::said;
use super::there_by::Days;
use crate::analysis::Analysis;
use crate::drawing::{Block, Column, Fact, Holds, Row, Size, Table, schedule_chart};
use crate::quantities::{DAY_MINUTES, ScheduleFigures};
use crate::report::schedule::{day_by_day, hire_days};
use crate::report::trade::UNKNOWN;
use crate::report::words::counted;

/// When somebody is on site; nothing where the job says nothing of the work.
pub(crate) fn on_site(analysis: &Analysis) -> Option<Fact> {
    let schedule = analysis.figures.schedule.as_deref()?;
    let (value, note) = match schedule.end_min {
        Some(end) => {
            let rain = schedule.end_with_rain_min;
            let rain =
                rain.map(|end| format!("to {} with the days kept for rain", last(schedule, end)));
            let days = format!("{} to {}", schedule.day_name(0), last(schedule, end));
            (days, rain.unwrap_or_default())
        }
        None => (
            UNKNOWN.to_owned(),
            "when the work is done is not known".to_owned(),
        ),
    };
    Some(Fact {
        caption: "On site".to_owned(),
        value,
        note,
    })
}

/// The last day of what ends at a moment: one at the end of a day belongs to
/// that day.
fn last(schedule: &ScheduleFigures, end: i64) -> String {
    schedule.day_name((end - 1).max(0).div_euclid(DAY_MINUTES))
}

/// The schedule for those who build; nothing where the job says nothing of the
/// work.
pub(crate) fn blocks(analysis: &Analysis, path: &str, size: Size) -> Vec<Block> {
    let Some(schedule) = analysis.figures.schedule.as_deref() else {
        return Vec::new();
    };
    let mut blocks = vec![
        Block::Chapter,
        Block::Heading("Schedule".to_owned()),
        Block::Text(format!(
            "{} {} on site.",
            dates(schedule),
            counted(schedule.crew as usize, "person", "people")
        )),
    ];
    let heads = ["Day", "What is done", "What is there by then"];
    blocks.extend(table("Day by day", heads, days(analysis, schedule)));
    let hires = hire_days(analysis, schedule).into_iter();
    let hires = hires.map(|(what, when)| [what, when]);
    blocks.extend(table(
        "Hire",
        ["What", "When it is needed"],
        hires.collect(),
    ));
    let chart = schedule_chart(analysis, path, Some(size)).into_iter();
    blocks.extend(chart.map(|sheet| Block::Sheet(Box::new(sheet))));
    blocks
}

/// What is done day by day, days of the same work in one row.
fn days(analysis: &Analysis, schedule: &ScheduleFigures) -> Vec<[String; 3]> {
    let wanted = Days::of(analysis);
    let mut rows: Vec<([String; 3], Option<String>)> = Vec::new();
    for (day, names) in day_by_day(schedule) {
        let there = wanted.on(analysis, &day).join(", ");
        let done = names.join("; ");
        match rows.last_mut() {
            Some(([_, before, _], last)) if *before == done && there.is_empty() => {
                *last = Some(day);
            }
            _ => rows.push(([day, done, there], None)),
        }
    }
    let rows = rows.into_iter().map(|([first, done, there], last)| {
        let days = last.map_or(first.clone(), |last| format!("{first} to {last}"));
        [days, done, there]
    });
    rows.collect()
}

/// From when to when, with the days that are kept for rain.
fn dates(schedule: &ScheduleFigures) -> String {
    let Some(end) = schedule.end_min else {
        return format!("{UNKNOWN} When the work is done is not known.");
    };
    let rain = schedule.end_with_rain_min;
    let rain = rain.map(|end| format!(", to {} with the days kept for rain", last(schedule, end)));
    format!(
        "From {} to {}{}.",
        schedule.day_name(0),
        last(schedule, end),
        rain.unwrap_or_default()
    )
}

/// A table of words under its heading; nothing without rows.
fn table<const N: usize>(heading: &str, heads: [&str; N], rows: Vec<[String; N]>) -> Vec<Block> {
    if rows.is_empty() {
        return Vec::new();
    }
    let columns = heads.iter().enumerate().map(|(number, heading)| Column {
        heading: (*heading).to_owned(),
        share: [3.4, 8.0].get(number).copied().unwrap_or(5.0),
        holds: Holds::Words,
    });
    let rows = rows.iter().map(|cells| Row {
        cells: cells.iter().map(|cell| said(cell)).collect(),
        is_total: false,
    });
    vec![
        Block::Subheading(heading.to_owned()),
        Block::Table(Table {
            columns: columns.collect(),
            rows: rows.collect(),
        }),
    ]
}
