//! The schedule as a bar chart: a row for each task and for what is hired, a
//! column for each day; over several sheets where there are many rows.

mod bars;
mod days;

use bars::{Part, Rows};
use days::Days;

use super::beside::{self, Said, Title, sheet_item};
use super::display_list::{Drawing, Ink, Item, Mark};
use super::font::Face;
use super::legend::Legend;
use super::lettering;
use super::sheet::{Panel, Sheet, Size};
use super::surround::{self, CAUTION, WARNING, errors, job_title};
use crate::analysis::Analysis;
use crate::findings::Place;
use crate::geometry::Point;
use crate::quantities::{ScheduleFigures, assumed_of_work, shown_hours};
use crate::units::System;

/// The bar chart of a job's schedule, on the sheets that are asked for, else on
/// the smallest that has room for its rows, and where none has on several;
/// `source` is its file as it is shown. None for a job without a schedule.
pub fn schedule_chart(analysis: &Analysis, source: &str, size: Option<Size>) -> Vec<Drawing> {
    let Some(schedule) = analysis.figures.schedule.as_deref() else {
        return Vec::new();
    };
    let usual = match analysis.job.heading.system() {
        System::Metric => Size::A4,
        System::Imperial => Size::Letter,
    };
    let on = |size: Size| {
        let sheet = Sheet::new(size, false);
        let panel = panel(&sheet, errors(analysis) > 0);
        (sheet, panel)
    };
    let rows = Rows::of(analysis, schedule);
    let larger = usual.larger().filter(|larger| {
        rows.parts(&on(usual).1).len() > 1 && rows.parts(&on(*larger).1).len() == 1
    });
    let (sheet, panel) = on(size.or(larger).unwrap_or(usual));
    let parts = rows.parts(&panel);
    let drawn = parts.iter().enumerate().map(|(index, part)| {
        let about = About {
            source,
            number: (index + 1, parts.len()),
        };
        drawn(analysis, schedule, &about, (&sheet, &panel), part)
    });
    drawn.collect()
}

/// Where the rows of a chart stand on its sheet.
fn panel(sheet: &Sheet, has_errors: bool) -> Panel {
    let (low, high) = (sheet.foot.low, sheet.plan.high);
    let strip = if has_errors { WARNING } else { 0.0 };
    Panel {
        low,
        high: Point::new(high.x, high.y - strip),
    }
}

/// Where a chart comes from, and which of its sheets this is.
struct About<'a> {
    source: &'a str,
    number: (usize, usize),
}

/// A chart in the making.
struct Chart {
    items: Vec<Item>,
    legend: Legend,
}

impl Chart {
    fn draw(&mut self, link: Option<Place>, mark: Mark) {
        self.items.push(sheet_item(link, mark));
    }

    /// A line of text that starts at a point.
    fn write(&mut self, link: Option<Place>, at: Point, words: &str, (height, ink): (f64, Ink)) {
        let setting = lettering::set(words, height, Face::Regular);
        self.draw(link, beside::text(at, setting, ink));
    }
}

/// A part of the chart on its sheet.
fn drawn(
    analysis: &Analysis,
    schedule: &ScheduleFigures,
    about: &About<'_>,
    (sheet, panel): (&Sheet, &Panel),
    part: &Part<'_>,
) -> Drawing {
    let mut chart = Chart {
        items: surround::frame(sheet).to_vec(),
        legend: Legend::default(),
    };
    let strip = surround::warning(sheet, "work", errors(analysis));
    chart.items.extend(strip);
    let days = Days::of(schedule, panel);
    days.draw(&mut chart, schedule, panel, part.foot(panel));
    part.draw(&mut chart, schedule, &days, panel);
    let notes = notes(analysis, schedule);
    let said = Said {
        legend: &chart.legend.entries,
        notes: &notes,
        ..Said::default()
    };
    let (mut beside, _) = said.set(sheet, None);
    let mut items = chart.items;
    items.append(&mut beside);
    let title = title(analysis, schedule, about);
    items.extend(beside::title_block(&sheet.title, &title));
    Drawing {
        title: format!("{}: schedule", title.job),
        size: sheet.paper,
        scale: 1.0,
        origin: Point::new(0.0, 0.0),
        is_imperial: analysis.job.heading.system() == System::Imperial,
        items,
        insets: Vec::new(),
        notes: Vec::new(),
    }
}

fn notes(analysis: &Analysis, schedule: &ScheduleFigures) -> Vec<String> {
    let mut notes = Vec::new();
    let undated = schedule.tasks.iter().filter(|task| task.slot.is_none());
    match undated.count() {
        0 => {}
        1 => notes.push("1 task has no day: see the sheet of text.".to_owned()),
        more => notes.push(format!("{more} tasks have no day: see the sheet of text.")),
    }
    let assumed = assumed_of_work(&analysis.job, &analysis.figures).len();
    if assumed > 0 {
        notes.push(format!(
            "{assumed} things are assumed: see the sheet of text."
        ));
    }
    notes
}

fn title(analysis: &Analysis, schedule: &ScheduleFigures, about: &About<'_>) -> Title {
    let heading = &analysis.job.heading;
    let unknown = || "–".to_owned();
    let reference = heading.reference.as_ref().map(|own| own.value.clone());
    let begins = schedule.first_day.map(|day| day.to_string());
    let done = schedule.end_min.map(|end| schedule.moment(end));
    let (number, count) = about.number;
    let crew = match schedule.crew {
        1 => "A crew of one".to_owned(),
        crew => format!("A crew of {crew}"),
    };
    let hours = schedule.hours.map(shown_hours);
    let hours = hours.map_or_else(
        || "hours in all not known".to_owned(),
        |hours| format!("{hours} of work in all"),
    );
    Title {
        job: job_title(analysis),
        drawing: "Schedule".to_owned(),
        fields: vec![
            ("Reference".to_owned(), reference.unwrap_or_else(unknown)),
            (
                "Begins".to_owned(),
                begins.unwrap_or_else(|| "day 1".to_owned()),
            ),
            ("Done".to_owned(), done.unwrap_or_else(unknown)),
            ("Sheet".to_owned(), format!("{number} of {count}")),
        ],
        lines: vec![
            format!(
                "{crew}, {} a day; {hours}.",
                shown_hours(schedule.day_hours())
            ),
            format!("Drawn from {}.", about.source),
        ],
        caution: CAUTION.to_owned(),
    }
}
