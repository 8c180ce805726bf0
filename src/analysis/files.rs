//! Files as the analysis asks for them.

use crate::text::Text;

/// Reads files for the analysis. Paths are absolute and parted by `/`.
pub trait Files: Sync {
    /// The text of a file, if it can be read.
    fn read(&self, path: &str) -> Option<Text>;

    /// Whether there is a file or folder here.
    fn exists(&self, path: &str) -> bool;

    /// The names in a folder, by which the letter case of a path is checked;
    /// empty if there is none.
    fn list(&self, folder: &str) -> Vec<String>;
}

/// No files at all, for a text that stands alone.
pub struct NoFiles;

impl Files for NoFiles {
    fn read(&self, _: &str) -> Option<Text> {
        None
    }

    fn exists(&self, _: &str) -> bool {
        false
    }

    fn list(&self, _: &str) -> Vec<String> {
        Vec::new()
    }
}
