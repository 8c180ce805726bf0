//! What client and server can do.

use serde_json::Value;
use tower_lsp::lsp_types::*;

use super::commands::COMMANDS;
use super::{paths, positions, tokens};
use crate::ide;
use crate::text::Encoding;

/// Whether the client watches files for the server.
pub(crate) const WATCHES: &str = "workspace.didChangeWatchedFiles.dynamicRegistration";

/// What the client told of itself.
#[derive(Debug, Clone, Default)]
pub(crate) struct ClientSide {
    /// What it counts columns in.
    pub encoding: Encoding,
    /// Whether it asks for findings by itself, and asks again when told to.
    /// Such a client is sent none unasked: it would show them twice.
    pub pulls: bool,
    told: Value,
}

impl ClientSide {
    /// Reads what the client told.
    pub(crate) fn of(client: &ClientCapabilities) -> ClientSide {
        let mut side = ClientSide {
            encoding: encoding(client).1,
            pulls: false,
            told: serde_json::to_value(client).unwrap_or_default(),
        };
        side.pulls = side.told("textDocument.diagnostic").is_some()
            && side.can("workspace.diagnostic.refreshSupport");
        side
    }

    /// What it told under a name of the protocol, `workspace.configuration`.
    pub(crate) fn told(&self, name: &str) -> Option<&Value> {
        let mut parts = name.split('.');
        parts.try_fold(&self.told, |told, part| told.get(part))
    }

    /// Whether it told that it can do something.
    pub(crate) fn can(&self, name: &str) -> bool {
        self.told(name) == Some(&Value::Bool(true))
    }

    /// Whether it would rather have plain text than Markdown: of the formats
    /// that it told under a name it likes the first best.
    pub(crate) fn likes_plain(&self, formats: &str) -> bool {
        let first = self.told(formats).and_then(|formats| formats.get(0));
        first.is_some_and(|first| first == "plaintext")
    }
}

/// Markdown as a client would have it.
pub(crate) fn marked_up(markdown: String, is_plain: bool) -> MarkupContent {
    let (kind, value) = match is_plain {
        true => (MarkupKind::PlainText, ide::without_marks(&markdown)),
        false => (MarkupKind::Markdown, markdown),
    };
    MarkupContent { kind, value }
}

fn encoding(client: &ClientCapabilities) -> (PositionEncodingKind, Encoding) {
    let general = client.general.as_ref();
    let offered = general.and_then(|general| general.position_encodings.as_deref());
    positions::negotiate(offered.unwrap_or_default())
}

/// What the server offers such a client. Linked editing is not among it: a
/// name that is half typed may be a word of the language, and every line that
/// has it would mean something else for a moment.
pub(crate) fn server(client: &ClientCapabilities) -> ServerCapabilities {
    ServerCapabilities {
        position_encoding: Some(encoding(client).0),
        text_document_sync: Some(
            TextDocumentSyncOptions {
                open_close: Some(true),
                change: Some(TextDocumentSyncKind::INCREMENTAL),
                save: Some(true.into()),
                ..TextDocumentSyncOptions::default()
            }
            .into(),
        ),
        hover_provider: Some(true.into()),
        completion_provider: Some(CompletionOptions {
            resolve_provider: Some(true),
            trigger_characters: Some([" ", ",", "(", "/", ".", "\""].map(str::to_owned).to_vec()),
            ..CompletionOptions::default()
        }),
        signature_help_provider: Some(SignatureHelpOptions {
            trigger_characters: Some([" ", ",", "("].map(str::to_owned).to_vec()),
            ..SignatureHelpOptions::default()
        }),
        definition_provider: Some(OneOf::Left(true)),
        references_provider: Some(OneOf::Left(true)),
        document_highlight_provider: Some(OneOf::Left(true)),
        rename_provider: Some(OneOf::Right(RenameOptions {
            prepare_provider: Some(true),
            work_done_progress_options: WorkDoneProgressOptions::default(),
        })),
        semantic_tokens_provider: Some(
            SemanticTokensOptions {
                legend: tokens::legend(),
                range: Some(true),
                full: Some(SemanticTokensFullOptions::Delta { delta: Some(true) }),
                ..SemanticTokensOptions::default()
            }
            .into(),
        ),
        workspace_symbol_provider: Some(OneOf::Left(true)),
        document_link_provider: Some(DocumentLinkOptions {
            resolve_provider: Some(false),
            work_done_progress_options: WorkDoneProgressOptions::default(),
        }),
        folding_range_provider: Some(true.into()),
        selection_range_provider: Some(true.into()),
        code_lens_provider: Some(CodeLensOptions {
            resolve_provider: Some(false),
        }),
        document_symbol_provider: Some(OneOf::Left(true)),
        inlay_hint_provider: Some(OneOf::Right(InlayHintServerCapabilities::Options(
            InlayHintOptions {
                resolve_provider: Some(true),
                work_done_progress_options: WorkDoneProgressOptions::default(),
            },
        ))),
        document_formatting_provider: Some(OneOf::Left(true)),
        document_range_formatting_provider: Some(OneOf::Left(true)),
        document_on_type_formatting_provider: Some(DocumentOnTypeFormattingOptions {
            first_trigger_character: "\n".to_owned(),
            more_trigger_character: None,
        }),
        code_action_provider: Some(CodeActionProviderCapability::Options(CodeActionOptions {
            code_action_kinds: Some(vec![
                CodeActionKind::QUICKFIX,
                CodeActionKind::REFACTOR_REWRITE,
                CodeActionKind::REFACTOR_EXTRACT,
                CodeActionKind::REFACTOR_INLINE,
                CodeActionKind::SOURCE_FIX_ALL,
            ]),
            ..CodeActionOptions::default()
        })),
        workspace: Some(WorkspaceServerCapabilities {
            workspace_folders: Some(WorkspaceFoldersServerCapabilities {
                supported: Some(true),
                change_notifications: Some(OneOf::Left(true)),
            }),
            file_operations: Some(WorkspaceFileOperationsServerCapabilities {
                did_create: Some(spec_files(true)),
                did_rename: Some(spec_files(true)),
                did_delete: Some(spec_files(true)),
                will_rename: Some(spec_files(false)),
                ..WorkspaceFileOperationsServerCapabilities::default()
            }),
        }),
        execute_command_provider: Some(ExecuteCommandOptions {
            commands: COMMANDS
                .iter()
                .map(|command| command.name.to_owned())
                .collect(),
            work_done_progress_options: WorkDoneProgressOptions::default(),
        }),
        diagnostic_provider: ClientSide::of(client).pulls.then(|| {
            DiagnosticServerCapabilities::Options(DiagnosticOptions {
                identifier: Some("drylay".to_owned()),
                inter_file_dependencies: true,
                workspace_diagnostics: true,
                work_done_progress_options: WorkDoneProgressOptions::default(),
            })
        }),
        ..ServerCapabilities::default()
    }
}

/// The specs, and folders if they count, of whose fate the client is to tell.
fn spec_files(with_folders: bool) -> FileOperationRegistrationOptions {
    let filter = |glob: &str, kind| FileOperationFilter {
        scheme: Some("file".to_owned()),
        pattern: FileOperationPattern {
            glob: glob.to_owned(),
            matches: Some(kind),
            options: None,
        },
    };
    let specs = filter("**/*.patio", FileOperationPatternKind::File);
    let folders = filter("**", FileOperationPatternKind::Folder);
    let filters = std::iter::once(specs).chain(with_folders.then_some(folders));
    FileOperationRegistrationOptions {
        filters: filters.collect(),
    }
}

/// The files that the client is asked to watch: the specs in its folders, and
/// standards in the folders `above` them.
pub(crate) fn watched_files(above: &[String]) -> Registration {
    let watcher = |glob_pattern| FileSystemWatcher {
        glob_pattern,
        kind: None,
    };
    let specs = GlobPattern::String("**/*.patio".to_owned());
    let folders = above.iter().map(|folder| format!("{folder}/"));
    let standards = folders.filter_map(|folder| {
        Some(GlobPattern::Relative(RelativePattern {
            base_uri: OneOf::Right(paths::address(&folder)?),
            pattern: "standard.patio".to_owned(),
        }))
    });
    let watchers = std::iter::once(specs).chain(standards).map(watcher);
    let options = DidChangeWatchedFilesRegistrationOptions {
        watchers: watchers.collect(),
    };
    Registration {
        id: "drylay-files".to_owned(),
        method: "workspace/didChangeWatchedFiles".to_owned(),
        register_options: serde_json::to_value(options).ok(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn only_a_client_that_can_pull_again_is_left_to_pull() {
        let (none, some) = (json!({}), json!({"diagnostic": {}}));
        let [never, again] =
            [false, true].map(|can| json!({"diagnostic": {"refreshSupport": can}}));
        for (text, workspace, pulls) in [
            (&none, &none, false),
            (&some, &none, false),
            (&some, &never, false),
            (&none, &again, false),
            (&some, &again, true),
        ] {
            let client = json!({"textDocument": text, "workspace": workspace});
            let client: ClientCapabilities = serde_json::from_value(client).unwrap();
            assert_eq!(ClientSide::of(&client).pulls, pulls);
            assert_eq!(server(&client).diagnostic_provider.is_some(), pulls);
        }
    }
}
