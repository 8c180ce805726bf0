//! The comments that describe a section or an entry.

use crate::analysis::Analysis;
use crate::findings::Place;
use crate::ide::cursor::Cursor;
use crate::ide::markdown::plain;
use crate::syntax::{LineKind, Placed, Tree};
use crate::text::Span;

/// The comment lines directly above the entry under the pointer.
pub(crate) fn above_entry(cursor: &Cursor<'_>, analysis: &Analysis) -> Option<String> {
    let tree = &analysis.files.get(usize::from(cursor.section.file.0))?.tree;
    let placed = tree.find(cursor.section.section)?;
    above(tree, placed, cursor.line_start)
}

/// The comment lines directly above the line that a place starts on.
pub(crate) fn above_place(analysis: &Analysis, place: Place) -> Option<String> {
    let tree = &analysis.files.get(usize::from(place.section.file.0))?.tree;
    let placed = tree.find(place.section.section)?;
    let lines = placed.section.lines.iter().rev();
    let (start, _) = lines
        .into_iter()
        .find(|(start, _)| *start <= place.span.start)?;
    above(tree, placed, *start)
}

fn above(tree: &Tree, placed: &Placed, line_start: u32) -> Option<String> {
    let lines = &placed.section.lines;
    let number = lines.iter().position(|(start, _)| *start == line_start)?;
    let comments: Vec<&str> = lines
        .get(..number)?
        .iter()
        .rev()
        .take_while(|(_, line)| line.kind == LineKind::Comment)
        .filter_map(|(start, line)| {
            let span: Span = line
                .comments
                .first()?
                .shift(placed.start.saturating_add(*start));
            Some(span.slice(&tree.text).trim_start_matches('#').trim())
        })
        .collect();
    let text: Vec<&str> = comments.into_iter().rev().collect();
    let text: Vec<String> = text.into_iter().map(plain).collect();
    let text = text.join("\n");
    (!text.trim().is_empty()).then_some(text)
}
