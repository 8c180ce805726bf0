//! A file's text as the marked lines are cut from it.

use std::sync::Arc;

use miette::{MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};

use crate::report;
use crate::text::{Encoding, Lines, Span, is_unshown};

/// So many bytes of a line are shown on each side of what is marked, and so
/// many are marked: a line may be long and have a finding in each of its words.
const LONG: u32 = 160;

/// A file's text with its name and its lines. Columns count characters, and
/// what lies past the end is brought back to it.
pub(crate) struct Page {
    name: String,
    text: String,
    lines: Arc<Lines>,
}

impl Page {
    /// A file under the name that is shown.
    pub(crate) fn of(file: &report::Page, name: String) -> Page {
        Page {
            name,
            text: printable(&file.text),
            lines: file.lines.clone(),
        }
    }

    /// The byte of a line at or before one of the text, brought back to the
    /// line and to a character.
    fn near(&self, offset: u32, line: Span) -> u32 {
        let offset = offset.clamp(line.start, line.end);
        let within = self.text.floor_char_boundary(offset as usize);
        Span::from(within..within).start
    }

    /// The span up to the end of the line that it starts in.
    pub(crate) fn first_line_of(&self, span: Span) -> SourceSpan {
        let line = self.lines.line_span(self.lines.line_of(span.start));
        let end = span.end.min(line.end).max(span.start);
        let end = end.min(span.start.saturating_add(LONG));
        let start = self.text.floor_char_boundary(span.start as usize);
        let end = self.text.floor_char_boundary(end as usize);
        (start, end.saturating_sub(start)).into()
    }
}

/// The text with nothing in it that is not shown but tabs and line ends, byte
/// for byte, so that it can do nothing to a screen. A lone carriage
/// return ends a line, as it does everywhere else.
fn printable(text: &str) -> String {
    let is_plain = |byte: u8| byte == b'\n' || (b' '..=b'~').contains(&byte);
    if text.bytes().all(is_plain) {
        return text.to_owned();
    }
    let mut rest = text.chars().peekable();
    let mut shown = String::with_capacity(text.len());
    while let Some(character) = rest.next() {
        shown.push(match character {
            '\r' if rest.peek() != Some(&'\n') => '\n',
            '\r' | '\n' | '\t' => character,
            _ if !is_unshown(character) => character,
            // One that is as long.
            _ => match character.len_utf8() {
                1 => ' ',
                2 => '\u{a0}',
                3 => '\u{fffd}',
                _ => '\u{1f7e8}',
            },
        });
    }
    shown
}

impl SourceCode for Page {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        lines_before: usize,
        _: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let start = span.offset().min(self.text.len());
        let end = span
            .offset()
            .saturating_add(span.len())
            .min(self.text.len());
        let offset = Span::from(start..end);
        let first = self.lines.line_of(offset.start);
        let last = self.lines.line_of(offset.end);
        let position = self
            .lines
            .position(&self.text, offset.start, Encoding::Utf32);
        // Asked for lines around the span, the lines of the span are enough;
        // asked for none, the place of the span itself is wanted.
        let (from, to, column) = match lines_before {
            0 => (offset.start, offset.end, position.column),
            _ => (
                self.near(
                    offset.start.saturating_sub(LONG),
                    self.lines.line_span(first),
                ),
                self.near(offset.end.saturating_add(LONG), self.lines.line_span(last)),
                0,
            ),
        };
        let cut = Span::new(from, to);
        Ok(Box::new(MietteSpanContents::new_named(
            self.name.clone(),
            cut.slice(&self.text).as_bytes(),
            (from as usize, cut.len() as usize).into(),
            first as usize,
            column as usize,
            (last - first) as usize,
        )))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(text: &str) -> Page {
        Page {
            name: "a.patio".to_owned(),
            text: printable(text),
            lines: Arc::new(Lines::new(text)),
        }
    }

    #[test]
    fn columns_count_characters_and_spans_are_brought_back() {
        let page = page("½ in\n¼ yd\rx");
        for (start, length, before, cut, line, column) in [
            (3, 2, 0, "in", 0, 2),
            (3, 2, 1, "½ in", 0, 0),
            (9, 2, 0, "yd", 1, 2),
            (12, 1, 1, "x", 2, 0),
            (99, 99, 1, "x", 2, 0),
        ] {
            let read = page
                .read_span(&(start, length).into(), before, before)
                .unwrap();
            assert_eq!(read.data(), cut.as_bytes());
            assert_eq!((read.line(), read.column()), (line, column), "{cut}");
        }
    }

    #[test]
    fn a_long_line_is_cut_round_what_is_marked() {
        let page = page(&format!("a\n{}\n", "½ in, ".repeat(9000)));
        let line = page.lines.line_span(1);
        for start in [line.start, 20_000, line.end - 7] {
            let marked = page.first_line_of(Span::new(start, line.end));
            assert!(marked.len() <= LONG as usize);
            let read = page.read_span(&marked, 1, 1).unwrap();
            assert!(read.data().len() <= 3 * LONG as usize + 8, "{start}");
            assert!(std::str::from_utf8(read.data()).is_ok());
            assert_eq!(read.line(), 1);
            // Its place is that in the whole line.
            let place = page.read_span(&marked, 0, 0).unwrap();
            let before = Span::new(line.start, start).slice(&page.text);
            assert_eq!(place.column(), before.chars().count());
        }
    }

    #[test]
    fn nothing_in_a_text_reaches_the_screen_but_text() {
        for text in [
            "a\u{1b}[2Jb",
            "a\u{9b}2Jb",
            "a\u{202e}b\u{e0041}",
            "a\tb\r\nc",
        ] {
            let shown = printable(text);
            assert_eq!(shown.len(), text.len());
            assert!(
                !shown.contains(['\u{1b}', '\u{9b}', '\u{202e}', '\u{e0041}']),
                "{text:?}"
            );
        }
    }

    #[test]
    fn a_mark_ends_with_its_line() {
        let page = page("ab\ncd");
        let span = page.first_line_of(Span::new(1, 5));
        assert_eq!((span.offset(), span.len()), (1, 1));
    }
}
