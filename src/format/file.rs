//! A whole file, laid out.

use std::sync::Arc;

use super::same::says_the_same;
use super::section::{Laid, laid_section};
use crate::syntax::{LineKind, Placed, PlacedLine, Tree};
use crate::text::{Edit, Lines, Span, apply, smallest_edits};
use crate::vocabulary::{SectionKind, section};

/// What some editors put at the very start of a file.
const BYTE_ORDER_MARK: &str = "\u{FEFF}";

/// The text of a tree, laid out.
///
/// It says the same as before, keeps every comment and every line's own line
/// end, and laid out again it stays as it is.
pub fn formatted(tree: &Tree) -> String {
    let mut text = String::with_capacity(tree.text.len());
    let mut in_force = None;
    let mut above: Option<(Laid, Option<&'static SectionKind>)> = None;
    for placed in tree.sections.iter() {
        let own = opening(tree, placed);
        in_force = own.or_else(|| continued(tree, placed, in_force));
        let laid = laid_section(tree, placed, in_force);
        if laid.text.is_empty() {
            continue;
        }
        if let Some((above, kind)) = &above {
            part(&mut text, above, *kind, &laid, own);
        }
        text.push_str(&laid.text);
        above = Some((laid, own));
    }
    // A mark from further down must not become the file's own.
    if text.starts_with(BYTE_ORDER_MARK) {
        return tree.text.to_string();
    }
    if tree.text.starts_with(BYTE_ORDER_MARK) {
        text.insert_str(0, BYTE_ORDER_MARK);
    }
    text
}

/// The heading of a section.
fn heading<'t>(tree: &'t Tree, placed: &'t Placed) -> Option<PlacedLine<'t>> {
    let mut lines = tree.lines_of(placed);
    lines.find(|line| line.line.kind == LineKind::Heading)
}

/// The kind that a section's heading names.
fn opening(tree: &Tree, placed: &Placed) -> Option<&'static SectionKind> {
    section(heading(tree, placed)?.word())
}

/// The kind that goes on in a section whose heading is an entry that has lost
/// its indent.
fn continued(
    tree: &Tree,
    placed: &Placed,
    in_force: Option<&'static SectionKind>,
) -> Option<&'static SectionKind> {
    let word = heading(tree, placed)?;
    in_force.filter(|kind| kind.key(word.word()).is_some())
}

/// Parts two sections by one blank line. Lines of one kind that stand alone,
/// such as lets, may stand together, and so may what is no section.
fn part(
    text: &mut String,
    above: &Laid,
    kind: Option<&'static SectionKind>,
    below: &Laid,
    own: Option<&'static SectionKind>,
) {
    let word = |kind: Option<&'static SectionKind>| kind.map(|kind| kind.word);
    let is_row = above.is_single && below.is_single && word(kind) == word(own);
    let end = match &above.blank {
        Some(end) => end.clone(),
        None if is_row || own.is_none() => return,
        None => {
            let content = text.trim_end_matches(['\n', '\r']).len();
            let ends = text.get(content..).unwrap_or_default();
            if ends.ends_with("\r\n") {
                "\r\n".to_owned()
            } else {
                ends.chars().last().map(String::from).unwrap_or_default()
            }
        }
    };
    super::columns::push_line(text, "", &end);
}

/// The edits that lay a text out, each as small as can be; only those in the
/// lines of `range` if one is given.
///
/// Where laying out those lines alone would change what the text says, the
/// whole of their sections is laid out.
pub fn edits(tree: &Tree, range: Option<Span>) -> Vec<Edit> {
    let all = smallest_edits(&tree.text, &formatted(tree));
    let Some(range) = range else {
        return all;
    };
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
        .map(|range| within(&all, range))
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
    let after = Tree::parse(Arc::from(text));
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
