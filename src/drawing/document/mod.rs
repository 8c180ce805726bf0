//! A document of words, tables and sheets, and its pages on paper.

mod flow;
mod lines;

use super::display_list::Drawing;
use super::sheet::Size;

/// A document: what it says from top to bottom.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Its title, for readers that list documents.
    pub title: String,
    /// What must be read before all else: on top of every page.
    pub warning: Option<String>,
    /// What stands at the foot of every page.
    pub foot: String,
    /// The paper, upright.
    pub size: Size,
    /// What it says.
    pub blocks: Vec<Block>,
}

/// A part of a document.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// The title.
    Title(String),
    /// A heading; something follows it on the same page.
    Heading(String),
    /// A lesser one.
    Subheading(String),
    /// A paragraph.
    Text(String),
    /// A paragraph of less weight.
    Quiet(String),
    /// Sentences, each on its own.
    List(Vec<String>),
    /// Rows of cells.
    Table(Table),
    /// A picture among the words, as it is.
    Figure(Box<Drawing>),
    /// What is looked for first, side by side.
    Facts(Vec<Fact>),
    /// A sheet, on a page of its own, as it is: after the page that its words
    /// stand on.
    Sheet(Box<Drawing>),
    /// Parts that stand on one page, where one holds them.
    Together(Vec<Block>),
    /// What follows begins a page, unless as much as comes before the next one
    /// has room on this one, or hardly anything stands on it.
    Chapter,
    /// What follows begins a page: it may be for somebody else.
    NewPage,
}

/// Something that is looked for first.
#[derive(Debug, Clone, PartialEq)]
pub struct Fact {
    /// What it is: `Price`.
    pub caption: String,
    /// It.
    pub value: String,
    /// What is to be said of it.
    pub note: String,
}

impl Fact {
    /// Its share of the width, beside those of the others.
    pub fn share(&self) -> f64 {
        self.value.chars().count().clamp(10, 26) as f64
    }
}

/// Rows of cells in columns.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows.
    pub rows: Vec<Row>,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Its heading.
    pub heading: String,
    /// Its share of the width, beside those of the others.
    pub share: f64,
    /// What stands in it.
    pub holds: Holds,
}

/// What stands in a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holds {
    /// Words.
    Words,
    /// Figures, the more important ones.
    Figures,
    /// Figures that go with them.
    MoreFigures,
    /// A box to tick.
    Ticks,
    /// Room to write in.
    Blanks,
}

impl Holds {
    /// Whether figures stand in it.
    pub const fn is_figure(self) -> bool {
        matches!(self, Holds::Figures | Holds::MoreFigures)
    }
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its cells; as many as there are columns.
    pub cells: Vec<String>,
    /// Whether it sums up what stands over it.
    pub is_total: bool,
}

impl Document {
    /// How wide and how high what stands on a page may be.
    pub fn room(size: Size) -> (f64, f64) {
        let panel = flow::panel(size);
        (panel.width(), panel.height())
    }

    /// Its pages, each with its number at the foot. No heading stands alone at
    /// the foot of one.
    pub fn pages(&self) -> Vec<Drawing> {
        flow::pages(self)
    }
}
