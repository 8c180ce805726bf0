//! Entries that have lost their indent and begin with a word that could start
//! a section: `shape patio` under the surface that it belongs to.

use crate::syntax::{LineKind, Placed, Tree};
use crate::vocabulary::{SectionKind, section};

/// Whether the section at an index is an entry of the one above it, whose kind
/// is `above`: the lines before it have lost their indents too, its word is a
/// key there, and what follows goes on with that section rather than with one
/// that starts here.
pub fn is_lost_entry(tree: &Tree, index: usize, above: Option<&'static SectionKind>) -> bool {
    let at = |index: usize| tree.sections.get(index);
    let before = index.checked_sub(1).and_then(at);
    let (Some(own), Some(before), Some(above)) = (at(index), before, above) else {
        return false;
    };
    let Some((word, may_start)) = bare(tree, own) else {
        return false;
    };
    if above.key(word).is_none() || has_entries(before) || ends_blank(before) {
        return false;
    }
    let next = at(index.saturating_add(1)).and_then(|next| heading_word(tree, next));
    let goes_on = |kind: &SectionKind| next.is_some_and(|word| kind.key(word).is_some());
    goes_on(above) || !goes_on(may_start)
}

/// Whether a section could have entries and has none: it or the next may have
/// lost its indent.
pub fn is_bare(tree: &Tree, placed: &Placed) -> bool {
    bare(tree, placed).is_some_and(|(_, kind)| !kind.keys.is_empty())
}

/// The word of a heading under which no entry stands, with the kind of section
/// that it starts.
fn bare<'t>(tree: &'t Tree, placed: &Placed) -> Option<(&'t str, &'static SectionKind)> {
    let word = heading_word(tree, placed).filter(|_| !has_entries(placed))?;
    Some((word, section(word)?))
}

fn has_entries(placed: &Placed) -> bool {
    let mut lines = placed.section.lines.iter();
    lines.any(|(_, line)| line.kind == LineKind::Entry)
}

fn heading_word<'t>(tree: &'t Tree, placed: &Placed) -> Option<&'t str> {
    let (start, line) = placed.section.heading()?;
    Some(line.word.shift(start).slice(tree.section_text(placed)))
}

/// Whether a blank line parts a section from the next.
fn ends_blank(placed: &Placed) -> bool {
    let last = placed.section.lines.last();
    last.is_some_and(|(_, line)| line.kind == LineKind::Blank)
}
