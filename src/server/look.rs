//! One document as it is now, to answer a request from.

use std::sync::Arc;

use super::positions::Counted;
use crate::analysis::Analysis;
use crate::text::Encoding;

/// A document's analysis, seen by a client.
pub struct Look {
    /// The analysis.
    pub analysis: Arc<Analysis>,
    /// What the client counts columns in.
    pub encoding: Encoding,
}

impl Look {
    /// One of the files that the analysis read; 0 is the document itself.
    pub fn file(&self, index: usize) -> Option<(&str, Counted<'_>)> {
        let file = self.analysis.files.get(index)?;
        let counted = Counted {
            text: &file.tree.text,
            lines: &file.lines,
            encoding: self.encoding,
        };
        Some((&file.path, counted))
    }

    /// The document itself.
    pub fn own(&self) -> Option<Counted<'_>> {
        self.file(0).map(|(_, counted)| counted)
    }
}
