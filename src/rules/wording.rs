//! Turns of phrase that the messages and fixes of many rules share.

use std::cmp::Ordering;

use super::{Context, InForce};
use crate::materials::Kind;
use crate::model::literal;
use crate::sources::Region;
use crate::units::{Quantity, System};
use crate::vocabulary::{Term, entry};

/// A limit as a line of the job would state it: `150 mm`, `6 in`.
pub(crate) fn limit_as_written(limit: &InForce, context: &Context<'_>) -> String {
    match (limit.written, context.system()) {
        ([metric, _], System::Metric) => (*metric).to_owned(),
        ([_, imperial], System::Imperial) => (*imperial).to_owned(),
        ([only], _) => (*only).to_owned(),
        _ => limit.shown(context.system()),
    }
}

/// A quantity as a line of the job would state it; `None` where what is
/// shown is rounded.
pub(crate) fn as_written(quantity: &Quantity, context: &Context<'_>) -> Option<String> {
    let shown = context.show(quantity);
    let read = literal(&shown)?;
    read.compare(*quantity)
        .is_ok_and(Ordering::is_eq)
        .then_some(shown)
}

/// Large thin units of a kind, as they are called where the job is: an
/// American flagstone is of natural stone, and all else is a paver.
pub(crate) fn large_units(kind: Option<Kind>, context: &Context<'_>) -> &'static str {
    match (kind, context.region()) {
        (Some(Kind::NaturalStone), _) | (_, Region::Uk | Region::General) => {
            context.word(Term::Flags)
        }
        _ => "pavers",
    }
}

/// So many days, in words.
pub(crate) fn counted_days(days: i64) -> String {
    match days {
        1 => "1 day".to_owned(),
        _ => format!("{days} days"),
    }
}

/// The words of a text in small letters; they end at whatever is no letter,
/// digit or apostrophe.
pub(crate) fn words(text: &str) -> Vec<String> {
    let plain = text.to_lowercase().replace('\u{2019}', "'");
    plain
        .split(|letter: char| !letter.is_alphanumeric() && letter != '\'')
        .map(|word| word.trim_matches('\''))
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect()
}

/// Whether a text has one of some words, in any case.
pub(crate) fn has_word(text: &str, any: &[&str]) -> bool {
    let mut own = words(text).into_iter();
    own.any(|word| any.contains(&word.as_str()))
}

/// The text of a new entry, to be put where an entry of the same section
/// starts; that entry follows on the next line.
pub(crate) fn entry_before(key: &str, value: &str) -> String {
    format!("{}\n  ", entry(key, value))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_whole() {
        for (text, words, has) in [
            ("broad border", &["road"][..], false),
            ("the Road, then a gully", &["road"], true),
            ("a neighbour\u{2019}s drive", &["neighbour's"], true),
            ("the neighbours' lawn", &["neighbours"], true),
            ("concrete-kerb", &["kerb"], true),
            ("", &["kerb"], false),
        ] {
            assert_eq!(has_word(text, words), has, "{text}");
        }
    }
}
