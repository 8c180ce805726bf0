//! `drylay fmt`: laying specs out.

use std::path::{Path, PathBuf};

use super::arguments::FmtArguments;
use super::output::{rewrite, tell, write_spec};
use super::problem::Problem;
use super::search::Search;
use super::source::{Source, current_folder};
use super::status::{COULD_NOT, FOUND, GOOD, Status};
use crate::format::formatted;
use crate::report::{Unread, counted, line_difference, shown_path};
use crate::syntax::Tree;

/// Lays specs out where they lie, or says which would change and how. What
/// comes from standard input goes to standard output.
pub(crate) fn fmt(arguments: &FmtArguments) -> Result<Status, Problem> {
    let folder = current_folder()?;
    let is_named = arguments.stdin.stdin_path.is_some();
    let is_input = |path: &PathBuf| path == Path::new("-");
    let reads_input = is_named || arguments.paths.iter().any(is_input);
    // A named input stands in for the default path.
    let paths = arguments.paths.iter();
    let paths = paths.filter(|path| !is_named && !is_input(path));
    let search = Search::of(&paths.cloned().collect::<Vec<_>>(), &folder);
    for empty in &search.empty {
        tell(&format!("{empty}: there is no .patio file in it"));
    }
    let mut laying = Laying {
        arguments,
        folder: &folder,
        shown: String::new(),
        changed: 0,
        unread: search.unread,
    };
    if reads_input {
        let read = Source::from_input(&arguments.stdin, &folder)?;
        laying.take(read, None);
    }
    for path in &search.specs {
        laying.take(Source::at(path, &folder), Some(Path::new(path)));
    }
    laying.finish()
}

/// Files while they are laid out one by one.
struct Laying<'a> {
    arguments: &'a FmtArguments,
    /// The folder from which paths are shown.
    folder: &'a str,
    /// What is written to standard output.
    shown: String,
    /// How many files change.
    changed: usize,
    unread: Vec<Unread>,
}

impl Laying<'_> {
    /// Lays one text out; `file` is where it lies, unless it was read from
    /// standard input.
    fn take(&mut self, read: Result<Source, Unread>, file: Option<&Path>) {
        let source = match read {
            Ok(source) => source,
            Err(unread) => return self.unread.push(unread),
        };
        let text = formatted(&Tree::parse(source.text.clone()));
        let is_changed = *text != *source.text;
        let path = shown_path(&source.path, self.folder);
        self.changed += usize::from(is_changed);
        if self.arguments.diff {
            self.shown += &line_difference(&path, &source.text, &text);
        } else if self.arguments.check {
            if is_changed {
                self.shown += &format!("{path}\n");
            }
        } else if let Some(file) = file {
            if is_changed && let Err(problem) = rewrite(&text, file) {
                self.changed -= 1;
                let why = format!("it could not be written: {problem}");
                self.unread.push(Unread { path, why });
            }
        } else {
            self.shown += &text;
        }
    }

    fn finish(self) -> Result<Status, Problem> {
        write_spec(&self.shown, None)?;
        for unread in &self.unread {
            tell(&format!("{}: {}", unread.path, unread.why));
        }
        let only_says = self.arguments.check || self.arguments.diff;
        if self.changed > 0 {
            let files = counted(self.changed, "file", "files");
            if self.arguments.check {
                tell(&format!("{files} not laid out: run `drylay fmt`"));
            } else if !only_says && self.shown.is_empty() {
                tell(&format!("laid out {files}"));
            }
        }
        Ok(match (self.unread.is_empty(), self.changed) {
            (false, _) => COULD_NOT,
            (true, 1..) if only_says => FOUND,
            (true, _) => GOOD,
        })
    }
}
