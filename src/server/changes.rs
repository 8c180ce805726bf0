//! Changes of files as the protocol carries them.

use indexmap::IndexMap;
use tower_lsp::lsp_types::*;

use super::session::Session;
use super::snapshot::Snapshot;
use crate::ide::ActionEdit;

/// Changes of some files, each place once.
#[derive(Debug, Default)]
pub(crate) struct Changes {
    files: IndexMap<Url, Vec<TextEdit>>,
}

impl Changes {
    /// Takes in edits of the files of a spec; nothing is taken if one of them
    /// has no address.
    pub(crate) fn add(
        &mut self,
        edits: Vec<ActionEdit>,
        snapshot: &Snapshot,
        session: &Session,
    ) -> Option<()> {
        let placed: Option<Vec<(Url, TextEdit)>> = edits
            .into_iter()
            .map(|edit| {
                let place = snapshot.location(edit.file, edit.span, session)?;
                Some((place.uri, TextEdit::new(place.range, edit.text)))
            })
            .collect();
        for (uri, edit) in placed? {
            let edits = self.files.entry(uri).or_default();
            if !edits.contains(&edit) {
                edits.push(edit);
            }
        }
        Some(())
    }

    /// The changes, to a client that can be told of versions with that of each
    /// document that they are for, so that it makes them in no other.
    pub(crate) fn finish(self, session: &Session) -> WorkspaceEdit {
        if !session
            .client
            .can("workspace.workspaceEdit.documentChanges")
        {
            return WorkspaceEdit::new(self.files.into_iter().collect());
        }
        let files = self.files.into_iter().map(|(uri, edits)| TextDocumentEdit {
            text_document: OptionalVersionedTextDocumentIdentifier {
                version: session.version(&uri),
                uri,
            },
            edits: edits.into_iter().map(OneOf::Left).collect(),
        });
        WorkspaceEdit {
            document_changes: Some(DocumentChanges::Edits(files.collect())),
            ..WorkspaceEdit::default()
        }
    }
}
