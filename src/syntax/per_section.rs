//! What is worked out of each section by itself, kept from one edit to the
//! next.

use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::tree::{Placed, Section};

/// Something known of each section of a text, in their order.
#[derive(Debug)]
pub struct PerSection<T> {
    kept: Vec<(Arc<Section>, T)>,
}

impl<T> Default for PerSection<T> {
    fn default() -> Self {
        Self { kept: Vec::new() }
    }
}

impl<T> PerSection<T> {
    /// Goes on to the sections that the text has now. `settle` is asked for
    /// each of them in turn, and is handed what is known of a section that is
    /// as it was, to give it back if it still holds.
    pub fn renew(&mut self, sections: &[Placed], mut settle: impl FnMut(&Placed, Option<T>) -> T) {
        let mut old = std::mem::take(&mut self.kept);
        let is_same = |((section, _), placed): &(&(Arc<Section>, T), &Placed)| {
            Arc::ptr_eq(section, &placed.section)
        };
        let head = old.iter().zip(sections).take_while(is_same).count();
        let (old_rest, new_rest) = (
            old.get(head..).unwrap_or_default(),
            sections.get(head..).unwrap_or_default(),
        );
        let tail = old_rest.iter().rev().zip(new_rest.iter().rev());
        let tail = tail.take_while(is_same).count();
        let last = old.split_off(old.len() - tail);
        let moved = old.split_off(head);
        // An edit changes what stands close together, so these are few.
        let mut by_address: FxHashMap<usize, Vec<(Arc<Section>, T)>> = FxHashMap::default();
        for (section, known) in moved.into_iter().rev() {
            let address = Arc::as_ptr(&section).addr();
            by_address
                .entry(address)
                .or_default()
                .push((section, known));
        }
        let (middle, end) = new_rest.split_at(new_rest.len() - tail);
        let mut kept = Vec::with_capacity(sections.len());
        let mut put = |placed: &Placed, known: Option<T>| {
            let settled = settle(placed, known);
            kept.push((Arc::clone(&placed.section), settled));
        };
        for ((_, known), placed) in old.into_iter().zip(sections) {
            put(placed, Some(known));
        }
        for placed in middle {
            let same = by_address.get_mut(&Arc::as_ptr(&placed.section).addr());
            put(placed, same.and_then(Vec::pop).map(|(_, known)| known));
        }
        for ((_, known), placed) in last.into_iter().zip(end) {
            put(placed, Some(known));
        }
        self.kept = kept;
    }

    /// What is known of each section.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = &T> + ExactSizeIterator {
        self.kept.iter().map(|(_, known)| known)
    }

    /// The same, to be changed.
    pub fn iter_mut(&mut self) -> impl DoubleEndedIterator<Item = &mut T> + ExactSizeIterator {
        self.kept.iter_mut().map(|(_, known)| known)
    }

    /// What is known of the section at a place, to be changed.
    pub fn get_mut(&mut self, index: usize) -> Option<&mut T> {
        self.kept.get_mut(index).map(|(_, known)| known)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::syntax::Tree;

    /// What was known of each section, as the text that it was made from, and
    /// how many had to be made.
    fn renewed(kept: &mut PerSection<String>, tree: &Tree) -> usize {
        let mut made = 0;
        kept.renew(&tree.sections, |placed, known| {
            known.unwrap_or_else(|| {
                made += 1;
                tree.section_text(placed).to_owned()
            })
        });
        made
    }

    #[test]
    fn what_is_known_follows_its_section() {
        let mut tree = Tree::parse("a\nb\nc\nd\ne\n".into());
        let mut kept = PerSection::default();
        assert_eq!(renewed(&mut kept, &tree), 5);
        for (text, made) in [
            ("a\nb\nc\nd\ne\n", 0),
            ("a\nb\nx\nd\ne\n", 1),
            ("a\nb\nx\ny\nd\ne\n", 1),
            ("b\nx\ny\nd\ne\n", 0),
            ("b\ny\nx\nd\ne\n", 0),
            ("", 0),
            ("a\n", 1),
        ] {
            tree = tree.edited(text.into());
            assert_eq!(renewed(&mut kept, &tree), made, "{text:?}");
            let known: String = kept.iter().map(String::as_str).collect();
            assert_eq!(known, text);
        }
    }
}
