//! Positions of the protocol and bytes of a text.

use ropey::{Rope, RopeSlice};
use tower_lsp::lsp_types::{Position, PositionEncodingKind, Range};

use crate::text::{Ascending, Encoding, Lines, Span};

/// The encodings that the server can count in, the one it likes best first.
const KNOWN: [(PositionEncodingKind, Encoding); 3] = [
    (PositionEncodingKind::UTF8, Encoding::Utf8),
    (PositionEncodingKind::UTF32, Encoding::Utf32),
    (PositionEncodingKind::UTF16, Encoding::Utf16),
];

/// The encoding to use with a client that offers these.
pub(crate) fn negotiate(offered: &[PositionEncodingKind]) -> (PositionEncodingKind, Encoding) {
    let [.., usual] = KNOWN;
    KNOWN
        .into_iter()
        .find(|(kind, _)| offered.contains(kind))
        .unwrap_or(usual)
}

/// A text with its line index, seen by a client that counts in `encoding`.
#[derive(Clone, Copy)]
pub(crate) struct Counted<'a> {
    /// The text.
    pub text: &'a str,
    /// Its lines.
    pub lines: &'a Lines,
    /// What columns are counted in.
    pub encoding: Encoding,
}

impl<'a> Counted<'a> {
    /// The position of a byte.
    pub(crate) fn position(self, offset: u32) -> Position {
        shown(self.lines.position(self.text, offset, self.encoding))
    }

    /// The range of a span.
    pub(crate) fn range(self, span: Span) -> Range {
        Range::new(self.position(span.start), self.position(span.end))
    }

    /// The ranges of spans, those that come in order found fast.
    pub(crate) fn ranges(self) -> impl FnMut(Span) -> Range + 'a {
        let mut places = Ascending::new(self.text, self.lines, self.encoding, 0);
        let mut position = move |offset| shown(places.position(offset));
        move |span| Range::new(position(span.start), position(span.end))
    }

    /// The byte at a position; a column past the line's end is the line's
    /// end, a line past the last one the text's end.
    pub(crate) fn offset(self, position: Position) -> u32 {
        let position = crate::text::Position {
            line: position.line,
            column: position.character,
        };
        self.lines.offset(self.text, position, self.encoding)
    }

    /// The span of a range; empty at its start if it runs backwards.
    pub(crate) fn span(self, range: Range) -> Span {
        Span::new(self.offset(range.start), self.offset(range.end))
    }
}

fn shown(position: crate::text::Position) -> Position {
    Position::new(position.line, position.column)
}

/// The character of a rope at a position, brought to the nearest as
/// [`Counted::offset`] does.
pub(crate) fn character(rope: &Rope, position: Position, encoding: Encoding) -> usize {
    let line = position.line as usize;
    if line >= rope.len_lines() {
        return rope.len_chars();
    }
    let text = rope.line(line);
    let column = position.character as usize;
    let inside = match encoding {
        Encoding::Utf8 => text.byte_to_char(column.min(text.len_bytes())),
        Encoding::Utf16 => text.utf16_cu_to_char(column.min(text.len_utf16_cu())),
        Encoding::Utf32 => column,
    };
    rope.line_to_char(line) + inside.min(without_break(text))
}

/// How many characters a line has without its break.
fn without_break(line: RopeSlice<'_>) -> usize {
    let mut length = line.len_chars();
    while length > 0 && matches!(line.char(length - 1), '\n' | '\r') {
        length -= 1;
    }
    length
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_encoding_is_the_best_that_both_know() {
        let [utf8, utf16, utf32] = [
            PositionEncodingKind::UTF8,
            PositionEncodingKind::UTF16,
            PositionEncodingKind::UTF32,
        ];
        for (offered, chosen) in [
            (vec![], &utf16),
            (vec![utf16.clone()], &utf16),
            (vec![utf16.clone(), utf32.clone()], &utf32),
            (vec![utf16.clone(), utf32.clone(), utf8.clone()], &utf8),
            (vec![PositionEncodingKind::new("ebcdic")], &utf16),
        ] {
            assert_eq!(&negotiate(&offered).0, chosen);
        }
    }

    proptest! {
        #[test]
        fn rope_and_line_index_agree_on_every_position(
            text in "[a½𝄞e\u{301}\u{2028}\u{85}\u{b}\r\n]{0,24}", line in 0u32..8, column in 0u32..12,
        ) {
            let lines = Lines::new(&text);
            let rope = Rope::from_str(&text);
            for encoding in [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32] {
                let counted = Counted { text: &text, lines: &lines, encoding };
                let position = Position::new(line, column);
                let offset = rope.char_to_byte(character(&rope, position, encoding));
                prop_assert_eq!(counted.offset(position) as usize, offset);
                let back = counted.position(counted.offset(position));
                prop_assert_eq!(counted.offset(back) as usize, offset);
            }
        }
    }
}
