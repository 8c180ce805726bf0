//! Keys and headings by the words that people have for them.

use super::source::Source;
use crate::findings::{Finding, Fix, Place};
use crate::syntax::{ItemKind, Line};
use crate::vocabulary::{SectionKind, other_word, section};

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
