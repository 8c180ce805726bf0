//! The line index of a text.

use super::span::offset as bounded;
use super::{Common, Span};

/// The least first byte of a character of four bytes, which takes two units of
/// UTF-16.
const FOUR_BYTES: u8 = 0xf0;

/// In what a column is counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Encoding {
    /// In bytes of UTF-8.
    Utf8,
    /// In 16-bit units of UTF-16, as most editors count.
    #[default]
    Utf16,
    /// In characters.
    Utf32,
}

impl Encoding {
    /// How many columns a text takes that has no line break.
    pub fn columns(self, text: &str) -> u32 {
        match self {
            Self::Utf8 => bounded(text.len()),
            Self::Utf32 => bounded(text.chars().count()),
            // Counted apart as each is soon done: a line may be long and have a
            // finding in each of its words.
            Self::Utf16 => {
                let wide = text.bytes().filter(|byte| *byte >= FOUR_BYTES).count();
                bounded(text.chars().count() + wide)
            }
        }
    }

    fn width(self, character: char) -> u32 {
        match self {
            Self::Utf8 => bounded(character.len_utf8()),
            Self::Utf16 => bounded(character.len_utf16()),
            Self::Utf32 => 1,
        }
    }
}

/// A place in a text; line and column count from 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Position {
    /// Lines above this one.
    pub line: u32,
    /// What stands before the place in its line, counted in an [`Encoding`].
    pub column: u32,
}

/// Where the lines of a text begin and end.
///
/// A line ends at `\n`, `\r\n` or a lone `\r`, and nowhere else. The end of
/// the text ends the last line, so a text of none or one break has one or
/// two lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lines {
    /// Each line without its break, in order; never empty.
    lines: Vec<Span>,
    length: u32,
}

impl Lines {
    /// Reads the lines of `text`.
    pub fn new(text: &str) -> Self {
        let bytes = text.as_bytes();
        let mut lines = Vec::new();
        let mut start = 0;
        let mut at = 0;
        while let Some(&byte) = bytes.get(at) {
            let break_length = match (byte, bytes.get(at + 1)) {
                (b'\r', Some(b'\n')) => 2,
                (b'\r' | b'\n', _) => 1,
                _ => {
                    at += 1;
                    continue;
                }
            };
            lines.push(Span::from(start..at));
            at += break_length;
            start = at;
        }
        lines.push(Span::from(start..bytes.len()));
        let length = bounded(bytes.len());
        Self { lines, length }
    }

    /// Becomes the lines of `text`, which the text that was indexed has
    /// become; it has so much in common with it.
    pub fn edit(&mut self, text: &str, common: Common) {
        let (old, new) = (self.length as usize, text.len());
        // What stands before the change may make a break of two characters
        // with it, and what stands after it too: those lines are read again.
        let first = self.line_of(bounded(common.start.saturating_sub(1))) as usize;
        let start = self.line_span(bounded(first)).start as usize;
        let unchanged = old.saturating_sub(common.end);
        let last = self
            .lines
            .partition_point(|line| line.start as usize <= unchanged + 1)
            .max(first);
        let tail = self.lines.get(last..).unwrap_or_default();
        let end = match tail.first() {
            Some(line) => (line.start as usize + new).saturating_sub(old),
            None => new,
        };
        let mut middle = Self::new(text.get(start..end).unwrap_or_default()).lines;
        if !tail.is_empty() {
            // It ends with a break, after which the tail begins.
            middle.pop();
        }
        let tail_starts = first + middle.len();
        let middle = middle.into_iter().map(|line| line.shift(bounded(start)));
        self.lines.splice(first..last, middle);
        self.length = bounded(new);
        if old != new {
            let moved = |offset: u32| bounded((offset as usize + new).saturating_sub(old));
            for line in self.lines.iter_mut().skip(tail_starts) {
                *line = Span::new(moved(line.start), moved(line.end));
            }
        }
    }

    /// How many lines there are; at least one.
    pub fn count(&self) -> u32 {
        bounded(self.lines.len())
    }

    /// The line that holds `offset`; a break belongs to the line it ends.
    pub fn line_of(&self, offset: u32) -> u32 {
        let begun = self.lines.partition_point(|line| line.start <= offset);
        bounded(begun.saturating_sub(1))
    }

    /// The line without its break; empty at the end of the text if there is
    /// no such line.
    pub fn line_span(&self, line: u32) -> Span {
        let found = self.lines.get(line as usize);
        found.copied().unwrap_or(Span::at(self.length))
    }

    /// The line and its break; empty at the end of the text if there is no
    /// such line.
    pub fn line_span_with_break(&self, line: u32) -> Span {
        let start = self.line_span(line).start;
        let next = self.line_span(line.saturating_add(1));
        Span::new(start, next.start)
    }

    /// The position of a byte of `text`, which must be the text that was
    /// indexed. Inside a character it is that character's, inside a break
    /// the end of the line, past the end the end of the text.
    pub fn position(&self, text: &str, offset: u32, encoding: Encoding) -> Position {
        let line = self.line_of(offset);
        let span = self.line_span(line);
        let before = Span::new(span.start, offset.min(span.end)).slice(text);
        let column = encoding.columns(before);
        Position { line, column }
    }

    /// The byte of `text` at a position, the way back of [`Lines::position`].
    /// A column past the end of its line is the end of that line, a line past
    /// the last the end of the text, and a column inside a character its start.
    pub fn offset(&self, text: &str, position: Position, encoding: Encoding) -> u32 {
        let span = self.line_span(position.line);
        let mut columns_left = position.column;
        let mut offset = span.start;
        for character in span.slice(text).chars() {
            let width = encoding.width(character);
            if columns_left < width {
                break;
            }
            columns_left -= width;
            offset = offset.saturating_add(Encoding::Utf8.width(character));
        }
        offset
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn at(line: u32, column: u32) -> Position {
        Position { line, column }
    }

    #[test]
    fn only_three_breaks_end_a_line() {
        for (text, lines) in [
            ("", vec![""]),
            ("a", vec!["a"]),
            ("a\n", vec!["a", ""]),
            ("a\r\nb\rc\nd", vec!["a", "b", "c", "d"]),
            ("\r\r\n\n", vec!["", "", "", ""]),
            (
                "a\u{2028}b\u{85}c\u{b}d\u{c}e",
                vec!["a\u{2028}b\u{85}c\u{b}d\u{c}e"],
            ),
        ] {
            let index = Lines::new(text);
            let found: Vec<_> = (0..index.count())
                .map(|line| index.line_span(line).slice(text))
                .collect();
            assert_eq!(found, lines, "{text:?}");
            let whole: String = (0..index.count())
                .map(|line| index.line_span_with_break(line).slice(text))
                .collect();
            assert_eq!(whole, text);
        }
    }

    #[test]
    fn columns_are_counted_as_asked() {
        let text = "a½𝄞b\r\nc";
        let index = Lines::new(text);
        for (offset, utf8, utf16, utf32) in [
            (0, at(0, 0), at(0, 0), at(0, 0)),
            (1, at(0, 1), at(0, 1), at(0, 1)),
            (3, at(0, 3), at(0, 2), at(0, 2)),
            (7, at(0, 7), at(0, 4), at(0, 3)),
            (8, at(0, 8), at(0, 5), at(0, 4)),
            (10, at(1, 0), at(1, 0), at(1, 0)),
            (11, at(1, 1), at(1, 1), at(1, 1)),
        ] {
            for (encoding, position) in [
                (Encoding::Utf8, utf8),
                (Encoding::Utf16, utf16),
                (Encoding::Utf32, utf32),
            ] {
                assert_eq!(index.position(text, offset, encoding), position);
                assert_eq!(index.offset(text, position, encoding), offset);
            }
        }
    }

    #[test]
    fn places_that_are_none_are_brought_to_the_nearest() {
        let text = "a𝄞b\r\nc";
        let index = Lines::new(text);
        for (position, offset) in [
            (at(0, 2), 1),  // between the halves of a surrogate pair
            (at(0, 99), 6), // past the end of a line
            (at(1, 99), 9),
            (at(2, 0), 9), // past the last line
            (at(u32::MAX, u32::MAX), 9),
        ] {
            assert_eq!(index.offset(text, position, Encoding::Utf16), offset);
        }
        assert_eq!(index.offset(text, at(0, 3), Encoding::Utf8), 1);
        for (offset, position) in [
            (3, at(0, 1)), // inside a character
            (7, at(0, 4)), // between \r and \n
            (9, at(1, 1)),
            (u32::MAX, at(1, 1)),
        ] {
            assert_eq!(index.position(text, offset, Encoding::Utf16), position);
        }
    }

    proptest! {
        #[test]
        fn lines_after_an_edit_are_those_of_the_new_text(
            before in "[a\r\n]{0,12}", old in "[a½\r\n]{0,6}",
            new in "[a½\r\n]{0,6}", after in "[a\r\n]{0,12}",
        ) {
            let (old, new) = (format!("{before}{old}{after}"), format!("{before}{new}{after}"));
            let mut edited = Lines::new(&old);
            edited.edit(&new, Common::of(&old, &new));
            prop_assert_eq!(edited, Lines::new(&new));
        }

        #[test]
        fn positions_lead_back(text in "[a½𝄞\r\n]{0,24}") {
            let index = Lines::new(&text);
            for encoding in [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32] {
                for (offset, _) in text.char_indices() {
                    let inside_break = text[..offset].ends_with('\r')
                        && text[offset..].starts_with('\n');
                    let offset = offset as u32;
                    let position = index.position(&text, offset, encoding);
                    let back = index.offset(&text, position, encoding);
                    prop_assert_eq!(back, offset - u32::from(inside_break));
                }
            }
        }

        #[test]
        fn any_position_is_a_place_in_the_text(
            text in "[a½𝄞\r\n]{0,24}", line in 0u32..9, column in 0u32..9,
        ) {
            let index = Lines::new(&text);
            for encoding in [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32] {
                let offset = index.offset(&text, at(line, column), encoding);
                prop_assert!(text.is_char_boundary(offset as usize));
            }
        }
    }
}
