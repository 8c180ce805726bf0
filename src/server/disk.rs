//! What was read from disk, kept until it may have changed and a new memory
//! takes the place of this one.
//!
//! A spec looks for its libraries and standards on every edit; the disk is
//! asked once, also about what is not there.

use std::collections::HashMap;
use std::fs;
use std::path::Path;
use std::sync::{Mutex, PoisonError};

use crate::host::{names_in, text_at};
use crate::text::Text;

/// A memory of the disk.
#[derive(Default)]
pub struct Disk {
    texts: Mutex<HashMap<String, Option<Text>>>,
    there: Mutex<HashMap<String, bool>>,
    folders: Mutex<HashMap<String, Vec<String>>>,
}

impl Disk {
    /// The text of a file; nothing if it cannot be read.
    pub fn read(&self, path: &str) -> Option<Text> {
        remembered(&self.texts, path, || text_at(Path::new(path)).ok())
    }

    /// Whether there is a file or folder.
    pub fn exists(&self, path: &str) -> bool {
        remembered(&self.there, path, || fs::exists(path).unwrap_or(false))
    }

    /// The names in a folder, sorted; none if it cannot be read.
    pub fn list(&self, folder: &str) -> Vec<String> {
        remembered(&self.folders, folder, || names_in(folder))
    }
}

fn remembered<T: Clone>(
    memory: &Mutex<HashMap<String, T>>,
    path: &str,
    ask: impl FnOnce() -> T,
) -> T {
    let mut memory = memory.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(known) = memory.get(path) {
        return known.clone();
    }
    let found = ask();
    memory.insert(path.to_owned(), found.clone());
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_disk_is_asked_once() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
        let (a, root) = (path("a.patio"), path(""));
        let disk = Disk::default();
        assert_eq!(
            (disk.read(&a), disk.exists(&a), disk.list(&root).len()),
            (None, false, 0)
        );
        fs::write(&a, "let a = 1 in\n").unwrap();
        assert_eq!(
            (disk.read(&a), disk.exists(&a), disk.list(&root).len()),
            (None, false, 0)
        );
        let disk = Disk::default();
        assert_eq!(disk.read(&a).as_deref(), Some("let a = 1 in\n"));
        assert!(disk.exists(&a) && disk.exists(&root));
        assert_eq!(disk.list(&root), ["a.patio"]);
        fs::write(path("b.patio"), b"let b = 1 \xffin\n").unwrap();
        assert_eq!(disk.read(&path("b.patio")), None, "no UTF-8 is no text");
        assert_eq!(disk.read(&root), None, "a folder is no text");
    }
}
