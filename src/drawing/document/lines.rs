//! A document as lines that are not parted: each knows how high it is and what
//! must stand under it.

use super::{Block, Column, Document, Fact, Holds, Row, Table};
use crate::drawing::beside::{moved, sheet_item, text};
use crate::drawing::display_list::{Drawing, Ink, Item, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::lettering::{self, HEADING, LABEL, NOTE, Setting};
use crate::geometry::{Point, Vector};

/// From one base line of a paragraph to the next, over the height of a capital.
const LEAD: f64 = 2.1;
/// The white before a paragraph, a lesser heading and a heading.
const BEFORE: f64 = 2.2;
const BEFORE_LESSER: f64 = 4.5;
const BEFORE_HEADING: f64 = 8.0;
/// The white before a picture.
const BEFORE_FIGURE: f64 = 3.0;
/// The height of a capital of a document's title, and of a fact.
const HEAD: f64 = 7.4;
const FACT: f64 = 3.5;
/// The white over and under the words of a row, of one with a box to tick, and
/// of one that is written in.
const ROW: f64 = 1.7;
const TICKED: f64 = 2.5;
const WRITTEN_IN: f64 = 3.2;
/// Between two columns.
const GUTTER: f64 = 3.0;
/// The side of a box to tick.
const TICK: f64 = 5.0;
/// The white beside what stands in a narrow table, and the most that one is
/// wide.
const AIR: f64 = 6.0;
const NARROW: f64 = 135.0;
/// The least that a column of words keeps beside figures.
const LEAST_WORDS: f64 = 18.0;
/// How wide the room is that is written in.
const BLANK: f64 = 38.0;
/// So many rows of a table at least stand on each page that it is on.
const ROWS: usize = 3;
/// The longest line that reads well.
const MEASURE: f64 = 150.0;

/// What is not parted.
pub(crate) enum Piece<'d> {
    /// A line with its height, what is drawn of it from its upper left corner,
    /// and whether the next one stays with it.
    Line(Line),
    /// The title and the head of a table, to be said again on each page that it
    /// goes on to; none after its end.
    Head(Vec<Line>),
    /// A heading follows.
    Heading,
    /// A page of its own.
    Sheet(&'d Drawing),
    /// The end of a page, unless what follows has room on it.
    Chapter,
    /// The end of a page.
    NewPage,
}

/// A line.
#[derive(Clone)]
pub(crate) struct Line {
    /// How high it is, the white over it included.
    pub height: f64,
    /// Of that, the white that falls away at the top of a page.
    pub before: f64,
    /// Whether the next one must stand on the same page.
    pub keeps_next: bool,
    /// What is drawn, counted from its upper left corner.
    pub marks: Vec<Mark>,
}

impl Line {
    /// It as it stands on a page, its upper left corner here.
    pub(crate) fn at(&self, corner: Point) -> impl Iterator<Item = Item> + '_ {
        let by = corner - Point::ORIGIN;
        let marks = self.marks.iter();
        marks.map(move |mark| sheet_item(None, moved(mark, by)))
    }
}

/// A document in pieces, for a page so wide.
pub(crate) fn pieces(document: &Document, width: f64) -> Vec<Piece<'_>> {
    let mut pieces = Vec::new();
    extend(&mut pieces, &document.blocks, width);
    pieces
}

fn extend<'d>(pieces: &mut Vec<Piece<'d>>, blocks: &'d [Block], width: f64) {
    let mut before: Option<&Block> = None;
    for block in blocks {
        // A paragraph before a picture says what it is.
        // And a quiet one under it what there is to say of it.
        let pair = (before, block);
        if matches!(
            pair,
            (Some(Block::Text(_)), Block::Figure(_)) | (Some(Block::Figure(_)), Block::Quiet(_))
        ) && let Some(Piece::Line(last)) = pieces.last_mut()
        {
            last.keeps_next = true;
        }
        let title = match before {
            Some(Block::Subheading(words)) => Some(words.as_str()),
            _ => None,
        };
        before = Some(block);
        match block {
            Block::Title(words) => paragraph(pieces, words, Style::TITLE, width),
            Block::Heading(words) => {
                pieces.push(Piece::Heading);
                paragraph(pieces, words, Style::HEADING, width);
                rule_under(pieces, width);
            }
            Block::Subheading(words) => paragraph(pieces, words, Style::LESSER, width),
            Block::Text(words) => paragraph(pieces, words, Style::TEXT, width.min(MEASURE)),
            Block::Quiet(words) => paragraph(pieces, words, Style::QUIET, width.min(MEASURE)),
            Block::List(items) => {
                for item in items {
                    listed(pieces, item, width.min(MEASURE));
                }
            }
            Block::Table(table) => tabled(pieces, table, title, width),
            Block::Figure(drawing) => pieces.push(Piece::Line(figure(drawing))),
            Block::Facts(facts) => pieces.push(Piece::Line(side_by_side(facts, width))),
            Block::Sheet(drawing) => pieces.push(Piece::Sheet(drawing)),
            Block::Chapter => pieces.push(Piece::Chapter),
            Block::NewPage => pieces.push(Piece::NewPage),
            Block::Together(blocks) => together(pieces, blocks, width),
        }
    }
}

/// Blocks of which each line but the last keeps the next on its page.
fn together<'d>(pieces: &mut Vec<Piece<'d>>, blocks: &'d [Block], width: f64) {
    let first = pieces.len();
    extend(pieces, blocks, width);
    let lines = pieces.iter_mut().skip(first).rev();
    let lines = lines.filter_map(|piece| match piece {
        Piece::Line(line) => Some(line),
        _ => None,
    });
    lines.skip(1).for_each(|line| line.keeps_next = true);
}

struct Style {
    capital: f64,
    face: Face,
    before: f64,
    ink: Ink,
    is_heading: bool,
}

impl Style {
    const TITLE: Style = Style {
        capital: HEAD,
        face: Face::Medium,
        before: 0.0,
        ink: Ink::Black,
        is_heading: true,
    };
    const HEADING: Style = Style {
        capital: HEADING,
        before: BEFORE_HEADING,
        ..Style::TITLE
    };
    const LESSER: Style = Style {
        capital: LABEL,
        before: BEFORE_LESSER,
        ..Style::TITLE
    };
    const TEXT: Style = Style {
        capital: LABEL,
        face: Face::Regular,
        before: BEFORE,
        ink: Ink::Black,
        is_heading: false,
    };
    const QUIET: Style = Style {
        capital: NOTE,
        ink: Ink::Grey,
        ..Style::TEXT
    };
}

fn paragraph(pieces: &mut Vec<Piece<'_>>, words: &str, style: Style, width: f64) {
    let lines = lettering::broken(words, style.capital, style.face, width);
    let count = lines.len();
    for (number, line) in lines.into_iter().enumerate() {
        let before = if number == 0 { style.before } else { 0.0 };
        let high = line.above + LEAD;
        let at = Point::new(0.0, -before - line.above);
        // Neither the first line stands alone at a page's foot nor the last at
        // the next one's top.
        let is_near_an_end = number == 0 || number + 2 == count;
        pieces.push(Piece::Line(Line {
            height: before + high,
            before,
            keeps_next: style.is_heading || is_near_an_end && number + 1 < count,
            marks: vec![text(at, line, style.ink)],
        }));
    }
}

fn rule_under(pieces: &mut Vec<Piece<'_>>, width: f64) {
    let line = Path::line(Point::new(0.0, 0.2), Point::new(width, 0.2));
    pieces.push(Piece::Line(Line {
        height: 0.6,
        before: 0.0,
        keeps_next: true,
        marks: vec![Mark::Stroke(vec![line], Pen::of(Weight::Mid))],
    }));
}

/// The bar on top of a page.
pub(crate) fn warning(words: &str, width: f64) -> Line {
    let high = 9.0;
    let setting = lettering::fitted(words, HEADING, Face::Medium, width - 8.0);
    let strip = Path::rectangle(Point::new(0.0, -high - BEFORE), Point::new(width, -BEFORE));
    let at = Point::new(4.0, -BEFORE - (high + HEADING) / 2.0);
    Line {
        height: high + 2.0 * BEFORE,
        before: 0.0,
        keeps_next: true,
        marks: vec![
            Mark::Fill(vec![strip], Ink::Black),
            text(at, setting, Ink::Paper),
        ],
    }
}

/// A picture, its upper left corner under the white before it.
fn figure(drawing: &Drawing) -> Line {
    let height = drawing.size.1 + BEFORE_FIGURE;
    let by = Vector::new(0.0, -height);
    let marks = drawing.items.iter().map(|item| moved(&item.mark, by));
    Line {
        height,
        before: BEFORE_FIGURE,
        keeps_next: false,
        marks: marks.collect(),
    }
}

/// Facts in columns under a line, each with its caption over it.
fn side_by_side(facts: &[Fact], width: f64) -> Line {
    let shares: f64 = facts.iter().map(Fact::share).sum();
    let rule = Path::line(Point::new(0.0, -BEFORE), Point::new(width, -BEFORE));
    let mut marks = vec![Mark::Stroke(vec![rule], Pen::of(Weight::Mid))];
    let mut deepest = 0.0_f64;
    let mut left = 0.0;
    for fact in facts {
        let wide = width * fact.share() / shares;
        let mut base = -BEFORE;
        for (words, capital, face, before) in [
            (&fact.caption, NOTE, Face::Medium, 2.6),
            (&fact.value, FACT, Face::Medium, 2.4),
            (&fact.note, NOTE, Face::Regular, 2.2),
        ] {
            for line in lettering::broken(words, capital, face, wide - GUTTER) {
                base -= before + line.above;
                marks.push(text(Point::new(left, base), line, Ink::Black));
            }
        }
        deepest = deepest.max(-base);
        left += wide;
    }
    Line {
        height: deepest + BEFORE,
        before: 0.0,
        keeps_next: false,
        marks,
    }
}

fn listed(pieces: &mut Vec<Piece<'_>>, words: &str, width: f64) {
    const INDENT: f64 = 4.5;
    let lines = lettering::broken(words, LABEL, Face::Regular, width - INDENT);
    let count = lines.len();
    for (number, line) in lines.into_iter().enumerate() {
        let before = if number == 0 { 1.2 } else { 0.0 };
        let base = -before - line.above;
        let height = before + line.above + LEAD;
        let mut marks = Vec::new();
        if number == 0 {
            let dot = Path::circle(Point::new(1.2, base + LABEL / 2.0), 0.45);
            marks.push(Mark::Fill(vec![dot], Ink::Black));
        }
        marks.push(text(Point::new(INDENT, base), line, Ink::Black));
        pieces.push(Piece::Line(Line {
            height,
            before,
            keeps_next: number == 0 && count > 1,
            marks,
        }));
    }
}

/// Where each of the columns starts and how wide it is, and how wide all are.
fn columns(widths: &[f64]) -> (Vec<(f64, f64)>, f64) {
    let mut left = 0.0;
    let mut places = Vec::new();
    for wide in widths {
        places.push((left, *wide));
        left += wide + GUTTER;
    }
    (places, (left - GUTTER).max(0.0))
}

/// How wide each column of a table is that takes the whole width: by its share,
/// but no figure is parted from its unit while the words have room left.
fn shared(table: &Table, width: f64) -> Vec<f64> {
    let columns = &table.columns;
    let gutters = GUTTER * columns.len().saturating_sub(1) as f64;
    let left = |fixed: &[Option<f64>]| width - gutters - fixed.iter().flatten().sum::<f64>();
    let by_share = |fixed: &[Option<f64>]| -> Vec<f64> {
        let open = columns.iter().zip(fixed).filter(|(_, own)| own.is_none());
        let all: f64 = open.map(|(own, _)| own.share).sum();
        let each = left(fixed).max(1.0) / all.max(1e-9);
        let widths = columns.iter().zip(fixed);
        widths
            .map(|(column, own)| own.unwrap_or(column.share * each))
            .collect()
    };
    let ticks = |column: &Column| (column.holds == Holds::Ticks).then_some(TICK);
    let fixed: Vec<Option<f64>> = columns.iter().map(ticks).collect();
    let shares = by_share(&fixed);
    let whole = columns.iter().zip(table.natural()).zip(&shares);
    let whole: Vec<Option<f64>> = whole
        .zip(&fixed)
        .map(|(((column, natural), share), fixed)| {
            let natural = natural - AIR + 0.5;
            let is_figure = column.holds.is_figure() && natural > *share;
            fixed.or_else(|| is_figure.then_some(natural))
        })
        .collect();
    let open = whole.iter().filter(|own| own.is_none()).count();
    match left(&whole) >= LEAST_WORDS * open as f64 {
        true => by_share(&whole),
        false => shares,
    }
}

impl Table {
    /// How wide what stands in each column is, with some air.
    fn natural(&self) -> Vec<f64> {
        let widest = self.columns.iter().enumerate().map(|(at, column)| {
            let cell = |words: &str, kind: Kind| {
                let (capital, face) = lettered(kind, column.holds);
                lettering::set(words, capital, face).width
            };
            let rows = self.rows.iter().filter_map(|row| {
                let kind = if row.is_total { Kind::Total } else { Kind::Row };
                Some(cell(row.cells.get(at)?, kind))
            });
            let words = rows.fold(cell(&column.heading, Kind::Head), f64::max) + AIR;
            match column.holds {
                Holds::Blanks => words.max(BLANK),
                _ => words,
            }
        });
        widest.collect()
    }

    /// How wide each column is of a table of so little that it would stand
    /// lost in the width of a page: as wide as what stands in it.
    fn narrow(&self) -> Option<Vec<f64>> {
        let widths = self.natural();
        let has_ticks = self.columns.iter().any(|own| own.holds == Holds::Ticks);
        let is_narrow = widths.iter().sum::<f64>() <= NARROW;
        (is_narrow && !has_ticks).then_some(widths)
    }

    /// Whether it is of so little that it would stand lost in the width of a
    /// page.
    pub fn is_narrow(&self) -> bool {
        self.narrow().is_some()
    }
}

fn tabled(pieces: &mut Vec<Piece<'_>>, table: &Table, title: Option<&str>, width: f64) {
    let mut again = Vec::new();
    if let Some(title) = title {
        paragraph(
            &mut again,
            &format!("{title} (continued)"),
            Style::LESSER,
            width,
        );
    }
    let (places, width) = match table.narrow() {
        Some(widths) => columns(&widths),
        None => columns(&shared(table, width)),
    };
    let has_heads = table.columns.iter().any(|own| !own.heading.is_empty());
    if has_heads {
        let heads: Vec<String> = table
            .columns
            .iter()
            .map(|own| own.heading.clone())
            .collect();
        let mut head = row(table, &places, &heads, Kind::Head, width);
        head.keeps_next = true;
        pieces.push(Piece::Line(head.clone()));
        again.push(Piece::Line(head));
    }
    let again = again.into_iter().filter_map(|piece| match piece {
        Piece::Line(line) => Some(line),
        _ => None,
    });
    pieces.push(Piece::Head(again.collect()));
    let count = table.rows.len();
    for (number, own) in table.rows.iter().enumerate() {
        let kind = if own.is_total { Kind::Total } else { Kind::Row };
        let Row { cells, .. } = own;
        let mut line = row(table, &places, cells, kind, width);
        // Neither the first rows stand alone at a page's foot nor the last, a
        // sum with what it sums up, at the next one's top.
        let is_near_an_end = number + 1 < ROWS || number + ROWS >= count;
        line.keeps_next = is_near_an_end && number + 1 < count;
        pieces.push(Piece::Line(line));
    }
    pieces.push(Piece::Head(Vec::new()));
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Head,
    Row,
    Total,
}

/// The height of a capital and the face of a cell.
fn lettered(kind: Kind, holds: Holds) -> (f64, Face) {
    match (kind, holds) {
        (Kind::Head, _) => (NOTE, Face::Regular),
        (Kind::Total, _) | (_, Holds::Figures) => (LABEL, Face::Medium),
        _ => (LABEL, Face::Regular),
    }
}

fn row(table: &Table, places: &[(f64, f64)], cells: &[String], kind: Kind, width: f64) -> Line {
    let mut marks = Vec::new();
    let has = |holds: Holds| table.columns.iter().any(|own| own.holds == holds);
    let pad = match kind {
        Kind::Row if has(Holds::Blanks) => WRITTEN_IN,
        Kind::Row if has(Holds::Ticks) => TICKED,
        _ => ROW,
    };
    let mut set: Vec<(f64, f64, bool, Vec<Setting>)> = Vec::new();
    for ((column, (left, wide)), words) in table.columns.iter().zip(places).zip(cells) {
        let is_figure = column.holds.is_figure();
        let (capital, face) = lettered(kind, column.holds);
        if column.holds == Holds::Ticks {
            if kind == Kind::Row && !words.is_empty() {
                let low = Point::new(*left, -pad - LABEL / 2.0 - TICK / 2.0);
                let tick = Path::rectangle(low, low + Vector::new(TICK, TICK));
                marks.push(Mark::Stroke(vec![tick], Pen::of(Weight::Mid)));
            }
            continue;
        }
        set.push((
            *left,
            *wide,
            is_figure,
            lettering::broken(words, capital, face, *wide),
        ));
    }
    let high = |lines: &[Setting]| -> f64 {
        let all: f64 = lines.iter().map(|line| line.above).sum();
        let tail = lines.last().map_or(0.0, |line| (line.below - 0.8).max(0.0));
        all + LEAD * 0.7 * lines.len().saturating_sub(1) as f64 + tail
    };
    let tallest = set
        .iter()
        .map(|(.., lines)| high(lines))
        .fold(LABEL, f64::max);
    // All cells stand on one line: the tallest first one settles it.
    let first = set.iter().filter_map(|(.., lines)| lines.first());
    let above = first.map(|line| line.above).fold(0.0, f64::max);
    for (left, wide, is_figure, lines) in set {
        let mut base = -pad - above;
        for (number, line) in lines.into_iter().enumerate() {
            if number > 0 {
                base -= line.above + LEAD * 0.7;
            }
            let indent = if is_figure { wide - line.width } else { 0.0 };
            marks.push(text(Point::new(left + indent, base), line, Ink::Black));
        }
    }
    let height = tallest + 2.0 * pad;
    let blanks = table.columns.iter().zip(places);
    let blanks = blanks.filter(|(own, _)| kind == Kind::Row && own.holds == Holds::Blanks);
    marks.extend(blanks.map(|(_, (left, _))| {
        let x = left - GUTTER / 2.0;
        let line = Path::line(Point::new(x, 0.0), Point::new(x, -height));
        Mark::Stroke(vec![line], Pen::of(Weight::Fine))
    }));
    let rule = |y: f64| Path::line(Point::new(0.0, y), Point::new(width, y));
    let (y, pen) = match kind {
        Kind::Head => (-height, Pen::of(Weight::Heavy)),
        Kind::Row => (-height, Pen::of(Weight::Fine)),
        Kind::Total => (0.0, Pen::of(Weight::Heavy)),
    };
    marks.push(Mark::Stroke(vec![rule(y)], pen));
    Line {
        height,
        before: 0.0,
        keeps_next: false,
        marks,
    }
}
