//! What a physical line leaves open: parentheses, or a comma at its end.

use std::str::CharIndices;

use super::blank::is_blank;

/// How many parentheses may stand inside each other.
pub(super) const DEEPEST: u32 = 64;

/// What one physical line leaves open.
pub(super) struct OpenEnds {
    /// How many parentheses are open at its end.
    pub depth: u32,
    /// Whether none was open somewhere in it.
    pub level: bool,
    /// Whether its last word, a comment aside, is a comma.
    pub comma: bool,
    /// Where the first parenthesis stands that is too deep.
    pub too_deep: Option<usize>,
}

impl OpenEnds {
    /// Goes through a line at whose start `depth` parentheses are open. What
    /// is text and what a comment is decided as the grammar decides it.
    pub(crate) fn of(line: &str, depth: u32) -> Self {
        let mut open = Self {
            depth,
            level: depth == 0,
            comma: false,
            too_deep: None,
        };
        let mut characters = line.char_indices();
        let mut before = ' ';
        while let Some((at, character)) = characters.next() {
            match character {
                '#' => break,
                '"' if !ends_figure(before) => pass_text(&mut characters, false),
                '“' => pass_text(&mut characters, true),
                '(' => {
                    open.depth = open.depth.saturating_add(1);
                    if open.depth > DEEPEST {
                        open.too_deep = open.too_deep.or(Some(at));
                    }
                }
                ')' => {
                    open.depth = open.depth.saturating_sub(1);
                    open.level |= open.depth == 0;
                }
                _ => {}
            }
            if !is_blank(character) {
                open.comma = character == ',';
            }
            before = character;
        }
        open
    }
}

/// True for what a number may end with: a quote that touches it is a mark of
/// inches.
fn ends_figure(character: char) -> bool {
    character.is_ascii_digit()
        || matches!(
            character,
            '½' | '¼' | '¾' | '⅛' | '⅜' | '⅝' | '⅞' | '⅓' | '⅔'
        )
}

/// Passes over text up to its closing quote or the line's end.
fn pass_text(characters: &mut CharIndices<'_>, curly: bool) {
    let closes = |character| character == '"' || curly && character == '”';
    while let Some((_, character)) = characters.next() {
        if character == '\\' {
            let mut ahead = characters.clone();
            if ahead
                .next()
                .is_some_and(|(_, next)| next == '\\' || closes(next))
            {
                *characters = ahead;
            }
        } else if closes(character) {
            return;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn open_parentheses_and_commas_are_seen() {
        for (line, depth, comma) in [
            ("start (0, 0)", 0, false),
            ("start (0,", 1, true),
            ("start ((0, 1)", 1, false),
            ("close)", 0, false),
            ("close,   # and on", 0, true),
            ("close,\u{A0}\t", 0, true),
            ("close # (,", 0, false),
            (r#"note "(,""#, 0, false),
            (r#"note "(\"(","#, 0, true),
            (r#"note "\\" ("#, 1, false),
            (r#"east 6" ("#, 1, false),
            (r#"east 6½" ("#, 1, false),
            (r#"note 6 " ("#, 0, false),
            ("note “(” (", 1, false),
            ("note “(\" (", 1, false),
            ("note \"(” (", 0, false),
            ("east 6” (", 1, false),
        ] {
            let open = OpenEnds::of(line, 0);
            assert_eq!((open.depth, open.comma), (depth, comma), "{line}");
        }
    }

    #[test]
    fn depth_has_a_bound() {
        let deep = "(".repeat(70);
        assert_eq!(OpenEnds::of(&deep, 0).too_deep, Some(64));
        assert_eq!(OpenEnds::of(&deep, 60).too_deep, Some(4));
        assert_eq!(OpenEnds::of("((", 62).too_deep, None);
    }
}
