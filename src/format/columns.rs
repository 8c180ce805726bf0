//! The columns that things are laid out in.

use crate::text::Lines;

/// How far an entry is indented.
pub(super) const INDENT: &str = "  ";

/// The column at which the value of an entry starts, and what goes on from
/// the line above.
pub(super) use crate::vocabulary::VALUE_COLUMN as VALUE;

/// How many blanks stand before a comment at a line's end, at least.
pub(super) const BEFORE_COMMENT: usize = 2;

/// How many columns lie between two tab stops.
const TAB: usize = 4;

/// True for a space, a no-break or thin space and a tab.
pub(super) fn is_blank(character: char) -> bool {
    matches!(character, ' ' | '\t' | '\u{A0}' | '\u{2009}' | '\u{202F}')
}

/// How many columns the start of a line takes, without its line end.
pub(super) fn width(start: &str) -> usize {
    start.chars().fold(0, |column, character| match character {
        '\u{FEFF}' => column,
        '\t' => (column / TAB + 1) * TAB,
        _ => column + 1,
    })
}

/// What stands on the last line of a text.
pub(super) fn last_line(text: &str) -> &str {
    text.rsplit(['\n', '\r']).next().unwrap_or_default()
}

/// The lines of a text, each with its line end apart.
pub(super) fn lines(text: &str) -> Vec<(&str, &str)> {
    let index = Lines::new(text);
    (0..index.count())
        .map(|line| {
            let content = index.line_span(line).slice(text);
            let whole = index.line_span_with_break(line).slice(text);
            (content, whole.get(content.len()..).unwrap_or_default())
        })
        .collect()
}

/// Adds a line, without the blanks at its end. An empty line between a lone
/// `\r` and its own `\n` keeps a blank, or the two would become one line end.
pub(super) fn push_line(text: &mut String, content: &str, end: &str) {
    let content = content.trim_end_matches(is_blank);
    if content.is_empty() && text.ends_with('\r') && end.starts_with('\n') {
        text.push(' ');
    }
    text.push_str(content);
    text.push_str(end);
}

/// Blanks up to a column, at least so many.
pub(super) fn pad_to(row: &mut String, column: usize, least: usize) {
    let blanks = column.saturating_sub(width(row)).max(least);
    row.extend(std::iter::repeat_n(' ', blanks));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_line_ends_never_become_one() {
        for (before, content, end, after) in [
            ("a\r", " ", "\n", "a\r \n"),
            ("a\r", " ", "\r\n", "a\r\r\n"),
            ("a\n", " ", "\n", "a\n\n"),
            ("a\r", "b ", "\n", "a\rb\n"),
        ] {
            let mut text = before.to_owned();
            push_line(&mut text, content, end);
            assert_eq!(text, after);
        }
    }

    #[test]
    fn lines_keep_their_ends() {
        let parts = lines("a\r\nb\rc\n");
        assert_eq!(parts, [("a", "\r\n"), ("b", "\r"), ("c", "\n"), ("", "")]);
    }
}
