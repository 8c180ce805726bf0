//! Positions of places that come in order.

use super::{Encoding, Lines, Position, Span};

/// Finds the position of each place from the one before it.
pub(crate) struct Ascending<'a> {
    text: &'a str,
    lines: &'a Lines,
    encoding: Encoding,
    /// The line that was found last, and its stretch.
    line: u32,
    span: Span,
}

impl<'a> Ascending<'a> {
    /// Begins at a byte of `text`, whose lines these are.
    pub(crate) fn new(
        text: &'a str,
        lines: &'a Lines,
        encoding: Encoding,
        offset: u32,
    ) -> Ascending<'a> {
        let line = lines.line_of(offset);
        let span = lines.line_span_with_break(line);
        Ascending {
            text,
            lines,
            encoding,
            line,
            span,
        }
    }

    /// The position of a byte, as [`Lines::position`] has it; any may be asked
    /// for, those in order are found fast.
    pub(crate) fn position(&mut self, offset: u32) -> Position {
        if offset < self.span.start {
            *self = Ascending::new(self.text, self.lines, self.encoding, offset);
        }
        while offset >= self.span.end && self.line < self.lines.count() - 1 {
            self.line += 1;
            self.span = self.lines.line_span_with_break(self.line);
        }
        let own = self.lines.line_span(self.line);
        let before = Span::new(own.start, offset.min(own.end)).slice(self.text);
        Position {
            line: self.line,
            column: self.encoding.columns(before),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn positions_are_those_of_the_line_index(
            text in "[a½𝄞\r\n]{0,24}", places in prop::collection::vec(0u32..40, 1..6),
        ) {
            let lines = Lines::new(&text);
            for encoding in [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32] {
                let mut ascending = Ascending::new(&text, &lines, encoding, 0);
                for place in &places {
                    let expected = lines.position(&text, *place, encoding);
                    prop_assert_eq!(ascending.position(*place), expected);
                }
            }
        }
    }
}
