//! Lines whose heading is missing: entries of another kind of section than the
//! one above, or of none, told once for all of them.

use std::sync::Arc;

use crate::findings::{Finding, Fix, Place};
use crate::syntax::{ItemKind, Line, LineKind};
use crate::text::Span;
use crate::vocabulary::{SECTIONS, SectionKind};

/// So many entries in a row that belong elsewhere are no single one that was
/// misplaced.
const LEAST: usize = 2;

/// A section of more entries is told line by line.
const MOST: usize = 100;

/// What stands above some lines.
pub(super) struct Above<'a> {
    /// The kind of the section, if it has one.
    pub kind: Option<&'static SectionKind>,
    /// The name in its heading.
    pub name: Option<&'a str>,
}

/// Tells that the lines from the first on, down to the end of their section,
/// are entries of another kind of section, whose heading is missing. `text` is
/// that of the section that they stand in, and `at` their first line's place.
pub(super) fn lost_heading<'t>(
    lines: impl Iterator<Item = &'t (u32, Arc<Line>)> + Clone,
    text: &str,
    above: &Above<'_>,
    at: Place,
) -> Option<Finding> {
    let entries = lines.filter(|(_, line)| line.kind == LineKind::Entry);
    let word = |(start, line): &'t (u32, Arc<Line>)| line.word.shift(*start).slice(text);
    let is_own = |word: &&str| above.kind.is_some_and(|kind| kind.key(word).is_some());
    let first = entries.clone().next().map(word)?;
    if is_own(&first) {
        return None;
    }
    let has = |kind: &&&SectionKind| kind.key(first).is_some();
    let mut kinds: Vec<&SectionKind> = SECTIONS.iter().filter(has).copied().collect();
    // This is asked of line after line, and looks at all that follow.
    if kinds.is_empty() || entries.clone().nth(MOST).is_some() {
        return None;
    }
    let words: Vec<&str> = entries.clone().map(word).collect();
    let strange = words.iter().filter(|word| !is_own(word)).count();
    kinds.retain(|kind| words.iter().all(|word| kind.key(word).is_some()));
    if kinds.is_empty() || strange < LEAST {
        return None;
    }
    let things: Vec<String> = kinds.iter().map(|kind| kind.thing()).collect();
    let message = format!(
        "these {} lines belong in {}, and its heading is missing",
        words.len(),
        things.join(" or ")
    );
    let shape = entries.clone().find_map(|(start, line)| {
        let of = line.word.shift(*start).slice(text);
        let first = line.phrases.first()?.items.first()?;
        let is_name = of == "shape" && first.kind == ItemKind::Word;
        is_name.then(|| first.span.shift(*start).slice(text))
    });
    let finding = Finding::new("entry-misplaced", at, message);
    Some(kinds.into_iter().fold(finding, |finding, kind| {
        let heading = heading_of(kind, shape.or(above.name));
        let start = line_start(text, at.span.start);
        let lines = text.get(..start as usize).unwrap_or_default().lines();
        let gap = match lines.last().is_some_and(|line| !line.trim().is_empty()) {
            true => "\n",
            false => "",
        };
        let before = Place {
            span: Span::at(start),
            ..at
        };
        finding.fix(Fix::judged(
            format!("Write `{heading}` above them"),
            before,
            format!("{gap}{heading}\n"),
        ))
    }))
}

/// Where the line begins that a byte of the text stands in.
fn line_start(text: &str, byte: u32) -> u32 {
    let before = text.get(..byte as usize).unwrap_or_default();
    before.rfind('\n').map_or(0, |end| end as u32 + 1)
}

/// A heading of a kind, with a name that is at hand or else that of its
/// example.
fn heading_of(kind: &SectionKind, name: Option<&str>) -> String {
    let example = kind.example.lines().next().unwrap_or(kind.word);
    match name.filter(|_| kind.defines.is_some()) {
        Some(name) => format!("{} {name}", kind.word),
        None => example.to_owned(),
    }
}
