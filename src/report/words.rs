//! Words for people: counts, lists, and lines of a width.

use crate::units::find_unit;

/// The width that text is laid out for.
pub const WIDTH: usize = 100;

/// A count with its noun: `1 file`, `3 files`.
pub fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// A list in a sentence: `sand`, `sand and lime`, `sand, lime and cement`.
pub fn listed<T: AsRef<str>>(items: &[T]) -> String {
    let mut text = String::new();
    for (index, item) in items.iter().enumerate() {
        let join = match items.len() - index {
            _ if index == 0 => "",
            1 => " and ",
            _ => ", ",
        };
        text.push_str(join);
        text.push_str(item.as_ref());
    }
    text
}

/// A blank that no line is broken at.
const NO_BREAK: char = '\u{a0}';

/// The text with every figure bound to its unit, so that no line is broken
/// between them: `150 mm`, `2 %`, `6 1/2"`.
pub fn bound(text: &str) -> String {
    let mut bound = String::with_capacity(text.len());
    let mut words = text.split(' ').peekable();
    while let Some(word) = words.next() {
        bound.push_str(word);
        match words.peek() {
            Some(next) if belong_together(word, next) => bound.push(NO_BREAK),
            Some(_) => bound.push(' '),
            None => {}
        }
    }
    bound
}

/// Whether a word ends in a figure and the next is its unit or goes on with
/// it.
fn belong_together(word: &str, next: &str) -> bool {
    let next = next.trim_end_matches(['.', ',', ';', ':', ')']);
    let is_unit = next == "%" || find_unit(next).is_some() || ["sq", "cu"].contains(&next);
    let is_figure = next.starts_with(|first: char| first.is_ascii_digit());
    match word.chars().last() {
        Some('\'') => is_figure,
        Some(last) if last.is_ascii_digit() => is_unit || is_figure && next.ends_with('"'),
        _ => ["sq", "cu"].contains(&word) && is_unit,
    }
}

/// A paragraph under a heading: the text in lines of the usual width.
pub(super) fn paragraph(text: &str) -> String {
    wrapped(text, "  ", WIDTH) + "\n"
}

/// The text broken between words into lines of a width, the first after
/// `first` and the others after as many blanks. A figure stays with its unit,
/// and a word longer than a line has one of its own.
pub fn wrapped(text: &str, first: &str, width: usize) -> String {
    let indent = first.chars().count();
    let mut lines = String::from(first);
    let (mut column, mut is_first) = (indent, true);
    let text = bound(text);
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let length = word.chars().count();
        if !is_first && column + 1 + length > width {
            lines.push('\n');
            lines.push_str(&" ".repeat(indent));
            column = indent;
        } else if !is_first {
            lines.push(' ');
            column += 1;
        }
        lines.extend(word.chars().map(|c| if c == NO_BREAK { ' ' } else { c }));
        column += length;
        is_first = false;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_are_read_aloud() {
        for (items, text) in [
            (&[][..], ""),
            (&["sand"], "sand"),
            (&["sand", "lime"], "sand and lime"),
            (&["sand", "lime", "cement"], "sand, lime and cement"),
        ] {
            assert_eq!(listed(items), text);
        }
    }

    #[test]
    fn lines_are_broken_between_words() {
        for (text, width, lines) in [
            ("", 10, "- "),
            ("one two three", 9, "- one two\n  three"),
            ("one two three", 99, "- one two three"),
            ("unbreakable it is", 8, "- unbreakable\n  it is"),
            ("of 150 mm, at", 9, "- of\n  150 mm,\n  at"),
            ("a 24' 6 1/2\" b", 9, "- a\n  24' 6 1/2\"\n  b"),
            ("at 3 sq ft or", 9, "- at\n  3 sq ft\n  or"),
            ("take 2 or 3", 9, "- take 2\n  or 3"),
        ] {
            assert_eq!(wrapped(text, "- ", width), lines);
        }
    }
}
