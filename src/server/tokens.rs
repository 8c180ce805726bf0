//! Colours, whole, in part, or as what has changed.

use std::sync::Arc;

use tower_lsp::lsp_types::*;

use super::json;
use super::positions::Ascending;
use super::session::Session;
use super::snapshot::TextSnapshot;
use crate::ide::{self, TokenKind};
use crate::syntax::PerSection;

/// A token as it goes over the wire: how many lines it stands below the one
/// before and, in the same line, how many columns right of its start; its
/// length, its kind and whether it is a definition.
type Numbers = [u32; 5];

/// The colours of a document as they were last sent.
#[derive(Debug, Default)]
pub(crate) struct Coloured {
    colours: ide::Colours,
    sections: PerSection<Arc<Encoded>>,
    sent: Option<(u64, Vec<Run>)>,
}

/// The tokens of one section.
#[derive(Debug)]
struct Encoded {
    /// What it was made from.
    tokens: Arc<[ide::Token]>,
    /// The first is told by its line in the section.
    numbers: Box<[Numbers]>,
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

/// All colours of a document, written.
pub(crate) fn full(
    session: &mut Session,
    params: &SemanticTokensParams,
    to: &mut String,
) -> Option<()> {
    let uri = &params.text_document.uri;
    let (snapshot, number) = (session.read_text(uri)?, session.fresh_number());
    let coloured = session.colours(uri)?;
    let runs = coloured.runs(&snapshot);
    whole(number, &runs, to);
    coloured.sent = Some((number, runs));
    Some(())
}

/// The colours of a range, written.
pub(crate) fn range(
    session: &mut Session,
    params: &SemanticTokensRangeParams,
    to: &mut String,
) -> Option<()> {
    let snapshot = session.read_text(&params.text_document.uri)?;
    let text = snapshot.text();
    let coloured = session.colours(&params.text_document.uri)?;
    let wanted = text.span(params.range);
    let tokens = coloured.colours.within(&snapshot.file, wanted);
    let numbers = encoded(tokens.iter().copied(), text.ascending_from(wanted.start), 0);
    to.push_str(r#"{"data":"#);
    data(&numbers, to);
    to.push('}');
    Some(())
}

/// What has changed since the colours with a number, written; all if those
/// are gone.
pub(crate) fn delta(
    session: &mut Session,
    params: &SemanticTokensDeltaParams,
    to: &mut String,
) -> Option<()> {
    let uri = &params.text_document.uri;
    let (snapshot, number) = (session.read_text(uri)?, session.fresh_number());
    let coloured = session.colours(uri)?;
    let runs = coloured.runs(&snapshot);
    let is_asked = |(own, _): &(u64, Vec<Run>)| own.to_string() == params.previous_result_id;
    match coloured.sent.take().filter(is_asked) {
        None => whole(number, &runs, to),
        Some((_, old)) => {
            to.push_str(&format!(r#"{{"resultId":"{number}","edits":"#));
            json::array(changed(&old, &runs), to, |change, to| {
                let (start, count) = (5 * change.start, 5 * change.count);
                to.push_str(&format!(
                    r#"{{"start":{start},"deleteCount":{count},"data":"#
                ));
                data(&change.numbers, to);
                to.push('}');
            });
            to.push('}');
        }
    }
    coloured.sent = Some((number, runs));
    Some(())
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
                    let numbers = encoded(moved, text.ascending_from(placed.start), first);
                    Arc::new(Encoded {
                        last: numbers.iter().map(|[lines, ..]| lines).sum(),
                        numbers: numbers.into_boxed_slice(),
                        lines: text.lines.line_of(placed.span().end) - first,
                        tokens,
                    })
                })
            });
        let (mut line, mut last) = (0, 0);
        let mut run = |section: &Arc<Encoded>| {
            let start = line;
            line += section.lines;
            let [below, ..] = section.numbers.first()?;
            let below = start + below - last;
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
    fn numbers(&self) -> impl Iterator<Item = Numbers> {
        let (first, rest) = self.section.numbers.split_first().unzip();
        let first = first.map(|[_, rest @ ..]| {
            let [start, length, kind, is_definition] = *rest;
            [self.below, start, length, kind, is_definition]
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
) -> Vec<Numbers> {
    let mut last = Position::new(line, 0);
    let encode = |token: ide::Token| {
        let at = places.range(token.span);
        let is_same_line = at.start.line == last.line;
        let before = if is_same_line { last.character } else { 0 };
        let kind = TokenKind::ALL.iter().position(|kind| *kind == token.kind)?;
        let numbers = [
            at.start.line - last.line,
            at.start.character - before,
            at.end.character.saturating_sub(at.start.character),
            kind as u32,
            u32::from(token.is_definition),
        ];
        last = at.start;
        Some(numbers)
    };
    tokens.filter_map(encode).collect()
}

/// Writes all tokens as they are sent.
fn whole(number: u64, runs: &[Run], to: &mut String) {
    let count: usize = runs.iter().map(|run| run.section.numbers.len()).sum();
    to.reserve(16 * count + 64);
    to.push_str(&format!(r#"{{"resultId":"{number}","data":"#));
    let numbers = runs.iter().flat_map(Run::numbers).flatten();
    json::array(numbers, to, json::number);
    to.push('}');
}

fn data(tokens: &[Numbers], to: &mut String) {
    json::array(tokens.iter().flatten().copied(), to, json::number);
}

/// Tokens put in place of others: of so many from the first of them on.
#[derive(Debug)]
struct Change {
    start: usize,
    count: usize,
    numbers: Vec<Numbers>,
}

/// The one change that makes the old colours the new: what lies between what
/// both begin and both end with. Sections that are the same object are not
/// looked into.
fn changed(old: &[Run], new: &[Run]) -> Option<Change> {
    let same = |(one, other): &(&Run, &Run)| one.is_same(other);
    let (head, old, new) = middle(old, new, same);
    let start: usize = head.iter().map(|run| run.section.numbers.len()).sum();
    let numbers = |runs: &[Run]| runs.iter().flat_map(Run::numbers).collect::<Vec<_>>();
    let (old, new) = (numbers(old), numbers(new));
    let (head, old, new) = middle(&old, &new, |(one, other)| one == other);
    (!old.is_empty() || !new.is_empty()).then(|| Change {
        start: start + head.len(),
        count: old.len(),
        numbers: new.to_vec(),
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
        let section = |kinds: &[u32]| {
            Arc::new(Encoded {
                tokens: Arc::default(),
                numbers: kinds.iter().map(|kind| [0, 1, 1, *kind, 0]).collect(),
                last: 0,
                lines: 1,
            })
        };
        [&[0][..], &[1], &[0, 1], &[0, 0], &[1, 0]]
            .into_iter()
            .map(section)
            .collect()
    }

    fn numbers(runs: &[Run]) -> Vec<Numbers> {
        runs.iter().flat_map(Run::numbers).collect()
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
            let mut changed = numbers(&old);
            match super::changed(&old, &new) {
                None => prop_assert_eq!(numbers(&old), numbers(&new)),
                Some(change) => {
                    let end = change.start + change.count;
                    changed.splice(change.start..end, change.numbers);
                }
            }
            prop_assert_eq!(changed, numbers(&new));
        }
    }
}
