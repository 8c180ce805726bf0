//! Colours, whole, in part, or as what has changed.

use std::sync::Arc;

use tower_lsp::lsp_types::*;

use super::positions::Ascending;
use super::session::Session;
use super::snapshot::TextSnapshot;
use crate::ide::{self, TokenKind};
use crate::syntax::PerSection;

/// The colours of a document as they were last sent.
#[derive(Debug, Default)]
pub(crate) struct Coloured {
    colours: ide::Colours,
    sections: PerSection<Arc<Encoded>>,
    sent: Option<Sent>,
}

/// The colours of a document under a number.
type Sent = (u64, Vec<Run>);

/// The tokens of one section.
#[derive(Debug)]
struct Encoded {
    /// What it was made from.
    tokens: Arc<[ide::Token]>,
    /// The first is told by its line in the section.
    encoded: Box<[SemanticToken]>,
    /// The last one's line in the section.
    last: u32,
    /// How many lines the section takes.
    lines: u32,
}

/// The tokens of a section where they stand: the first so many lines below
/// the last of those above.
#[derive(Debug, Clone)]
struct Run {
    section: Arc<Encoded>,
    below: u32,
}

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
    let ((number, runs), _) = coloured(session, &params.text_document.uri)?;
    Some(whole(number, &runs).into())
}

/// The colours of a range.
pub(crate) fn range(
    session: &mut Session,
    params: &SemanticTokensRangeParams,
) -> Option<SemanticTokensRangeResult> {
    let snapshot = session.read_text(&params.text_document.uri)?;
    let text = snapshot.text();
    let coloured = session.colours(&params.text_document.uri)?;
    let wanted = text.span(params.range);
    let tokens = coloured.colours.within(&snapshot.file, wanted).into_iter();
    let data = encoded(tokens, text.ascending_from(wanted.start), 0);
    let result_id = None;
    Some(SemanticTokens { result_id, data }.into())
}

/// What has changed since the colours with a number; all if those are gone.
pub(crate) fn delta(
    session: &mut Session,
    params: &SemanticTokensDeltaParams,
) -> Option<SemanticTokensFullDeltaResult> {
    let ((number, runs), before) = coloured(session, &params.text_document.uri)?;
    let known = before.filter(|(own, _)| own.to_string() == params.previous_result_id);
    let Some((_, old)) = known else {
        return Some(whole(number, &runs).into());
    };
    let delta = SemanticTokensDelta {
        result_id: Some(number.to_string()),
        edits: changed(&old, &runs).into_iter().collect(),
    };
    Some(delta.into())
}

/// The colours of a document with their number, and those that were sent
/// before.
fn coloured(session: &mut Session, uri: &Url) -> Option<(Sent, Option<Sent>)> {
    let (snapshot, number) = (session.read_text(uri)?, session.fresh_number());
    let coloured = session.colours(uri)?;
    let runs = coloured.runs(&snapshot);
    let before = coloured.sent.replace((number, runs.clone()));
    Some(((number, runs), before))
}

impl Coloured {
    /// The tokens of all sections; those of a section that is as it was are
    /// the same object as before.
    fn runs(&mut self, snapshot: &TextSnapshot) -> Vec<Run> {
        let text = snapshot.text();
        let mut tokens = self.colours.sections(&snapshot.file).into_iter();
        self.sections
            .renew(&snapshot.file.tree.sections, |placed, known| {
                let tokens = tokens.next().unwrap_or_default();
                let known = known.filter(|known| Arc::ptr_eq(&known.tokens, &tokens));
                known.unwrap_or_else(|| {
                    let first = text.lines.line_of(placed.start);
                    let moved = tokens.iter().map(|token| ide::Token {
                        span: token.span.shift(placed.start),
                        ..*token
                    });
                    let encoded = encoded(moved, text.ascending_from(placed.start), first);
                    Arc::new(Encoded {
                        last: encoded.iter().map(|token| token.delta_line).sum(),
                        encoded: encoded.into_boxed_slice(),
                        lines: text.lines.line_of(placed.span().end) - first,
                        tokens,
                    })
                })
            });
        let (mut line, mut last) = (0, 0);
        let mut run = |section: &Arc<Encoded>| {
            let start = line;
            line += section.lines;
            let below = start + section.encoded.first()?.delta_line - last;
            last = start + section.last;
            Some(Run {
                section: Arc::clone(section),
                below,
            })
        };
        self.sections.iter().filter_map(&mut run).collect()
    }
}

impl Run {
    fn encoded(&self) -> impl Iterator<Item = SemanticToken> {
        let (first, rest) = self.section.encoded.split_first().unzip();
        let first = first.map(|first| SemanticToken {
            delta_line: self.below,
            ..*first
        });
        first.into_iter().chain(rest.into_iter().flatten().copied())
    }

    fn is_same(&self, other: &Run) -> bool {
        self.below == other.below && Arc::ptr_eq(&self.section, &other.section)
    }
}

/// Tokens in order, each by its distance from the one before, the first by
/// its distance from a line.
fn encoded(
    tokens: impl Iterator<Item = ide::Token>,
    mut places: Ascending<'_>,
    line: u32,
) -> Vec<SemanticToken> {
    let mut last = Position::new(line, 0);
    let encode = |token: ide::Token| {
        let at = places.range(token.span);
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
    tokens.filter_map(encode).collect()
}

fn whole(number: u64, runs: &[Run]) -> SemanticTokens {
    SemanticTokens {
        result_id: Some(number.to_string()),
        data: runs.iter().flat_map(Run::encoded).collect(),
    }
}

/// The one change that makes the old colours the new: what lies between what
/// both begin and both end with. Sections that are the same object are not
/// looked into.
fn changed(old: &[Run], new: &[Run]) -> Option<SemanticTokensEdit> {
    let same = |(one, other): &(&Run, &Run)| one.is_same(other);
    let (head, old, new) = middle(old, new, same);
    let start: usize = head.iter().map(|run| run.section.encoded.len()).sum();
    let encoded = |runs: &[Run]| runs.iter().flat_map(Run::encoded).collect::<Vec<_>>();
    let (old, new) = (encoded(old), encoded(new));
    let (head, old, new) = middle(&old, &new, |(one, other)| one == other);
    // The protocol counts numbers, of which a token has five.
    let numbers = |tokens: usize| 5 * tokens as u32;
    (!old.is_empty() || !new.is_empty()).then(|| SemanticTokensEdit {
        start: numbers(start + head.len()),
        delete_count: numbers(old.len()),
        data: Some(new.to_vec()),
    })
}

/// What two lists both begin with, and what lies in each between that and
/// what both end with.
fn middle<'a, T>(
    old: &'a [T],
    new: &'a [T],
    same: impl Fn(&(&T, &T)) -> bool,
) -> (&'a [T], &'a [T], &'a [T]) {
    let head = old.iter().zip(new).take_while(&same).count();
    let (both, old) = old.split_at(head);
    let (_, new) = new.split_at(head);
    let ends = old.iter().rev().zip(new.iter().rev());
    let tail = ends.take_while(same).count();
    let (old, _) = old.split_at(old.len() - tail);
    let (new, _) = new.split_at(new.len() - tail);
    (both, old, new)
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

    /// Sections of one line each, with tokens of these kinds.
    fn sections() -> Vec<Arc<Encoded>> {
        let token = |kind: &u32| SemanticToken {
            delta_start: 1,
            length: 1,
            token_type: *kind,
            ..SemanticToken::default()
        };
        let section = |kinds: &[u32]| {
            Arc::new(Encoded {
                tokens: Arc::default(),
                encoded: kinds.iter().map(token).collect(),
                last: 0,
                lines: 1,
            })
        };
        [&[0][..], &[1], &[0, 1], &[0, 0], &[1, 0]]
            .map(section)
            .to_vec()
    }

    proptest! {
        #[test]
        fn a_change_makes_the_old_colours_the_new(
            old in prop::collection::vec((0usize..5, 1u32..3), 0..8),
            new in prop::collection::vec((0usize..5, 1u32..3), 0..8),
        ) {
            let all = sections();
            let runs = |chosen: &[(usize, u32)]| -> Vec<Run> {
                let run = |(index, below): &(usize, u32)| Run {
                    section: Arc::clone(&all[*index]),
                    below: *below,
                };
                chosen.iter().map(run).collect()
            };
            let (old, new) = (runs(&old), runs(&new));
            let mut made = whole(0, &old).data;
            if let Some(change) = changed(&old, &new) {
                let start = change.start as usize / 5;
                let end = start + change.delete_count as usize / 5;
                made.splice(start..end, change.data.unwrap());
            }
            prop_assert_eq!(made, whole(0, &new).data);
        }
    }
}
