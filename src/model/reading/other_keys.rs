//! Keys and headings by the words that people have for them.

use super::entry::names_substance;
use super::number::single;
use super::source::{Source, meant};
use crate::findings::{Finding, Fix, Place};
use crate::materials::{self, CatalogueMaterial, Kind};
use crate::syntax::{Item, ItemKind, Line};
use crate::text::Span;
use crate::vocabulary::{Key, Part, SECTIONS, SectionKind, other_word, section};

/// What a drain is, by which people begin its section: `pipe pipe-1`.
const DRAINS: &[&str] = &["pipe", "channel", "gully", "trench", "soakaway"];

/// The kind of section that a heading means by another word, so plainly that
/// it is read as one: `project "Back patio"`, or a word of entries with one
/// name behind it and lines under it.
pub(super) fn meant_by_heading(
    word: &str,
    line: &Line,
    is_alone: bool,
) -> Option<&'static SectionKind> {
    let lower = word.to_lowercase();
    let is_name = match &*line.phrases {
        [phrase] => matches!(&*phrase.items, [only] if only.kind == ItemKind::Word),
        _ => false,
    };
    let kind = match lower.as_str() {
        own if other_word("", own) == Some("job") => "job",
        own if DRAINS.contains(&own) && is_name && !is_alone => "drain",
        own if other_word("", own) == Some("surface") && is_name && !is_alone => "surface",
        _ => return None,
    };
    section(kind)
}

/// A key that is one thing to some and another to others: both are offered.
pub(super) fn two_readings(kind: &str, lower: &str, word: &str, place: Place) -> Option<Finding> {
    if (kind, lower) != ("build", "slabs") {
        return None;
    }
    let message = format!("`{word}` may be paving in pieces, or a slab that is poured: say which");
    let finding = Finding::new("word-unknown", place, message);
    let fix = |key: &str| Fix::judged(format!("Write `{key}`"), place, key);
    Some(finding.fix(fix("paving")).fix(fix("slab")))
}

/// The key that is meant by the word of a kind of section: `drain to "lawn"`
/// in a surface is where its water goes.
pub(super) fn key_meant(
    kind: &'static str,
    lower: &str,
    source: &Source<'_>,
) -> Option<&'static str> {
    let goes_to = source
        .first()
        .is_some_and(|first| source.is_word(first, "to"));
    match (kind, lower) {
        ("surface", "drain") if goes_to => Some("water"),
        _ => other_word(kind, lower),
    }
}

/// `frost line 36"`, `expansion joint 12 mm`: a key said in two words that are
/// another for it.
pub(super) fn key_in_two(kind: &'static SectionKind, source: &Source<'_>) -> Option<Finding> {
    let items = &source.line.phrases.first()?.items;
    let (second, rest) = items.split_first()?;
    let word = source.slice(source.line.word);
    let spoken = format!("{word}-{}", source.word(second)?).to_lowercase();
    let own = other_word(kind.word, &spoken)?;
    let place = source.place(source.line.word.join(second.span));
    // Behind a key the second may be the name of a value.
    let is_figure = |item: &Item| matches!(item.kind, ItemKind::Number { .. } | ItemKind::Negative);
    if kind.key(word).is_some() && !rest.first().is_some_and(is_figure) {
        return None;
    }
    // `expansion joint every 3 m`: how far apart, and not how wide.
    let begins = |key: &&Key| match key.parsed().parts.first() {
        Some(Part::Word(word)) => rest
            .first()
            .is_some_and(|first| source.is_word(first, word)),
        _ => false,
    };
    let is_meant = kind.key(own).is_some_and(|key| begins(&key));
    let by_word = kind.keys.iter().find(begins).filter(|_| !is_meant);
    let stands = source.slice(source.line.word.join(second.span));
    Some(key_called(
        stands,
        by_word.map_or(own, |key| key.word),
        place,
    ))
}

/// Tells of a key by another word. Control joints are those of a slab, which
/// stand with it, or those of paving.
pub(super) fn key_called(stands: &str, own: &'static str, place: Place) -> Finding {
    let is_control = ["control", "contraction"].map(|word| stands.starts_with(word));
    if own != "movement-joints" || !is_control.contains(&true) {
        return meant(stands, own, place);
    }
    let message = format!(
        "joints of a slab stand on its line, `joints every …`; those of paving are `{own}`"
    );
    let fix = Fix::judged(format!("Write `{own}`"), place, own);
    Finding::new("word-unknown", place, message).fix(fix)
}

/// The key that a word is in the singular or the plural: `units` for `unit`.
pub(super) fn key_in_other_number(kind: &SectionKind, lower: &str) -> Option<&'static Key> {
    let keys: &'static [Key] = kind.keys;
    let one = |word: &'static str| word.strip_suffix('s').unwrap_or(word);
    let own = lower.strip_suffix('s').unwrap_or(lower);
    keys.iter().find(|key| one(key.word) == own)
}

/// `square 4 m`: a rectangle with two sides alike.
pub(super) fn square(kind: &str, lower: &str, source: &Source<'_>) -> Option<Finding> {
    if (kind, lower) != ("shape", "square") {
        return None;
    }
    let side = source.line.phrases.first()?;
    let side = Some(source.text_of(&side.items)).filter(|side| !side.is_empty())?;
    let place = source.place(source.line.word);
    let written = format!("rectangle {side} by {side}");
    let whole = place.to(source.place_of(&source.line.phrases.first()?.items));
    let message = format!("a square is written `{written}`");
    let finding = Finding::new("word-unknown", place, message);
    Some(finding.fix(Fix::judged(format!("Write `{written}`"), whole, written)))
}

/// `go east 3 m`: a word of doing before the key of an entry.
pub(super) fn word_before_key(
    kind: &SectionKind,
    source: &Source<'_>,
    lower: &str,
    place: Place,
) -> Option<Finding> {
    const DOING: &[&str] = &["go", "then", "head", "run", "turn", "walk", "draw", "move"];
    let next = source.first().filter(|_| DOING.contains(&lower))?;
    let key = kind.key(source.word(next)?)?;
    let gone = Place {
        span: Span::new(place.span.start, source.place(next.span).span.start),
        ..place
    };
    let message = format!(
        "`{lower}` is not needed: the line begins with `{}`",
        key.word
    );
    let finding = Finding::new("word-unknown", place, message);
    Some(finding.fix(Fix::judged(format!("Take out `{lower}`"), gone, "")))
}

/// `mortar bed, 40 mm`: what a layer is made of before its key.
pub(super) fn name_before_key(kind: &SectionKind, source: &Source<'_>) -> Option<Finding> {
    let items = &source.line.phrases.first()?.items;
    let is_part = |item: &&Item| match item.kind {
        ItemKind::Word => true,
        // `mot type 1 base`.
        ItemKind::Number { .. } => single(source, item).is_some_and(|(_, unit)| unit.is_none()),
        _ => false,
    };
    let at = items.iter().take_while(is_part).position(|item| {
        let key = kind.key(source.slice(item.span));
        key.is_some_and(|key| names_substance(&key.parsed().parts))
    })?;
    let rest = items.get(at + 1..)?;
    let is_measure = |item: &Item| matches!(item.kind, ItemKind::Number { .. });
    if !rest.first().is_none_or(is_measure) {
        return None;
    }
    let key = items.get(at)?;
    let name: Vec<&str> = std::iter::once(source.line.word)
        .chain(items.iter().take(at).map(|item| item.span))
        .map(|span| source.slice(span))
        .collect();
    let name = name.join("-").to_lowercase();
    // One word may well be the name of a mix of the spec's own.
    let known = built_in_or_other(&name).filter(|_| name.contains('-'));
    let name = known.map_or(name, |known| known.name.to_owned());
    let written = format!("{} {name}", source.slice(key.span));
    let place = source.place(source.line.word.join(key.span));
    let message = format!("the layer comes first, then what it is made of: `{written}`");
    let finding = Finding::new("word-unknown", place, message);
    let title = format!("Write `{written}`");
    Some(match rest.first() {
        Some(first) => {
            let end = source.place(first.span).span.start;
            let span = Span::new(place.span.start, end);
            finding.fix(Fix::judged(
                title,
                Place { span, ..place },
                format!("{written}, "),
            ))
        }
        None => finding.fix(Fix::judged(title, place, written)),
    })
}

/// `rise 150 mm`, `riser height 6 in`: how high a riser is, which nobody
/// states.
pub(super) fn height_of_riser(kind: &str, lower: &str, source: &Source<'_>) -> Option<Finding> {
    let first = source.first()?;
    let is_measure = |item: &Item| matches!(item.kind, ItemKind::Number { .. });
    let is_height = source
        .word(first)
        .is_some_and(|word| ["height", "high"].contains(&word.to_lowercase().as_str()));
    let is_it = match lower {
        "rise" => is_measure(first) || is_height,
        "riser" => is_height,
        _ => false,
    };
    if kind != "steps" || !is_it {
        return None;
    }
    let place = source.place(source.line.word);
    let line = source.place(Span::new(0, source.line.length));
    let message = "how high each riser is comes from `from`, `to` and `risers`: take the line out";
    let finding = Finding::new("word-unknown", place, message);
    Some(finding.fix(Fix::judged("Take the line out", line, "")))
}

/// `concrete flag, 50 mm`: a material of several words, of which the first is
/// another word for a key.
pub(super) fn material_in_words(kind: &SectionKind, source: &Source<'_>) -> Option<Finding> {
    let next = source.first().filter(|next| next.kind == ItemKind::Word)?;
    let both = [source.line.word, next.span].map(|span| source.slice(span));
    built_in_or_other(&both.join("-").to_lowercase())?;
    material_as_key(kind, source)
}

/// `bed sand` at the margin, below a section that has no such entry.
pub(super) fn entry_at_margin(word: &str, place: Place) -> Option<Finding> {
    /// So many kinds of section are named.
    const MOST_NAMED: usize = 3;
    let kinds = SECTIONS.iter().filter(|kind| kind.key(word).is_some());
    let things: Vec<String> = kinds.map(|kind| kind.thing()).collect();
    let is_named = (1..=MOST_NAMED).contains(&things.len());
    let message = format!(
        "`{word}` is an entry of {}: write it indented under one",
        things.join(" or ")
    );
    is_named.then(|| Finding::new("entry-misplaced", place, message))
}

/// `nosing 20 mm` on a line of its own, away from the entry that it says more
/// of: nothing like an entry of its own is meant.
pub(super) fn clause_of_others(kind: &SectionKind, word: &str, place: Place) -> Option<Finding> {
    let says = |key: &&Key| key.clauses.iter().any(|clause| clause.word() == Some(word));
    let keys: Vec<String> = kind
        .keys
        .iter()
        .filter(says)
        .map(|key| format!("`{}`", key.word))
        .collect();
    let (last, others) = keys.split_last()?;
    let keys = match others {
        [] => last.clone(),
        others => format!("{} or {last}", others.join(", ")),
    };
    let message = format!("`{word}` says more of {keys}, and stands on its line after a comma");
    Some(Finding::new("entry-misplaced", place, message))
}

/// `mortar 40 mm`: a layer by its material alone, where the word by itself may
/// mean the layer too.
pub(super) fn material_before_figure(kind: &SectionKind, source: &Source<'_>) -> Option<Finding> {
    let first = source.first();
    first.filter(|next| next.kind != ItemKind::Word)?;
    material_as_key(kind, source)
}

/// `gravel 6 in compacted`: a layer that begins with what it is made of.
pub(super) fn material_as_key(kind: &SectionKind, source: &Source<'_>) -> Option<Finding> {
    if kind.word != "build" {
        return None;
    }
    let word = source.line.word;
    let items = &source.line.phrases.first()?.items;
    let words = items.iter().take_while(|item| item.kind == ItemKind::Word);
    let ends: Vec<Span> = std::iter::once(word)
        .chain(words.map(|item| item.span))
        .collect();
    let (count, material) = (1..=ends.len()).rev().find_map(|count| {
        let named: Vec<&str> = ends
            .iter()
            .take(count)
            .map(|span| source.slice(*span))
            .collect();
        Some((count, built_in_or_other(&named.join("-").to_lowercase())?))
    })?;
    let layer = layer_of(material.kind)?;
    let last = ends.get(count.saturating_sub(1))?;
    let whole = source.place(word.join(*last));
    let next = items.get(count.saturating_sub(1));
    // What follows is a thickness, which stands after a comma.
    let (gone, comma) = match next {
        Some(next) => {
            let end = source.place(next.span).span.start;
            let span = Span::new(whole.span.start, end);
            (Place { span, ..whole }, ", ")
        }
        None => (whole, ""),
    };
    let name = material.name;
    let message = format!(
        "`{}` is a material: which layer is it? It may be `{layer} {name}`",
        source.slice(word.join(*last))
    );
    let finding = Finding::new("word-unknown", whole, message);
    let title = format!("Write `{layer} {name}`");
    Some(finding.fix(Fix::judged(title, gone, format!("{layer} {name}{comma}"))))
}

fn built_in_or_other(name: &str) -> Option<&'static CatalogueMaterial> {
    materials::find(name).or_else(|| materials::find(materials::other_name(name)?))
}

/// The layer that a kind of material mostly makes.
fn layer_of(kind: Kind) -> Option<&'static str> {
    Some(match kind {
        _ if kind.is_unit() => "paving",
        _ if kind.is_sand() || kind.is_mortar() => "bed",
        _ if kind.is_aggregate() => "base",
        _ if kind.is_concrete() => "slab",
        _ if kind.is_fabric() => "fabric",
        _ => return None,
    })
}

/// `Patio for the neighbours` on the first line: what the job is called.
pub(super) fn title_without_job(source: &Source<'_>) -> Option<Finding> {
    let [phrase] = source.line.phrases.as_ref() else {
        return None;
    };
    let is_word =
        |kind: &ItemKind| !matches!(kind, ItemKind::Number { .. } | ItemKind::Text { .. });
    let all_words = phrase.items.iter().all(|item| is_word(&item.kind));
    if phrase.items.len() < 2 || !all_words {
        return None;
    }
    let place = source.place(source.line.word);
    let whole = place.to(source.place_of(&phrase.items));
    let title = whole.span.relative_to(source.start).slice(source.text);
    let message = "a spec begins with its title in quotes, behind `job`";
    let fix = Fix::judged("Write it as the title", whole, format!("job \"{title}\""));
    Some(Finding::new("word-unknown", place, message).fix(fix))
}
