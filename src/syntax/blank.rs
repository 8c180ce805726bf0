//! Blanks, and the byte-order mark that may stand before a text.

/// What some editors put at the very start of a file.
pub(super) const BYTE_ORDER_MARK: char = '\u{FEFF}';

/// How many columns lie between two tab stops.
const TAB: u32 = 4;

/// True for a space, a no-break or thin space and a tab.
pub(super) fn is_blank(character: char) -> bool {
    matches!(character, ' ' | '\t' | '\u{A0}' | '\u{2009}' | '\u{202F}')
}

/// What stands before the first word of a line: a byte-order mark, if there
/// is one, and the blanks.
pub(super) fn indent(line: &str) -> &str {
    let rest = line
        .strip_prefix(BYTE_ORDER_MARK)
        .unwrap_or(line)
        .trim_start_matches(is_blank);
    line.strip_suffix(rest).unwrap_or_default()
}

/// How many columns an indent takes.
pub(super) fn width(indent: &str) -> u32 {
    indent
        .chars()
        .fold(0_u32, |column, character| match character {
            BYTE_ORDER_MARK => column,
            '\t' => (column / TAB).saturating_add(1).saturating_mul(TAB),
            _ => column.saturating_add(1),
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_indent_ends_at_the_first_word() {
        for (line, expected, columns) in [
            ("job", "", 0),
            ("  close", "  ", 2),
            ("\tclose", "\t", 4),
            (" \t close", " \t ", 5),
            ("\u{FEFF}job", "\u{FEFF}", 0),
            ("\u{FEFF} close", "\u{FEFF} ", 1),
            ("\u{A0}\u{2009}close", "\u{A0}\u{2009}", 2),
            ("   ", "   ", 3),
            ("", "", 0),
        ] {
            assert_eq!(indent(line), expected, "{line:?}");
            assert_eq!(width(indent(line)), columns, "{line:?}");
        }
    }
}
