//! Lines put on pages.

use super::Document;
use super::lines::{Line, Piece, pieces};
use crate::drawing::beside::{sheet_item, text};
use crate::drawing::display_list::{Drawing, Ink, Item, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::lettering::{self, NOTE};
use crate::drawing::sheet::{Panel, Size};
use crate::geometry::Point;

/// The white round a page: at its sides, on top, and at its foot, where the
/// number stands.
const SIDE: f64 = 18.0;
const TOP: f64 = 17.0;
const FOOT: f64 = 19.0;
const NUMBER: f64 = 10.0;
/// Where the number of a page stands under the frame of a sheet.
const SHEET_EDGE: f64 = 10.0;
const SHEET_NUMBER: f64 = 5.0;

/// A page as it fills up.
enum Page<'d> {
    Words(Vec<Item>),
    Sheet(&'d Drawing),
}

struct Flow<'d> {
    paper: (f64, f64),
    panel: Panel,
    pages: Vec<Page<'d>>,
    /// Sheets that come after the page that is being filled.
    waiting: Vec<&'d Drawing>,
    /// Where the next line starts; at the top of a page nothing is on it.
    y: f64,
    is_open: bool,
    head: Option<Line>,
}

/// The least share of a page that is filled before a chapter leaves it.
const LEAST: f64 = 0.4;

/// What of a page holds words.
pub(crate) fn panel(size: Size) -> Panel {
    let (height, width) = size.sides();
    Panel {
        low: Point::new(SIDE, FOOT),
        high: Point::new(width - SIDE, height - TOP),
    }
}

/// The pages of a document.
pub(crate) fn pages(document: &Document) -> Vec<Drawing> {
    let (height, width) = document.size.sides();
    let panel = panel(document.size);
    let mut flow = Flow {
        paper: (width, height),
        panel,
        pages: Vec::new(),
        waiting: Vec::new(),
        y: panel.high.y,
        is_open: false,
        head: None,
    };
    let pieces = pieces(document, panel.width());
    for (at, piece) in pieces.iter().enumerate() {
        match piece {
            Piece::Line(line) => {
                let after = pieces.get(at + 1..).unwrap_or_default();
                flow.line(line, after);
            }
            Piece::Head(head) => flow.head.clone_from(head),
            // Words go on where they stopped: no page is left half empty.
            Piece::Sheet(drawing) => flow.waiting.push(drawing),
            Piece::Chapter => flow.chapter(pieces.get(at + 1..).unwrap_or_default()),
            Piece::NewPage => flow.is_open = false,
        }
    }
    flow.finish(document)
}

impl Flow<'_> {
    fn line(&mut self, line: &Line, after: &[Piece<'_>]) {
        let (page, kept) = (self.panel.high.y - self.panel.low.y, kept(line, after));
        // What is higher than a page cannot be kept on one.
        let needed = match line.height + kept <= page {
            true => line.height + kept,
            false => line.height,
        };
        // A line that is higher than a page is put on one as it is.
        if !self.is_open || self.y - needed < self.panel.low.y {
            self.open();
        }
        let is_first = self.y >= self.panel.high.y - 1e-9;
        let lift = if is_first { line.before } else { 0.0 };
        let corner = Point::new(self.panel.low.x, self.y + lift);
        if let Some(Page::Words(items)) = self.pages.last_mut() {
            items.extend(line.at(corner));
        }
        self.y = corner.y - line.height;
    }

    /// Leaves the page, unless hardly anything stands on it or the chapter that
    /// follows has room on it.
    fn chapter(&mut self, after: &[Piece<'_>]) {
        let ends = |piece: &&Piece<'_>| matches!(piece, Piece::Chapter | Piece::NewPage);
        let own = after.iter().take_while(|piece| !ends(piece));
        let heights = own.map(|piece| match piece {
            Piece::Line(line) => line.height,
            _ => 0.0,
        });
        let has_room = self.y - heights.sum::<f64>() >= self.panel.low.y;
        let is_begun = self.panel.high.y - self.y >= LEAST * self.panel.height();
        self.is_open &= has_room || !is_begun;
    }

    fn open(&mut self) {
        self.pages.extend(self.waiting.drain(..).map(Page::Sheet));
        self.pages.push(Page::Words(Vec::new()));
        self.is_open = true;
        self.y = self.panel.high.y;
        // A table that goes on says again what its columns are.
        let head = self.head.take();
        if let Some(head) = &head {
            let corner = Point::new(self.panel.low.x, self.y);
            if let Some(Page::Words(items)) = self.pages.last_mut() {
                items.extend(head.at(corner));
            }
            self.y -= head.height;
        }
        self.head = head;
    }

    fn finish(mut self, document: &Document) -> Vec<Drawing> {
        self.pages.extend(self.waiting.drain(..).map(Page::Sheet));
        let count = self.pages.len();
        let (paper, panel) = (self.paper, self.panel);
        let pages = self.pages.into_iter().enumerate();
        pages
            .map(|(index, page)| match page {
                Page::Sheet(drawing) => numbered(drawing, index + 1, count),
                Page::Words(mut items) => {
                    items.extend(foot(document, &panel, index + 1, count));
                    Drawing {
                        title: document.title.clone(),
                        size: paper,
                        scale: 1.0,
                        origin: Point::ORIGIN,
                        is_imperial: false,
                        items,
                        insets: Vec::new(),
                        notes: Vec::new(),
                    }
                }
            })
            .collect()
    }
}

/// How high what must stand under a line is.
fn kept(line: &Line, after: &[Piece<'_>]) -> f64 {
    let mut high = 0.0;
    let mut keeps = line.keeps_next;
    for piece in after {
        if !keeps {
            break;
        }
        match piece {
            Piece::Line(next) => {
                high += next.height;
                keeps = next.keeps_next;
            }
            Piece::Head(_) => {}
            Piece::Sheet(_) | Piece::Chapter | Piece::NewPage => break,
        }
    }
    high
}

/// A sheet with the number of its page in the white under its frame.
fn numbered(drawing: &Drawing, number: usize, count: usize) -> Drawing {
    let of = lettering::set(&page_of(number, count), NOTE, Face::Medium);
    let at = Point::new(drawing.size.0 - SHEET_EDGE - of.width, SHEET_NUMBER);
    let mut numbered = drawing.clone();
    let item = sheet_item(None, text(at, of, Ink::Black));
    numbered.items.push(item);
    numbered
}

fn page_of(number: usize, count: usize) -> String {
    format!("page {number} of {count}")
}

/// The line at a page's foot: which document, and which page of how many.
fn foot(document: &Document, panel: &Panel, number: usize, count: usize) -> Vec<Item> {
    let of = lettering::set(&page_of(number, count), NOTE, Face::Medium);
    let right = Point::new(panel.high.x - of.width, NUMBER);
    let room = panel.width() - of.width - 6.0;
    let words = lettering::cut(&document.foot, NOTE, Face::Regular, room);
    let words = lettering::set(&words, NOTE, Face::Regular);
    let line = Path::line(
        Point::new(panel.low.x, NUMBER + 4.0),
        Point::new(panel.high.x, NUMBER + 4.0),
    );
    [
        Mark::Stroke(vec![line], Pen::of(Weight::Fine)),
        text(Point::new(panel.low.x, NUMBER), words, Ink::Grey),
        text(right, of, Ink::Black),
    ]
    .map(|mark| sheet_item(None, mark))
    .to_vec()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::display_list::Extents;
    use crate::drawing::document::{Block, Column, Holds, Row, Table};

    fn document(blocks: Vec<Block>) -> Document {
        Document {
            title: "Court".to_owned(),
            foot: "Court".to_owned(),
            size: Size::A4,
            blocks,
        }
    }

    fn words(page: &Drawing) -> Vec<(f64, String)> {
        let texts = page.items.iter().filter_map(|item| match &item.mark {
            Mark::Text(text) => Some((text.at.y, text.setting.words())),
            _ => None,
        });
        texts.collect()
    }

    /// So many lines before a heading that the break comes anywhere near it.
    #[test]
    fn no_heading_stands_alone_at_a_page_s_foot() {
        for lines in 0..80 {
            let mut blocks: Vec<Block> = (0..lines)
                .map(|number| Block::Text(format!("line {number}")))
                .collect();
            blocks.push(Block::Heading("Heading".to_owned()));
            blocks.push(Block::Subheading("Lesser".to_owned()));
            blocks.push(Block::Text("after it".to_owned()));
            let pages = document(blocks).pages();
            let holds = |page: &Drawing, what: &str| words(page).iter().any(|(_, own)| own == what);
            for page in &pages {
                assert_eq!(holds(page, "Heading"), holds(page, "after it"), "{lines}");
            }
            let reported: usize = pages.iter().map(|page| words(page).len() - 2).sum();
            assert_eq!(reported, lines + 3, "nothing is lost");
        }
    }

    #[test]
    fn a_picture_stands_with_the_words_before_it() {
        let picture = Drawing {
            title: "Picture".to_owned(),
            size: (100.0, 60.0),
            scale: 1.0,
            origin: Point::ORIGIN,
            is_imperial: false,
            items: vec![sheet_item(
                None,
                text(
                    Point::ORIGIN,
                    lettering::set("drawn", NOTE, Face::Regular),
                    Ink::Black,
                ),
            )],
            insets: Vec::new(),
            notes: Vec::new(),
        };
        for lines in 0..60 {
            let mut blocks: Vec<Block> = (0..lines)
                .map(|number| Block::Quiet(format!("line {number}")))
                .collect();
            blocks.push(Block::Text("what it is".to_owned()));
            blocks.push(Block::Figure(Box::new(picture.clone())));
            let pages = document(blocks).pages();
            let holds = |page: &Drawing, what: &str| words(page).iter().any(|(_, own)| own == what);
            for page in &pages {
                assert_eq!(holds(page, "what it is"), holds(page, "drawn"), "{lines}");
            }
        }
    }

    #[test]
    fn words_go_on_before_a_sheet_that_they_come_after() {
        let sheet = Drawing {
            title: "Sheet".to_owned(),
            size: (297.0, 210.0),
            scale: 1.0,
            origin: Point::ORIGIN,
            is_imperial: false,
            items: Vec::new(),
            insets: Vec::new(),
            notes: Vec::new(),
        };
        let sheet = || Block::Sheet(Box::new(sheet.clone()));
        let line = |words: &str| Block::Text(words.to_owned());
        for (blocks, titles) in [
            (
                vec![line("before"), sheet(), line("after")],
                vec!["Court", "Sheet"],
            ),
            (vec![sheet(), line("after")], vec!["Sheet", "Court"]),
            (
                vec![
                    line("before"),
                    sheet(),
                    Block::NewPage,
                    sheet(),
                    line("after"),
                ],
                vec!["Court", "Sheet", "Sheet", "Court"],
            ),
            (vec![sheet(), sheet()], vec!["Sheet", "Sheet"]),
        ] {
            let pages = document(blocks).pages();
            let found: Vec<&str> = pages.iter().map(|page| page.title.as_str()).collect();
            assert_eq!(found, titles);
        }
    }

    #[test]
    fn a_chapter_begins_a_page_where_it_has_no_room_on_the_last() {
        let lines = |count: usize| -> Vec<Block> {
            let lines = (0..count).map(|number| Block::Text(format!("line {number}")));
            lines.collect()
        };
        // About 37 lines are a page.
        for (before, after, count) in [(20, 5, 1), (30, 20, 2), (20, 60, 3), (9, 40, 2)] {
            let blocks = [lines(before), vec![Block::Chapter], lines(after)].concat();
            let pages = document(blocks).pages();
            assert_eq!(pages.len(), count, "{before} lines, then {after}");
        }
        let blocks = [lines(3), vec![Block::NewPage], lines(3)].concat();
        assert_eq!(document(blocks).pages().len(), 2);
    }

    #[test]
    fn what_stands_together_is_parted_by_no_page() {
        let lines = |count: usize, word: &str| -> Vec<Block> {
            let lines = (0..count).map(|number| Block::Text(format!("{word} {number}")));
            lines.collect()
        };
        for above in 0..60 {
            let mut blocks = lines(above, "above");
            blocks.push(Block::Together(lines(8, "card")));
            let pages = document(blocks).pages();
            let holds =
                |page: &&Drawing| words(page).iter().any(|(_, own)| own.starts_with("card"));
            assert_eq!(pages.iter().filter(holds).count(), 1, "{above} lines above");
        }
        // More than a page holds goes on over several.
        let pages = document(vec![Block::Together(lines(150, "card"))]).pages();
        assert!((2..6).contains(&pages.len()), "{} pages", pages.len());
    }

    #[test]
    fn a_table_says_its_columns_again_and_stays_on_its_pages() {
        let column = |heading: &str, holds| Column {
            heading: heading.to_owned(),
            share: 1.0,
            holds,
        };
        let columns = vec![
            column("", Holds::Ticks),
            column("material", Holds::Words),
            column("to order", Holds::Figures),
        ];
        let row = |number: usize| Row {
            cells: vec![
                "box".to_owned(),
                "stone ".repeat(number % 40),
                "14 1⁄2 tons".to_owned(),
            ],
            is_total: number == 99,
        };
        let rows = (0..100).map(row).collect();
        let pages = document(vec![Block::Table(Table { columns, rows })]).pages();
        assert!(pages.len() > 2);
        for page in &pages {
            assert!(words(page).iter().any(|(_, own)| own == "to order"));
            let (width, height) = page.size;
            let sheet = Extents::between(Point::new(0.0, 0.0), Point::new(width, height));
            let texts = page.items.iter().filter_map(|item| match &item.mark {
                Mark::Text(text) => Some(text.extents()),
                _ => None,
            });
            let boxes: Vec<Extents> = texts.collect();
            for (at, one) in boxes.iter().enumerate() {
                assert!(sheet.grown(-9.0).holds(one));
                let other = boxes.iter().skip(at + 1);
                assert!(
                    !other
                        .clone()
                        .any(|other| one.grown(-0.3).overlaps(&other.grown(-0.3)))
                );
            }
        }
        let last = words(pages.last().expect("a page"));
        assert!(
            last.iter().filter(|(_, own)| own.contains("tons")).count() > 1,
            "a sum is not alone"
        );
    }
}
