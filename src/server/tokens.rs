//! Colours, whole, in part, or as what has changed.

use tower_lsp::lsp_types::*;

use super::session::Session;
use crate::ide::{RelativeColours, RelativeToken, RelativeTokens, TokenKind};

/// The colours of a document as they were last sent.
#[derive(Debug, Default)]
pub(crate) struct Coloured {
    colours: RelativeColours,
    sent: Option<Sent>,
}

/// The colours of a document under a number.
type Sent = (u64, RelativeTokens);

/// The kinds of token, in the order of their numbers.
pub(crate) fn legend() -> SemanticTokensLegend {
    SemanticTokensLegend {
        token_types: TokenKind::ALL.map(kind).to_vec(),
        token_modifiers: vec![SemanticTokenModifier::DEFINITION],
    }
}

/// All colours of a document.
pub(crate) fn full(
    session: &mut Session,
    params: &SemanticTokensParams,
) -> Option<SemanticTokensResult> {
    let (sent, _) = coloured(session, &params.text_document.uri)?;
    Some(whole(&sent).into())
}

/// The colours of a range.
pub(crate) fn range(
    session: &mut Session,
    params: &SemanticTokensRangeParams,
) -> Option<SemanticTokensRangeResult> {
    let (snapshot, check) = session.read_text(&params.text_document.uri)?;
    let wanted = snapshot.text().span(params.range);
    let colours = &mut check.coloured.colours;
    let tokens = colours.within(&snapshot.file, wanted, snapshot.encoding);
    let (result_id, data) = (None, tokens.into_iter().map(token).collect());
    Some(SemanticTokens { result_id, data }.into())
}

/// What has changed since the colours with a number; all if those are gone.
pub(crate) fn delta(
    session: &mut Session,
    params: &SemanticTokensDeltaParams,
) -> Option<SemanticTokensFullDeltaResult> {
    let (sent, before) = coloured(session, &params.text_document.uri)?;
    let known = before.filter(|(own, _)| own.to_string() == params.previous_result_id);
    let Some((_, old)) = known else {
        return Some(whole(&sent).into());
    };
    let (number, tokens) = &sent;
    // The protocol counts numbers, of which a token has five.
    let change = tokens.change_from(&old).map(|change| SemanticTokensEdit {
        start: 5 * change.start as u32,
        delete_count: 5 * change.gone as u32,
        data: Some(change.come.into_iter().map(token).collect()),
    });
    let delta = SemanticTokensDelta {
        result_id: Some(number.to_string()),
        edits: change.into_iter().collect(),
    };
    Some(delta.into())
}

/// The colours of a document with their number, and those that were sent
/// before.
fn coloured(session: &mut Session, uri: &Url) -> Option<(Sent, Option<Sent>)> {
    let number = session.fresh_number();
    let (snapshot, check) = session.read_text(uri)?;
    let coloured = &mut check.coloured;
    let tokens = coloured.colours.whole(&snapshot.file, snapshot.encoding);
    let before = coloured.sent.replace((number, tokens.clone()));
    Some(((number, tokens), before))
}

fn whole((number, tokens): &Sent) -> SemanticTokens {
    SemanticTokens {
        result_id: Some(number.to_string()),
        data: tokens.iter().map(token).collect(),
    }
}

fn token(token: RelativeToken) -> SemanticToken {
    SemanticToken {
        delta_line: token.lines,
        delta_start: token.columns,
        length: token.length,
        token_type: token.kind as u32,
        token_modifiers_bitset: u32::from(token.is_definition),
    }
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

    #[test]
    fn the_legend_counts_the_kinds_as_they_are_counted() {
        for (number, kind) in TokenKind::ALL.into_iter().enumerate() {
            assert_eq!(kind as usize, number, "{kind:?}");
        }
    }
}
