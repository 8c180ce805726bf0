//! The schedule as a bar chart: a row for each task and for what is hired, a
//! column for each day.

mod bars;
mod days;

use bars::Rows;
use days::Days;

use super::beside::{self, Said, Title, sheet_item};
use super::display_list::{Drawing, Ink, Item, Mark, Path, Pen, Weight};
use super::font::Face;
use super::legend::Legend;
use super::lettering::{self, HEADING};
use super::sheet::{Panel, Sheet, Size};
use crate::analysis::Analysis;
use crate::findings::{Place, Severity};
use crate::geometry::{Point, Vector};
use crate::quantities::{ScheduleFigures, assumed_of_work, shown_hours};
use crate::units::System;

/// The strip on top of a sheet that is not to be worked from.
const WARNING: f64 = 9.0;

/// What goes with every sheet.
const CAUTION: &str = "Local codes and licensed practice govern.";

/// The bar chart of a job's schedule, on the sheet that is asked for, else the
/// smallest that has room for its rows; `source` is its file as it is shown.
/// `None` for a job without a schedule.
pub fn schedule_chart(analysis: &Analysis, source: &str, size: Option<Size>) -> Option<Drawing> {
    let schedule = analysis.figures.schedule.as_deref()?;
    let usual = match analysis.job.heading.system() {
        System::Metric => Size::A4,
        System::Imperial => Size::Letter,
    };
    let (drawing, left_out) = drawn(analysis, schedule, source, size.unwrap_or(usual));
    match usual.larger().filter(|_| left_out > 0 && size.is_none()) {
        Some(larger) => Some(drawn(analysis, schedule, source, larger).0),
        None => Some(drawing),
    }
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

/// The chart on its sheet, and how many rows found no place on it.
fn drawn(
    analysis: &Analysis,
    schedule: &ScheduleFigures,
    source: &str,
    size: Size,
) -> (Drawing, usize) {
    let sheet = Sheet::new(size, false);
    let mut chart = Chart {
        items: Vec::new(),
        legend: Legend::default(),
    };
    let frame = Path::rectangle(sheet.frame.low, sheet.frame.high);
    let heavy = Pen::of(Weight::Heavy);
    chart.draw(None, Mark::Stroke(vec![frame], heavy));
    let edge = sheet.foot.high.x;
    let line = Path::line(
        Point::new(edge, sheet.frame.low.y),
        Point::new(edge, sheet.frame.high.y),
    );
    chart.draw(None, Mark::Stroke(vec![line], Pen::of(Weight::Mid)));
    let mut panel = Panel {
        low: sheet.foot.low,
        high: sheet.plan.high,
    };
    let errors = errors(analysis);
    if errors > 0 {
        warn(&mut chart, &mut panel, errors);
    }
    let rows = Rows::of(analysis, schedule);
    let days = Days::of(schedule, &panel);
    let shown = rows.shown(&panel);
    days.draw(&mut chart, schedule, &panel, rows.foot(&panel));
    rows.draw(&mut chart, schedule, &days, &panel);
    let notes = notes(analysis, schedule, rows.len().saturating_sub(shown));
    let said = Said {
        legend: &chart.legend.entries,
        notes: &notes,
        ..Said::default()
    };
    let (mut beside, _) = said.set(&sheet);
    let mut items = chart.items;
    items.append(&mut beside);
    let title = title(analysis, schedule, source);
    items.extend(beside::title_block(&sheet.title, &title));
    let drawing = Drawing {
        title: format!("{}: schedule", title.job),
        size: sheet.paper,
        scale: 1.0,
        origin: Point::new(0.0, 0.0),
        is_imperial: analysis.job.heading.system() == System::Imperial,
        items,
        notes: Vec::new(),
    };
    (drawing, rows.len().saturating_sub(shown))
}

/// How many errors stand against a job.
fn errors(analysis: &Analysis) -> usize {
    let found = analysis.findings.iter();
    let standing =
        found.filter(|found| found.accepted.is_none() && found.severity == Some(Severity::Error));
    standing.count()
}

fn warn(chart: &mut Chart, panel: &mut Panel, errors: usize) {
    let low = Point::new(panel.low.x, panel.high.y - WARNING);
    let strip = Path::rectangle(low, panel.high);
    chart.draw(None, Mark::Fill(vec![strip], Ink::Black));
    let counted = match errors {
        1 => "1 error".to_owned(),
        more => format!("{more} errors"),
    };
    let words = format!("Do not work from this: {counted}");
    let setting = lettering::set(&words, HEADING, Face::Medium);
    let at = low + Vector::new(5.0, (WARNING - HEADING) / 2.0);
    chart.draw(None, beside::text(at, setting, Ink::Paper));
    panel.high = Point::new(panel.high.x, low.y);
}

fn notes(analysis: &Analysis, schedule: &ScheduleFigures, left_out: usize) -> Vec<String> {
    let mut notes = Vec::new();
    if left_out > 0 {
        notes.push(format!(
            "{left_out} rows more found no place: see the sheet of text."
        ));
    }
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

fn title(analysis: &Analysis, schedule: &ScheduleFigures, source: &str) -> Title {
    let heading = &analysis.job.heading;
    let job = heading.title.as_ref();
    let job = job.map_or("Untitled job", |title| &title.value);
    let unknown = || "–".to_owned();
    let reference = heading.reference.as_ref().map(|own| own.value.clone());
    let begins = schedule.first_day.map(|day| day.to_string());
    let done = schedule.end_min.map(|end| schedule.moment(end));
    let hours = schedule.hours.map(shown_hours);
    let crew = match schedule.crew {
        1 => "A crew of one".to_owned(),
        crew => format!("A crew of {crew}"),
    };
    Title {
        job: job.to_owned(),
        drawing: "Schedule".to_owned(),
        fields: vec![
            ("Reference".to_owned(), reference.unwrap_or_else(unknown)),
            (
                "Begins".to_owned(),
                begins.unwrap_or_else(|| "day 1".to_owned()),
            ),
            ("Done".to_owned(), done.unwrap_or_else(unknown)),
            ("Hours".to_owned(), hours.unwrap_or_else(unknown)),
        ],
        lines: vec![
            format!("{crew}, {} a day.", shown_hours(schedule.day_hours())),
            format!("Drawn from {source}."),
        ],
        caution: CAUTION.to_owned(),
    }
}
