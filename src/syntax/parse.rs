//! From a text to its tree.

use std::sync::{Arc, OnceLock};

use rayon::prelude::*;

use super::line::unread;
use super::section::{KnownLines, ReadSection};
use super::section_split::section_starts;
use super::tree::{FaultKind, Placed, Section, SectionId, Tree};
use crate::text::{Span, Text};

/// How many bytes a file may have. A larger one is kept as a single line that
/// is not read.
pub(super) const LARGEST_FILE: usize = 512 * 1024 * 1024;

/// From how many bytes on sections are read side by side.
const LARGE_TEXT: usize = 256 * 1024;

impl Tree {
    /// Reads a text. Whatever the text, there is a tree of it.
    pub fn parse(text: Text) -> Self {
        Self::parse_up_to(text, LARGEST_FILE)
    }

    /// Reads a text of fewer than `largest` bytes.
    fn parse_up_to(text: Text, largest: usize) -> Self {
        let read = if text.len() < largest {
            read_sections(&text, &KnownLines::default())
        } else {
            vec![unread_file(&text)]
        };
        let mut place = Placing::counting_from(0, 0);
        read.into_iter().for_each(|read| place.put_read(None, read));
        place.into_tree(text)
    }
}

/// Sections put one after the other.
pub(super) struct Placing {
    pub sections: Vec<Placed>,
    start: u32,
    pub next_id: u32,
    pub parsed_lines: usize,
}

impl Placing {
    /// Nothing placed yet; names count on from `next_id`, places from
    /// `start`.
    pub(crate) fn counting_from(next_id: u32, start: u32) -> Self {
        Self {
            sections: Vec::new(),
            start,
            next_id,
            parsed_lines: 0,
        }
    }

    /// Puts a section that keeps its name.
    pub(crate) fn put(&mut self, known: &Placed) {
        self.place(known.id, Arc::clone(&known.section));
    }

    /// Puts a section that was read, under its name, or else a new one.
    pub(crate) fn put_read(&mut self, name: Option<SectionId>, read: ReadSection) {
        self.parsed_lines += read.parsed_lines;
        let name = name.unwrap_or_else(|| {
            let new = SectionId(self.next_id);
            self.next_id = self.next_id.saturating_add(1);
            new
        });
        self.place(name, read.section);
    }

    fn place(&mut self, id: SectionId, section: Arc<Section>) {
        let start = self.start;
        self.start = start.saturating_add(section.length);
        self.sections.push(Placed { id, start, section });
    }

    /// The tree of all that was placed.
    pub(crate) fn into_tree(self, text: Text) -> Tree {
        let Self {
            sections,
            next_id,
            parsed_lines,
            ..
        } = self;
        Tree {
            text,
            touched: 0..sections.len(),
            sections: Arc::new(sections),
            parsed_lines,
            next_id,
            by_id: Arc::new(OnceLock::new()),
        }
    }
}

/// Reads a text section by section.
fn read_sections(text: &str, known: &KnownLines<'_>) -> Vec<ReadSection> {
    read_each(&section_texts(text), known)
}

/// Reads sections; side by side if there is much to read.
pub(super) fn read_each(texts: &[&str], known: &KnownLines<'_>) -> Vec<ReadSection> {
    let length: usize = texts.iter().map(|text| text.len()).sum();
    if length < LARGE_TEXT {
        texts
            .iter()
            .map(|text| ReadSection::of(text, known))
            .collect()
    } else {
        texts
            .par_iter()
            .map(|text| ReadSection::of(text, known))
            .collect()
    }
}

/// The texts of the sections.
pub(super) fn section_texts(text: &str) -> Vec<&str> {
    let starts = section_starts(text);
    let ends = starts.iter().copied().skip(1).chain([text.len()]);
    starts
        .iter()
        .zip(ends)
        .filter_map(|(start, end)| text.get(*start..end))
        .collect()
}

/// The one section of a file that is too large to be read.
fn unread_file(text: &str) -> ReadSection {
    let line = unread(text, FaultKind::TooLong, Span::at(0));
    let section = Section {
        length: line.length,
        lines: vec![(0, Arc::new(line))],
        hash: 0,
    };
    ReadSection {
        section: Arc::new(section),
        parsed_lines: 0,
    }
}

#[cfg(test)]
mod tests {
    use super::super::tree::LineKind;
    use super::*;

    #[test]
    fn a_file_that_is_too_large_is_kept_unread() {
        let tree = Tree::parse_up_to("job\n  note\n".into(), 11);
        assert_eq!(tree.to_text(), "job\n  note\n");
        let lines: Vec<_> = tree
            .lines()
            .map(|line| (line.line.kind, line.line.faults.len()))
            .collect();
        assert_eq!(lines, [(LineKind::Unread, 1)]);
        assert_eq!(
            Tree::parse_up_to("job\n  note\n".into(), 12)
                .lines()
                .count(),
            2
        );
    }

    #[test]
    fn an_empty_text_has_no_section() {
        assert!(Tree::parse("".into()).sections.is_empty());
    }

    #[test]
    fn reading_side_by_side_changes_nothing() {
        let section = "shape a\n  circle radius 8', centre (14', -12')\n\n";
        let tree = Tree::parse(section.repeat(LARGE_TEXT / section.len() + 1).into());
        let alone = Tree::parse(section.into());
        for (number, placed) in tree.sections.iter().enumerate() {
            assert_eq!(placed.id.0 as usize, number);
            assert_eq!(placed.start as usize, number * section.len());
            assert_eq!(placed.section, alone.sections[0].section);
        }
    }
}
