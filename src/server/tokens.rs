//! Colours, whole, in part, or as what has changed.

use indexmap::IndexMap;
use tower_lsp::lsp_types::*;

use super::desk::Desk;
use super::positions::Counted;
use crate::ide::{self, TokenKind};
use crate::text::Span;

/// The colours that each document had when they were last asked for, with
/// their number.
pub type Coloured = IndexMap<Url, (u64, Vec<SemanticToken>)>;

/// The kinds of token, in the order of their numbers.
pub fn legend() -> SemanticTokensLegend {
    SemanticTokensLegend {
        token_types: TokenKind::ALL.map(kind).to_vec(),
        token_modifiers: vec![SemanticTokenModifier::DEFINITION],
    }
}

/// All colours of a document.
pub fn full(desk: &mut Desk, uri: &Url) -> Option<SemanticTokensResult> {
    let data = coloured(desk, uri, None)?;
    let result_id = Some(desk.keep_colours(uri, data.clone()));
    Some(SemanticTokensResult::Tokens(SemanticTokens {
        result_id,
        data,
    }))
}

/// The colours of a range.
pub fn range(
    desk: &mut Desk,
    params: &SemanticTokensRangeParams,
) -> Option<SemanticTokensRangeResult> {
    let data = coloured(desk, &params.text_document.uri, Some(params.range))?;
    Some(SemanticTokensRangeResult::Tokens(SemanticTokens {
        result_id: None,
        data,
    }))
}

/// What has changed since the colours with a number; all if those are gone.
pub fn delta(
    desk: &mut Desk,
    params: &SemanticTokensDeltaParams,
) -> Option<SemanticTokensFullDeltaResult> {
    let uri = &params.text_document.uri;
    let old = desk.kept_colours(uri, &params.previous_result_id);
    let data = coloured(desk, uri, None)?;
    let result_id = Some(desk.keep_colours(uri, data.clone()));
    Some(match old {
        None => SemanticTokensFullDeltaResult::Tokens(SemanticTokens { result_id, data }),
        Some(old) => SemanticTokensFullDeltaResult::TokensDelta(SemanticTokensDelta {
            result_id,
            edits: change(&old, &data).into_iter().collect(),
        }),
    })
}

/// The one change that makes the old colours the new: what lies between what
/// both begin and both end with. Each token is five numbers on the wire.
fn change(old: &[SemanticToken], new: &[SemanticToken]) -> Option<SemanticTokensEdit> {
    let same = |(one, other): &(&SemanticToken, &SemanticToken)| one == other;
    let head = old.iter().zip(new).take_while(same).count();
    let (old, new) = (old.get(head..)?, new.get(head..)?);
    let tail = old
        .iter()
        .rev()
        .zip(new.iter().rev())
        .take_while(same)
        .count();
    let (old, new) = (old.get(..old.len() - tail)?, new.get(..new.len() - tail)?);
    (!old.is_empty() || !new.is_empty()).then(|| SemanticTokensEdit {
        start: 5 * head as u32,
        delete_count: 5 * old.len() as u32,
        data: Some(new.to_vec()),
    })
}

fn coloured(desk: &mut Desk, uri: &Url, range: Option<Range>) -> Option<Vec<SemanticToken>> {
    let look = desk.look(uri)?;
    let text = look.own()?;
    let whole = Span::from(0..text.text.len());
    let wanted = range.map_or(whole, |range| text.span(range));
    Some(encoded(ide::tokens(&look.analysis, wanted), text))
}

/// Each token by its distance from the one before.
fn encoded(tokens: Vec<ide::Token>, text: Counted<'_>) -> Vec<SemanticToken> {
    let mut last = Position::default();
    let mut encode = |token: ide::Token| {
        let at = text.range(token.span);
        let is_same_line = at.start.line == last.line;
        let before = if is_same_line { last.character } else { 0 };
        let kind = TokenKind::ALL.iter().position(|kind| *kind == token.kind)?;
        let encoded = SemanticToken {
            delta_line: at.start.line - last.line,
            delta_start: at.start.character - before,
            length: at.end.character.saturating_sub(at.start.character),
            token_type: kind as u32,
            token_modifiers_bitset: u32::from(token.is_definition),
        };
        last = at.start;
        Some(encoded)
    };
    tokens.into_iter().filter_map(&mut encode).collect()
}

fn kind(kind: TokenKind) -> SemanticTokenType {
    match kind {
        TokenKind::Keyword => SemanticTokenType::KEYWORD,
        TokenKind::Property => SemanticTokenType::PROPERTY,
        TokenKind::Modifier => SemanticTokenType::MODIFIER,
        TokenKind::Type => SemanticTokenType::TYPE,
        TokenKind::Variable => SemanticTokenType::VARIABLE,
        TokenKind::Function => SemanticTokenType::FUNCTION,
        TokenKind::EnumMember => SemanticTokenType::ENUM_MEMBER,
        TokenKind::Number => SemanticTokenType::NUMBER,
        TokenKind::String => SemanticTokenType::STRING,
        TokenKind::Comment => SemanticTokenType::COMMENT,
        TokenKind::Operator => SemanticTokenType::OPERATOR,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn tokens(kinds: &[u32]) -> Vec<SemanticToken> {
        let token = |kind: &u32| SemanticToken {
            delta_line: 0,
            delta_start: 1,
            length: 1,
            token_type: *kind,
            token_modifiers_bitset: 0,
        };
        kinds.iter().map(token).collect()
    }

    proptest! {
        #[test]
        fn a_change_makes_the_old_colours_the_new(
            old in prop::collection::vec(0u32..3, 0..8), new in prop::collection::vec(0u32..3, 0..8),
        ) {
            let (old, new) = (tokens(&old), tokens(&new));
            let mut changed = old.clone();
            match change(&old, &new) {
                None => prop_assert_eq!(&old, &new),
                Some(edit) => {
                    let start = edit.start as usize / 5;
                    let end = start + edit.delete_count as usize / 5;
                    changed.splice(start..end, edit.data.unwrap_or_default());
                }
            }
            prop_assert_eq!(changed, new);
        }
    }
}
