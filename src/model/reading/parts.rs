//! The parts of a mix as people say them, `4:1 sand cement`: what the language
//! writes instead.

use super::expression::Cursor;
use super::fit::{Fitting, Miss, Wanted};
use super::misread::{self, refused};
use super::source::Source;
use super::value::{NamedPart, Value};
use crate::findings::{Finding, Fix, Place};
use crate::syntax::{Item, ItemKind, Operator};
use crate::vocabulary::{SMALL_WORDS, ValueKind};

impl Fitting<'_, '_> {
    /// `1 portland-cement : 4 sharp-sand`, or parts without names.
    pub(super) fn parts(&mut self, start: usize) -> Result<(Value, usize), Miss> {
        if let Some(unlabelled) = misread::unlabelled(self.source, self.items, start) {
            return Ok((Value::UnlabelledParts(unlabelled), self.items.len()));
        }
        let mut parts = Vec::new();
        let mut next = start;
        loop {
            let mut cursor = Cursor {
                source: *self.source,
                items: self.items,
                next,
                stop: None,
                seconds: false,
            };
            let amount = match cursor.expression() {
                Ok(amount) => amount,
                Err(trouble) => {
                    let wanted = self.wanted(trouble, ValueKind::Number);
                    return self.miss(next, wanted);
                }
            };
            next = cursor.next;
            let Some(item) = self.items.get(next) else {
                return self.miss(next, Wanted::Value(ValueKind::Material));
            };
            let is_small = SMALL_WORDS.contains(&self.source.slice(item.span));
            if item.kind != ItemKind::Word || is_small {
                return self.miss(next, Wanted::Value(ValueKind::Material));
            }
            parts.push(NamedPart {
                amount,
                name: self.source.name(item.span),
                place: self.source.place(item.span),
            });
            next += 1;
            match self.items.get(next).map(|item| &item.kind) {
                Some(ItemKind::Colon) => next += 1,
                _ => return Ok((Value::Parts(parts), next)),
            }
        }
    }
}

/// Words that may stand between the names.
const BETWEEN: [&str; 3] = ["to", "and", "with"];

/// Numbers first and names behind them, as many: how many items that takes,
/// and the finding that puts each number before its name.
pub(crate) fn numbers_before_names(
    source: &Source<'_>,
    items: &[Item],
) -> Option<(usize, Finding)> {
    let (first, rest) = items.split_first()?;
    if !matches!(first.kind, ItemKind::Ratio { .. } | ItemKind::TightParts) {
        return None;
    }
    let numbers: Vec<&str> = source.slice(first.span).split(':').collect();
    let names = names(source, rest)?;
    if names.len() != numbers.len() {
        return None;
    }
    let parts: Vec<String> = numbers
        .iter()
        .zip(&names)
        .map(|(number, name)| format!("{number} {name}"))
        .collect();
    let parts = parts.join(" : ");
    let place = source.place_of(items);
    let message = format!("each number stands before what it counts: `{parts}`");
    let finding = Finding::new("word-stray", place, message).fix(Fix::judged(
        format!("Write `{parts}`"),
        place,
        parts,
    ));
    Some((items.len(), finding))
}

/// `1 portland-cement to 4 sharp-sand`, `1 cement + 4 sand`: parts joined by
/// other than a colon.
pub(crate) fn joined_otherwise(source: &Source<'_>, items: &[Item]) -> Option<(usize, Finding)> {
    let is_joint = |item: &Item| item.kind == ItemKind::Colon || is_joined(source, item);
    if !items.iter().any(|item| is_joined(source, item)) {
        return None;
    }
    let parts = items.split(is_joint).map(|part| {
        let (number, name) = part.split_first()?;
        let is_number = matches!(number.kind, ItemKind::Number { .. });
        let names = names(source, name)?;
        let [name] = names.as_slice() else {
            return None;
        };
        is_number.then(|| format!("{} {name}", source.slice(number.span)))
    });
    let parts = parts.collect::<Option<Vec<String>>>()?.join(" : ");
    let message = format!("the parts of a mix are joined by colons: `{parts}`");
    refused(source, items, "word-stray", message, &[parts])
}

/// Whether an item joins two parts as people say it.
fn is_joined(source: &Source<'_>, item: &Item) -> bool {
    item.kind == ItemKind::Operator(Operator::Add)
        || BETWEEN.iter().any(|word| source.is_word(item, word))
}

/// The names that stand in some items, and where.
pub(crate) fn names_in(source: &Source<'_>, items: &[Item]) -> Vec<(String, Place)> {
    let is_name = |item: &&Item| item.kind == ItemKind::Word && !is_joined(source, item);
    let names = items.iter().filter(is_name);
    names
        .map(|item| (source.name(item.span), source.place(item.span)))
        .collect()
}

/// The names in some items; two words that make one of the catalogue are one.
fn names(source: &Source<'_>, items: &[Item]) -> Option<Vec<String>> {
    let mut names: Vec<String> = Vec::new();
    let mut may_join = false;
    for item in items {
        if item.kind == ItemKind::Colon || BETWEEN.iter().any(|word| source.is_word(item, word)) {
            may_join = false;
            continue;
        }
        let word = source.word(item)?;
        match names.last_mut().filter(|_| may_join) {
            Some(last) if crate::materials::find(&format!("{last}-{word}")).is_some() => {
                *last = format!("{last}-{word}");
            }
            _ => names.push(word.to_owned()),
        }
        may_join = true;
    }
    Some(names)
}
