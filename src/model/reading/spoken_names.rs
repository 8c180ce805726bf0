//! Materials as people say them: `MOT type 1`, `6 in crushed stone`,
//! `concrete pavers`.

use super::super::catalogue;
use super::misread::refused;
use super::number::single;
use super::source::Source;
use crate::findings::Finding;
use crate::materials;
use crate::syntax::{Item, ItemKind};

/// `6 in crushed-stone`: a thickness before what it is the thickness of.
pub(super) fn measure_before_name(source: &Source<'_>, rest: &[Item]) -> Option<(usize, Finding)> {
    let [number, name] = rest else { return None };
    let is_measure = single(source, number).is_some_and(|(_, unit)| unit.is_some());
    if !is_measure || !matches!(name.kind, ItemKind::Word) {
        return None;
    }
    let key = source.slice(source.line.word).to_lowercase();
    // A border is as wide as its units, and a channel has a size of its own.
    if ["border", "channel"].contains(&key.as_str()) {
        let message = format!("the material of a {key} comes first, and its size after a comma");
        return refused(source, rest, "word-stray", message, &[]);
    }
    // What a pipe is laid in lies all round it.
    let behind = match key.as_str() {
        "bedded" => " round",
        _ => "",
    };
    let fix = format!(
        "{}, {}{behind}",
        source.slice(name.span),
        source.slice(number.span)
    );
    let message = format!("the material comes first, and its thickness after a comma: `{fix}`");
    refused(source, rest, "word-stray", message, &[fix])
}

/// `MOT type 1`, `mortar mix`: a name in several words, with one blank between
/// them, and how many items it takes. What it stands for is told where names
/// are looked up, the spec's own first.
pub(crate) fn name_in_words(source: &Source<'_>, rest: &[Item]) -> Option<(String, usize)> {
    let is_part = |item: &&Item| match item.kind {
        ItemKind::Word => true,
        ItemKind::Number { .. } => single(source, item).is_some_and(|(_, unit)| unit.is_none()),
        _ => false,
    };
    let most = rest.iter().take(MOST_WORDS).take_while(is_part).count();
    (2..=most).rev().find_map(|count| {
        let items = rest.get(..count)?;
        let joined: Vec<&str> = items.iter().map(|item| source.slice(item.span)).collect();
        let joined = joined.join("-").to_lowercase();
        // A name that only lacks its hyphens is told of as that.
        let numbered = items.iter().any(|item| item.kind != ItemKind::Word);
        let is_own = numbered && materials::find(&joined).is_some();
        let is_known = is_own || materials::other_name(&joined).is_some();
        let words: Vec<&str> = items.iter().map(|item| source.slice(item.span)).collect();
        is_known.then(|| (words.join(" "), count))
    })
}

/// How many words a material's name has at most: `MOT type 1`.
const MOST_WORDS: usize = 4;

/// The built-in material that a name with another ending means:
/// `concrete-pavers`; or one with its words turned round: `kerb-concrete`.
pub(super) fn built_in(name: &str) -> Option<&'static str> {
    let lower = name.to_lowercase();
    let known = lower.strip_suffix('s').and_then(catalogue::built_in);
    let turned = || {
        let (first, second) = lower.split_once('-')?;
        catalogue::built_in(&format!("{second}-{first}"))
    };
    let known = known.or_else(turned).map(|material| material.name);
    known.or_else(|| materials::other_name(&lower))
}
