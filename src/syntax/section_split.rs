//! Where the sections of a text start.

use super::blank::{BYTE_ORDER_MARK, is_blank};
use super::physical_line::{PhysicalLine, physical_lines};

/// The offsets at which sections start; the first is 0 unless there is no text.
///
/// A section starts at a line whose first word stands at column 0, or at the
/// comments at column 0 directly above it.
pub(super) fn section_starts(text: &str) -> Vec<usize> {
    let mut starts = Vec::new();
    let mut comments = None;
    for (at, line) in physical_lines(text) {
        if line.is_comment_at_margin() {
            comments = comments.or(Some(at));
            continue;
        }
        if opens_section(&line) {
            starts.push(comments.unwrap_or(at));
        }
        comments = None;
    }
    if !text.is_empty() && starts.first() != Some(&0) {
        starts.insert(0, 0);
    }
    starts
}

/// True if a word stands at column 0, or after a bullet there.
fn opens_section(line: &PhysicalLine<'_>) -> bool {
    let content = line
        .content
        .strip_prefix(BYTE_ORDER_MARK)
        .unwrap_or(line.content);
    let mut characters = content.chars();
    match characters.next() {
        Some(first) if is_letter(first) => true,
        Some('-' | '–' | '—' | '*' | '+' | '•' | '·') => {
            let word = characters.as_str().trim_start_matches(is_blank);
            word.len() < characters.as_str().len() && word.starts_with(is_letter)
        }
        _ => false,
    }
}

/// What a name starts with, as the grammar has it.
pub(super) fn is_letter(character: char) -> bool {
    character.is_ascii_alphabetic() || !character.is_ascii() && pest::unicode::LETTER(character)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sections_start_at_words_at_the_margin() {
        for parts in [
            "",
            "job",
            "job\n  a\n|site\n  b",
            "job\n|# about\n# it\nsite",
            "job\n|# about\nsite\n  a\n  # inner\n|site",
            "# file\n\n|job",
            "job\n# about\n\n|site",
            "  a\n|job",
            "\u{FEFF}job\n|site",
            "\u{FEFF}# about\njob",
            "job\n12 ft\n(\n|Öl\n|- site\n-site\n\"x\"",
            "job\r  a\r\n|site\n\r",
        ] {
            let text = parts.replace('|', "");
            let starts = section_starts(&text);
            let expected = expected_starts(parts);
            assert_eq!(starts, expected, "{parts:?}");
        }
    }

    fn expected_starts(parts: &str) -> Vec<usize> {
        if parts.is_empty() {
            return Vec::new();
        }
        let bars = parts
            .match_indices('|')
            .enumerate()
            .map(|(n, (at, _))| at - n);
        std::iter::once(0).chain(bars).collect()
    }
}
