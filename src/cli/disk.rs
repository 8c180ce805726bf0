//! Files on the disk, as the analysis asks for them.

use std::path::{Component, Path, PathBuf};
use std::sync::Arc;

use crate::analysis::Files;
use crate::host::{names_in, text_at};

/// The files on the disk.
pub struct Disk;

impl Files for Disk {
    fn read(&self, path: &str) -> Option<Arc<str>> {
        text_at(Path::new(path)).ok()
    }

    fn exists(&self, path: &str) -> bool {
        Path::new(path).exists()
    }

    fn list(&self, folder: &str) -> Vec<String> {
        names_in(folder)
    }
}

/// A path as the analysis knows it: absolute, parted by `/`, without `.` and
/// `..`; `None` if it is not text.
pub fn absolute(path: &Path) -> Option<String> {
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

    #[cfg(unix)]
    #[test]
    fn paths_are_made_plain() {
        for (path, plain) in [("/a/./b/../c", "/a/c"), ("/../a", "/a"), ("/a//b/", "/a/b")] {
            assert_eq!(absolute(Path::new(path)).as_deref(), Some(plain));
        }
    }
}
