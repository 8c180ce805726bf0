//! A part of a file, laid out.

use super::same::says_the_same;
use crate::syntax::{LineKind, Placed, PlacedLine, Tree};
use crate::text::{Edit, Lines, Span, Text, apply};

/// Those of the edits that lay a file out which lie in the lines of a range,
/// or in the whole of their sections where fewer would change what it says.
pub(super) fn part(tree: &Tree, all: &[Edit], range: Span) -> Vec<Edit> {
    let lines = Lines::new(&tree.text);
    let last = lines.line_of(range.end.max(range.start));
    let rows = Span::new(
        lines.line_span(lines.line_of(range.start)).start,
        lines.line_span_with_break(last).end,
    );
    let touched = tree
        .sections
        .iter()
        .map(Placed::span)
        .filter(|section| section.overlaps(rows));
    let sections = touched.reduce(Span::join).unwrap_or(rows).join(rows);
    [rows, sections]
        .into_iter()
        .map(|range| within(all, range))
        .find(|some| keeps_meaning(tree, some))
        .unwrap_or_default()
}

fn within(edits: &[Edit], range: Span) -> Vec<Edit> {
    let inside = edits.iter().filter(|edit| range.covers(edit.span));
    inside.cloned().collect()
}

/// Whether a text reads line by line as it did once some edits are made.
fn keeps_meaning(tree: &Tree, edits: &[Edit]) -> bool {
    let Some(text) = apply(&tree.text, edits) else {
        return false;
    };
    let after = tree.edited(Text::from(text));
    let spoken = |line: &PlacedLine<'_>| line.line.kind != LineKind::Blank;
    let (mut one, mut other) = (tree.lines().filter(spoken), after.lines().filter(spoken));
    loop {
        match (one.next(), other.next()) {
            (None, None) => return true,
            (Some(one), Some(other)) if says_the_same(&one, &other) => {}
            _ => return false,
        }
    }
}
