//! What is said beside the plan: legend, key, notes, and the title block.

use super::display_list::{Ink, Item, Layer, Mark, Path, Pen, Text, Weight};
use super::font::Face;
use super::labels::Keyed;
use super::legend::{Entry, SAMPLE};
use super::lettering::{self, HEADING, LABEL, NOTE, Setting, TITLE};
use super::sheet::{Panel, Sheet};
use crate::findings::Place;
use crate::geometry::{Edge, Point, Vector};

/// From one base line of notes to the next.
const STEP: f64 = 3.3;
/// How far the letters of notes reach under their line.
const TAIL: f64 = 0.52;
/// The white after a part.
const GAP: f64 = 3.0;
/// From one entry of the legend to the next, and where room is short.
const BETWEEN: f64 = 2.2;
const CLOSE: f64 = 0.9;
/// The room kept for saying that something did not fit.
const LEFT_OUT: f64 = 4.0;

/// What a title block says.
#[derive(Debug, Clone, Default)]
pub(crate) struct Title {
    /// The job.
    pub job: String,
    /// What is drawn.
    pub drawing: String,
    /// Captions and what they say, two in a row.
    pub fields: Vec<(String, String)>,
    /// Lines at the foot.
    pub lines: Vec<String>,
    /// The line that goes with every sheet.
    pub caution: String,
}

/// What stands in the columns beside a drawing.
#[derive(Default)]
pub(crate) struct Said<'a> {
    /// The legend.
    pub legend: &'a [Entry],
    /// What stands on the plan as a number.
    pub key: &'a [Keyed],
    /// What was assumed, or is not known.
    pub notes: &'a [String],
}

/// What the columns had no room for.
#[derive(Default)]
pub(crate) struct Rest {
    legend: Vec<Entry>,
    key: Vec<Keyed>,
    notes: Vec<String>,
}

impl Rest {
    /// How much that is.
    pub(crate) fn count(&self) -> usize {
        self.legend.len() + self.key.len() + self.notes.len()
    }

    /// It, to be set on another sheet.
    pub(crate) fn said(&self) -> Said<'_> {
        Said {
            legend: &self.legend,
            key: &self.key,
            notes: &self.notes,
        }
    }
}

impl Said<'_> {
    /// It set in the columns of a sheet, closer where that alone lets all of
    /// it in; and what found no room, with the number of the sheet on which
    /// that stands, if there is one.
    pub(crate) fn set(&self, sheet: &Sheet, rest_on: Option<usize>) -> (Vec<Item>, Rest) {
        let wide = self.filled(sheet, BETWEEN);
        if wide.rest.count() == 0 {
            return (wide.items, wide.rest);
        }
        let close = self.filled(sheet, CLOSE);
        let mut best = match close.rest.count() < wide.rest.count() {
            true => close,
            false => wide,
        };
        best.say_what_is_left_out(rest_on);
        (best.items, best.rest)
    }

    fn filled<'s>(&self, sheet: &'s Sheet, between: f64) -> Columns<'s> {
        let mut columns = Columns::new(sheet, between);
        // A number on the plan says nothing without its words.
        columns.key(self.key);
        columns.legend(self.legend);
        columns.notes(self.notes);
        columns
    }
}

/// The columns beside a plan as they fill up.
struct Columns<'s> {
    panels: std::slice::Iter<'s, Panel>,
    panel: Option<Panel>,
    is_last: bool,
    top: f64,
    between: f64,
    rest: Rest,
    items: Vec<Item>,
}

impl<'s> Columns<'s> {
    /// Empty columns, their legend so far from line to line.
    fn new(sheet: &'s Sheet, between: f64) -> Columns<'s> {
        let mut columns = Columns {
            panels: sheet.columns.iter(),
            panel: None,
            is_last: false,
            top: 0.0,
            between,
            rest: Rest::default(),
            items: Vec::new(),
        };
        columns.next_panel();
        columns
    }

    fn next_panel(&mut self) {
        self.panel = self.panels.next().copied();
        self.is_last = self.panels.len() == 0;
        self.top = self.panel.map_or(0.0, |panel| panel.high.y);
    }

    fn width(&self) -> f64 {
        self.panel.map_or(0.0, |panel| panel.width())
    }

    /// The upper left corner of so much room, if there is any left.
    fn take(&mut self, height: f64) -> Option<Point> {
        loop {
            let panel = self.panel?;
            let kept = if self.is_last { LEFT_OUT } else { 0.0 };
            if self.top - height >= panel.low.y + kept {
                let corner = Point::new(panel.low.x, self.top);
                self.top -= height;
                return Some(corner);
            }
            if self.is_last {
                return None;
            }
            self.next_panel();
        }
    }

    fn mark(&mut self, link: Option<Place>, mark: Mark) {
        self.items.push(sheet_item(link, mark));
    }

    fn write(&mut self, at: Point, setting: Setting, ink: Ink, link: Option<Place>) {
        self.mark(link, text(at, setting, ink));
    }

    /// A heading, with room for something under it.
    fn heading(&mut self, words: &str) {
        if let Some(corner) = self.take(HEADING + 4.5) {
            let setting = lettering::set(words, HEADING, Face::Medium);
            self.write(corner + down(HEADING), setting, Ink::Black, None);
        }
    }

    /// The legend.
    fn legend(&mut self, entries: &[Entry]) {
        if entries.is_empty() {
            return;
        }
        self.heading("Legend");
        for entry in entries {
            let beside = SAMPLE.0 + 3.5;
            let width = self.width() - beside;
            let mut lines = lettering::broken(&entry.title, NOTE, Face::Medium, width);
            if let Some(note) = &entry.note {
                lines.extend(lettering::broken(note, NOTE, Face::Regular, width));
            }
            let text_high = height(&lines);
            let high = text_high.max(SAMPLE.1);
            let Some(corner) = self.take(high + self.between) else {
                self.rest.legend.push(entry.clone());
                continue;
            };
            let foot = corner + down(f64::midpoint(high, SAMPLE.1));
            for mark in &entry.sample {
                self.mark(entry.link, moved(mark, foot - Point::ORIGIN));
            }
            let top = (high - text_high) / 2.0;
            self.lines(corner + Vector::new(beside, -top), lines, entry.link);
        }
        self.top -= GAP;
    }

    fn lines(&mut self, corner: Point, lines: Vec<Setting>, link: Option<Place>) {
        let mut top = 0.0;
        for line in lines {
            let at = corner + down(top + 0.6 + line.above);
            top += line_height(&line);
            self.write(at, line, Ink::Black, link);
        }
    }

    /// What stands on the plan as a number.
    fn key(&mut self, keyed: &[Keyed]) {
        if keyed.is_empty() {
            return;
        }
        self.heading("Key");
        for keyed in keyed {
            let lines: Vec<String> = keyed.words.iter().map(with_fractions).collect();
            let mut words = lines.join(", ");
            if !keyed.is_on_plan {
                words += " (no room on the plan)";
            }
            let width = self.width() - 7.0;
            let lines = lettering::broken(&words, NOTE, Face::Regular, width);
            let Some(corner) = self.take(height(&lines) + 1.2) else {
                self.rest.key.push(keyed.clone());
                continue;
            };
            let mark = keyed.mark.as_deref().unwrap_or("–");
            let number = lettering::set(mark, NOTE, Face::Medium);
            let base = lines.first().map_or(NOTE, |line| line.above);
            self.write(corner + down(base + 0.6), number, Ink::Black, keyed.link);
            self.lines(corner + Vector::new(7.0, 0.0), lines, keyed.link);
        }
        self.top -= GAP;
    }

    /// What was assumed, or is not known.
    fn notes(&mut self, notes: &[String]) {
        if notes.is_empty() {
            return;
        }
        self.heading("Notes");
        for note in notes {
            let lines = lettering::broken(note, NOTE, Face::Regular, self.width());
            match self.take(height(&lines) + 1.0) {
                Some(corner) => self.lines(corner, lines, None),
                None => self.rest.notes.push(note.clone()),
            }
        }
    }

    fn say_what_is_left_out(&mut self, rest_on: Option<usize>) {
        let count = self.rest.count();
        let panel = self.panel.filter(|_| count > 0);
        if let Some(panel) = panel {
            let words = match (rest_on, count) {
                (Some(sheet), 1) => format!("1 more stands on sheet {sheet}"),
                (Some(sheet), more) => format!("{more} more stand on sheet {sheet}"),
                (None, 1) => "1 more does not fit: take a larger sheet".to_owned(),
                (None, more) => format!("{more} more do not fit: take a larger sheet"),
            };
            let words = lettering::cut(&words, NOTE, Face::Medium, panel.width());
            let setting = lettering::set(&words, NOTE, Face::Medium);
            self.write(panel.low + Vector::new(0.0, 0.8), setting, Ink::Black, None);
        }
    }
}

/// What a line of notes takes; more where it has a fraction.
fn line_height(line: &Setting) -> f64 {
    STEP + (line.above - NOTE).max(0.0) + (line.below - TAIL).max(0.0)
}

fn height(lines: &[Setting]) -> f64 {
    lines.iter().map(line_height).sum()
}

/// The words of a line with the mark by which fractions are set.
fn with_fractions(setting: &Setting) -> String {
    let is_of_figures = |letter: Option<char>| letter.is_some_and(|c| c.is_ascii_digit());
    let words: Vec<char> = setting.words().chars().collect();
    let at = |index: usize| words.get(index).copied();
    let letters = words.iter().enumerate().map(|(index, letter)| {
        let before = index.checked_sub(1).and_then(at);
        match letter {
            '/' if !setting.bars.is_empty() && is_of_figures(before) => lettering::FRACTION,
            other => *other,
        }
    });
    letters.collect()
}

fn down(far: f64) -> Vector {
    Vector::new(0.0, -far)
}

pub(super) fn sheet_item(link: Option<Place>, mark: Mark) -> Item {
    Item {
        layer: Layer::Sheet,
        link,
        within: None,
        mark,
    }
}

pub(super) fn text(at: Point, setting: Setting, ink: Ink) -> Mark {
    Mark::Text(Text {
        at,
        angle: 0.0,
        setting,
        ink,
    })
}

/// A mark somewhere else.
pub(super) fn moved(mark: &Mark, by: Vector) -> Mark {
    let paths = |paths: &[Path]| -> Vec<Path> {
        let moved = |path: &Path| Path {
            edges: path
                .edges
                .iter()
                .map(|edge| Edge {
                    start: edge.start + by,
                    end: edge.end + by,
                    ..*edge
                })
                .collect(),
            ..*path
        };
        paths.iter().map(moved).collect()
    };
    match mark {
        Mark::Stroke(lines, pen) => Mark::Stroke(paths(lines), *pen),
        Mark::Fill(areas, ink) => Mark::Fill(paths(areas), *ink),
        Mark::Text(own) => Mark::Text(Text {
            at: own.at + by,
            ..own.clone()
        }),
    }
}

/// Draws the title block.
pub(crate) fn title_block(panel: &Panel, title: &Title) -> Vec<Item> {
    const PAD: f64 = 4.0;
    let mut marks = Vec::new();
    let outline = Path::rectangle(panel.low, panel.high);
    marks.push(Mark::Stroke(vec![outline], Pen::of(Weight::Heavy)));
    let width = panel.width() - 2.0 * PAD;
    let left = panel.low.x + PAD;
    let is_small = panel.width() < 75.0;
    let capital = if is_small { 4.0 } else { TITLE };
    let lines = lettering::fitted_lines(&title.job, capital, Face::Medium, (width, 2));
    let mut y = panel.high.y - PAD;
    for line in lines {
        y -= capital;
        marks.push(text(Point::new(left, y), line, Ink::Black));
        y -= 2.0;
    }
    y -= LABEL + 0.6;
    let drawing = lettering::fitted(&title.drawing, LABEL, Face::Regular, width);
    marks.push(text(Point::new(left, y), drawing, Ink::Black));
    y -= 2.4;
    let rule = |y: f64| {
        let line = Path::line(Point::new(panel.low.x, y), Point::new(panel.high.x, y));
        Mark::Stroke(vec![line], Pen::of(Weight::Fine))
    };
    let half = panel.width() / 2.0;
    for pair in title.fields.chunks(2) {
        marks.push(rule(y));
        for (number, (caption, words)) in pair.iter().enumerate() {
            let x = left + half * number as f64;
            let fitting = |text: &str, capital, face| {
                let room = half - PAD - 1.0;
                lettering::fitted(text, capital, face, room)
            };
            let caption = fitting(caption, NOTE, Face::Regular);
            marks.push(text(Point::new(x, y - 1.4 - NOTE), caption, Ink::Pale));
            let words = fitting(words, LABEL, Face::Medium);
            marks.push(text(Point::new(x, y - 7.6), words, Ink::Black));
        }
        y -= 9.2;
    }
    marks.push(rule(y));
    y -= 0.6;
    for line in &title.lines {
        y -= STEP;
        let words = lettering::cut(line, NOTE, Face::Regular, width);
        let setting = lettering::set(&words, NOTE, Face::Regular);
        marks.push(text(Point::new(left, y), setting, Ink::Black));
    }
    y -= STEP;
    let caution = lettering::cut(&title.caution, NOTE, Face::Medium, width);
    let caution = lettering::set(&caution, NOTE, Face::Medium);
    marks.push(text(Point::new(left, y), caution, Ink::Black));
    marks
        .into_iter()
        .map(|mark| sheet_item(None, mark))
        .collect()
}
