//! Finding specs among files and folders.

use std::path::{Path, PathBuf};

use crate::host::absolute;
use crate::host::{Looked, specs_below};
use crate::report::{Unread, shown_path};

/// What a search came to.
#[derive(Debug, Default)]
pub(crate) struct Search {
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
    pub(crate) fn of(paths: &[PathBuf], folder: &str) -> Search {
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
        for looked in specs_below(path) {
            match looked {
                Looked::Other => {}
                Looked::Spec(spec) => match absolute(&spec) {
                    Some(full) => self.specs.push(full),
                    None => self.cannot(spec.display().to_string(), NO_TEXT),
                },
                Looked::Failed(None, why) => self.cannot(seen(full, folder), &why),
                Looked::Failed(Some(path), why) => {
                    let full = absolute(&path).map(|full| shown_path(&full, folder));
                    self.cannot(full.unwrap_or_else(|| path.display().to_string()), &why);
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
