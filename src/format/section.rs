//! One section, laid out and read again.

use std::collections::BTreeSet;

use super::columns::lines;
use super::line::{laid, written};
use super::same::says_the_same;
use crate::syntax::{LineKind, Placed, PlacedLine, Tree};
use crate::text::Text;
use crate::vocabulary::SectionKind;

/// How often lines that did not stand the test are set back before the
/// section is left as it is.
const MOST_ROUNDS: usize = 3;

/// A section without the blank lines after it.
#[derive(Debug)]
pub(super) struct Laid {
    /// Its text.
    pub text: String,
    /// The line end of the first blank line after it.
    pub blank: Option<String>,
    /// Whether it is one line with nothing under it, comments aside.
    pub is_single: bool,
}

/// Lays a section out.
pub(super) fn laid_section(
    tree: &Tree,
    placed: &Placed,
    kind: Option<&'static SectionKind>,
) -> Laid {
    let all: Vec<PlacedLine<'_>> = tree.lines_of(placed).collect();
    let is_blank = |line: &&PlacedLine<'_>| line.line.kind == LineKind::Blank;
    let trailing = all.iter().rev().take_while(is_blank).count();
    let (own, after) = all.split_at(all.len() - trailing);
    let blank = after.first().map(|line| {
        let ends = lines(line.text);
        ends.first().map_or("", |(_, end)| end).to_owned()
    });
    let spoken = own
        .iter()
        .filter(|line| !matches!(line.line.kind, LineKind::Comment | LineKind::Blank));
    Laid {
        text: sound(own, kind).unwrap_or_else(|| raw(own)),
        blank,
        is_single: spoken.count() == 1,
    }
}

/// The lines as they are, but for a byte-order mark at the file's start.
fn raw(own: &[PlacedLine<'_>]) -> String {
    own.iter().map(written).collect()
}

/// Whether a line starts with a byte-order mark that is not the file's.
fn is_marked_inside(line: &PlacedLine<'_>) -> bool {
    line.start > 0 && line.text.starts_with('\u{FEFF}')
}

/// The section laid out such that it reads as before and would be laid out
/// the same again; nothing if it cannot be.
fn sound(own: &[PlacedLine<'_>], kind: Option<&'static SectionKind>) -> Option<String> {
    let mut left: BTreeSet<usize> = own
        .iter()
        .enumerate()
        .filter(|(_, line)| is_marked_inside(line))
        .map(|(index, _)| index)
        .collect();
    for _ in 0..MOST_ROUNDS {
        let (text, parts) = assembled(own, kind, &left);
        let tree = Tree::parse(Text::from(text.as_str()));
        if tree.sections.len() > 1 {
            return None;
        }
        let again: Vec<PlacedLine<'_>> = tree
            .lines()
            .filter(|line| line.line.kind != LineKind::Blank)
            .collect();
        if again.len() != parts.len() {
            return None;
        }
        let mut is_sound = true;
        for ((index, part), new) in parts.iter().zip(&again) {
            let old = own.get(*index)?;
            let holds = *part == new.text && says_the_same(old, new);
            if left.contains(index) {
                if !holds {
                    return None;
                }
            } else if !holds || laid(new, kind) != *part {
                left.insert(*index);
                is_sound = false;
            }
        }
        if is_sound {
            return Some(text);
        }
    }
    None
}

/// The lines laid out but for those that are left alone; and the text of each
/// that is not blank, by its index. Of several blank lines one stays.
fn assembled(
    own: &[PlacedLine<'_>],
    kind: Option<&'static SectionKind>,
    left: &BTreeSet<usize>,
) -> (String, Vec<(usize, String)>) {
    let mut text = String::new();
    let mut parts = Vec::new();
    let mut after_blank = true;
    for (index, line) in own.iter().enumerate() {
        let is_blank = line.line.kind == LineKind::Blank && !left.contains(&index);
        if is_blank {
            if !after_blank {
                let part = laid(line, kind);
                if text.ends_with('\r') && part.starts_with('\n') {
                    text.push(' ');
                }
                text.push_str(&part);
            }
        } else {
            let part = match left.contains(&index) {
                true => written(line).to_owned(),
                false => laid(line, kind),
            };
            text.push_str(&part);
            if line.line.kind != LineKind::Blank {
                parts.push((index, part));
            }
        }
        after_blank = is_blank;
    }
    (text, parts)
}
