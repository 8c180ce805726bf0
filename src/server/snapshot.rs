//! One document as it is now, to answer a request from.

use std::sync::Arc;

use tower_lsp::lsp_types::Location;

use super::positions::Counted;
use super::session::Session;
use crate::analysis::{Analysis, File};
use crate::text::{Encoding, Span};

/// A document's analysis, seen by a client.
pub(crate) struct Snapshot {
    /// The analysis.
    pub analysis: Arc<Analysis>,
    /// What the client counts columns in.
    pub encoding: Encoding,
}

impl Snapshot {
    /// One of the files that the analysis read; 0 is the document itself.
    pub(crate) fn file(&self, index: usize) -> Option<(&str, Counted<'_>)> {
        let file = self.analysis.files.get(index)?;
        let counted = Counted {
            text: &file.tree.text,
            lines: &file.lines,
            encoding: self.encoding,
        };
        Some((&file.path, counted))
    }

    /// A place in one of the files as the client knows it.
    pub(crate) fn location(&self, file: usize, span: Span, session: &Session) -> Option<Location> {
        let (path, text) = self.file(file)?;
        Some(Location::new(session.address(path)?, text.range(span)))
    }

    /// The document itself.
    pub(crate) fn own(&self) -> Option<Counted<'_>> {
        self.file(0).map(|(_, counted)| counted)
    }
}

/// A document's text as it was read, seen by a client. Nothing is worked out
/// of it yet, and what needs no more does not wait for that.
pub(crate) struct TextSnapshot {
    /// The text, its tree and its lines.
    pub file: File,
    /// What the client counts columns in.
    pub encoding: Encoding,
}

impl TextSnapshot {
    /// The text, its columns counted.
    pub(crate) fn text(&self) -> Counted<'_> {
        Counted {
            text: &self.file.tree.text,
            lines: &self.file.lines,
            encoding: self.encoding,
        }
    }
}
