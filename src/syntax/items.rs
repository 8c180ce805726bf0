//! From what the grammar found to items.

use pest::iterators::{Pair, Pairs};

use super::blank::is_blank;
use super::grammar::Rule;
use super::line::span_of;
use super::minus::{is_value, settle_minus};
use super::phrases::Reader;
use super::tree::{FaultKind, Item, ItemKind, Operator, Term};
use crate::text::Span;

impl Reader<'_> {
    /// The items of one phrase.
    pub(crate) fn items(&mut self, pairs: Pairs<'_, Rule>) -> Vec<Item> {
        let mut items: Vec<Item> = Vec::new();
        for pair in pairs {
            let span = span_of(&pair);
            let kind = match pair.as_rule() {
                Rule::comment => {
                    self.comment(&pair);
                    continue;
                }
                Rule::rate => {
                    let unit = self.unit(pair);
                    if !items.last().is_some_and(is_value) {
                        let operator = self.operator_of(span);
                        items.push(self.item(operator, self.operator(operator)));
                        items.push(self.item(unit, ItemKind::Word));
                        continue;
                    }
                    ItemKind::Per { unit }
                }
                Rule::text => self.text(pair, items.last()),
                Rule::inch_mark_off => self.inch_mark_off(span, items.last()),
                _ => self.item_kind(pair),
            };
            items.push(self.item(span, kind));
        }
        settle_minus(&mut items, &mut self.faults);
        items.shrink_to_fit();
        items
    }

    fn item_kind(&mut self, pair: Pair<'_, Rule>) -> ItemKind {
        match pair.as_rule() {
            Rule::word => self.word(pair),
            Rule::number | Rule::money => number(pair),
            Rule::group => ItemKind::Group {
                phrases: self.group(pair).into(),
            },
            Rule::small_word | Rule::mark => self.operator(span_of(&pair)),
            Rule::date => ItemKind::Date,
            Rule::minus => ItemKind::Operator(Operator::Subtract),
            Rule::tight_by => ItemKind::By,
            Rule::stray_close => {
                self.fault(span_of(&pair), FaultKind::GroupClose);
                ItemKind::Stray
            }
            _ => ItemKind::Stray,
        }
    }

    /// What an operator's word or mark is.
    fn operator(&self, span: Span) -> ItemKind {
        let written = span.slice(self.text);
        match written {
            "+" => ItemKind::Operator(Operator::Add),
            "*" => ItemKind::Operator(Operator::Multiply),
            "/" => ItemKind::Operator(Operator::Divide),
            "×" => ItemKind::By,
            ":" => ItemKind::Colon,
            "=" => ItemKind::Equals,
            _ if written.eq_ignore_ascii_case("over") => ItemKind::Operator(Operator::Over),
            _ => ItemKind::Operator(Operator::Per),
        }
    }

    /// The `/` or `per` at the start of a stretch.
    fn operator_of(&self, span: Span) -> Span {
        let length = if span.slice(self.text).starts_with('/') {
            1
        } else {
            3
        };
        Span::new(span.start, span.start + length)
    }

    fn item(&self, span: Span, kind: ItemKind) -> Item {
        let (spaced_before, spaced_after) = self.spaces_round(span);
        Item {
            span,
            kind,
            spaced_before,
            spaced_after,
        }
    }

    /// A word, a call or an edge of a shape.
    fn word(&mut self, pair: Pair<'_, Rule>) -> ItemKind {
        let mut inner = pair.into_inner();
        match (inner.next(), inner.next()) {
            (Some(name), Some(group)) if group.as_rule() == Rule::group => ItemKind::Call {
                name: span_of(&name),
                phrases: self.group(group).into(),
            },
            (Some(owner), Some(edge)) => ItemKind::Reference {
                owner: span_of(&owner),
                edge: span_of(&edge),
            },
            _ => ItemKind::Word,
        }
    }

    /// Text. A quote that stands off a number and is never closed, or opens
    /// as no text would, was meant as a mark of inches.
    fn text(&mut self, pair: Pair<'_, Rule>, before: Option<&Item>) -> ItemKind {
        let span = span_of(&pair);
        let inner = pair
            .into_inner()
            .next()
            .map_or(span, |inner| span_of(&inner));
        let quote = Span::new(span.start, inner.start);
        let is_closed = inner.end < span.end;
        let opens_oddly = |text: &str| {
            text.is_empty() || text.starts_with(|c| is_blank(c) || matches!(c, ',' | ')' | '#'))
        };
        if quote.slice(self.text) == "\""
            && before.is_some_and(wants_unit)
            && (!is_closed || opens_oddly(inner.slice(self.text)))
        {
            self.fault(quote, FaultKind::InchMarkOff);
        } else if !is_closed {
            self.fault(span, FaultKind::TextUnclosed);
        }
        ItemKind::Text { inner }
    }

    fn inch_mark_off(&mut self, span: Span, before: Option<&Item>) -> ItemKind {
        if before.is_some_and(wants_unit) {
            self.fault(span, FaultKind::InchMarkOff);
        }
        ItemKind::Stray
    }

    /// The unit after `/` or `per`; comments may stand between.
    fn unit(&mut self, pair: Pair<'_, Rule>) -> Span {
        let mut unit = span_of(&pair);
        for inner in pair.into_inner() {
            match inner.as_rule() {
                Rule::unit => unit = span_of(&inner),
                _ => self.comment(&inner),
            }
        }
        unit
    }

    /// Whether a blank stands before, and a blank or the line's end after.
    fn spaces_round(&self, span: Span) -> (bool, bool) {
        let (before, after) = self
            .text
            .split_at_checked(span.start as usize)
            .unwrap_or_default();
        let after = after.get(span.len() as usize..).unwrap_or_default();
        let is_space = |c: char| is_blank(c) || matches!(c, '\n' | '\r');
        let ends = |c: char| is_space(c) || c == '#';
        (
            before.ends_with(is_space),
            after.is_empty() || after.starts_with(ends),
        )
    }
}

/// True for a number without a unit, with a blank after it.
fn wants_unit(item: &Item) -> bool {
    let ItemKind::Number {
        terms,
        currency: None,
    } = &item.kind
    else {
        return false;
    };
    item.spaced_after && terms.last().is_some_and(|term| term.unit.is_none())
}

/// A number with its units, mark or sign; or tight numbers.
fn number(pair: Pair<'_, Rule>) -> ItemKind {
    let mut terms: Vec<Term> = Vec::new();
    let mut currency = None;
    let mut parts = Vec::new();
    for inner in pair.into_inner() {
        let span = span_of(&inner);
        match inner.as_rule() {
            Rule::figure => terms.push(Term {
                number: span,
                unit: None,
            }),
            Rule::part => parts.push(span),
            Rule::money_sign | Rule::currency => currency = Some(span),
            _ => {
                if let Some(term) = terms.last_mut() {
                    term.unit = Some(span);
                }
            }
        }
    }
    match (parts.as_slice(), terms.first()) {
        ([right], Some(left)) => ItemKind::Ratio {
            left: left.number,
            right: *right,
        },
        ([_, _, ..], _) => ItemKind::TightParts,
        _ => ItemKind::Number {
            terms: terms.into(),
            currency,
        },
    }
}
