//! Files as the analysis asks for them.

use std::sync::Arc;

use crate::text::Text;

/// Reads files for the analysis. Paths are absolute and parted by `/`.
pub trait Files: Sync {
    /// The text of a file; or, as a clause, why it cannot be read.
    fn read(&self, path: &str) -> Result<Text, String>;

    /// Whether there is a file or folder here.
    fn exists(&self, path: &str) -> bool;

    /// The names in a folder, sorted, by which the letter case of a path is
    /// checked; empty if there is none. It is asked for at every `use`.
    fn list(&self, folder: &str) -> Arc<[String]>;

    /// Whether links lead from a path out of a folder that it lies in.
    fn leads_out(&self, path: &str, folder: &str) -> bool {
        let _ = (path, folder);
        false
    }
}

/// No files at all, for a text that stands alone.
pub struct NoFiles;

impl Files for NoFiles {
    fn read(&self, _: &str) -> Result<Text, String> {
        Err("there is no such file".to_owned())
    }

    fn exists(&self, _: &str) -> bool {
        false
    }

    fn list(&self, _: &str) -> Arc<[String]> {
        Arc::default()
    }
}
