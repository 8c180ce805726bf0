//! From a tree to the tree of its text after an edit.

use std::ops::Range;
use std::sync::Arc;

use rustc_hash::{FxHashMap, FxHashSet};

use super::parse::{LARGEST_FILE, Placing, read_each, section_texts};
use super::section::{KnownLines, hash};
use super::tree::{Placed, SectionId, Tree};
use super::untouched::Kept;
use crate::text::{Common, Span, Text};

impl Tree {
    /// The tree of the text that this one's text was changed to. Sections
    /// whose text is the same are taken over with their names, and so are the
    /// lines of the others.
    #[must_use]
    pub fn edited(&self, text: Text) -> Self {
        let common = Common::of(&self.text, &text);
        self.clone().into_edited(text, common)
    }

    /// The same, where what the texts have in common is known already. If
    /// nobody else has the tree, nothing of it is copied.
    #[must_use]
    pub fn into_edited(self, text: Text, common: Common) -> Self {
        let readable = self.text.len() < LARGEST_FILE && text.len() < LARGEST_FILE;
        // Names count on from the highest ever given. Should they run out,
        // all sections get new ones.
        let names_last = self
            .next_id
            .checked_add(Span::from(0..text.len()).end)
            .is_some();
        if !readable || !names_last {
            return Self::parse(text);
        }
        let kept = Kept::between(&self, &text, common);
        let start = kept.middle.start;
        let mut place = Placing::counting_from(self.next_id, Span::from(0..start).end);
        let middle = text.get(kept.middle).unwrap_or_default();
        self.read_again(kept.first..kept.last, middle, &mut place);
        let (old, new) = (self.text.len(), text.len());
        let mut sections = Arc::unwrap_or_clone(self.sections);
        let before = sections.get(kept.first..kept.last).unwrap_or_default();
        let same_names = names(before).eq(names(&place.sections));
        let touched = kept.first..kept.first + place.sections.len();
        sections.splice(kept.first..kept.last, place.sections);
        let after = sections.get_mut(touched.end..).unwrap_or_default();
        if old != new {
            for placed in after {
                let start = (placed.start as usize + new).saturating_sub(old);
                placed.start = Span::from(0..start).end;
            }
        }
        Self {
            text,
            sections: Arc::new(sections),
            touched,
            parsed_lines: place.parsed_lines,
            next_id: place.next_id,
            by_id: match same_names {
                true => self.by_id,
                false => Arc::default(),
            },
        }
    }

    /// Puts the sections of a text that some sections of this tree have become.
    fn read_again(&self, old: Range<usize>, text: &str, place: &mut Placing) {
        let old = self.sections.get(old).unwrap_or_default();
        let mut known_sections = SectionsByText::of(self, old);
        let parts = section_texts(text).into_iter();
        let parts: Vec<_> = parts
            .map(|part| (part, known_sections.take(part)))
            .collect();
        let unknown = parts
            .iter()
            .filter(|(_, old)| old.is_none())
            .map(|(part, _)| *part);
        let read = read_each(&unknown.collect::<Vec<_>>(), &lines_of(self, old));
        let mut names = known_sections.names_left(old, read.len()).into_iter();
        let mut read = read.into_iter();
        for (_, old) in parts {
            match old {
                Some(old) => place.put(old),
                None => {
                    let read = read.next().into_iter();
                    read.for_each(|read| place.put_read(names.next(), read));
                }
            }
        }
    }
}

fn names(sections: &[Placed]) -> impl Iterator<Item = SectionId> {
    sections.iter().map(|placed| placed.id)
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

    /// The names of the sections that were not taken, in their order, if
    /// there are as many as new texts: then those are the same sections with
    /// other words in them.
    fn names_left(&self, sections: &[Placed], new: usize) -> Vec<SectionId> {
        let left: FxHashSet<SectionId> =
            self.by_text.values().flatten().map(|old| old.id).collect();
        if left.len() != new {
            return Vec::new();
        }
        let names = sections.iter().map(|placed| placed.id);
        names.filter(|name| left.contains(name)).collect()
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
