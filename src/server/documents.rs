//! The texts that the client has open.

use std::sync::OnceLock;

use indexmap::IndexMap;
use ropey::Rope;
use tower_lsp::lsp_types::{TextDocumentContentChangeEvent, Url};

use super::positions;
use crate::text::{Encoding, Text};

/// The open documents, by path.
pub type Documents = IndexMap<String, Document>;

/// One open document.
pub struct Document {
    /// Its address, spelled as the client spells it.
    pub uri: Url,
    /// Its version, as the client counts.
    pub version: i32,
    rope: Rope,
    text: OnceLock<Text>,
}

impl Document {
    /// A document that has just been opened.
    pub fn new(uri: Url, version: i32, text: &str) -> Document {
        Document {
            uri,
            version,
            rope: Rope::from_str(text),
            text: OnceLock::new(),
        }
    }

    /// Its text as it is now.
    pub fn text(&self) -> &Text {
        self.text
            .get_or_init(|| Text::from(String::from(&self.rope)))
    }

    /// Makes the client's changes, each on what the one before it left.
    pub fn change(
        &mut self,
        version: i32,
        changes: Vec<TextDocumentContentChangeEvent>,
        encoding: Encoding,
    ) {
        for change in changes {
            match change.range {
                None => self.rope = Rope::from_str(&change.text),
                Some(range) => {
                    let start = positions::character(&self.rope, range.start, encoding);
                    let end = positions::character(&self.rope, range.end, encoding);
                    self.rope.remove(start..end.max(start));
                    self.rope.insert(start, &change.text);
                }
            }
        }
        self.version = version;
        self.text = OnceLock::new();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use tower_lsp::lsp_types::{Position, Range};

    fn change(range: Option<(u32, u32, u32, u32)>, text: &str) -> TextDocumentContentChangeEvent {
        TextDocumentContentChangeEvent {
            range: range.map(|(a, b, c, d)| Range::new(Position::new(a, b), Position::new(c, d))),
            range_length: None,
            text: text.to_owned(),
        }
    }

    fn open(text: &str) -> Document {
        Document::new(Url::parse("file:///a.patio").unwrap(), 1, text)
    }

    #[test]
    fn changes_are_made_in_turn() {
        let mut document = open("a𝄞b\r\nc");
        document.change(
            2,
            vec![
                change(Some((0, 3, 0, 3)), "½"),
                change(Some((0, 99, 1, 0)), "\n"),
                change(Some((9, 9, 9, 9)), "!"),
                change(Some((1, 1, 1, 0)), "?"),
            ],
            Encoding::Utf16,
        );
        assert_eq!(&**document.text(), "a𝄞½b\nc?!");
        assert_eq!(document.version, 2);
        document.change(
            3,
            vec![change(None, "new"), change(Some((0, 0, 0, 1)), "")],
            Encoding::Utf16,
        );
        assert_eq!(&**document.text(), "ew");
    }

    proptest! {
        #[test]
        fn a_change_is_the_same_in_the_rope_as_in_the_text(
            text in "[a½𝄞\r\n]{0,20}", new in "[b\n𝄞]{0,3}",
            from in (0u32..5, 0u32..8), to in (0u32..5, 0u32..8),
        ) {
            for encoding in [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32] {
                let mut document = open(&text);
                document.change(2, vec![change(Some((from.0, from.1, to.0, to.1)), &new)], encoding);
                let lines = crate::text::Lines::new(&text);
                let counted = positions::Counted { text: &text, lines: &lines, encoding };
                let span = counted.span(Range::new(Position::new(from.0, from.1), Position::new(to.0, to.1)));
                let edit = crate::text::Edit::new(span, new.clone());
                let expected = crate::text::apply(&text, &[edit]);
                prop_assert_eq!(expected.as_deref(), Some(&**document.text()));
            }
        }
    }
}
