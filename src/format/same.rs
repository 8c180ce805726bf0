//! Whether two lines say the same.

use super::columns::is_blank;
use super::items::is_by;
use super::plain;
use crate::syntax::{Item, ItemKind, Phrase, PlacedLine};
use crate::text::Span;
use crate::units::read_number;
use crate::vocabulary::reads_as;

/// True if two lines read the same: kind, words, values and comments. What
/// the formatter never changes is compared as it is written.
pub(super) fn says_the_same(one: &PlacedLine<'_>, other: &PlacedLine<'_>) -> bool {
    let comments = |line: &PlacedLine<'_>| {
        let comments = line.line.comments.iter();
        comments
            .map(|comment| line.text_of(*comment).trim_end_matches(is_blank).to_owned())
            .collect::<Vec<_>>()
    };
    let pair = Pair {
        one: one.text,
        other: other.text,
    };
    one.line.kind == other.line.kind
        && one.line.faults.is_empty() == other.line.faults.is_empty()
        && one.word().eq_ignore_ascii_case(other.word())
        && comments(one) == comments(other)
        && one.line.commas.len() == other.line.commas.len()
        && pair.phrases(&one.line.phrases, &other.line.phrases)
}

/// The texts of two lines.
struct Pair<'t> {
    one: &'t str,
    other: &'t str,
}

impl<'t> Pair<'t> {
    fn texts(&self, one: Span, other: Span) -> (&'t str, &'t str) {
        (one.slice(self.one), other.slice(self.other))
    }

    fn phrases(&self, ones: &[Phrase], others: &[Phrase]) -> bool {
        ones.len() == others.len()
            && ones.iter().zip(others).all(|(one, other)| {
                one.items.len() == other.items.len()
                    && one
                        .items
                        .iter()
                        .zip(&other.items)
                        .all(|(one, other)| self.item(one, other))
            })
    }

    fn item(&self, one: &Item, other: &Item) -> bool {
        let (written, plain) = self.texts(one.span, other.span);
        match (&one.kind, &other.kind) {
            (
                ItemKind::Number { terms, currency },
                ItemKind::Number {
                    terms: others,
                    currency: money,
                },
            ) => {
                let upper = |span: Option<Span>, text| {
                    span.map(|span: Span| span.slice(text).to_ascii_uppercase())
                };
                let same_terms = terms.iter().zip(others).all(|(one, other)| {
                    let (number, again) = self.texts(one.number, other.number);
                    let unit = |unit: Option<Span>, text| {
                        unit.map(|unit: Span| plain::unit(unit.slice(text)))
                    };
                    read_number(number) == read_number(again)
                        && unit(one.unit, self.one) == unit(other.unit, self.other)
                });
                terms.len() == others.len()
                    && same_terms
                    && upper(*currency, self.one) == upper(*money, self.other)
            }
            (ItemKind::Text { inner }, ItemKind::Text { inner: again }) => {
                let (inner, again) = self.texts(*inner, *again);
                inner == again
            }
            (ItemKind::Per { unit }, ItemKind::Per { unit: again }) => {
                let (unit, again) = self.texts(*unit, *again);
                plain::unit(unit) == plain::unit(again)
            }
            (ItemKind::Group { phrases }, ItemKind::Group { phrases: again }) => {
                self.phrases(phrases, again)
            }
            (
                ItemKind::Call { name, phrases },
                ItemKind::Call {
                    name: other,
                    phrases: again,
                },
            ) => {
                let (name, other) = self.texts(*name, *other);
                name == other && self.phrases(phrases, again)
            }
            (ItemKind::By, ItemKind::Word) => is_by(plain),
            (ItemKind::Word, ItemKind::Word) => {
                written == plain || is_by(written) && is_by(plain) || reads_as(written, plain)
            }
            (ItemKind::Operator(one), ItemKind::Operator(other)) => one == other,
            (ItemKind::Negative, ItemKind::Negative) | (ItemKind::By, ItemKind::By) => true,
            (one, other) => {
                std::mem::discriminant(one) == std::mem::discriminant(other) && written == plain
            }
        }
    }
}
