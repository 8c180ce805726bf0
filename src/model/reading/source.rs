//! A line together with the place that it stands at.

use unicode_normalization::UnicodeNormalization;

use super::suggest::joined;
use crate::findings::{FileId, Finding, Fix, Place, SectionRef};
use crate::syntax::{Item, ItemKind, Line, SectionId, Tree};
use crate::text::Span;
use crate::vocabulary::{other_word, reads_as};

/// A line of a section, its text, and where it stands.
#[derive(Clone, Copy)]
pub(crate) struct Source<'a> {
    /// The section.
    pub at: SectionRef,
    /// Where the line starts in the section.
    pub start: u32,
    /// The line's text.
    pub text: &'a str,
    /// Its tree.
    pub line: &'a Line,
}

impl<'a> Source<'a> {
    /// The first line of a text that stands in no file.
    pub(super) fn of_first(tree: &'a Tree) -> Option<Source<'a>> {
        let (start, line) = tree.sections.first()?.section.lines.first()?;
        Some(Source {
            at: SectionRef {
                file: FileId(0),
                section: SectionId(0),
            },
            start: *start,
            text: &tree.text,
            line,
        })
    }

    /// The text of a span of the line.
    pub(crate) fn slice(&self, span: Span) -> &'a str {
        span.slice(self.text)
    }

    /// The place of a span of the line.
    pub(crate) fn place(&self, span: Span) -> Place {
        Place {
            section: self.at,
            span: span.shift(self.start),
        }
    }

    /// The place of some items.
    pub(crate) fn place_of(&self, items: &[Item]) -> Place {
        match (items.first(), items.last()) {
            (Some(first), Some(last)) => self.place(first.span.join(last.span)),
            _ => self.place(self.line.word),
        }
    }

    /// The text of some items, from the first to the last.
    pub(crate) fn text_of(&self, items: &[Item]) -> &'a str {
        self.place_of(items)
            .span
            .relative_to(self.start)
            .slice(self.text)
    }

    /// Whether an item is this word, read in any case and in either spelling.
    /// A lone `x` is `by`, and a slash before a word is `per`.
    pub(crate) fn is_word(&self, item: &Item, word: &str) -> bool {
        match item.kind {
            ItemKind::Word => {
                let written = self.slice(item.span);
                reads_as(written, word) || word == "by" && written.eq_ignore_ascii_case("x")
            }
            ItemKind::Operator(crate::syntax::Operator::Divide) => word == "per",
            ItemKind::Operator(crate::syntax::Operator::Per) => word == "per",
            ItemKind::Operator(crate::syntax::Operator::Over) => word == "over",
            ItemKind::By => word == "by",
            _ => false,
        }
    }

    /// The first thing after the line's word.
    pub(crate) fn first(&self) -> Option<&'a Item> {
        self.line.phrases.first()?.items.first()
    }

    /// The name in a span, as names are compared: in Unicode's form NFC.
    pub(crate) fn name(&self, span: Span) -> String {
        let written = self.slice(span);
        // Plain letters are in that form already.
        match written.is_ascii() {
            true => written.to_owned(),
            false => written.nfc().collect(),
        }
    }

    /// The word at an item, if it is one.
    pub(crate) fn word(&self, item: &Item) -> Option<&'a str> {
        matches!(item.kind, ItemKind::Word).then(|| self.slice(item.span))
    }

    /// Which of some words a word makes with the next, if that is a word too,
    /// and the place of both: `damp course`.
    pub(crate) fn in_two<'w>(
        &self,
        first: Span,
        next: Option<&Item>,
        among: impl IntoIterator<Item = &'w str>,
    ) -> Option<(&'w str, Place)> {
        let second = next?;
        let word = joined(self.slice(first), self.word(second)?, among)?;
        Some((word, self.place(first.join(second.span))))
    }

    /// Whether a fault of the line already tells of something in this span.
    pub(crate) fn has_fault(&self, span: Span) -> bool {
        self.line
            .faults
            .iter()
            .any(|fault| fault.span.overlaps(span) || span.touches(fault.span.start))
    }
}

/// Tells of a word of the language whose parts stand apart.
pub(crate) fn apart(word: &'static str, place: Place) -> Finding {
    let message = format!("this is one word, not two: `{word}`");
    Finding::new("word-unknown", place, message).fix(Fix::judged(
        format!("Write `{word}`"),
        place,
        word,
    ))
}

/// The region that people call otherwise, `England`, `New Zealand`, and how
/// many items that takes: what it means is not in doubt, and every limit hangs
/// on it.
pub(crate) fn region_meant(
    source: &Source<'_>,
    items: &[Item],
    at: usize,
) -> Option<(&'static str, usize)> {
    // A standard says whose limits it changes: there no word is taken for
    // another.
    if source.slice(source.line.word).eq_ignore_ascii_case("limit") {
        return None;
    }
    (1..=2).rev().find_map(|taken| {
        let words = items.get(at..at + taken)?.iter();
        let words: Option<Vec<&str>> = words.map(|item| source.word(item)).collect();
        let name = words?.join("-").to_lowercase();
        Some((other_word("region", &name)?, taken))
    })
}

/// Tells of a word of the trade that the language has another for.
pub(crate) fn meant(stands: &str, word: &'static str, place: Place) -> Finding {
    let message = format!("`{stands}` is called `{word}` here");
    Finding::new("word-unknown", place, message).fix(Fix::judged(
        format!("Write `{word}`"),
        place,
        word,
    ))
}
