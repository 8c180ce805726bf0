//! A stretch of a text.

use std::ops::Range;

/// A stretch of a text in bytes, half open: `start` is in it, `end` is not.
///
/// `start` is never greater than `end` in a span built by [`Span::new`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// Offset of the first byte.
    pub start: u32,
    /// Offset just past the last byte.
    pub end: u32,
}

impl Span {
    /// The span from `start` to `end`; empty at `start` if `end` lies before it.
    pub const fn new(start: u32, end: u32) -> Self {
        let end = if end < start { start } else { end };
        Self { start, end }
    }

    /// The empty span at `offset`.
    pub const fn at(offset: u32) -> Self {
        Self::new(offset, offset)
    }

    /// Length in bytes.
    pub const fn len(self) -> u32 {
        self.end.saturating_sub(self.start)
    }

    /// True if the span holds no byte.
    pub const fn is_empty(self) -> bool {
        self.len() == 0
    }

    /// True if the byte at `offset` lies in the span.
    pub const fn contains(self, offset: u32) -> bool {
        self.start <= offset && offset < self.end
    }

    /// True if a cursor at `offset` stands in the span or at either end of it.
    pub const fn touches(self, offset: u32) -> bool {
        self.start <= offset && offset <= self.end
    }

    /// True if `other` lies wholly in this span.
    pub const fn covers(self, other: Self) -> bool {
        self.start <= other.start && other.end <= self.end
    }

    /// True if the two spans share at least one byte.
    pub const fn overlaps(self, other: Self) -> bool {
        self.start < other.end && other.start < self.end
    }

    /// The span moved `by` bytes further on, as from a section's own text to
    /// the file that holds it.
    #[must_use]
    pub const fn shift(self, by: u32) -> Self {
        Self::new(self.start.saturating_add(by), self.end.saturating_add(by))
    }

    /// The span as seen from `origin`: the way back of [`Span::shift`].
    #[must_use]
    pub const fn relative_to(self, origin: u32) -> Self {
        let start = self.start.saturating_sub(origin);
        Self::new(start, self.end.saturating_sub(origin))
    }

    /// The smallest span that covers both.
    #[must_use]
    pub fn join(self, other: Self) -> Self {
        Self::new(self.start.min(other.start), self.end.max(other.end))
    }

    /// The text of the span. Ends that lie outside the text, or inside a
    /// character, are moved back to the nearest place between characters.
    pub fn slice(self, text: &str) -> &str {
        let start = text.floor_char_boundary(self.start as usize);
        let end = text.floor_char_boundary(self.end as usize);
        text.get(start..end).unwrap_or_default()
    }
}

impl From<Range<usize>> for Span {
    /// A range of byte offsets; what lies past `u32::MAX` is brought back to it.
    fn from(range: Range<usize>) -> Self {
        Self::new(offset(range.start), offset(range.end))
    }
}

impl From<Span> for Range<usize> {
    fn from(span: Span) -> Self {
        span.start as usize..span.end as usize
    }
}

/// A byte offset as this room keeps it, brought back to `u32::MAX`.
pub(super) fn offset(bytes: usize) -> u32 {
    u32::try_from(bytes).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_span_never_runs_backwards() {
        assert_eq!(Span::new(5, 3), Span::at(5));
        assert!(Span::new(5, 3).is_empty());
        assert_eq!(Span::new(3, 5).len(), 2);
        assert_eq!(Span { start: 5, end: 3 }.len(), 0);
    }

    #[test]
    fn the_end_is_touched_but_not_contained() {
        let span = Span::new(2, 4);
        for (offset, contains, touches) in [
            (1, false, false),
            (2, true, true),
            (3, true, true),
            (4, false, true),
            (5, false, false),
        ] {
            assert_eq!(span.contains(offset), contains, "{offset}");
            assert_eq!(span.touches(offset), touches, "{offset}");
        }
    }

    #[test]
    fn neighbours_do_not_overlap() {
        assert!(!Span::new(0, 2).overlaps(Span::new(2, 4)));
        assert!(Span::new(0, 3).overlaps(Span::new(2, 4)));
        assert_eq!(Span::new(0, 2).join(Span::new(3, 4)), Span::new(0, 4));
        assert!(Span::new(0, 4).covers(Span::new(1, 4)));
        assert!(!Span::new(0, 4).covers(Span::new(1, 5)));
    }

    #[test]
    fn shifting_stops_at_the_ends() {
        assert_eq!(Span::new(1, 2).shift(10), Span::new(11, 12));
        assert_eq!(Span::new(11, 12).relative_to(10), Span::new(1, 2));
        assert_eq!(Span::new(1, 2).relative_to(10), Span::at(0));
        assert_eq!(Span::new(1, 2).shift(u32::MAX), Span::at(u32::MAX));
    }

    #[test]
    fn slices_are_clamped_to_characters() {
        let text = "½ in";
        assert_eq!(Span::new(0, 2).slice(text), "½");
        assert_eq!(Span::new(0, 1).slice(text), "");
        assert_eq!(Span::new(1, 4).slice(text), "½ i");
        assert_eq!(Span::new(3, 99).slice(text), "in");
        assert_eq!(Span { start: 4, end: 2 }.slice(text), "");
    }
}
