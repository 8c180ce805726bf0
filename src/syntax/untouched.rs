//! What an edit of a text cannot have changed.

use std::ops::Range;

use super::tree::{Placed, Tree};
use crate::text::Common;

/// Which sections an edit cannot have touched.
pub(super) struct Kept {
    /// Sections before this one stay.
    pub first: usize,
    /// Sections from this one on stay.
    pub last: usize,
    /// What lies between them in the new text.
    pub middle: Range<usize>,
}

impl Kept {
    /// What stays of a tree when its text becomes `new`, with which it has
    /// that much in common.
    pub(crate) fn between(old: &Tree, new: &str, common: Common) -> Self {
        let (old_bytes, new_bytes) = (old.text.as_bytes(), new.as_bytes());
        let (before, after) = (common.start, common.end);
        // Where a section ends depends on the line after it, and on which
        // comments stand above that: the next section must be untouched too.
        let end = |placed: &Placed| placed.start as usize + placed.section.length as usize;
        let first = old
            .sections
            .partition_point(|placed| end(placed) <= before)
            .saturating_sub(1);
        let unchanged = old_bytes.len() - after;
        let last = old
            .sections
            .partition_point(|placed| placed.start as usize <= unchanged)
            + 1;
        let last = last.clamp(first, old.sections.len().max(first));
        let start = old
            .sections
            .get(first)
            .map_or(old_bytes.len(), |placed| placed.start as usize);
        let rest = old
            .sections
            .get(last)
            .map_or(0, |placed| old_bytes.len() - placed.start as usize);
        Self {
            first,
            last,
            middle: start..new_bytes.len() - rest,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_section_next_to_an_edit_is_looked_at_again() {
        let tree = Tree::parse("a\nb\nc\nd\ne\nf\n".into());
        let text = "a\nb\nc\nx\ne\nf\n";
        let kept = Kept::between(&tree, text, Common::of(&tree.text, text));
        assert_eq!((kept.first, kept.last, kept.middle), (2, 5, 4..10));
    }
}
