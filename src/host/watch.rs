//! Noticing that files have changed, for a client that does not watch them.

use std::collections::HashMap;
use std::path::Path;

use super::stamp::{Stamp, stamp};

/// What files looked like when they were last looked at.
#[derive(Debug, Default)]
pub(crate) struct Watch {
    seen: HashMap<String, Option<Stamp>>,
}

impl Watch {
    /// Looks at some files and folders, and forgets all others. Gives those
    /// that look otherwise than the last time; one that is looked at for the
    /// first time does not.
    pub(crate) fn look(&mut self, paths: Vec<String>) -> Vec<String> {
        let mut before = std::mem::take(&mut self.seen);
        let mut changed = Vec::new();
        for path in paths {
            let now = stamp(Path::new(&path));
            if before.remove(&path).is_some_and(|before| before != now) {
                changed.push(path.clone());
            }
            self.seen.insert(path, now);
        }
        changed
    }

    /// Files and folders that are being read: what becomes of them from now on
    /// is a change, even if it does before anybody looks.
    pub(crate) fn begin<'a>(&mut self, paths: impl IntoIterator<Item = &'a String>) {
        for path in paths {
            let now = || stamp(Path::new(path));
            self.seen.entry(path.clone()).or_insert_with(now);
        }
    }

    /// Some files are known to have changed: that is no news the next time.
    pub(crate) fn note(&mut self, paths: &[String]) {
        for path in paths {
            if let Some(seen) = self.seen.get_mut(path) {
                *seen = stamp(Path::new(path));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn a_change_is_told_once_and_not_if_it_was_known() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.patio").to_str().unwrap().to_owned();
        let all = || vec![path.clone()];
        let none: [String; 0] = [];
        let mut watch = Watch::default();
        assert_eq!(watch.look(all()), none, "not there, for the first time");
        fs::write(&path, "let a = 1 in\n").unwrap();
        assert_eq!(watch.look(all()), all());
        assert_eq!(watch.look(all()), none);
        fs::write(&path, "let a = 10 in\n").unwrap();
        watch.note(&all());
        assert_eq!(watch.look(all()), none);
        fs::remove_file(&path).unwrap();
        assert_eq!(watch.look(all()), all());
        fs::write(&path, "let a = 2 in\n").unwrap();
        watch.look(Vec::new());
        watch.begin(&all());
        fs::remove_file(&path).unwrap();
        assert_eq!(watch.look(all()), all(), "gone before the first look");
        watch.look(Vec::new());
        assert!(watch.seen.is_empty(), "what is not asked for is forgotten");
    }
}
