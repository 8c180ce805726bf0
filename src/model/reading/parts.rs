//! The parts of a mix as people say them, `4:1 sand cement`: what the language
//! writes instead.

use super::source::Source;
use crate::findings::{Finding, Fix};
use crate::syntax::{Item, ItemKind};

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
