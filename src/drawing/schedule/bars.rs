//! The rows of a chart: tasks in the order in which they begin, then what is
//! hired, each with its name and its bars.

use super::Chart;
use super::days::{Days, HEAD};
use crate::analysis::Analysis;
use crate::drawing::display_list::{Ink, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::legend::{self, Entry, SAMPLE};
use crate::drawing::lettering::{self, LABEL, NOTE};
use crate::drawing::sheet::Panel;
use crate::findings::Place;
use crate::geometry::{Point, Vector};
use crate::quantities::{Lag, Reason, ScheduleFigures, Span};

/// The least and the greatest height of a row.
const ROW: (f64, f64) = (4.1, 9.0);
/// The room of the names.
pub(crate) const NAMES: f64 = 62.0;
/// The height of a bar.
const BAR: f64 = 3.2;
/// The white left of the names, and below the rows.
const INSET: f64 = 5.0;
/// The room of how many do it, at the right of the names.
const CREW: f64 = 7.0;
/// No bar is narrower.
const NARROWEST: f64 = 0.5;

/// How a bar looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Look {
    /// It may not slip.
    Critical,
    /// It may.
    Slack,
    /// Nobody works: something sets.
    Setting,
    /// What is hired is needed.
    Hire,
}

/// A row.
struct Row {
    name: String,
    link: Place,
    /// How many do it.
    hands: Option<u32>,
    bars: Vec<(i64, i64)>,
    look: Look,
    /// Until when it may slip.
    slack_until: Option<i64>,
    /// From when it waits.
    waits_from: Option<i64>,
}

/// The rows.
pub(crate) struct Rows(Vec<Row>);

impl Rows {
    /// The rows of a schedule.
    pub(crate) fn of(analysis: &Analysis, schedule: &ScheduleFigures) -> Rows {
        let tasks = schedule.in_time().into_iter();
        let tasks = tasks.filter_map(|index| task(schedule, index));
        let hires = analysis.job.hires.iter().filter_map(|hire| {
            let kinds = hire.kinds();
            let days = schedule.days_of(&kinds)?;
            Some(Row {
                name: format!("hire: {}", hire.name.value),
                link: hire.place,
                hands: None,
                bars: days
                    .into_iter()
                    .filter_map(|day| schedule.hours_of(day))
                    .collect(),
                look: Look::Hire,
                slack_until: None,
                waits_from: None,
            })
        });
        Rows(tasks.chain(hires).collect())
    }

    /// The rows sheet by sheet, as many on each as on the others: one part at
    /// the least, though it be empty.
    pub(crate) fn parts(&self, panel: &Panel) -> Vec<Part<'_>> {
        let room = panel.height() - HEAD - INSET;
        let held = (room / ROW.0).floor().max(1.0) as usize;
        let sheets = self.0.len().div_ceil(held).max(1);
        let each = self.0.len().div_ceil(sheets).max(1);
        let height = (room / each as f64).clamp(ROW.0, ROW.1);
        let part = |rows| Part { rows, height };
        match self.0.is_empty() {
            true => vec![part(&[])],
            false => self.0.chunks(each).map(part).collect(),
        }
    }
}

/// The rows that stand on one sheet.
pub(crate) struct Part<'r> {
    rows: &'r [Row],
    /// How high each is.
    height: f64,
}

impl Part<'_> {
    /// Where the last row ends.
    pub(crate) fn foot(&self, panel: &Panel) -> f64 {
        panel.high.y - HEAD - self.height * self.rows.len() as f64
    }

    /// Draws them.
    pub(crate) fn draw(
        &self,
        chart: &mut Chart,
        schedule: &ScheduleFigures,
        days: &Days,
        panel: &Panel,
    ) {
        let top = panel.high.y - HEAD;
        // Who works alone need not be told how many do it.
        let crew = if schedule.crew > 1 { CREW } else { 0.0 };
        let right = panel.low.x + NAMES - 3.0;
        if crew > 0.0 {
            figure(chart, None, Point::new(right, top + 2.0), "crew", Ink::Pale);
        }
        for (number, row) in self.rows.iter().enumerate() {
            let base = top - self.height * (number + 1) as f64;
            let line = Path::line(
                Point::new(panel.low.x + INSET, base),
                Point::new(days.at(0), base),
            );
            let pale = Pen::of(Weight::Fine).in_ink(Ink::Pale);
            chart.draw(None, Mark::Stroke(vec![line], pale));
            let room = NAMES - INSET - 4.0 - crew;
            let name = lettering::cut(&row.name, NOTE, Face::Regular, room);
            let words = base + (self.height - NOTE) / 2.0;
            let at = Point::new(panel.low.x + INSET + 1.0, words);
            chart.write(Some(row.link), at, &name, (NOTE, Ink::Black));
            if let Some(hands) = row.hands.filter(|_| crew > 0.0) {
                let at = Point::new(right, words);
                figure(chart, Some(row.link), at, &hands.to_string(), Ink::Black);
            }
            row.draw(chart, days, base + (self.height - BAR) / 2.0);
        }
        if self.rows.is_empty() {
            let words = "Nothing to show yet: no task has a day.";
            let at = Point::new(days.at(0), top - 10.0);
            chart.write(None, at, words, (LABEL, Ink::Pale));
        }
        if let (Some(end), Some(rain)) = (schedule.end_min, schedule.end_with_rain_min) {
            rain_days(chart, days, (end, rain), self.foot(panel), top);
        }
    }
}

/// Writes something that ends at a point.
fn figure(chart: &mut Chart, link: Option<Place>, end: Point, words: &str, ink: Ink) {
    let width = lettering::set(words, NOTE, Face::Regular).width;
    chart.write(link, end + Vector::new(-width, 0.0), words, (NOTE, ink));
}

fn task(schedule: &ScheduleFigures, index: usize) -> Option<Row> {
    let task = schedule.tasks.get(index)?;
    let (span, slot) = task.span.zip(task.slot)?;
    let look = match (span, slot.float_min) {
        (Span::ByTheClock(_), _) => Look::Setting,
        (_, 0) => Look::Critical,
        _ => Look::Slack,
    };
    let waits_from = match slot.reason {
        Reason::After(from, lag) if lag != Lag::Minutes(0) => {
            let before = schedule.tasks.get(from).and_then(|own| own.slot);
            before.map(|own| own.end_min)
        }
        _ => None,
    };
    let slack_until = schedule.latest_end(index).filter(|_| look == Look::Slack);
    Some(Row {
        name: task.name.clone(),
        link: task.place,
        hands: task.hands.filter(|_| look != Look::Setting),
        bars: schedule.stretches(index),
        look,
        slack_until,
        waits_from,
    })
}

impl Row {
    fn draw(&self, chart: &mut Chart, days: &Days, low: f64) {
        let middle = low + BAR / 2.0;
        let level =
            |from: f64, to: f64| Path::line(Point::new(from, middle), Point::new(to, middle));
        let first = self.bars.first().map(|(from, _)| days.at(*from));
        let last = self.bars.last().map(|(_, until)| days.at(*until));
        if let (Some(from), Some(first)) = (self.waits_from, first) {
            let waits = Pen::of(Weight::Mid).in_ink(Ink::Water).dashed(&[0.9, 0.7]);
            chart.draw(
                Some(self.link),
                Mark::Stroke(vec![level(days.at(from), first)], waits),
            );
            explain(chart, "Waits until something has set", legend::lined(waits));
        }
        if let (Some(until), Some(last)) = (self.slack_until, last) {
            let fine = Pen::of(Weight::Fine);
            let end = days.at(until);
            if end > last + NARROWEST {
                let stop = Path::line(Point::new(end, low + 0.6), Point::new(end, low + BAR - 0.6));
                let marks = vec![level(last, end), stop];
                chart.draw(Some(self.link), Mark::Stroke(marks, fine));
                explain(chart, "May slip so far", legend::lined(fine));
            }
        }
        // From one day to the next a bar goes on: a stroke for each night would
        // be read as a hatch.
        let mut bars: Vec<(f64, f64)> = Vec::new();
        for (from, until) in &self.bars {
            let (from, until) = (days.at(*from), days.at(*until));
            match bars.last_mut() {
                Some(last) if from - last.1 < NARROWEST => last.1 = until,
                _ => bars.push((from, until)),
            }
        }
        for (from, until) in bars {
            let until = until.max(from + NARROWEST);
            let bar = (Point::new(from, low), Point::new(until, low + BAR));
            for mark in self.look.marks(bar) {
                chart.draw(Some(self.link), mark);
            }
        }
        if first.is_some() {
            let sample = self.look.marks((
                Point::new(0.0, (SAMPLE.1 - BAR) / 2.0),
                Point::new(SAMPLE.0, (SAMPLE.1 + BAR) / 2.0),
            ));
            explain(chart, self.look.title(), sample);
        }
    }
}

impl Look {
    const fn title(self) -> &'static str {
        match self {
            Look::Critical => "Work that the end hangs on",
            Look::Slack => "Work that may slip",
            Look::Setting => "Sets by itself, day and night",
            Look::Hire => "Hire is needed",
        }
    }

    /// A bar between two corners: filled, open, hatched, or a line with ends,
    /// so that each is told from the others in black and white.
    fn marks(self, (low, high): (Point, Point)) -> Vec<Mark> {
        let around = || vec![Path::rectangle(low, high)];
        let mid = Pen::of(Weight::Mid);
        match self {
            Look::Critical => vec![Mark::Fill(around(), Ink::Black)],
            Look::Slack => vec![
                Mark::Fill(around(), Ink::Paper),
                Mark::Stroke(around(), mid),
            ],
            Look::Setting => {
                let lines = upright_hatch(low, high);
                vec![
                    Mark::Fill(around(), Ink::Paper),
                    Mark::Stroke(lines, Pen::of(Weight::Fine)),
                    Mark::Stroke(around(), mid),
                ]
            }
            Look::Hire => {
                let middle = f64::midpoint(low.y, high.y);
                let line = Path::line(Point::new(low.x, middle), Point::new(high.x, middle));
                let ends = [low.x, high.x].map(|x| {
                    let at = Point::new(x, middle);
                    Path::line(at + Vector::new(0.0, -1.0), at + Vector::new(0.0, 1.0))
                });
                let mut lines = ends.to_vec();
                lines.push(line);
                vec![Mark::Stroke(
                    lines,
                    Pen::of(Weight::Heavy).in_ink(Ink::Grey),
                )]
            }
        }
    }
}

/// Upright lines over a rectangle.
fn upright_hatch(low: Point, high: Point) -> Vec<Path> {
    const GAP: f64 = 1.2;
    let count = ((high.x - low.x) / GAP).floor().clamp(0.0, 2_000.0) as u32;
    let lines = (1..=count).map(|number| {
        let x = low.x + f64::from(number) * GAP;
        Path::line(Point::new(x, low.y), Point::new(x, high.y))
    });
    lines.collect()
}

/// The days that are kept for rain, as an open frame after the end.
fn rain_days(chart: &mut Chart, days: &Days, (end, rain): (i64, i64), bottom: f64, top: f64) {
    let pen = Pen::of(Weight::Mid).in_ink(Ink::Water).dashed(&[2.0, 1.0]);
    let (from, to) = (days.at(end), days.at(rain));
    let frame = Path::rectangle(Point::new(from, bottom), Point::new(to, top));
    chart.draw(None, Mark::Stroke(vec![frame], pen));
    let (width, height) = SAMPLE;
    let sample = Path::rectangle(Point::new(2.0, 0.0), Point::new(width - 2.0, height));
    explain(
        chart,
        "Kept for rain",
        vec![Mark::Stroke(vec![sample], pen)],
    );
}

fn explain(chart: &mut Chart, title: &str, sample: Vec<Mark>) {
    chart.legend.add(Entry {
        sample,
        title: title.to_owned(),
        note: None,
        link: None,
    });
}
