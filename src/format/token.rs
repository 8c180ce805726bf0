//! The pieces of a line that are laid out one after the other.

use crate::text::Span;

/// A piece of a line that is never broken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Token {
    /// Where it stands in the line as it was written.
    pub span: Span,
    /// What is written for it.
    pub text: String,
    /// Whether a blank stands before it, unless it starts a line.
    pub apart: bool,
}

/// Tokens in order, gathered from one line.
pub(super) struct Tokens<'t> {
    /// The line as it was written.
    pub text: &'t str,
    /// What was gathered so far.
    pub list: Vec<Token>,
}

impl<'t> Tokens<'t> {
    /// Adds a token; nothing if a line end or a comment stands inside it.
    pub(crate) fn push(&mut self, span: Span, text: impl Into<String>, apart: bool) -> Option<()> {
        let written = span.slice(self.text);
        if written.contains(['\n', '\r']) {
            return None;
        }
        let text = text.into();
        self.list.push(Token { span, text, apart });
        Some(())
    }

    /// The first comma between two places, comments aside.
    pub(crate) fn comma_between(&self, from: u32, to: u32) -> Option<Span> {
        let mut in_comment = false;
        let between = Span::new(from, to).slice(self.text);
        let found = between.char_indices().find(|(_, character)| {
            match character {
                '#' => in_comment = true,
                '\n' | '\r' => in_comment = false,
                _ => {}
            }
            *character == ',' && !in_comment
        });
        let (at, _) = found?;
        Some(Span::from(at..at + 1).shift(from))
    }

    /// Whether a comma stands tight between two digits: that is told of as a
    /// decimal comma, and parting it would settle in silence what it means.
    pub(crate) fn is_decimal(&self, comma: Span) -> bool {
        let (before, rest) = self
            .text
            .split_at_checked(comma.start as usize)
            .unwrap_or_default();
        let is_digit = |character: char| character.is_ascii_digit();
        let after = rest.strip_prefix(',').unwrap_or_default();
        before.ends_with(is_digit) && after.starts_with(is_digit)
    }
}
