//! One line of the text as an editor counts them.

use super::blank::{indent, width};

/// What stands up to a line end, and the line end.
#[derive(Clone, Copy)]
pub(super) struct PhysicalLine<'t> {
    /// What stands before the line end.
    pub content: &'t str,
    /// How many bytes it takes, its line end included.
    pub length: usize,
}

impl<'t> PhysicalLine<'t> {
    /// The first line of a text. `\n`, `\r\n` and a lone `\r` end a line.
    pub(crate) fn first_of(text: &'t str) -> Self {
        let ends_line = |byte: &u8| matches!(byte, b'\n' | b'\r');
        let bytes = text.as_bytes();
        let end = bytes.iter().position(ends_line).unwrap_or(bytes.len());
        let content = text.get(..end).unwrap_or(text);
        let length = match (bytes.get(end), bytes.get(end + 1)) {
            (Some(b'\r'), Some(b'\n')) => end + 2,
            (Some(_), _) => end + 1,
            (None, _) => end,
        };
        Self { content, length }
    }

    /// How far it is indented, in columns.
    pub(crate) fn width(&self) -> u32 {
        width(indent(self.content))
    }

    /// What follows its indent.
    pub(crate) fn words(&self) -> &'t str {
        self.content
            .get(indent(self.content).len()..)
            .unwrap_or_default()
    }

    /// True if it has more than blanks and a comment.
    pub(crate) fn has_words(&self) -> bool {
        !matches!(self.words().as_bytes().first(), None | Some(b'#'))
    }

    /// True for a comment that starts at column 0.
    pub(crate) fn is_comment_at_margin(&self) -> bool {
        self.width() == 0 && self.words().starts_with('#')
    }
}

/// The lines of a text, each with its offset.
pub(super) fn physical_lines(text: &str) -> impl Iterator<Item = (usize, PhysicalLine<'_>)> {
    let mut at = 0;
    std::iter::from_fn(move || {
        let rest = text.get(at..).filter(|rest| !rest.is_empty())?;
        let (start, line) = (at, PhysicalLine::first_of(rest));
        at += line.length;
        Some((start, line))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_end_ends_a_line() {
        let lines = |text| {
            physical_lines(text)
                .map(|(at, line)| (at, line.content))
                .collect::<Vec<_>>()
        };
        assert_eq!(lines(""), []);
        assert_eq!(lines("a"), [(0, "a")]);
        assert_eq!(
            lines("a\nb\r\nc\rd"),
            [(0, "a"), (2, "b"), (5, "c"), (7, "d")]
        );
        assert_eq!(lines("\n\r\r\n"), [(0, ""), (1, ""), (2, "")]);
    }

    #[test]
    fn a_comment_has_no_words() {
        for (text, words, margin) in [
            ("close", true, false),
            ("  close # done", true, false),
            ("# note", false, true),
            ("\u{FEFF}# note", false, true),
            ("  # note", false, false),
            ("   ", false, false),
            ("", false, false),
        ] {
            let line = PhysicalLine::first_of(text);
            assert_eq!(
                (line.has_words(), line.is_comment_at_margin()),
                (words, margin),
                "{text:?}"
            );
        }
    }
}
