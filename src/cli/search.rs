//! Finding specs among files and folders.

use std::path::{Path, PathBuf};

use ignore::WalkBuilder;

use super::disk::absolute;
use crate::host::in_words;
use crate::report::{Unread, shown_path};

/// The ending of a spec's name.
const ENDING: &str = "patio";

/// What a search came to.
#[derive(Debug, Default)]
pub struct Search {
    /// The specs: absolute paths, in order, each once.
    pub specs: Vec<String>,
    /// What could not be searched.
    pub unread: Vec<Unread>,
    /// Folders in which there is no spec.
    pub empty: Vec<String>,
}

impl Search {
    /// The specs that paths stand for: a file for itself, a folder for every
    /// `.patio` file in it and below that no ignore file leaves out. Paths
    /// are shown as seen from `folder`.
    pub fn of(paths: &[PathBuf], folder: &str) -> Search {
        let mut search = Search::default();
        for path in paths {
            search.add(path, folder);
        }
        search.specs.sort();
        search.specs.dedup();
        search
    }

    fn add(&mut self, path: &Path, folder: &str) {
        match absolute(path) {
            None => self.cannot(path.display().to_string(), NO_TEXT),
            Some(full) if path.is_dir() => self.add_folder(path, &full, folder),
            Some(full) => self.specs.push(full),
        }
    }

    fn add_folder(&mut self, path: &Path, full: &str, folder: &str) {
        let before = (self.specs.len(), self.unread.len());
        // An ignore file is heard whether or not the folder is a repository.
        for entry in WalkBuilder::new(path).require_git(false).build() {
            match entry {
                Ok(entry) => {
                    let is_file = entry.file_type().is_some_and(|kind| !kind.is_dir());
                    match absolute(entry.path()) {
                        _ if !is_file || !is_spec(entry.path()) => {}
                        Some(full) => self.specs.push(full),
                        None => self.cannot(entry.path().display().to_string(), NO_TEXT),
                    }
                }
                Err(error) => {
                    let why = error.io_error().map_or_else(|| error.to_string(), in_words);
                    self.cannot(seen(full, folder), &why);
                }
            }
        }
        if (self.specs.len(), self.unread.len()) == before {
            self.empty.push(seen(full, folder));
        }
    }

    fn cannot(&mut self, path: String, why: &str) {
        self.unread.push(Unread {
            path,
            why: why.to_owned(),
        });
    }
}

const NO_TEXT: &str = "its name is not text";

/// A folder as seen from the current one, which is `.`.
fn seen(full: &str, folder: &str) -> String {
    Some(shown_path(full, folder))
        .filter(|shown| !shown.is_empty())
        .unwrap_or(".".to_owned())
}

fn is_spec(path: &Path) -> bool {
    path.extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case(ENDING))
}
