//! Words for people: counts, lists, and lines of a width.

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

/// The text broken between words into lines of a width, the first after
/// `first` and the others after as many blanks. A word longer than a line has
/// one of its own.
pub fn wrapped(text: &str, first: &str, width: usize) -> String {
    let indent = first.chars().count();
    let mut lines = String::from(first);
    let (mut column, mut is_first) = (indent, true);
    for word in text.split_whitespace() {
        let length = word.chars().count();
        if !is_first && column + 1 + length > width {
            lines.push('\n');
            lines.push_str(&" ".repeat(indent));
            column = indent;
        } else if !is_first {
            lines.push(' ');
            column += 1;
        }
        lines.push_str(word);
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
        ] {
            assert_eq!(wrapped(text, "- ", width), lines);
        }
    }
}
