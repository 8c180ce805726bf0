//! What a file looks like from outside, by which a change is noticed.

use std::fs;
use std::path::Path;
use std::time::SystemTime;

/// When a file or folder was last written, and how long it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Stamp {
    written: SystemTime,
    length: u64,
}

/// What lies at a path looks like now; nothing if nothing does.
pub(crate) fn stamp(path: &Path) -> Option<Stamp> {
    let about = fs::metadata(path).ok()?;
    Some(Stamp {
        written: about.modified().ok()?,
        length: about.len(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_that_grows_looks_otherwise() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.patio");
        assert_eq!(stamp(&path), None);
        fs::write(&path, "a").unwrap();
        let before = stamp(&path);
        assert!(before.is_some() && before == stamp(&path));
        fs::write(&path, "ab").unwrap();
        assert_ne!(stamp(&path), before);
    }
}
