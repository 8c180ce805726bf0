//! What stands where in a tree.

use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::tree::{Line, LineKind, Placed, SectionId, Tree};
use crate::text::Span;

/// A line at its place in the file.
#[derive(Debug, Clone, Copy)]
pub struct PlacedLine<'t> {
    /// Where it starts, in bytes from the start of the file.
    pub start: u32,
    /// The line.
    pub line: &'t Arc<Line>,
    /// Its text, its line ends included.
    pub text: &'t str,
}

impl<'t> PlacedLine<'t> {
    /// The text of a stretch of the line, as an item, a term or a comment has it.
    pub fn text_of(&self, span: Span) -> &'t str {
        span.slice(self.text)
    }

    /// The place in the file of a stretch of the line.
    pub fn in_file(&self, span: Span) -> Span {
        span.shift(self.start)
    }

    /// The line's place in the file, its line end included.
    pub fn span(&self) -> Span {
        self.in_file(Span::new(0, self.line.length))
    }

    /// Its first word; empty if it has none.
    pub fn word(&self) -> &'t str {
        self.text_of(self.line.word)
    }
}

impl Placed {
    /// The section's place in the file.
    pub fn span(&self) -> Span {
        Span::new(0, self.section.length).shift(self.start)
    }
}

impl Tree {
    /// The text that the lines give back: the same, byte for byte.
    pub fn to_text(&self) -> String {
        self.lines().map(|line| line.text).collect()
    }

    /// The text of a stretch of the file; empty where there is none.
    pub fn text_of(&self, span: Span) -> &str {
        span.slice(&self.text)
    }

    /// The text of a section.
    pub fn section_text(&self, placed: &Placed) -> &str {
        self.text_of(placed.span())
    }

    /// All lines in order.
    pub fn lines(&self) -> impl Iterator<Item = PlacedLine<'_>> {
        self.sections
            .iter()
            .flat_map(|placed| self.lines_of(placed))
    }

    /// The lines of one section in order.
    pub fn lines_of<'t>(&'t self, placed: &'t Placed) -> impl Iterator<Item = PlacedLine<'t>> {
        placed
            .section
            .lines
            .iter()
            .map(|(start, line)| self.place(placed, *start, line))
    }

    /// The section of this name.
    pub fn find(&self, id: SectionId) -> Option<&Placed> {
        let by_id = self.by_id.get_or_init(|| {
            let places = self
                .sections
                .iter()
                .enumerate()
                .map(|(place, placed)| (placed.id, place));
            places.collect::<FxHashMap<_, _>>()
        });
        self.sections.get(*by_id.get(&id)?)
    }

    /// The section in which an offset lies; at the end of the file the last.
    pub fn section_at(&self, offset: u32) -> Option<&Placed> {
        let after = self
            .sections
            .partition_point(|placed| placed.start <= offset);
        let placed = self.sections.get(after.checked_sub(1)?)?;
        (offset <= placed.span().end).then_some(placed)
    }

    /// The line in which an offset lies. At the end of a file that ends with
    /// a line end there is none.
    pub fn line_at(&self, offset: u32) -> Option<PlacedLine<'_>> {
        let placed = self.section_at(offset)?;
        let lines = &placed.section.lines;
        let after =
            lines.partition_point(|(start, _)| placed.start.saturating_add(*start) <= offset);
        let (start, line) = lines.get(after.checked_sub(1)?)?;
        let found = self.place(placed, *start, line);
        let inside = offset < found.span().end || !found.text.ends_with(['\n', '\r']);
        inside.then_some(found)
    }

    /// The comment lines directly above a line of a section, without their
    /// `#`, in order. `start` is where the line starts in its section.
    pub fn description<'t>(&'t self, placed: &'t Placed, start: u32) -> Vec<&'t str> {
        let lines = &placed.section.lines;
        let at = lines.partition_point(|(other, _)| *other < start);
        let above = lines.get(..at).unwrap_or_default().iter().rev();
        let mut comments: Vec<_> = above
            .take_while(|(_, line)| line.kind == LineKind::Comment)
            .map(|(start, line)| said(self.place(placed, *start, line)))
            .collect();
        comments.reverse();
        comments
    }

    fn place<'t>(&'t self, placed: &Placed, start: u32, line: &'t Arc<Line>) -> PlacedLine<'t> {
        let span = Span::new(start, start.saturating_add(line.length)).shift(placed.start);
        PlacedLine {
            start: span.start,
            line,
            text: self.text_of(span),
        }
    }
}

/// What a comment says.
fn said(line: PlacedLine<'_>) -> &str {
    let comment = line
        .line
        .comments
        .first()
        .map_or("", |comment| line.text_of(*comment));
    let words = comment.trim_start_matches('#').trim_end();
    words.strip_prefix(' ').unwrap_or(words)
}
