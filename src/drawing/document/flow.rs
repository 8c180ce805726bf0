//! Lines put on pages.

use super::Document;
use super::lines::{Line, Piece, pieces, warning};
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
    /// What stands on top of every page of words.
    warning: Option<Line>,
    /// Where the next line starts; at the top of a page nothing is on it.
    y: f64,
    is_open: bool,
    head: Vec<Line>,
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
        warning: document
            .warning
            .as_deref()
            .map(|words| warning(words, panel.width())),
        y: panel.high.y,
        is_open: false,
        head: Vec::new(),
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
            Piece::Heading => flow.heading(pieces.get(at + 1..).unwrap_or_default()),
            Piece::Chapter => flow.chapter(pieces.get(at + 1..).unwrap_or_default()),
            Piece::NewPage => flow.is_open = false,
        }
    }
    flow.finish(document)
}

impl Flow<'_> {
    fn line(&mut self, line: &Line, after: &[Piece<'_>]) {
        let (page, kept) = (self.top() - self.panel.low.y, kept(line, after));
        // What is higher than a page cannot be kept on one.
        let needed = match line.height + kept <= page {
            true => line.height + kept,
            false => line.height,
        };
        // A line that is higher than a page is put on one as it is.
        if !self.is_open || self.y - needed < self.panel.low.y {
            self.open();
        }
        let is_first = self.y >= self.top() - 1e-9;
        let lift = if is_first { line.before } else { 0.0 };
        let corner = Point::new(self.panel.low.x, self.y + lift);
        if let Some(Page::Words(items)) = self.pages.last_mut() {
            items.extend(line.at(corner));
        }
        self.y = corner.y - line.height;
    }

    /// Leaves the page, unless the chapter that follows has room on it, or hardly
    /// anything stands on it and the chapter takes several pages in any case.
    fn chapter(&mut self, after: &[Piece<'_>]) {
        let needed = height(after, |piece| {
            matches!(piece, Piece::Chapter | Piece::NewPage)
        });
        let has_room = needed <= self.y - self.panel.low.y;
        let is_one_page = needed <= self.top() - self.panel.low.y;
        let is_begun = self.top() - self.y >= LEAST * self.panel.height();
        self.is_open &= has_room || !(is_begun || is_one_page);
    }

    /// Leaves the page where a sheet waits for its end and what stands under the
    /// heading that follows has no room on it: a sheet parts no subject.
    fn heading(&mut self, after: &[Piece<'_>]) {
        let needed = height(after, |piece| {
            matches!(piece, Piece::Heading | Piece::Chapter | Piece::NewPage)
        });
        let has_room = needed <= self.y - self.panel.low.y;
        self.is_open &= has_room || self.waiting.is_empty();
    }

    /// Where the first line of a page starts, under the warning.
    fn top(&self) -> f64 {
        self.panel.high.y - self.warning.as_ref().map_or(0.0, |line| line.height)
    }

    fn open(&mut self) {
        self.pages.extend(self.waiting.drain(..).map(Page::Sheet));
        self.pages.push(Page::Words(Vec::new()));
        self.is_open = true;
        self.y = self.panel.high.y;
        // A table that goes on says again what it is and what its columns are.
        for line in self.warning.iter().chain(&self.head) {
            let corner = Point::new(self.panel.low.x, self.y);
            if let Some(Page::Words(items)) = self.pages.last_mut() {
                items.extend(line.at(corner));
            }
            self.y -= line.height;
        }
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

/// How high the lines are up to where they end.
fn height(after: &[Piece<'_>], ends: fn(&Piece<'_>) -> bool) -> f64 {
    let own = after.iter().take_while(|piece| !ends(piece));
    let heights = own.map(|piece| match piece {
        Piece::Line(line) => line.height,
        _ => 0.0,
    });
    heights.sum()
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
            Piece::Head(_) | Piece::Heading => {}
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
            warning: None,
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

    #[test]
    fn a_warning_stands_on_top_of_every_page() {
        for warning in [None, Some("Do not build from this".to_owned())] {
            let lines = (0..100).map(|number| Block::Text(format!("line {number}")));
            let document = Document {
                warning: warning.clone(),
                ..document(lines.collect())
            };
            let pages = document.pages();
            assert!(pages.len() > 2);
            for page in &pages {
                let told = words(page);
                let highest = told.iter().max_by(|one, other| one.0.total_cmp(&other.0));
                let is_warned = highest.is_some_and(|(_, own)| warning.as_ref() == Some(own));
                assert_eq!(is_warned, warning.is_some());
            }
        }
    }

    #[test]
    fn a_sheet_parts_no_subject() {
        let sheet = || {
            Block::Sheet(Box::new(Drawing {
                title: "Sheet".to_owned(),
                size: (297.0, 210.0),
                scale: 1.0,
                origin: Point::ORIGIN,
                is_imperial: false,
                items: Vec::new(),
                insets: Vec::new(),
                notes: Vec::new(),
            }))
        };
        for lines in 0..60 {
            let mut blocks: Vec<Block> = (0..lines)
                .map(|number| Block::Text(format!("line {number}")))
                .collect();
            blocks.push(sheet());
            blocks.push(Block::Heading("Take care".to_owned()));
            blocks.extend((0..6).map(|number| Block::Text(format!("caution {number}"))));
            let pages = document(blocks).pages();
            let cautions = pages.iter().filter(|page| {
                words(page)
                    .iter()
                    .any(|(_, own)| own.starts_with("caution"))
            });
            assert_eq!(cautions.count(), 1, "{lines} lines before the sheet");
        }
    }

    #[test]
    fn a_table_leaves_three_rows_on_each_page_and_says_its_title_again() {
        for (above, rows) in (20..40).flat_map(|above| [(above, 5), (above, 9)]) {
            let mut blocks: Vec<Block> = (0..above)
                .map(|number| Block::Text(format!("line {number}")))
                .collect();
            blocks.push(Block::Subheading("Pegs".to_owned()));
            let column = Column {
                heading: "peg".to_owned(),
                share: 1.0,
                holds: Holds::Words,
            };
            let row = |number: usize| Row {
                cells: vec![format!("peg {number}")],
                is_total: false,
            };
            blocks.push(Block::Table(Table {
                columns: vec![column],
                rows: (0..rows).map(row).collect(),
            }));
            let mut parts = 0;
            for page in document(blocks).pages() {
                let told = words(&page);
                let is = |own: &str| {
                    told.iter()
                        .filter(|(_, words)| words.starts_with(own))
                        .count()
                };
                // The head is no row.
                let own = is("peg ");
                assert!(
                    own == 0 || own >= 3,
                    "{own} of {rows} rows after {above} lines"
                );
                assert!(
                    own == 0 || is("Pegs") == 1,
                    "{rows} rows after {above} lines"
                );
                parts += usize::from(own > 0);
            }
            assert!(rows > 5 || parts == 1, "{rows} rows after {above} lines");
        }
    }

    #[test]
    fn no_figure_is_parted_from_its_unit() {
        let column = |heading: &str, share, holds| Column {
            heading: heading.to_owned(),
            share,
            holds,
        };
        let mut columns = vec![column("where", 40.0, Holds::Words)];
        let heads = ["east", "north", "from A", "from B", "level"];
        columns.extend(heads.map(|head| column(head, 6.0, Holds::MoreFigures)));
        let mut cells = vec!["soakaway-beyond-the-compost-yard-behind-the-wall".to_owned()];
        cells.extend(heads.map(|_| "−1,234.567 m".to_owned()));
        let rows = vec![Row {
            cells,
            is_total: false,
        }];
        let pages = document(vec![Block::Table(Table { columns, rows })]).pages();
        let told = words(&pages[0]);
        let whole = told.iter().filter(|(_, own)| own.ends_with("567 m"));
        assert_eq!(whole.count(), heads.len(), "{told:?}");
        assert!(told.iter().all(|(_, own)| !own.contains('…')), "{told:?}");
    }
}
