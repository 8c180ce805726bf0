//! Reading one section.

use std::hash::Hasher;
use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHasher};

use super::logical_line::logical_lines;
use super::recent;
use super::tree::{Line, LineKind, Section};
use crate::text::Span;

/// Lines already read, by their text.
pub(super) type KnownLines<'t> = FxHashMap<&'t str, Arc<Line>>;

/// A section with the number of its lines that were not known.
pub(super) struct ReadSection {
    /// The section.
    pub section: Arc<Section>,
    /// How many lines had to be read.
    pub parsed_lines: usize,
}

impl ReadSection {
    /// Reads the text of one section, taking lines that are known as they are.
    pub(crate) fn of(text: &str, known: &KnownLines<'_>) -> Self {
        let mut lines = Vec::new();
        let (mut start, mut parsed_lines) = (0, 0);
        for logical in logical_lines(text) {
            let line = known.get(logical.text).cloned().unwrap_or_else(|| {
                parsed_lines += 1;
                recent::read(logical)
            });
            lines.push((Span::from(0..start).end, line));
            start += logical.text.len();
        }
        lines.shrink_to_fit();
        let section = Section {
            lines,
            length: Span::from(0..text.len()).end,
            hash: hash(text),
        };
        Self {
            section: Arc::new(section),
            parsed_lines,
        }
    }
}

/// The hash by which sections are found again.
pub(super) fn hash(text: &str) -> u64 {
    let mut hasher = FxHasher::default();
    hasher.write(text.as_bytes());
    hasher.finish()
}

impl Section {
    /// Its heading and where that starts; a file's first section may have none.
    pub fn heading(&self) -> Option<(u32, &Arc<Line>)> {
        let (start, line) = self
            .lines
            .iter()
            .find(|(_, line)| line.kind == LineKind::Heading)?;
        Some((*start, line))
    }
}
