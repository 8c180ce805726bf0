//! How often a shape comes again, as people write it.

use super::number::single;
use super::source::Source;
use crate::findings::{Finding, Fix};
use crate::syntax::{Item, ItemKind};
use crate::vocabulary::{Clause, DIRECTIONS};

/// Words by which people say how many there are.
const HOW_MANY: &[&str] = &[
    "no", "nos", "nr", "off", "of", "x", "×", "times", "pc", "pcs", "piece", "pieces", "ea",
    "each", "number", "total", "all", "stones", "flags", "slabs", "repeat", "repeated", "repeats",
];

/// Words by which people say how far apart they lie.
const HOW_FAR: &[&str] = &[
    "every", "at", "@", "spaced", "spacing", "pitch", "centre", "centres", "center", "centers",
    "between", "on", "oc", "o.c", "c", "ctrs", "crs", "apart", "of", "to",
];

/// Words by which people say how much lies open between them.
const GAP: &[&str] = &["gap", "gaps", "clear"];

/// A clause by which people say how often a shape comes again, how far apart
/// its likes lie or which way they go, and which the language says otherwise:
/// the clause that is meant, and the finding.
pub(super) fn misread(
    source: &Source<'_>,
    clauses: &'static [Clause],
    items: &[Item],
) -> Option<(&'static Clause, Finding)> {
    let count = clauses.iter().find(|own| own.form.ends_with("in all"))?;
    let clause = |word: &str| clauses.iter().find(|own| own.word() == Some(word));
    let (every, toward) = (clause("every")?, clause("toward")?);
    let place = source.place_of(items);
    let described = |message: String, text: String| {
        let fix = Fix::judged(format!("Write `{text}`"), place, text.as_str());
        Finding::new("word-stray", place, message).fix(fix)
    };
    let how_many = |digits: &str| {
        let text = format!("{digits} in all");
        described(format!("how many there are is written `{text}`"), text)
    };
    let is_number = |item: &&Item| matches!(item.kind, ItemKind::Number { .. });
    let Some(number) = items.iter().find(is_number) else {
        if let Some(way) = way(source, items) {
            let text = format!("toward {way}");
            let message = format!("which way they follow one another is written `{text}`");
            return Some((toward, described(message, text)));
        }
        return Some((count, how_many(times(source, items)?)));
    };
    let (digits, unit) = single(source, number)?;
    let others = words(source, items, number);
    let says = |words: &[&str]| others.iter().any(|word| words.contains(&word.as_str()));
    let all_of = |words: &[&str]| others.iter().all(|word| words.contains(&word.as_str()));
    let is_plain = match unit {
        None => true,
        Some(unit) => ["x", "×"].contains(&unit) || unit == "in" && others == ["total"],
    };
    if is_plain && all_of(HOW_MANY) {
        return Some((count, how_many(digits)));
    }
    if !is_plain && says(GAP) {
        let message = "what lies open between them comes out of their centres: write how far those lie apart, as `every 700 mm between centres`";
        return Some((every, Finding::new("word-stray", place, message)));
    }
    let is_right = others.first().is_some_and(|word| word == "every")
        && others.get(1).is_some_and(|word| word == "between");
    if !is_plain && !is_right && says(HOW_FAR) && all_of(HOW_FAR) {
        let text = format!("every {} between centres", source.slice(number.span));
        let message = format!("how far apart they lie is written from centre to centre: `{text}`");
        return Some((every, described(message, text)));
    }
    None
}

/// The words beside a number, in lower case.
fn words(source: &Source<'_>, items: &[Item], number: &Item) -> Vec<String> {
    let others = items.iter().filter(|item| !std::ptr::eq(*item, number));
    let written = others.map(|item| source.slice(item.span).to_lowercase());
    let is_word = |word: &String| {
        word.chars()
            .any(|one| one.is_alphanumeric() || "×@".contains(one))
    };
    written.filter(is_word).collect()
}

/// `x8`: how many there are, grown together with its sign.
fn times<'a>(source: &Source<'a>, items: &[Item]) -> Option<&'a str> {
    let [item] = items else { return None };
    let written = source.slice(item.span);
    let digits = written.strip_prefix(['x', 'X', '×'])?;
    let is_count = !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
    is_count.then_some(digits)
}

/// `east`, `to east`, `heading east`: a way that lacks its word.
fn way<'a>(source: &Source<'a>, items: &[Item]) -> Option<&'a str> {
    let (way, before) = items.split_last()?;
    let written = source.slice(way.span);
    let is_way = |(word, _): &(&str, f64)| written.eq_ignore_ascii_case(word);
    let is_said = |item: &Item| {
        let others = ["to", "towards", "heading", "going", "facing"];
        others.iter().any(|word| source.is_word(item, word))
    };
    (DIRECTIONS.iter().any(is_way) && before.len() < 2 && before.iter().all(is_said))
        .then_some(written)
}
