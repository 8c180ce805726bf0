//! From the items of a line to the pieces that are laid out.

use super::plain;
use super::token::Tokens;
use crate::syntax::{Item, ItemKind, Operator, Phrase};
use crate::text::Span;
use crate::vocabulary::{Clause, SMALL_WORDS, reads_as};

impl Tokens<'_> {
    /// Adds the phrases of a line and the commas between them. Nothing if
    /// something among them is better left as it was written.
    pub(crate) fn phrases(
        &mut self,
        phrases: &[Phrase],
        commas: &[Span],
        clauses: &[Clause],
    ) -> Option<()> {
        let mut apart = true;
        for (index, phrase) in phrases.iter().enumerate() {
            if let Some(comma) = index.checked_sub(1).and_then(|at| commas.get(at)) {
                apart = !self.is_decimal(*comma);
                self.push(*comma, ",", false)?;
            }
            let clauses = if index == 0 { &[] } else { clauses };
            self.items(&phrase.items, apart, clauses)?;
        }
        Some(())
    }

    /// Adds what stands inside a parenthesis, and the parenthesis that closes
    /// it at the end of `whole`.
    fn members(&mut self, phrases: &[Phrase], whole: Span) -> Option<()> {
        let mut end = None;
        for phrase in phrases {
            let mut apart = false;
            if let Some(end) = end {
                let comma = self.comma_between(end, phrase.span.start)?;
                apart = phrases.len() <= 2 || !self.is_decimal(comma);
                self.push(comma, ",", false)?;
            }
            self.items(&phrase.items, apart, &[])?;
            end = Some(phrase.span.end);
        }
        let close = Span::new(whole.end.saturating_sub(1), whole.end);
        self.push(close, ")", false)
    }

    /// Adds the items of a phrase; `apart` tells of the first.
    fn items(&mut self, items: &[Item], apart: bool, clauses: &[Clause]) -> Option<()> {
        if items.is_empty() {
            return None;
        }
        for (index, item) in items.iter().enumerate() {
            let before = index.checked_sub(1).and_then(|at| items.get(at));
            let earlier = index.checked_sub(2).and_then(|at| items.get(at));
            let after = items.get(index + 1);
            let apart = match before {
                None => apart,
                Some(before) => {
                    // A tab may stand for a comma that is missing.
                    let gap = Span::new(before.span.end, item.span.start).slice(self.text);
                    if gap.contains('\t') && !gap.contains(['\n', '\r']) {
                        return None;
                    }
                    // A date with dots is read as two figures, and `21e5` as a
                    // figure and a word: parted, they would be two.
                    let is_grown = is_figure(item)
                        || item.kind == ItemKind::Word && !is_by(item.span.slice(self.text));
                    if gap.is_empty() && is_figure(before) && is_grown {
                        return None;
                    }
                    !self.is_tight(earlier, before, item, after)
                }
            };
            let clauses = if index == 0 { clauses } else { &[] };
            self.item(before, item, after, apart, clauses)?;
        }
        Some(())
    }

    /// Whether nothing stands between two items.
    fn is_tight(
        &self,
        earlier: Option<&Item>,
        before: &Item,
        item: &Item,
        after: Option<&Item>,
    ) -> bool {
        let divides = |item: &Item| item.kind == ItemKind::Operator(Operator::Divide);
        match (&before.kind, &item.kind) {
            (ItemKind::Negative, _) => true,
            (_, ItemKind::Per { .. }) => item.span.slice(self.text).starts_with('/'),
            _ if divides(item) => is_close_division(Some(before), item, after),
            _ if divides(before) => is_close_division(earlier, before, Some(item)),
            _ => false,
        }
    }

    fn item(
        &mut self,
        before: Option<&Item>,
        item: &Item,
        after: Option<&Item>,
        apart: bool,
        clauses: &[Clause],
    ) -> Option<()> {
        let span = item.span;
        let written = span.slice(self.text);
        match &item.kind {
            ItemKind::Word => {
                // `4 x sharp-sand`: a part that cannot be read, and no size.
                let is_size = |before: &Item| {
                    is_measure(before)
                        && after
                            .is_some_and(|after| !(is_bare(before) && after.kind == ItemKind::Word))
                };
                let word = if before.is_some_and(is_size) && is_by(written) {
                    "by"
                } else {
                    clause_word(written, clauses)
                };
                self.push(span, word, apart)
            }
            ItemKind::Number { terms, currency } => {
                let plain = plain::number(self.text, terms, *currency);
                self.push(span, plain, apart)
            }
            ItemKind::Per { unit } => {
                let unit = plain::unit(unit.slice(self.text));
                let plain = match written.starts_with('/') {
                    true => format!("/{unit}"),
                    false => format!("per {unit}"),
                };
                self.push(span, plain, apart)
            }
            ItemKind::Text { inner } => {
                self.push(span, format!("\"{}\"", inner.slice(self.text)), apart)
            }
            ItemKind::Group { phrases } => {
                self.push(Span::new(span.start, span.start + 1), "(", apart)?;
                self.members(phrases, span)
            }
            ItemKind::Call { name, phrases } => {
                let open = Span::new(name.start, name.end + 1);
                self.push(open, format!("{}(", name.slice(self.text)), apart)?;
                self.members(phrases, span)
            }
            ItemKind::Operator(Operator::Subtract) | ItemKind::Negative => {
                self.push(span, "-", apart)
            }
            ItemKind::Operator(Operator::Per) => self.push(span, "per", apart),
            ItemKind::Operator(Operator::Over) => self.push(span, "over", apart),
            // Where it stands between no two values it is left to be told of.
            ItemKind::By => {
                let is_small = |own: &Item| SMALL_WORDS.contains(&own.span.slice(self.text));
                let is_between = before.is_some_and(|own| ends_value(own) && !is_small(own));
                let is_between = is_between && after.is_some();
                self.push(span, if is_between { "by" } else { written }, apart)
            }
            ItemKind::Reference { .. }
            | ItemKind::Date
            | ItemKind::Ratio { .. }
            | ItemKind::TightParts
            | ItemKind::Operator(_)
            | ItemKind::Colon
            | ItemKind::Equals => self.push(span, written, apart),
            ItemKind::Stray => None,
        }
    }
}

/// A division that is written without blanks, as a rate is: `$24/pallet`.
fn is_close_division(before: Option<&Item>, mark: &Item, after: Option<&Item>) -> bool {
    let is_money = before.is_some_and(|item| {
        matches!(
            item.kind,
            ItemKind::Number {
                currency: Some(_),
                ..
            }
        )
    });
    let is_rate = is_money && after.is_some_and(|item| item.kind == ItemKind::Word);
    is_rate || !mark.spaced_before && !mark.spaced_after
}

fn ends_value(item: &Item) -> bool {
    !matches!(
        item.kind,
        ItemKind::Operator(_)
            | ItemKind::Negative
            | ItemKind::By
            | ItemKind::Colon
            | ItemKind::Equals
            | ItemKind::Stray
    )
}

fn is_figure(item: &Item) -> bool {
    matches!(item.kind, ItemKind::Number { .. })
}

/// What a lone `x` can only mean *by* after.
fn is_measure(item: &Item) -> bool {
    matches!(
        item.kind,
        ItemKind::Number { .. } | ItemKind::Group { .. } | ItemKind::Call { .. }
    )
}

/// Whether a number has no unit.
fn is_bare(item: &Item) -> bool {
    match &item.kind {
        ItemKind::Number { terms, .. } => terms.last().is_some_and(|term| term.unit.is_none()),
        _ => false,
    }
}

/// A word for *by*, in any case.
pub(super) fn is_by(word: &str) -> bool {
    word.eq_ignore_ascii_case("x") || word.eq_ignore_ascii_case("by")
}

/// The word that starts a clause, as the table of the language has it.
fn clause_word<'w>(written: &'w str, clauses: &[Clause]) -> &'w str {
    let words = clauses.iter().filter_map(Clause::word);
    let mut same = words.filter(|word| reads_as(written, word));
    same.next().unwrap_or(written)
}

#[cfg(test)]
mod tests {
    use crate::format::formatted;
    use crate::syntax::Tree;

    #[test]
    fn what_may_mean_another_thing_is_left_alone() {
        for text in [
            "let a = 12.04.2027\n",
            "let a = 3.5.\n",
            "let a = \u{d7} 3\n",
            "let a = 3 \u{d7}\n",
        ] {
            let laid = formatted(&Tree::parse(text.into()));
            assert_eq!(&*laid, text);
        }
        let product = formatted(&Tree::parse("shape a\n  rectangle 3 m \u{d7} 2 m\n".into()));
        assert!(product.contains("3 m by 2 m"), "{}", &*product);
    }
}
