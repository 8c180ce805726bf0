//! Colours as editors take them: each token told by its distance from the one
//! before, and of two looks at a text only what has changed.

use std::sync::Arc;

use super::{Colours, Token, TokenKind};
use crate::analysis::File;
use crate::syntax::PerSection;
use crate::text::{Ascending, Encoding, Span};

/// A token, told by its distance from the one before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct RelativeToken {
    /// How many lines below.
    pub lines: u32,
    /// How many columns after the start of the one before in the same line, or
    /// of the line.
    pub columns: u32,
    /// How many columns it takes.
    pub length: u32,
    /// What it is.
    pub kind: TokenKind,
    /// Whether a name is given here.
    pub is_definition: bool,
}

/// What was told of a file the last time. A fresh one tells the same, only
/// later.
#[derive(Debug, Default)]
pub(crate) struct RelativeColours {
    colours: Colours,
    sections: PerSection<Arc<Section>>,
}

/// All tokens of a text.
#[derive(Debug, Clone, Default)]
pub(crate) struct RelativeTokens(Vec<Run>);

/// What makes the tokens of one text those of another.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct TokenChange {
    /// How many stay before it.
    pub start: usize,
    /// How many go.
    pub gone: usize,
    /// What comes in their place.
    pub come: Vec<RelativeToken>,
}

/// The tokens of one section.
#[derive(Debug)]
struct Section {
    /// What it was made from.
    tokens: Arc<[Token]>,
    /// The first is told by its line in the section.
    relative: Box<[RelativeToken]>,
    /// The last one's line in the section.
    last: u32,
    /// How many lines the section takes.
    lines: u32,
}

/// The tokens of a section where they stand: the first so many lines below
/// the last of those above.
#[derive(Debug, Clone)]
struct Run {
    section: Arc<Section>,
    below: u32,
}

impl RelativeColours {
    /// The tokens in a stretch of a file, the first told from the start of the
    /// file.
    pub(crate) fn within(
        &mut self,
        file: &File,
        wanted: Span,
        encoding: Encoding,
    ) -> Vec<RelativeToken> {
        let tokens = self.colours.within(file, wanted).into_iter();
        relative(tokens, file, encoding, wanted.start, 0)
    }

    /// The tokens of a file; those of a section that is as it was are the same
    /// object as before.
    pub(crate) fn whole(&mut self, file: &File, encoding: Encoding) -> RelativeTokens {
        let mut tokens = self.colours.sections(file).into_iter();
        self.sections.renew(&file.tree.sections, |placed, known| {
            let tokens = tokens.next().unwrap_or_default();
            let known = known.filter(|known| Arc::ptr_eq(&known.tokens, &tokens));
            known.unwrap_or_else(|| {
                let first = file.lines.line_of(placed.start);
                let moved = tokens.iter().map(|token| Token {
                    span: token.span.shift(placed.start),
                    ..*token
                });
                let relative = relative(moved, file, encoding, placed.start, first);
                Arc::new(Section {
                    last: relative.iter().map(|token| token.lines).sum(),
                    relative: relative.into_boxed_slice(),
                    lines: file.lines.line_of(placed.span().end) - first,
                    tokens,
                })
            })
        });
        let (mut line, mut last) = (0, 0);
        let mut run = |section: &Arc<Section>| {
            let start = line;
            line += section.lines;
            let below = start + section.relative.first()?.lines - last;
            last = start + section.last;
            Some(Run {
                section: Arc::clone(section),
                below,
            })
        };
        RelativeTokens(self.sections.iter().filter_map(&mut run).collect())
    }
}

impl RelativeTokens {
    /// Each token in turn.
    pub(crate) fn iter(&self) -> impl Iterator<Item = RelativeToken> {
        self.0.iter().flat_map(Run::tokens)
    }

    /// The one change that makes the tokens of before these, if they differ:
    /// what lies between what both begin and both end with. Sections that are
    /// the same object are not looked into.
    pub(crate) fn change_from(&self, before: &RelativeTokens) -> Option<TokenChange> {
        let (head, old, new) = middle(&before.0, &self.0, |(one, other)| one.is_same(other));
        let start: usize = head.iter().map(|run| run.section.relative.len()).sum();
        let tokens = |runs: &[Run]| runs.iter().flat_map(Run::tokens).collect::<Vec<_>>();
        let (old, new) = (tokens(old), tokens(new));
        let (head, old, new) = middle(&old, &new, |(one, other)| one == other);
        (!old.is_empty() || !new.is_empty()).then(|| TokenChange {
            start: start + head.len(),
            gone: old.len(),
            come: new.to_vec(),
        })
    }
}

impl Run {
    fn tokens(&self) -> impl Iterator<Item = RelativeToken> {
        let (first, rest) = self.section.relative.split_first().unzip();
        let first = first.map(|first| RelativeToken {
            lines: self.below,
            ..*first
        });
        first.into_iter().chain(rest.into_iter().flatten().copied())
    }

    fn is_same(&self, other: &Run) -> bool {
        self.below == other.below && Arc::ptr_eq(&self.section, &other.section)
    }
}

/// Tokens in order from a byte on, each by its distance from the one before,
/// the first by its distance from a line.
fn relative(
    tokens: impl Iterator<Item = Token>,
    file: &File,
    encoding: Encoding,
    from: u32,
    line: u32,
) -> Vec<RelativeToken> {
    let mut places = Ascending::new(&file.tree.text, &file.lines, encoding, from);
    let (mut last_line, mut last_column) = (line, 0);
    let tell = |token: Token| {
        let (start, end) = (
            places.position(token.span.start),
            places.position(token.span.end),
        );
        let lines = start.line - last_line;
        let before = if lines == 0 { last_column } else { 0 };
        (last_line, last_column) = (start.line, start.column);
        RelativeToken {
            lines,
            columns: start.column - before,
            length: end.column.saturating_sub(start.column),
            kind: token.kind,
            is_definition: token.is_definition,
        }
    };
    tokens.map(tell).collect()
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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Sections of one line each, with tokens of these kinds.
    fn sections() -> Vec<Arc<Section>> {
        let token = |kind: &TokenKind| RelativeToken {
            lines: 0,
            columns: 1,
            length: 1,
            kind: *kind,
            is_definition: false,
        };
        let section = |kinds: &[TokenKind]| {
            Arc::new(Section {
                tokens: Arc::default(),
                relative: kinds.iter().map(token).collect(),
                last: 0,
                lines: 1,
            })
        };
        use TokenKind::{Number, String};
        [
            &[Number][..],
            &[String],
            &[Number, String],
            &[Number, Number],
            &[String, Number],
        ]
        .map(section)
        .to_vec()
    }

    proptest! {
        #[test]
        fn a_change_makes_the_old_tokens_the_new(
            old in prop::collection::vec((0usize..5, 1u32..3), 0..8),
            new in prop::collection::vec((0usize..5, 1u32..3), 0..8),
        ) {
            let all = sections();
            let tokens = |chosen: &[(usize, u32)]| -> RelativeTokens {
                let run = |(index, below): &(usize, u32)| Run {
                    section: Arc::clone(&all[*index]),
                    below: *below,
                };
                RelativeTokens(chosen.iter().map(run).collect())
            };
            let (old, new) = (tokens(&old), tokens(&new));
            let mut made: Vec<RelativeToken> = old.iter().collect();
            if let Some(change) = new.change_from(&old) {
                made.splice(change.start..change.start + change.gone, change.come);
            }
            prop_assert_eq!(made, new.iter().collect::<Vec<_>>());
        }
    }
}
