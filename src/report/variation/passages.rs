//! The passages of a spec: its sections, and those of every file that it
//! uses, as text with line numbers.

use std::collections::{BTreeMap, BTreeSet};

use crate::analysis::Analysis;
use crate::report::sections::Sections;
use crate::report::shown_path;

/// A section of a file.
#[derive(Debug, Clone)]
pub(super) struct Passage<'t> {
    /// Its file as seen from the spec's folder; empty for the spec itself.
    pub file: String,
    /// Its file as shown; empty for the spec itself.
    pub shown: String,
    /// Its kind and name: `surface forecourt`.
    pub title: String,
    /// Which of those with this title in its file it is.
    pub nth: usize,
    /// Its text.
    pub text: &'t str,
    /// The line that it starts in, from 1.
    pub first_line: u32,
}

impl<'t> Passage<'t> {
    /// The name that it defines; empty if it defines none.
    pub(crate) fn name(&self) -> &str {
        self.title.split_once(' ').map_or("", |(_, name)| name)
    }

    /// The word of its kind.
    pub(crate) fn kind(&self) -> &str {
        self.title.split(' ').next().unwrap_or_default()
    }

    /// The words in it, but those of comments and its own name.
    pub(crate) fn words(&self) -> BTreeSet<&'t str> {
        let lines = self.text.lines().filter(|line| !is_silent(line));
        let lines = lines.map(|line| line.split('#').next().unwrap_or_default());
        let is_between = |c: char| !(c.is_alphanumeric() || c == '-' || c == '_');
        let words = lines.flat_map(|line| line.split(is_between));
        let words = words.filter(|word| !word.is_empty());
        // The heading comes first.
        words
            .skip(1 + usize::from(!self.name().is_empty()))
            .collect()
    }
}

/// Whether a line says nothing: a blank one or a comment.
pub(super) fn is_silent(line: &str) -> bool {
    let line = line.trim();
    line.is_empty() || line.starts_with('#')
}

/// Every passage of a spec and of the files that it was read with.
pub(super) fn passages<'t>(analysis: &'t Analysis, folder: &str) -> Vec<Passage<'t>> {
    let own_folder = analysis.path.rsplit_once('/').map_or("", |(own, _)| own);
    let mut all: Vec<Passage<'t>> = Vec::new();
    for (index, file) in analysis.files.iter().enumerate() {
        let path = |from| match index {
            0 => String::new(),
            _ => shown_path(&file.path, from),
        };
        let sections = Sections::of_tree(&file.tree);
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        for (title, span) in sections.spans() {
            let count = counts.entry(title).or_insert(0);
            let nth = *count;
            *count += 1;
            all.push(Passage {
                file: path(own_folder),
                shown: path(folder),
                title: title.to_owned(),
                nth,
                text: span.slice(&file.tree.text),
                first_line: file.lines.line_of(span.start).saturating_add(1),
            });
        }
    }
    all
}
