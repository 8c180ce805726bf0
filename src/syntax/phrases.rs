//! From what the grammar found to phrases, parted at their commas.

use pest::iterators::{Pair, Pairs};

use super::blank::is_blank;
use super::grammar::Rule;
use super::line::span_of;
use super::tree::{Fault, FaultKind, Phrase};
use crate::text::Span;

/// What is gathered while one line is read.
pub(super) struct Reader<'t> {
    /// The line's text.
    pub text: &'t str,
    /// The comments found so far, in order.
    pub comments: Vec<Span>,
    /// The faults found so far.
    pub faults: Vec<Fault>,
}

impl<'t> Reader<'t> {
    /// Before anything of the line is read.
    pub(crate) fn new(text: &'t str) -> Self {
        Self {
            text,
            comments: Vec::new(),
            faults: Vec::new(),
        }
    }

    /// The phrases and the commas between them: one phrase more than commas,
    /// unless there is nothing at all. `at` is where an empty first phrase stands.
    pub(crate) fn phrases(&mut self, pairs: Pairs<'_, Rule>, at: u32) -> (Vec<Phrase>, Vec<Span>) {
        let mut phrases = Vec::new();
        let mut commas: Vec<Span> = Vec::new();
        let mut phrase = None;
        let empty_at = |at| Phrase {
            span: Span::at(at),
            items: Box::default(),
        };
        for pair in pairs {
            match pair.as_rule() {
                Rule::phrase | Rule::member => phrase = self.phrase(pair.into_inner()),
                Rule::comma => {
                    let place = commas.last().map_or(at, |comma| comma.end);
                    phrases.push(phrase.take().unwrap_or_else(|| empty_at(place)));
                    commas.push(span_of(&pair));
                }
                Rule::comment => self.comment(&pair),
                _ => {}
            }
        }
        match (phrase, commas.last()) {
            (Some(phrase), _) => phrases.push(phrase),
            (None, Some(comma)) => phrases.push(empty_at(comma.end)),
            (None, None) => {}
        }
        for (comma, after) in commas.iter().zip(phrases.iter().skip(1)) {
            if after.items.is_empty() {
                self.fault(*comma, FaultKind::CommaStray);
            }
        }
        (phrases, commas)
    }

    /// A phrase of at least one item.
    fn phrase(&mut self, pairs: Pairs<'_, Rule>) -> Option<Phrase> {
        let items = self.items(pairs);
        let span = items.first()?.span.join(items.last()?.span);
        Some(Phrase {
            span,
            items: items.into(),
        })
    }

    /// The phrases inside a parenthesis, in which no place may stay empty.
    pub(crate) fn group(&mut self, group: Pair<'_, Rule>) -> Vec<Phrase> {
        let whole = span_of(&group);
        let opening = Span::new(whole.start, whole.start + 1);
        let inner = group.into_inner();
        if inner.clone().all(|pair| pair.as_rule() != Rule::group_end) {
            self.fault(opening, FaultKind::GroupOpen);
        }
        let (phrases, commas) = self.phrases(inner, opening.end);
        // A comma before which nothing stands; those with nothing after it are
        // told of already.
        let empty = phrases.iter().take_while(|phrase| phrase.items.is_empty());
        let leading = empty.count();
        if leading < phrases.len()
            && let Some(comma) = leading.checked_sub(1).and_then(|last| commas.get(last))
        {
            self.fault(*comma, FaultKind::CommaStray);
        }
        phrases
    }

    /// Notes a comment. A `#` that touches a digit is rarely meant as one,
    /// unless nothing but a comment could start there.
    pub(crate) fn comment(&mut self, pair: &Pair<'_, Rule>) {
        let comment = span_of(pair);
        let mark = Span::new(comment.start, comment.start + 1);
        let before = Span::new(0, mark.start).slice(self.text);
        let after = Span::new(mark.end, comment.end).slice(self.text);
        let line = before.rsplit(['\n', '\r']).next().unwrap_or_default();
        let is_digit = |character: char| character.is_ascii_digit();
        let touches = before.ends_with(is_digit) || after.starts_with(is_digit);
        if touches && !line.chars().all(is_blank) {
            self.fault(mark, FaultKind::HashTouchesDigit);
        }
        self.comments.push(comment);
    }

    /// Notes a fault.
    pub(crate) fn fault(&mut self, span: Span, kind: FaultKind) {
        self.faults.push(Fault { span, kind });
    }
}
