//! What an edit of a text cannot have changed.

use std::ops::Range;

use super::tree::{Placed, Tree};

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
    /// What stays of a tree when its text becomes `new`.
    pub fn between(old: &Tree, new: &str) -> Self {
        let (old_bytes, new_bytes) = (old.text.as_bytes(), new.as_bytes());
        let before = common_start(old_bytes, new_bytes);
        let most = old_bytes.len().min(new_bytes.len()) - before;
        let after = common_end(old_bytes, new_bytes).min(most);
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

/// How many bytes are compared at once.
const STRIDE: usize = 4096;

/// How many bytes two texts have in common at their start.
fn common_start(a: &[u8], b: &[u8]) -> usize {
    let chunks = a.chunks(STRIDE).zip(b.chunks(STRIDE));
    let same = STRIDE
        * chunks
            .take_while(|(x, y)| x == y && x.len() == STRIDE)
            .count();
    let (a, b) = (
        a.get(same..).unwrap_or_default(),
        b.get(same..).unwrap_or_default(),
    );
    same + a.iter().zip(b).take_while(|(x, y)| x == y).count()
}

/// How many bytes two texts have in common at their end.
fn common_end(a: &[u8], b: &[u8]) -> usize {
    let chunks = a.rchunks(STRIDE).zip(b.rchunks(STRIDE));
    let same = STRIDE
        * chunks
            .take_while(|(x, y)| x == y && x.len() == STRIDE)
            .count();
    let (a, b) = (
        a.get(..a.len() - same).unwrap_or_default(),
        b.get(..b.len() - same).unwrap_or_default(),
    );
    same + a
        .iter()
        .rev()
        .zip(b.iter().rev())
        .take_while(|(x, y)| x == y)
        .count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_two_texts_share_is_measured() {
        let long = "a".repeat(10_000);
        for (a, b, start, end) in [
            ("", "", 0, 0),
            ("abc", "abc", 3, 3),
            ("abc", "abd", 2, 0),
            ("abc", "xbc", 0, 2),
            ("abc", "ab", 2, 0),
            (&long, &format!("{long}b"), 10_000, 0),
            (&long, &format!("b{long}"), 0, 10_000),
            (
                &format!("{long}x{long}"),
                &format!("{long}y{long}"),
                10_000,
                10_000,
            ),
        ] {
            assert_eq!(common_start(a.as_bytes(), b.as_bytes()), start);
            assert_eq!(common_end(a.as_bytes(), b.as_bytes()), end);
        }
    }

    #[test]
    fn the_section_next_to_an_edit_is_looked_at_again() {
        let tree = Tree::parse("a\nb\nc\nd\ne\nf\n".into());
        let kept = Kept::between(&tree, "a\nb\nc\nx\ne\nf\n");
        assert_eq!((kept.first, kept.last, kept.middle), (2, 5, 4..10));
    }
}
