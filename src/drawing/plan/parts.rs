//! A plan that is too big for its sheet at the scale that is wanted: parted
//! over several, with a key plan that shows which part is on which.

use super::fit::{Choice, Figure, plan_panel};
use super::ground::Ground;
use super::{Around, canvas_on, content, finished};
use crate::analysis::Analysis;
use crate::drawing::beside::sheet_item;
use crate::drawing::cropped::cropped;
use crate::drawing::display_list::{
    Drawing, Extents, Ink, Item, Layer, Mark, Path, Pen, Text, Weight,
};
use crate::drawing::font::Face;
use crate::drawing::labels::Label;
use crate::drawing::lettering::{self, LABEL, NOTE};
use crate::drawing::scale::Scale;
use crate::drawing::sheet::{Panel, Sheet};
use crate::drawing::surround::errors;
use crate::findings::Place;
use crate::geometry::{Point, Vector};

/// The most parts: more sheets than that nobody lays side by side.
const MOST: f64 = 36.0;
/// The white round a part, in which it says where it goes on.
const WHITE: f64 = 7.0;
/// The line at which two parts meet.
const MEETS: Pen = Pen::of(Weight::Mid).dashed(&[6.0, 1.2, 0.8, 1.2]);

/// A plan parted at one scale.
pub(crate) struct Parts {
    scale: Scale,
    sheet: Sheet,
    /// How many side by side and how many rows, those counted from the top.
    columns: u32,
    rows: u32,
    /// The upper left corner of the first, on paper, from the plan's origin.
    corner: Point,
    /// The part of a sheet that a part takes.
    room: Panel,
    /// The column and row of each that holds something.
    own: Vec<(u32, u32)>,
}

impl Parts {
    /// The plan at a scale on sheets like this one; `None` where that takes too
    /// many.
    pub(crate) fn of(
        analysis: &Analysis,
        figure: &Figure<'_>,
        scale: &Scale,
        sheet: &Sheet,
    ) -> Option<Parts> {
        let panel = plan_panel(sheet, errors(analysis) > 0);
        let room = Panel {
            low: panel.low + Vector::new(WHITE, WHITE),
            high: panel.high + Vector::new(-WHITE, -WHITE),
        };
        let (low, high) = figure.corners(scale);
        let columns = ((high.x - low.x) / room.width()).ceil().max(1.0);
        let rows = ((high.y - low.y) / room.height()).ceil().max(1.0);
        let is_few = columns * rows <= MOST;
        if !is_few {
            return None;
        }
        let (columns, rows) = (columns as u32, rows as u32);
        let middle = low.midpoint(high);
        let corner = Point::new(
            middle.x - 0.5 * f64::from(columns) * room.width(),
            middle.y + 0.5 * f64::from(rows) * room.height(),
        );
        let mut parts = Parts {
            scale: scale.clone(),
            sheet: sheet.clone(),
            columns,
            rows,
            corner,
            room,
            own: Vec::new(),
        };
        let all = (0..rows).flat_map(|row| (0..columns).map(move |column| (column, row)));
        parts.own = all.filter(|at| parts.holds(analysis, *at)).collect();
        Some(parts)
    }

    /// How many sheets it takes, the key plan left out.
    pub(crate) fn count(&self) -> usize {
        self.own.len()
    }

    /// The scale.
    pub(crate) fn scale(&self) -> &Scale {
        &self.scale
    }

    /// Where a part lies on paper, counted from the plan's origin.
    fn lies(&self, (column, row): (u32, u32)) -> Panel {
        let (wide, high) = (self.room.width(), self.room.height());
        let left = self.corner.x + f64::from(column) * wide;
        let top = self.corner.y - f64::from(row) * high;
        Panel {
            low: Point::new(left, top - high),
            high: Point::new(left + wide, top),
        }
    }

    fn view(&self, at: (u32, u32)) -> super::ground::View {
        super::ground::View {
            scale: 1000.0 / self.scale.ratio,
            origin: Point::ORIGIN + (self.room.low - self.lies(at).low),
        }
    }

    /// Whether something of a surface, a drain or a flight lies on a part.
    fn holds(&self, analysis: &Analysis, at: (u32, u32)) -> bool {
        let view = self.view(at);
        let grounds = Ground::of_job(&analysis.job, &view);
        let of_ground = grounds.iter().any(|ground| {
            let item = sheet_item(
                None,
                Mark::Fill(vec![Path::round(&ground.outline.outer)], Ink::Paper),
            );
            cropped(&item, &self.room).is_some()
        });
        let corners = super::drains::corners(&analysis.job, &view);
        let room = self.room.extents();
        of_ground
            || corners
                .into_iter()
                .any(|at| room.holds(&Extents::about(at, 0.0, 0.0)))
    }

    /// The number of the sheet of a part beside another.
    fn sheet_of(&self, column: Option<u32>, row: Option<u32>) -> Option<usize> {
        let wanted = (column?, row?);
        let index = self.own.iter().position(|own| *own == wanted)?;
        Some(index + 2)
    }

    /// The parts, each on its sheet.
    pub(crate) fn drawn(
        &self,
        analysis: &Analysis,
        source: &str,
        choice: &Choice,
        count: usize,
    ) -> Vec<Drawing> {
        let sheets = self.own.iter().enumerate();
        let sheets = sheets.map(|(index, at)| {
            let view = self.view(*at);
            let mut canvas = canvas_on(analysis, &self.sheet, view, self.room.extents());
            canvas.board.is_a_part();
            let before = canvas.items.len();
            let grounds = Ground::of_job(&analysis.job, &view);
            content(&mut canvas, analysis, &grounds, choice);
            let drawn = canvas.items.split_off(before);
            let seen = drawn.iter().filter_map(|item| cropped(item, &self.room));
            canvas.items.extend(seen);
            let labels = std::mem::take(&mut canvas.board.items);
            let seen = labels.iter().filter_map(|item| cropped(item, &self.room));
            canvas.board.items = seen.collect();
            canvas.items.extend(self.meetings(*at));
            canvas.note("Sheet 1 is the key plan: it shows where each part lies.".to_owned());
            let around = Around {
                source,
                drawing: &format!("Plan, part {} of {}", index + 1, self.own.len()),
                number: (index + 2, count),
                rest_on: None,
            };
            finished(analysis, canvas, (&self.sheet, &self.scale), &around).0
        });
        sheets.collect()
    }

    /// The sides at which a part meets others, each with the sheet of the other.
    fn meetings(&self, (column, row): (u32, u32)) -> Vec<Item> {
        let (low, high) = (self.room.low, self.room.high);
        let corner = |x: f64, y: f64| Point::new(x, y);
        let right = (column + 1 < self.columns).then_some(column + 1);
        let under = (row + 1 < self.rows).then_some(row + 1);
        let quarter = std::f64::consts::FRAC_PI_2;
        let sides = [
            (
                self.sheet_of(column.checked_sub(1), Some(row)),
                low,
                corner(low.x, high.y),
                quarter,
                1.6,
            ),
            (
                self.sheet_of(right, Some(row)),
                corner(high.x, low.y),
                high,
                quarter,
                -3.4,
            ),
            (
                self.sheet_of(Some(column), under),
                low,
                corner(high.x, low.y),
                0.0,
                -3.4,
            ),
            (
                self.sheet_of(Some(column), row.checked_sub(1)),
                corner(low.x, high.y),
                high,
                0.0,
                1.6,
            ),
        ];
        let mut items = Vec::new();
        for (sheet, from, to, angle, off) in sides {
            let Some(sheet) = sheet else { continue };
            let line = Mark::Stroke(vec![Path::line(from, to)], MEETS);
            items.push(sheet_item(None, line));
            let words = format!("goes on on sheet {sheet}");
            let setting = lettering::set(&words, NOTE, Face::Medium);
            let way = (to - from).unit();
            let middle = from.midpoint(to) + way * (-setting.width / 2.0);
            let text = Text {
                at: middle + way.left() * off,
                angle,
                setting,
                ink: Ink::Black,
            };
            items.push(sheet_item(None, Mark::Text(text)));
        }
        items
    }

    /// What is drawn of the parts on the key plan, at its own scale: the side
    /// of each, and a label that says which sheet it is.
    pub(crate) fn on_key(&self, view: &super::ground::View) -> (Vec<Item>, Vec<Label>) {
        let shrunk = view.scale * self.scale.ratio / 1000.0;
        let place = |at: Point| view.origin + (at - Point::ORIGIN) * shrunk;
        let mut outlines = Vec::new();
        let mut labels = Vec::new();
        for (index, at) in self.own.iter().enumerate() {
            let lies = self.lies(*at);
            let (low, high) = (place(lies.low), place(lies.high));
            outlines.push(Path::rectangle(low, high));
            let words = format!("sheet {}", index + 2);
            labels.push(key_label(&words, low, high));
        }
        let mark = Mark::Stroke(outlines, MEETS);
        let item = Item {
            layer: Layer::Sheet,
            link: None::<Place>,
            within: None,
            mark,
        };
        (vec![item], labels)
    }
}

/// Which sheet a part is, in one of its corners or anywhere in it.
fn key_label(words: &str, low: Point, high: Point) -> Label {
    let setting = lettering::set(words, LABEL, Face::Medium);
    let (wide, tall) = (setting.width / 2.0 + 2.0, LABEL / 2.0 + 2.0);
    let (left, right) = (low.x + wide, high.x - wide);
    let (under, over) = (low.y + tall, high.y - tall);
    let middle = low.midpoint(high);
    let mut places = vec![
        Point::new(left, over),
        Point::new(right, over),
        Point::new(left, under),
        Point::new(right, under),
    ];
    for share in [0.5, 0.3, 0.7] {
        let y = low.y + (high.y - low.y) * share;
        places.extend([left, middle.x, right].map(|x| Point::new(x, y)));
    }
    Label {
        layer: Layer::Sheet,
        places,
        minds_lines: false,
        ..Label::of(vec![setting], middle, None)
    }
}
