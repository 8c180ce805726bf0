//! What each word of a spec is, for colouring.

mod colours;
mod painter;
mod relative;

pub use colours::Colours;
pub(crate) use relative::{RelativeColours, RelativeToken, RelativeTokens};

use crate::text::Span;

/// What a stretch of text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TokenKind {
    /// The word of a section.
    Keyword,
    /// A key.
    Property,
    /// A small word of a value or clause.
    Modifier,
    /// A shape, surface, build, mix or material.
    Type,
    /// A let or an edge.
    Variable,
    /// A function.
    Function,
    /// One of a few words: a choice, a direction, a rule.
    EnumMember,
    /// A number with its unit, or a date.
    Number,
    /// Text in quotes.
    String,
    /// A comment.
    Comment,
    /// A mark of arithmetic.
    Operator,
}

impl TokenKind {
    /// Every kind, in the order of the legend.
    pub const ALL: [TokenKind; 11] = [
        TokenKind::Keyword,
        TokenKind::Property,
        TokenKind::Modifier,
        TokenKind::Type,
        TokenKind::Variable,
        TokenKind::Function,
        TokenKind::EnumMember,
        TokenKind::Number,
        TokenKind::String,
        TokenKind::Comment,
        TokenKind::Operator,
    ];
}

/// A coloured stretch of one line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Token {
    /// Where, in bytes of the checked file.
    pub span: Span,
    /// What it is.
    pub kind: TokenKind,
    /// Whether a name is given here.
    pub is_definition: bool,
}
