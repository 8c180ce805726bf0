//! What client and server can do.

use serde_json::Value;
use tower_lsp::lsp_types::*;

use super::commands::COMMANDS;
use super::{paths, positions, tokens};
use crate::ide;
use crate::text::Encoding;

/// What the client told of itself that changes how it is served.
#[derive(Debug, Clone, Default)]
pub(crate) struct ClientSide {
    /// What it counts columns in.
    pub encoding: Encoding,
    /// Whether it asks for findings by itself, and asks again when told to.
    /// Such a client is sent none unasked: it would show them twice.
    pub pulls: bool,
    /// Whether findings may name related places.
    pub related: bool,
    /// Whether it can be told to ask for hints again.
    pub refreshes_hints: bool,
    /// Whether it can ask later for what stands behind a hint.
    pub resolves_hints: bool,
    /// Whether it can ask later where a part of a hint leads.
    pub resolves_hint_places: bool,
    /// Whether it can be told to ask for the figures over surfaces again.
    pub refreshes_lenses: bool,
    /// Whether it can be told to ask for colours again.
    pub refreshes_colours: bool,
    /// Whether what is put in for it may have tab stops.
    pub snippets: bool,
    /// Whether it would rather have hovers as plain text than as Markdown.
    pub plain_hovers: bool,
    /// The same of what is told of an offer.
    pub plain_offers: bool,
    /// Whether it watches files for the server.
    pub watches: bool,
    /// Whether it watches files outside its own folders, too.
    pub watches_elsewhere: bool,
    /// Whether it can be asked for its settings.
    pub tells_settings: bool,
    /// Whether changes for it may name the version that they are for.
    pub takes_versions: bool,
    /// Whether it can be told to show a document.
    pub shows_documents: bool,
    /// Whether it shows how far something has come.
    pub shows_progress: bool,
}

impl ClientSide {
    /// Reads what the client told.
    pub(crate) fn of(client: &ClientCapabilities) -> ClientSide {
        let told = serde_json::to_value(client).unwrap_or_default();
        let is_so = |name: &str| told.pointer(name) == Some(&Value::Bool(true));
        let is_there = |name: &str| told.pointer(name).is_some();
        let hint_places = "/textDocument/inlayHint/resolveSupport/properties";
        let later = told.pointer(hint_places).and_then(Value::as_array);
        // Of the formats that it names it likes the first best.
        let is_plain = |formats: &str| {
            let first = told.pointer(&format!("{formats}/0"));
            first.and_then(Value::as_str) == Some("plaintext")
        };
        ClientSide {
            encoding: encoding(client).1,
            pulls: is_there("/textDocument/diagnostic")
                && is_so("/workspace/diagnostic/refreshSupport"),
            related: is_so("/textDocument/publishDiagnostics/relatedInformation"),
            refreshes_hints: is_so("/workspace/inlayHint/refreshSupport"),
            resolves_hints: is_there("/textDocument/inlayHint/resolveSupport"),
            resolves_hint_places: later.is_some_and(|all| all.contains(&"label.location".into())),
            refreshes_lenses: is_so("/workspace/codeLens/refreshSupport"),
            refreshes_colours: is_so("/workspace/semanticTokens/refreshSupport"),
            snippets: is_so("/textDocument/completion/completionItem/snippetSupport"),
            plain_hovers: is_plain("/textDocument/hover/contentFormat"),
            plain_offers: is_plain("/textDocument/completion/completionItem/documentationFormat"),
            watches: is_so("/workspace/didChangeWatchedFiles/dynamicRegistration"),
            watches_elsewhere: is_so("/workspace/didChangeWatchedFiles/relativePatternSupport"),
            tells_settings: is_so("/workspace/configuration"),
            takes_versions: is_so("/workspace/workspaceEdit/documentChanges"),
            shows_documents: is_so("/window/showDocument/support"),
            shows_progress: is_so("/window/workDoneProgress"),
        }
    }
}

/// Markdown as a client would have it.
pub(crate) fn marked_up(markdown: String, is_plain: bool) -> MarkupContent {
    match is_plain {
        true => MarkupContent {
            kind: MarkupKind::PlainText,
            value: ide::without_marks(&markdown),
        },
        false => MarkupContent {
            kind: MarkupKind::Markdown,
            value: markdown,
        },
    }
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
        text_document_sync: Some(TextDocumentSyncCapability::Options(
            TextDocumentSyncOptions {
                open_close: Some(true),
                change: Some(TextDocumentSyncKind::INCREMENTAL),
                save: Some(TextDocumentSyncSaveOptions::Supported(true)),
                ..TextDocumentSyncOptions::default()
            },
        )),
        hover_provider: Some(HoverProviderCapability::Simple(true)),
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
        folding_range_provider: Some(FoldingRangeProviderCapability::Simple(true)),
        selection_range_provider: Some(SelectionRangeProviderCapability::Simple(true)),
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
    FileOperationRegistrationOptions {
        filters: std::iter::once(specs)
            .chain(with_folders.then_some(folders))
            .collect(),
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
    let options = DidChangeWatchedFilesRegistrationOptions {
        watchers: std::iter::once(specs)
            .chain(standards)
            .map(watcher)
            .collect(),
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
        for (text, workspace, pulls) in [
            (json!({}), json!({}), false),
            (json!({"diagnostic": {}}), json!({}), false),
            (
                json!({"diagnostic": {}}),
                json!({"diagnostic": {"refreshSupport": false}}),
                false,
            ),
            (
                json!({}),
                json!({"diagnostic": {"refreshSupport": true}}),
                false,
            ),
            (
                json!({"diagnostic": {}}),
                json!({"diagnostic": {"refreshSupport": true}}),
                true,
            ),
        ] {
            let client = json!({"textDocument": text, "workspace": workspace});
            let client: ClientCapabilities = serde_json::from_value(client).unwrap();
            assert_eq!(ClientSide::of(&client).pulls, pulls);
            assert_eq!(server(&client).diagnostic_provider.is_some(), pulls);
        }
    }
}
