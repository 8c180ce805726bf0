//! What follows a line break that has just been typed.

use super::columns::{INDENT, VALUE, is_blank};
use crate::syntax::{FaultKind, LineKind, PlacedLine, Tree};
use crate::text::{Edit, Lines, Span};
use crate::vocabulary::section;

/// The edits that indent the line on which `offset` lies, after a line break
/// was typed before it.
///
/// What goes on from the line above starts at the column of the values, an
/// entry or a comment of a section is indented as all are, and under a blank
/// line nothing is indented. A heading stays at the margin.
pub fn on_type(tree: &Tree, offset: u32) -> Vec<Edit> {
    let lines = Lines::new(&tree.text);
    let number = lines.line_of(offset);
    let Some(above) = number.checked_sub(1) else {
        return Vec::new();
    };
    let own = lines.line_span(number);
    let content = own.slice(&tree.text);
    let words = content.trim_start_matches(is_blank);
    let first = words.split(is_blank).next().unwrap_or_default();
    if section(first).is_some() {
        return Vec::new();
    }
    let above = lines.line_span(above);
    let over = above.slice(&tree.text);
    let mut edits = Vec::new();
    let indent = if over.chars().all(is_blank) {
        if !over.is_empty() && above.end > above.start {
            edits.push(Edit::new(above, ""));
        }
        String::new()
    } else {
        let line = tree.line_at(above.start);
        line.map_or_else(String::new, |line| indent_after(&line, own.start))
    };
    let written = content.len() - words.len();
    let before = Span::new(own.start, own.start.saturating_add(written as u32));
    if before.slice(&tree.text) != indent {
        edits.push(Edit::new(before, indent));
    }
    edits
}

/// How far a line is indented that starts at `start`, under another.
fn indent_after(above: &PlacedLine<'_>, start: u32) -> String {
    let goes_on = start < above.span().end || leaves_open(above);
    let has_entries = || section(above.word()).is_none_or(|kind| !kind.keys.is_empty());
    match above.line.kind {
        LineKind::Heading | LineKind::Entry if goes_on => " ".repeat(VALUE),
        LineKind::Heading if has_entries() => INDENT.to_owned(),
        LineKind::Entry => INDENT.to_owned(),
        LineKind::Comment if !above.line.indent.is_empty() => INDENT.to_owned(),
        _ => String::new(),
    }
}

/// Whether a line ends with a comma or inside a parenthesis.
fn leaves_open(line: &PlacedLine<'_>) -> bool {
    let last = line
        .line
        .phrases
        .last()
        .map_or(line.line.word.end, |phrase| phrase.span.end);
    line.line.faults.iter().any(|fault| match fault.kind {
        FaultKind::GroupOpen => true,
        FaultKind::CommaStray => fault.span.end >= last,
        _ => false,
    })
}
