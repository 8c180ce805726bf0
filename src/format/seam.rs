//! What stands between two sections that are laid out.

use super::section::Laid;
use crate::syntax::{LineKind, Placed, PlacedLine, Tree};
use crate::vocabulary::{SectionKind, section};

/// What some editors put at the very start of a file.
pub(super) const BYTE_ORDER_MARK: &str = "\u{FEFF}";

/// What a section says of itself by its heading.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Opening {
    /// The kind that the heading names.
    pub own: Option<&'static SectionKind>,
    /// The kind that its entries belong to: its own, or where its heading is
    /// an entry that has lost its indent, the one in force above.
    pub in_force: Option<&'static SectionKind>,
}

impl Opening {
    /// How a section opens, below one whose kind is in force.
    pub(crate) fn of(tree: &Tree, placed: &Placed, above: Option<&'static SectionKind>) -> Opening {
        let heading = heading(tree, placed);
        let word = heading.as_ref().map(PlacedLine::word);
        let own = word.and_then(section);
        let goes_on =
            |kind: &&'static SectionKind| word.is_some_and(|word| kind.key(word).is_some());
        Opening {
            own,
            in_force: own.or_else(|| above.filter(goes_on)),
        }
    }
}

/// The heading of a section.
fn heading<'t>(tree: &'t Tree, placed: &'t Placed) -> Option<PlacedLine<'t>> {
    let mut lines = tree.lines_of(placed);
    lines.find(|line| line.line.kind == LineKind::Heading)
}

/// What decides how a section is parted from the next.
#[derive(Debug, Clone, Default)]
pub(super) struct Edge {
    /// The kind that its heading names.
    pub own: Option<&'static SectionKind>,
    /// Whether it is one line with nothing under it, comments aside.
    pub is_single: bool,
    /// Whether nothing of it is left.
    pub is_empty: bool,
    /// The line end that the blank line after it has, or would have.
    end: String,
    /// Whether a blank line stood after it.
    has_blank: bool,
    /// What its text ends with, where a blank is needed before the line end.
    ends_with_return: bool,
}

impl Edge {
    /// The edge of a section that was laid out.
    pub(crate) fn of(laid: &Laid, own: Option<&'static SectionKind>) -> Edge {
        let end = laid.blank.clone().unwrap_or_else(|| line_end(&laid.text));
        Edge {
            own,
            is_single: laid.is_single,
            is_empty: laid.text.is_empty(),
            end,
            has_blank: laid.blank.is_some(),
            ends_with_return: laid.text.ends_with('\r'),
        }
    }

    /// What parts a section from the next, which is one blank line. Lines of
    /// one kind that stand alone, such as lets, may stand together, and so may
    /// what is no section. After the last one nothing stands.
    pub(crate) fn seam(&self, below: Option<&Edge>) -> String {
        let Some(below) = below.filter(|_| !self.is_empty) else {
            return String::new();
        };
        let word = |kind: Option<&'static SectionKind>| kind.map(|kind| kind.word);
        let is_row = self.is_single && below.is_single && word(self.own) == word(below.own);
        if !self.has_blank && (is_row || below.own.is_none()) {
            return String::new();
        }
        // An empty line between a lone `\r` and its own `\n` keeps a blank.
        match self.ends_with_return && self.end.starts_with('\n') {
            true => format!(" {}", self.end),
            false => self.end.clone(),
        }
    }
}

/// The line end of a text's last line that is not empty.
fn line_end(text: &str) -> String {
    let content = text.trim_end_matches(['\n', '\r']).len();
    let ends = text.get(content..).unwrap_or_default();
    match ends.ends_with("\r\n") {
        true => "\r\n".to_owned(),
        false => ends.chars().last().map(String::from).unwrap_or_default(),
    }
}
