//! From a tree to the tree of its text after an edit.

use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::line::span;
use super::parse::{LARGEST_FILE, Placing, read_each, section_texts};
use super::section::{KnownLines, hash};
use super::tree::{Placed, Tree};
use super::untouched::Kept;

impl Tree {
    /// The tree of the text that this one's text was changed to. Sections
    /// whose text is the same are taken over with their names, and so are the
    /// lines of the others.
    #[must_use]
    pub fn edited(&self, text: Arc<str>) -> Self {
        let whole = self.text.len() < LARGEST_FILE && text.len() < LARGEST_FILE;
        // Names count on from the highest ever given and never run out in
        // practice; if they should, all sections get new ones.
        let last = self.next_id.checked_add(span(0..text.len()).end);
        if !whole || last.is_none() {
            return Self::parse(text);
        }
        let kept = Kept::between(self, &text);
        let old_middle = self.sections.get(kept.first..kept.last).unwrap_or_default();
        let new_middle = text.get(kept.middle.clone()).unwrap_or_default();
        let mut found = SectionsByText::of(self, old_middle);
        let known = lines_of(self, old_middle);

        let mut place = Placing::counting_from(self.next_id);
        for old in self.sections.get(..kept.first).unwrap_or_default() {
            place.put(old.id, Arc::clone(&old.section));
        }
        let parts = section_texts(new_middle);
        let taken: Vec<_> = parts.iter().map(|part| found.take(part)).collect();
        let unknown: Vec<_> = parts
            .iter()
            .zip(&taken)
            .filter(|(_, old)| old.is_none())
            .map(|(part, _)| *part)
            .collect();
        let read = read_each(&unknown, &known);
        let parsed_lines = read.iter().map(|read| read.parsed_lines).sum();
        let mut read = read.into_iter();
        for old in taken {
            match old {
                Some(old) => place.put(old.id, Arc::clone(&old.section)),
                None => read
                    .next()
                    .into_iter()
                    .for_each(|read| place.put_new(read.section)),
            }
        }
        for old in self.sections.get(kept.last..).unwrap_or_default() {
            place.put(old.id, Arc::clone(&old.section));
        }
        place.into_tree(text, parsed_lines)
    }
}

/// Sections to be found again by their text, each once.
struct SectionsByText<'t> {
    tree: &'t Tree,
    by_text: FxHashMap<(u64, usize), Vec<&'t Placed>>,
}

impl<'t> SectionsByText<'t> {
    fn of(tree: &'t Tree, sections: &'t [Placed]) -> Self {
        let mut by_text: FxHashMap<_, Vec<_>> = FxHashMap::default();
        for placed in sections.iter().rev() {
            let key = (placed.section.hash, placed.section.length as usize);
            by_text.entry(key).or_default().push(placed);
        }
        Self { tree, by_text }
    }

    /// The first section of this text that has not been taken.
    fn take(&mut self, text: &str) -> Option<&'t Placed> {
        let found = self.by_text.get_mut(&(hash(text), text.len()))?;
        found.pop_if(|placed| self.tree.section_text(placed) == text)
    }
}

/// The lines of some sections by their text.
fn lines_of<'t>(tree: &'t Tree, sections: &'t [Placed]) -> KnownLines<'t> {
    let lines = sections.iter().flat_map(|placed| tree.lines_of(placed));
    lines
        .map(|line| (line.text, Arc::clone(line.line)))
        .collect()
}
