//! A value and its word the wrong way round, a word that is another's, or one
//! too many: `circle 5 m diameter`, `fall 1:60 to south`, `F2/S2`.

use super::entry::Reader;
use crate::findings::{Finding, Fix};
use crate::syntax::{Item, ItemKind, Operator};
use crate::vocabulary::{Form, Part};

impl Reader<'_, '_> {
    /// `circle 5 m diameter`, `circle 5 m`: a value behind which its word
    /// stands, or which may go with several.
    pub(super) fn word_behind_value(&self, items: &[Item], at: usize) -> Option<Finding> {
        let number = items.get(at)?;
        if !matches!(number.kind, ItemKind::Number { .. }) {
            return None;
        }
        let words = self.words_before_values()?;
        let shown = self.source.slice(number.span);
        let place = self.source.place(number.span);
        let Some(behind) = items.get(at + 1).and_then(|next| self.source.word(next)) else {
            let message = format!("`{}` is missing before `{shown}`", words.join("` or `"));
            let finding = Finding::new("word-stray", place, message);
            return Some(words.into_iter().fold(finding, |finding, word| {
                finding.fix(Fix::judged(
                    format!("Write `{word}` before it"),
                    place.start(),
                    format!("{word} "),
                ))
            }));
        };
        let lower = behind.to_lowercase();
        let own = words.into_iter().find(|word| *word == lower);
        let own = own.or_else(|| self.row.other_word(&lower))?;
        let whole = self.source.place_of(items.get(at..at + 2)?);
        let text = format!("{own} {shown}");
        let message = format!("`{own}` comes before its value: `{text}`");
        let finding = Finding::new("word-stray", whole, message);
        Some(finding.fix(Fix::judged(format!("Write `{text}`"), whole, text)))
    }

    /// The words of which the value begins with one, each before a figure.
    fn words_before_values(&self) -> Option<Vec<&'static str>> {
        let [Part::Either(choices)] = Form::of(self.row.value).parts.as_slice() else {
            return None;
        };
        let words = choices.iter().map(|choice| match choice.as_slice() {
            [Part::Word(word), Part::Slot { kind, .. }] if kind.is_quantity() => Some(*word),
            _ => None,
        });
        words.collect()
    }

    /// `fall 1:60 to south`: a way by `to`, where that leads to a drain.
    pub(super) fn way_by_to(&self, items: &[Item], at: usize) -> Option<Finding> {
        let to = items.get(at)?;
        let next = items
            .get(at + 1)
            .filter(|next| next.kind == ItemKind::Word)?;
        let spoken = ["to", "towards", "into", "facing"];
        let is_to = spoken.iter().any(|word| self.source.is_word(to, word));
        if !is_to || !self.row.says("toward HEADING") {
            return None;
        }
        let place = self.source.place(to.span);
        let (shown, way) = (self.source.slice(to.span), self.source.slice(next.span));
        let message = format!("`toward` belongs here and not `{shown}`: `toward {way}`");
        let finding = Finding::new("word-stray", place, message);
        Some(finding.fix(Fix::judged("Write `toward`", place, "toward")))
    }

    /// `durability F2/S2`: a class with another behind a slash, of which one is
    /// stated.
    pub(super) fn two_classes(&mut self, left: &[Item]) -> bool {
        let [slash, other] = left else { return false };
        let is_slash = matches!(slash.kind, ItemKind::Operator(Operator::Divide));
        let form = Form::of(self.row.value);
        let is_class = matches!(form.parts.as_slice(), [Part::Choice { .. }]);
        if !is_slash || slash.spaced_before || other.kind != ItemKind::Word || !is_class {
            return false;
        }
        let whole = self.source.place(slash.span.join(other.span));
        let shown = self.source.text_of(left);
        let message = format!(
            "`{}` takes one word: take out `{shown}`, which no rule looks at",
            self.row.word
        );
        let finding = Finding::new("word-stray", whole, message);
        self.findings
            .push(finding.fix(Fix::judged(format!("Take out `{shown}`"), whole, "")));
        true
    }
}
