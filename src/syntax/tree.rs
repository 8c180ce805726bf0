//! The lossless tree: every byte of the text is in exactly one line, and the
//! lines give the text back byte for byte.
//!
//! Spans inside a [`Line`] are relative to the line's own start, so that a
//! line's tree can be kept and used again wherever the same text stands.

use std::sync::{Arc, OnceLock};

use rustc_hash::FxHashMap;

use crate::text::{Span, Text};

/// A whole file: its text and its sections in order.
#[derive(Debug, Clone)]
pub struct Tree {
    /// The text that the tree stands for.
    pub text: Text,
    /// The sections in order; together they cover the text from end to end.
    pub sections: Arc<Vec<Placed>>,
    /// How many lines were read to make this tree; those taken over from the
    /// tree before an edit were not.
    pub parsed_lines: usize,
    /// The sections that the last edit may have changed, by their places.
    pub touched: std::ops::Range<usize>,
    /// The name for the next new section.
    pub(super) next_id: u32,
    /// The place of each section by its name, made when first asked for.
    pub(super) by_id: Arc<OnceLock<FxHashMap<SectionId, usize>>>,
}

/// Names a section for as long as it is there: an edit elsewhere in the file
/// moves it, an edit in it changes its words, and it keeps its name. A
/// [`Section`] is what it says at one time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SectionId(pub u32);

/// A section at its place in the file.
#[derive(Debug, Clone)]
pub struct Placed {
    /// Which section it is.
    pub id: SectionId,
    /// Where it starts, in bytes from the start of the file.
    pub start: u32,
    /// Its lines.
    pub section: Arc<Section>,
}

/// What stands from one line at column 0 to the next. Comment lines directly
/// above a heading belong to the section that they describe. A file's first
/// section may have no heading.
#[derive(Debug, PartialEq)]
pub struct Section {
    /// The lines in order, each with its start from the start of the section.
    pub lines: Vec<(u32, Arc<Line>)>,
    /// How many bytes they take.
    pub length: u32,
    /// A hash of the section's text.
    pub hash: u64,
}

/// One logical line: a physical line with its continuations.
#[derive(Debug, PartialEq)]
pub struct Line {
    /// What kind of line it is.
    pub kind: LineKind,
    /// How many bytes it takes, its line end included.
    pub length: u32,
    /// The blanks before its first word.
    pub indent: Span,
    /// The first word: a section's kind or an entry's key. Empty on a line
    /// that has none.
    pub word: Span,
    /// What follows the word, parted at the commas.
    pub phrases: Box<[Phrase]>,
    /// The commas between the phrases.
    pub commas: Box<[Span]>,
    /// The comments in it, each from its `#` to its line's end.
    pub comments: Box<[Span]>,
    /// What could not be read as it stands.
    pub faults: Box<[Fault]>,
}

/// The kinds of line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineKind {
    /// Nothing but blanks.
    Blank,
    /// A comment on a line of its own.
    Comment,
    /// A line that starts at column 0: a section's heading, or an entry that
    /// has lost its indent (the model knows which).
    Heading,
    /// An indented line that starts with a word.
    Entry,
    /// A line that could not be read.
    Unread,
}

/// What stands between two commas: a value or a clause.
#[derive(Debug, Clone, PartialEq)]
pub struct Phrase {
    /// From its first item to its last; empty, at its place, if it has none.
    pub span: Span,
    /// Its items in order.
    pub items: Box<[Item]>,
}

/// One word, number, mark or group.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Where it stands in the line.
    pub span: Span,
    /// What it is.
    pub kind: ItemKind,
    /// Whether a blank stands before it.
    pub spaced_before: bool,
    /// Whether a blank or the line's end stands after it.
    pub spaced_after: bool,
}

/// The kinds of item.
#[derive(Debug, Clone, PartialEq)]
pub enum ItemKind {
    /// A name or a small word: `clay`, `away`, `bed-mix`.
    Word,
    /// An edge of a shape: `court.wall`.
    Reference {
        /// The shape.
        owner: Span,
        /// The edge.
        edge: Span,
    },
    /// Text in double quotes; `inner` is what stands between them.
    Text {
        /// The text without its quotes, its `\"` and `\\` still written so.
        inner: Span,
    },
    /// `2027-04-12`.
    Date,
    /// `1:60`: two tight numbers.
    Ratio {
        /// The first number.
        left: Span,
        /// The second number.
        right: Span,
    },
    /// `1:1:6`: three or more tight numbers.
    TightParts,
    /// A number, with its unit or units, mark or sign: `12`, `6 1/2"`,
    /// `24' 6"`, `2 %`, `40 °F`, `$42`, `42 USD`.
    Number {
        /// Each number with its unit; two for feet and inches.
        terms: Box<[Term]>,
        /// A sign or code of money, if it has one.
        currency: Option<Span>,
    },
    /// `/ unit` or `per unit` straight after a value.
    Per {
        /// The unit.
        unit: Span,
    },
    /// A parenthesis: one phrase inside is a group, two are a point.
    Group {
        /// The phrases inside.
        phrases: Box<[Phrase]>,
    },
    /// `area(terrace)`.
    Call {
        /// The function's name.
        name: Span,
        /// What stands in its parenthesis.
        phrases: Box<[Phrase]>,
    },
    /// `+ - * /`, and the words `per` and `over` where no unit follows.
    Operator(Operator),
    /// The minus sign of a negative value.
    Negative,
    /// `×`: by.
    By,
    /// A colon that stands alone.
    Colon,
    /// An equals sign.
    Equals,
    /// Anything else.
    Stray,
}

/// A number with the unit written after it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Term {
    /// The number: digits, groups, fraction.
    pub number: Span,
    /// The unit, mark (`'`, `"`), `%` or degree sign after it, if any.
    pub unit: Option<Span>,
}

/// The arithmetic operators.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Operator {
    /// `+`
    Add,
    /// `-` with a blank on both sides.
    Subtract,
    /// `*`
    Multiply,
    /// `/`
    Divide,
    /// `per` before something that is no unit.
    Per,
    /// `over`: a drop over a run.
    Over,
}

/// Something in a line that could not be read as it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// Where.
    pub span: Span,
    /// What.
    pub kind: FaultKind,
}

/// The faults that the reading itself finds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FaultKind {
    /// The line could not be read at all.
    Unread,
    /// Parentheses nested too deep.
    TooDeep,
    /// The line is too long to be read.
    TooLong,
    /// A parenthesis that is not closed on its own or a deeper next line.
    GroupOpen,
    /// A closing parenthesis with none open.
    GroupClose,
    /// A comma with nothing after it, or nothing between it and the next.
    CommaStray,
    /// Text that its line's end closes.
    TextUnclosed,
    /// A `#` that touches a digit.
    HashTouchesDigit,
    /// A minus that is neither a subtraction nor a sign: `margin -6 in`,
    /// `24' -6"`, `3.6-0.15 m`.
    MinusUnclear,
    /// An inch mark that stands off its number: `6 1/2 "`.
    InchMarkOff,
}
