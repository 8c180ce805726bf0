//! The files that an analysis may read: what is open first, then the disk.

use std::sync::Arc;

use super::disk::Disk;
use super::documents::Documents;
use crate::analysis::Files;
use crate::text::Text;

/// Open documents over the disk.
pub(crate) struct OpenFirst<'a> {
    /// What the client has open.
    pub documents: &'a Documents,
    /// What lies on disk.
    pub disk: &'a Disk,
}

impl Files for OpenFirst<'_> {
    fn read(&self, path: &str) -> Result<Text, String> {
        match self.documents.get(path) {
            Some(document) => Ok(document.text().clone()),
            None => self.disk.read(path),
        }
    }

    fn exists(&self, path: &str) -> bool {
        self.documents.contains_key(path) || self.disk.exists(path)
    }

    fn list(&self, folder: &str) -> Arc<[String]> {
        self.disk.list(folder)
    }

    fn leads_out(&self, path: &str, folder: &str) -> bool {
        !self.documents.contains_key(path) && self.disk.leads_out(path, folder)
    }
}
