//! The names of the sections of a file, as findings are told of them.

use std::sync::Arc;

use crate::analysis::Analysis;
use crate::syntax::{Placed, Tree};
use crate::text::Span;
use crate::vocabulary::{self, SectionKind};

/// The sections of a file with their names; an entry that has lost its indent
/// belongs to the section above it.
pub(super) struct Sections<'t> {
    tree: Option<&'t Tree>,
    /// Where each section starts, and its name.
    names: Vec<(u32, Arc<str>)>,
}

impl<'t> Sections<'t> {
    /// The sections of the file that was analysed.
    pub(crate) fn of(analysis: &'t Analysis) -> Sections<'t> {
        Sections::read(analysis.files.first().map(|file| &file.tree))
    }

    /// The sections of one file.
    pub(crate) fn of_tree(tree: &'t Tree) -> Sections<'t> {
        Sections::read(Some(tree))
    }

    fn read(tree: Option<&'t Tree>) -> Sections<'t> {
        let mut names = Vec::new();
        let mut in_force: Option<&SectionKind> = None;
        for placed in tree.iter().flat_map(|tree| tree.sections.iter()) {
            let Some((word, name)) = tree.and_then(|tree| heading(tree, placed)) else {
                continue;
            };
            let kind = vocabulary::section(word);
            if kind.is_none() && in_force.is_some_and(|force| force.key(word).is_some()) {
                continue;
            }
            in_force = kind;
            let named = kind.is_none_or(|kind| kind.defines.is_some()) && !name.is_empty();
            let word = kind.map_or(word, |kind| kind.word);
            let name = if named {
                format!("{word} {name}").into()
            } else {
                word.into()
            };
            names.push((placed.start, name));
        }
        Sections { tree, names }
    }

    /// The name of the section in which a byte stands: `surface forecourt`.
    pub(crate) fn name_at(&self, offset: u32) -> Arc<str> {
        let after = self.names.partition_point(|(start, _)| *start <= offset);
        let found = after.checked_sub(1).and_then(|at| self.names.get(at));
        found.map_or_else(|| "".into(), |(_, name)| Arc::clone(name))
    }

    /// Every section by its name, with the bytes that it takes, in order.
    pub(crate) fn spans(&self) -> impl Iterator<Item = (&str, Span)> {
        let length = self.tree.map_or(0, |tree| tree.text.len());
        let length = u32::try_from(length).unwrap_or(u32::MAX);
        let ends = self.names.iter().skip(1).map(|(start, _)| *start);
        let named = self.names.iter().zip(ends.chain([length]));
        named.map(|((start, name), end)| (&**name, Span::new(*start, end)))
    }

    /// The key of the entry in which a byte stands.
    pub(crate) fn entry_at(&self, offset: u32) -> &'t str {
        let line = self.tree.and_then(|tree| tree.line_at(offset));
        line.map_or("", |line| line.word())
    }
}

/// The word and the first item after it of a section's heading.
fn heading<'t>(tree: &'t Tree, placed: &'t Placed) -> Option<(&'t str, &'t str)> {
    let (start, line) = placed.section.heading()?;
    let at = placed.start.saturating_add(start);
    let name = line.phrases.first().and_then(|phrase| phrase.items.first());
    let name = name.map_or("", |item| tree.text_of(item.span.shift(at)));
    Some((tree.text_of(line.word.shift(at)), name))
}
