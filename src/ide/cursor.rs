//! What stands at a place of a file.

use crate::analysis::File;
use crate::findings::{FileId, SectionRef};
use crate::syntax::{Item, ItemKind, Line, LineKind, Phrase, Placed, Tree};
use crate::text::Span;
use crate::units::{System, find_unit};
use crate::vocabulary::{Form, Key, Part, SectionKind, ValueKind, section};

/// A place of a file, with all that it stands in.
pub(crate) struct Cursor<'a> {
    /// The section.
    pub section: SectionRef,
    /// The kind of section in force; `None` if it is unknown.
    pub kind: Option<&'static SectionKind>,
    /// The line.
    pub line: &'a Line,
    /// Where the line starts in its section.
    pub line_start: u32,
    /// The text of the line.
    pub text: &'a str,
    /// Where the line starts in the file.
    start: u32,
    /// The place, from the line's start.
    at: u32,
}

impl<'a> Cursor<'a> {
    /// What stands at a byte of a file.
    pub(crate) fn at(file: &'a File, index: FileId, offset: u32) -> Option<Cursor<'a>> {
        let tree = &file.tree;
        let number = last_at(&tree.sections, |placed| placed.start, offset)?;
        let placed = tree.sections.get(number)?;
        let inside = offset.saturating_sub(placed.start);
        let lines = &placed.section.lines;
        let (line_start, line) = lines.get(last_at(lines, |(start, _)| *start, inside)?)?;
        let start = placed.start.saturating_add(*line_start);
        Some(Cursor {
            section: SectionRef {
                file: index,
                section: placed.id,
            },
            kind: kind_in_force(tree, number),
            line,
            line_start: *line_start,
            text: Span::new(start, start.saturating_add(line.length)).slice(&tree.text),
            start,
            at: offset.saturating_sub(start),
        })
    }

    /// A span of the line in the file.
    pub(crate) fn in_file(&self, span: Span) -> Span {
        span.shift(self.start)
    }

    /// The line as a stretch of its section.
    pub(crate) fn line_in_section(&self) -> Span {
        Span::new(0, self.line.length).shift(self.line_start)
    }

    /// The text of a span of the line.
    pub(crate) fn slice(&self, span: Span) -> &'a str {
        span.slice(self.text)
    }

    /// The line's first word.
    pub(crate) fn word(&self) -> &'a str {
        self.slice(self.line.word)
    }

    /// Whether the place is on the line's first word.
    pub(crate) fn is_on_word(&self) -> bool {
        !self.line.word.is_empty() && self.line.word.touches(self.at)
    }

    /// The kind of section that the line is the heading of.
    pub(crate) fn heading(&self) -> Option<&'static SectionKind> {
        (self.line.kind == LineKind::Heading)
            .then(|| section(self.word()))
            .flatten()
    }

    /// The key of the line, if it is an entry of a section that has it.
    pub(crate) fn key(&self) -> Option<&'static Key> {
        if self.heading().is_some() {
            return None;
        }
        self.kind?.key(self.word())
    }

    /// The phrase that the place is in: its number and itself.
    pub(crate) fn phrase(&self) -> Option<(usize, &'a Phrase)> {
        self.line
            .phrases
            .iter()
            .enumerate()
            .find(|(_, phrase)| !phrase.items.is_empty() && phrase.span.touches(self.at))
    }

    /// The innermost item that the place is on.
    pub(crate) fn item(&self) -> Option<&'a Item> {
        innermost(&self.phrase()?.1.items, self.at)
    }

    /// The kinds of value that the line's forms take, in order.
    pub(crate) fn kinds(&self) -> Vec<ValueKind> {
        let (value, clauses) = match (self.heading(), self.key()) {
            (Some(kind), _) => (kind.heading, kind.clauses),
            (None, Some(key)) => (key.value, key.clauses),
            (None, None) => return Vec::new(),
        };
        let mut kinds = Vec::new();
        slots(&Form::of(value).parts, &mut kinds);
        for clause in clauses {
            slots(&clause.parsed().parts, &mut kinds);
        }
        kinds
    }

    /// A number of the phrase with the `/ unit` that follows it.
    pub(crate) fn with_unit_after(&self, item: &Item) -> Span {
        let phrase = self.phrase().map(|(_, phrase)| &*phrase.items);
        let items = phrase.unwrap_or_default().iter();
        let mut after = items.skip_while(|other| other.span.start <= item.span.start);
        match after.next() {
            Some(next) if matches!(next.kind, ItemKind::Per { .. }) => item.span.join(next.span),
            _ => item.span,
        }
    }

    /// The system that a number is written in, if its unit belongs to one.
    pub(crate) fn system_of(&self, item: &Item) -> Option<System> {
        let ItemKind::Number { terms, .. } = &item.kind else {
            return None;
        };
        let unit = self.slice(terms.first()?.unit?);
        match find_unit(unit) {
            Some(unit) => unit.system,
            None => unit
                .starts_with(['\'', '"', '′', '″', '’', '”'])
                .then_some(System::Imperial),
        }
    }

    /// Whether the place is in a span of the line.
    pub(crate) fn touches(&self, span: Span) -> bool {
        span.touches(self.at)
    }
}

/// The kinds of the slots of a form. The table is ours and nests no deeper
/// than it is written.
fn slots(parts: &[Part], kinds: &mut Vec<ValueKind>) {
    for part in parts {
        match part {
            Part::Slot { kind, .. } => kinds.push(*kind),
            Part::Optional(inner) | Part::Repeated(inner) => slots(inner, kinds),
            Part::Either(choices) => choices.iter().for_each(|inner| slots(inner, kinds)),
            Part::Word(_) | Part::Equals | Part::Choice { .. } => {}
        }
    }
}

/// The last element that starts at or before a place.
fn last_at<T>(elements: &[T], start: impl Fn(&T) -> u32, at: u32) -> Option<usize> {
    elements
        .partition_point(|element| start(element) <= at)
        .checked_sub(1)
}

/// The item at a place, or the one inside its parenthesis. The reader bounds
/// how deep parentheses nest.
fn innermost(items: &[Item], at: u32) -> Option<&Item> {
    // Of two items that meet at the place, the word is meant and not the mark.
    let touching = || items.iter().filter(|item| item.span.touches(at));
    let item = touching()
        .find(|item| matches!(item.kind, ItemKind::Word | ItemKind::Reference { .. }))
        .or_else(|| touching().next())?;
    let (ItemKind::Group { phrases } | ItemKind::Call { phrases, .. }) = &item.kind else {
        return Some(item);
    };
    let inside = phrases
        .iter()
        .find_map(|phrase| innermost(&phrase.items, at));
    Some(inside.unwrap_or(item))
}

/// The kind of section that a section's entries belong to: its own, or where
/// its heading is an entry that has lost its indent, that of a section above.
pub(crate) fn kind_in_force(tree: &Tree, number: usize) -> Option<&'static SectionKind> {
    let mut entries: Vec<&str> = Vec::new();
    for placed in tree.sections.get(..=number)?.iter().rev() {
        let word = heading_word(tree, placed)?;
        if let Some(kind) = section(word) {
            return entries
                .iter()
                .all(|word| kind.key(word).is_some())
                .then_some(kind);
        }
        entries.push(word);
    }
    None
}

fn heading_word<'a>(tree: &'a Tree, placed: &Placed) -> Option<&'a str> {
    let lines = placed.section.lines.iter();
    let (start, line) = lines
        .into_iter()
        .find(|(_, line)| line.kind == LineKind::Heading)?;
    Some(
        line.word
            .shift(placed.start.saturating_add(*start))
            .slice(&tree.text),
    )
}
