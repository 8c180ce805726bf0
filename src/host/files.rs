//! Files on the disk, as the analysis asks for them.

use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, RwLock};

use rustc_hash::FxHashMap;

use super::disk::{leads_out, names_in, text_at};
use crate::analysis::Files;
use crate::text::Text;

/// The files on the disk.
pub(crate) struct Disk;

impl Files for Disk {
    fn read(&self, path: &str) -> Result<Text, String> {
        text_at(Path::new(path))
    }

    fn exists(&self, path: &str) -> bool {
        Path::new(path).exists()
    }

    fn list(&self, folder: &str) -> Arc<[String]> {
        names_in(folder)
    }

    fn leads_out(&self, path: &str, folder: &str) -> bool {
        leads_out(Path::new(path), Path::new(folder))
    }
}

/// The files on the disk as they were when each was first asked for: a check
/// of many specs, or one after every edit, looks again and again for the same
/// standards and libraries.
#[derive(Debug, Default)]
pub(crate) struct RememberedDisk {
    texts: RwLock<FxHashMap<String, Result<Text, String>>>,
    there: RwLock<FxHashMap<String, bool>>,
    folders: RwLock<FxHashMap<String, Arc<[String]>>>,
    outside: RwLock<FxHashMap<String, bool>>,
}

impl RememberedDisk {
    /// Has a file looked at again that was written.
    pub(crate) fn forget(&self, path: &str) {
        if let Ok(mut texts) = self.texts.write() {
            texts.remove(path);
        }
        if let Ok(mut there) = self.there.write() {
            there.remove(path);
        }
    }

    /// What is known of a path, or is found out now.
    fn known<T: Clone>(
        known: &RwLock<FxHashMap<String, T>>,
        path: &str,
        find: impl FnOnce() -> T,
    ) -> T {
        // Where another worker has failed, the disk is asked.
        if let Some(found) = known.read().ok().and_then(|known| known.get(path).cloned()) {
            return found;
        }
        let found = find();
        if let Ok(mut known) = known.write() {
            known.insert(path.to_owned(), found.clone());
        }
        found
    }
}

impl Files for RememberedDisk {
    fn read(&self, path: &str) -> Result<Text, String> {
        RememberedDisk::known(&self.texts, path, || Disk.read(path))
    }

    fn exists(&self, path: &str) -> bool {
        RememberedDisk::known(&self.there, path, || Disk.exists(path))
    }

    fn list(&self, folder: &str) -> Arc<[String]> {
        RememberedDisk::known(&self.folders, folder, || Disk.list(folder))
    }

    fn leads_out(&self, path: &str, folder: &str) -> bool {
        let both = format!("{folder}\n{path}");
        RememberedDisk::known(&self.outside, &both, || Disk.leads_out(path, folder))
    }
}

/// A path as the analysis knows it: absolute, parted by `/`, without `.` and
/// `..`; `None` if it is not text.
pub(crate) fn absolute(path: &Path) -> Option<String> {
    let full = std::path::absolute(path).ok()?;
    let mut plain = PathBuf::new();
    for component in full.components() {
        match component {
            Component::ParentDir => {
                plain.pop();
            }
            Component::CurDir => {}
            other => plain.push(other),
        }
    }
    let text = plain.to_str()?;
    Some(if cfg!(windows) {
        text.replace('\\', "/")
    } else {
        text.to_owned()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_disk_is_remembered_as_it_was() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name).display().to_string();
        std::fs::write(path("a.patio"), "job").unwrap();
        let remembered = RememberedDisk::default();
        let seen = || {
            let text = remembered.read(&path("a.patio"));
            let b = path("b.patio");
            (
                text.as_deref() == Ok("job"),
                remembered.exists(&b),
                remembered.read(&b).is_ok(),
            )
        };
        assert_eq!(seen(), (true, false, false));
        std::fs::write(path("a.patio"), "site").unwrap();
        std::fs::write(path("b.patio"), "site").unwrap();
        assert_eq!(seen(), (true, false, false));
        assert!(Disk.exists(&path("b.patio")));
        remembered.forget(&path("a.patio"));
        assert!(!seen().0, "it is looked at again");
        assert_eq!(
            RememberedDisk::default().read(&path("a.patio")).as_deref(),
            Ok("site")
        );
    }

    #[cfg(unix)]
    #[test]
    fn paths_are_made_plain() {
        for (path, plain) in [("/a/./b/../c", "/a/c"), ("/../a", "/a"), ("/a//b/", "/a/b")] {
            assert_eq!(absolute(Path::new(path)).as_deref(), Some(plain));
        }
    }
}
