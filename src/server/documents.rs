//! The texts that the client has open.

use std::sync::OnceLock;

use indexmap::IndexMap;
use ropey::Rope;
use tower_lsp::lsp_types::{Range, TextDocumentContentChangeEvent, Url};

use super::checking::Check;
use super::positions;
use crate::text::{Common, Encoding, Origin, Text};

/// The open documents, by path.
pub(crate) type Documents = IndexMap<String, Document>;

/// One open document.
pub(crate) struct Document {
    /// Its address, spelled as the client spells it.
    pub uri: Url,
    /// Its version, as the client counts.
    pub version: i32,
    /// How far it is checked.
    pub check: Check,
    rope: Rope,
    text: OnceLock<Text>,
    /// The text that was last asked for, if edits have been made since, and
    /// what they left of it.
    before: Option<(Origin, Common)>,
}

impl Document {
    /// A document that has just been opened.
    pub(crate) fn new(uri: Url, version: i32, text: String) -> Document {
        Document {
            uri,
            version,
            check: Check::default(),
            rope: Rope::from_str(&text),
            text: OnceLock::from(Text::from(text)),
            before: None,
        }
    }

    /// Its text as it is now.
    pub(crate) fn text(&self) -> &Text {
        self.text.get_or_init(|| {
            self.edited()
                .unwrap_or_else(|| String::from(&self.rope).into())
        })
    }

    /// Its text, made from the one before the last edits: most of it is there
    /// in one piece.
    fn edited(&self) -> Option<Text> {
        let (origin, common) = self.before.as_ref()?;
        let end = self.rope.len_bytes().checked_sub(common.end)?;
        let between = self.rope.get_byte_slice(common.start..end)?;
        Text::made_from(origin, *common, between.chunks())
    }

    /// Takes over the same text from who holds it too, so that it is held once.
    pub(crate) fn share(&mut self, same: &Text) {
        self.text = OnceLock::from(same.clone());
    }

    /// Makes the client's changes, each on what the one before it left.
    pub(crate) fn change(
        &mut self,
        version: i32,
        changes: Vec<TextDocumentContentChangeEvent>,
        encoding: Encoding,
    ) {
        self.version = version;
        if changes.is_empty() {
            return;
        }
        if let Some(text) = self.text.take() {
            // Before the first edit all is left, from either end.
            let (start, end) = (text.len(), text.len());
            self.before = Some((text.origin(), Common { start, end }));
        }
        for change in changes {
            let left = match change.range {
                None => {
                    self.rope = Rope::from_str(&change.text);
                    Common { start: 0, end: 0 }
                }
                Some(range) => self.replace(range, &change.text, encoding),
            };
            if let Some((_, common)) = &mut self.before {
                *common = common.and_then(left);
            }
        }
    }

    /// Puts a text in the place of a range; gives what that leaves as it was.
    fn replace(&mut self, range: Range, text: &str, encoding: Encoding) -> Common {
        let start = positions::character(&self.rope, range.start, encoding);
        let end = positions::character(&self.rope, range.end, encoding).max(start);
        let left = Common {
            start: self.rope.char_to_byte(start),
            end: self.rope.len_bytes() - self.rope.char_to_byte(end),
        };
        self.rope.remove(start..end);
        self.rope.insert(start, text);
        left
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use tower_lsp::lsp_types::Position;

    fn change(range: Option<(u32, u32, u32, u32)>, text: &str) -> TextDocumentContentChangeEvent {
        TextDocumentContentChangeEvent {
            range: range.map(|(a, b, c, d)| Range::new(Position::new(a, b), Position::new(c, d))),
            range_length: None,
            text: text.to_owned(),
        }
    }

    fn open(text: &str) -> Document {
        Document::new(Url::parse("file:///a.patio").unwrap(), 1, text.to_owned())
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

    /// Whether two texts have so much in common.
    fn is_in_both(one: &str, other: &str, Common { start, end }: Common) -> bool {
        let (one, other) = (one.as_bytes(), other.as_bytes());
        let fits = start + end <= one.len().min(other.len());
        fits && one[..start] == other[..start]
            && one[one.len() - end..] == other[other.len() - end..]
    }

    #[test]
    fn what_an_edit_leaves_is_known_without_a_look_at_the_text() {
        let mut document = open("shape a\n  circle radius 5 m\n");
        let before = document.text().clone();
        document.change(2, Vec::new(), Encoding::Utf16);
        assert_eq!(
            before.common_with(document.text()),
            Common { start: 28, end: 0 }
        );
        document.change(3, vec![change(Some((1, 16, 1, 17)), "55")], Encoding::Utf16);
        let after = document.text().clone();
        assert_eq!(before.common_with(&after), Common { start: 24, end: 3 });
        document.change(4, vec![change(None, "x")], Encoding::Utf16);
        assert_eq!(
            after.common_with(document.text()),
            Common { start: 0, end: 0 }
        );
    }

    proptest! {
        #[test]
        fn a_change_is_the_same_in_the_rope_as_in_the_text(
            text in "[a½𝄞\r\n]{0,20}", new in "[b\n𝄞]{0,3}",
            from in (0u32..5, 0u32..8), to in (0u32..5, 0u32..8),
        ) {
            for encoding in [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32] {
                let mut document = open(&text);
                let before = document.text().clone();
                document.change(2, vec![change(Some((from.0, from.1, to.0, to.1)), &new)], encoding);
                let lines = crate::text::Lines::new(&text);
                let counted = positions::Counted { text: &text, lines: &lines, encoding };
                let span = counted.span(Range::new(Position::new(from.0, from.1), Position::new(to.0, to.1)));
                let edit = crate::text::Edit::new(span, new.clone());
                let expected = crate::text::apply(&text, &[edit]);
                prop_assert_eq!(expected.as_deref(), Some(&**document.text()));
                document.change(3, vec![change(Some((0, 1, 0, 2)), "ab")], encoding);
                document.change(4, vec![change(Some((1, 0, 1, 1)), "")], encoding);
                prop_assert_eq!(&**document.text(), String::from(&document.rope));
                let common = before.common_with(document.text());
                prop_assert!(is_in_both(&before, document.text(), common), "{:?}", common);
            }
        }
    }
}
