//! What was read from disk, kept until it may have changed and a new memory
//! takes the place of this one.
//!
//! A spec looks for its libraries and standards on every edit; the disk is
//! asked once, also about what is not there.

use std::collections::HashMap;
use std::fs;
use std::path::Path;
use std::sync::{Arc, Mutex, PoisonError};

use crate::host::{leads_out, names_in, text_at};
use crate::text::Text;

/// A memory of the disk.
#[derive(Default)]
pub(crate) struct Disk {
    texts: Mutex<HashMap<String, Result<Text, String>>>,
    there: Mutex<HashMap<String, bool>>,
    folders: Mutex<HashMap<String, Arc<[String]>>>,
    outside: Mutex<HashMap<String, bool>>,
}

impl Disk {
    /// The text of a file; or, in words, why there is none.
    pub(crate) fn read(&self, path: &str) -> Result<Text, String> {
        remembered(&self.texts, path, || text_at(Path::new(path)))
    }

    /// Whether there is a file or folder.
    pub(crate) fn exists(&self, path: &str) -> bool {
        remembered(&self.there, path, || fs::exists(path).unwrap_or(false))
    }

    /// The names in a folder, sorted; none if it cannot be read.
    pub(crate) fn list(&self, folder: &str) -> Arc<[String]> {
        remembered(&self.folders, folder, || names_in(folder))
    }

    /// Whether links lead from a path out of a folder that it lies in.
    pub(crate) fn leads_out(&self, path: &str, folder: &str) -> bool {
        let both = format!("{folder}\n{path}");
        remembered(&self.outside, &both, || {
            leads_out(Path::new(path), Path::new(folder))
        })
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
            (disk.read(&a).ok(), disk.exists(&a), disk.list(&root).len()),
            (None, false, 0)
        );
        fs::write(&a, "let a = 1 in\n").unwrap();
        assert_eq!(
            (disk.read(&a).ok(), disk.exists(&a), disk.list(&root).len()),
            (None, false, 0)
        );
        let disk = Disk::default();
        assert_eq!(disk.read(&a).as_deref(), Ok("let a = 1 in\n"));
        assert!(disk.exists(&a) && disk.exists(&root));
        assert_eq!(*disk.list(&root), ["a.patio"]);
        fs::write(path("b.patio"), b"let b = 1 \xffin\n").unwrap();
        assert!(disk.read(&path("b.patio")).is_err(), "no UTF-8 is no text");
        assert!(disk.read(&root).is_err(), "a folder is no text");
    }
}
