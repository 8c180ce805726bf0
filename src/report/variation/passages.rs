//! The passages of a spec: its sections, and those of every file that it
//! uses, as text with line numbers.

use std::collections::BTreeMap;

use crate::analysis::Analysis;
use crate::report::sections::Sections;
use crate::report::shown_path;

/// A section of a file.
#[derive(Debug, Clone)]
pub(super) struct Passage<'t> {
    /// Its file, by its index in the analysis.
    pub file_index: usize,
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

/// Whether a line says nothing: a blank one or a comment.
pub(super) fn is_silent(line: &str) -> bool {
    let line = line.trim();
    line.is_empty() || line.starts_with('#')
}

/// Every passage of a spec and of the files that it was read with.
pub(super) fn passages<'t>(analysis: &'t Analysis, folder: &str) -> Vec<Passage<'t>> {
    let own_folder = crate::analysis::folder(&analysis.path);
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
                file_index: index,
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
