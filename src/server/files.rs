//! The files that an analysis may read: what is open first, then the disk.

use std::sync::Arc;

use indexmap::IndexMap;

use crate::analysis::Files;
use crate::host::RememberedDisk;
use crate::text::Text;

/// Open documents over the disk.
#[derive(Default)]
pub(crate) struct OpenFirst {
    /// The texts that the client has open, by path.
    pub open: IndexMap<String, Text>,
    /// What lies on disk.
    pub disk: Arc<RememberedDisk>,
}

impl Files for OpenFirst {
    fn read(&self, path: &str) -> Result<Text, String> {
        match self.open.get(path) {
            Some(text) => Ok(text.clone()),
            None => self.disk.read(path),
        }
    }

    fn exists(&self, path: &str) -> bool {
        self.open.contains_key(path) || self.disk.exists(path)
    }

    fn list(&self, folder: &str) -> Arc<[String]> {
        self.disk.list(folder)
    }

    fn leads_out(&self, path: &str, folder: &str) -> bool {
        !self.open.contains_key(path) && self.disk.leads_out(path, folder)
    }
}
