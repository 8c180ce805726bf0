//! What the protocol's methods do, but for those of `fast_requests`: each puts
//! its job on the engine's queue before it first waits, so that jobs come in
//! the order of the messages.

use futures::FutureExt;
use futures::future::BoxFuture;
use serde_json::Value;
use tokio::sync::mpsc::UnboundedSender;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::*;
use tower_lsp::{Client, LanguageServer, async_trait};

use super::capabilities::{self, ClientSide};
use super::engine::Engine;
use super::serve::ABANDONED;
use super::session::Session;
use super::workspace::Roots;
use super::{
    actions, commands, completion, diagnostics, file_rename, formatting, hints, hover, names,
    paths, reading, signature, symbols,
};
use crate::host::watch_process;

/// The server as the router sees it.
pub(crate) struct Backend {
    /// The way to the client.
    pub client: Client,
    /// The way to the session.
    pub engine: Engine,
    /// What the exit status is, told when the session ends.
    pub events: UnboundedSender<i32>,
}

impl Backend {
    /// The client wants no more of a display of progress, and of what it shows.
    pub(crate) async fn cancel_progress(&self, params: WorkDoneProgressCancelParams) {
        self.engine.tell(|session| session.stop_reading(params));
    }
}

/// The folders of the workspace, by whichever of its fields a client tells
/// them.
#[allow(deprecated, reason = "older clients tell the one folder only")]
fn roots(params: &InitializeParams) -> Vec<String> {
    let folders = params.workspace_folders.iter().flatten();
    let folders: Vec<String> = folders.map(|folder| paths::of(&folder.uri)).collect();
    if !folders.is_empty() {
        return folders;
    }
    let root = params.root_uri.as_ref().map(paths::of);
    root.or_else(|| params.root_path.clone())
        .into_iter()
        .collect()
}

/// Methods that are a function of the session each, in the form that
/// `async_trait` gives the trait.
macro_rules! methods {
    ($($method:ident($params:ty) -> $result:ty = $way:ident($job:expr),)*) => {$(
        fn $method<'own, 'asked>(&'own self, params: $params) -> BoxFuture<'asked, $result>
        where
            'own: 'asked,
            Self: 'asked,
        {
            self.engine.$way(params, $job).boxed()
        }
    )*};
}

#[async_trait]
impl LanguageServer for Backend {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        // The end of standard input tells the same at once, but a grandchild may
        // hold the pipe open.
        if let Some(process) = params.process_id {
            let events = self.events.clone();
            watch_process(process, move || events.send(ABANDONED).unwrap_or_default());
        }
        let side = ClientSide::of(&params.capabilities);
        let roots = roots(&params);
        let options = params.initialization_options.unwrap_or_default();
        self.engine.tell(move |session| {
            session.client_requests.begin(&side);
            session.client = side;
            session.roots = Roots::new(roots);
            session.configure(|scopes| scopes.begin(options));
        });
        Ok(InitializeResult {
            capabilities: capabilities::server(&params.capabilities),
            server_info: Some(ServerInfo {
                name: env!("CARGO_PKG_NAME").to_owned(),
                version: Some(env!("CARGO_PKG_VERSION").to_owned()),
            }),
        })
    }

    async fn shutdown(&self) -> Result<()> {
        Ok(())
    }

    methods! {
        initialized(InitializedParams) -> () = note(|session, _| session.begin()),
        did_open(DidOpenTextDocumentParams) -> () = note(Session::open),
        did_change(DidChangeTextDocumentParams) -> () = note(Session::change),
        did_save(DidSaveTextDocumentParams) -> () = note(Session::save),
        did_close(DidCloseTextDocumentParams) -> () = note(Session::close),
        did_change_watched_files(DidChangeWatchedFilesParams) -> () = note(|session, params| {
            session.changed_at(params.changes.iter().map(|file| file.uri.as_str()))
        }),
        did_create_files(CreateFilesParams) -> () = note(|session, params| {
            session.changed_at(params.files.iter().map(|file| &*file.uri))
        }),
        did_rename_files(RenameFilesParams) -> () = note(|session, params| {
            session.changed_at(params.files.iter().flat_map(|file| [&*file.old_uri, &*file.new_uri]))
        }),
        did_delete_files(DeleteFilesParams) -> () = note(|session, params| {
            session.changed_at(params.files.iter().map(|file| &*file.uri))
        }),
        did_change_workspace_folders(DidChangeWorkspaceFoldersParams) -> () = note(Session::change_folders),
        did_change_configuration(DidChangeConfigurationParams) -> () = note(Session::change_settings),

        hover(HoverParams) -> Result<Option<Hover>> = answer(hover::answer),
        completion(CompletionParams) -> Result<Option<CompletionResponse>> = answer(completion::answer),
        completion_resolve(CompletionItem) -> Result<CompletionItem> = answer(completion::resolved),
        signature_help(SignatureHelpParams) -> Result<Option<SignatureHelp>> = answer(signature::answer),
        inlay_hint_resolve(InlayHint) -> Result<InlayHint> = answer(hints::resolved),
        diagnostic(DocumentDiagnosticParams) -> Result<DocumentDiagnosticReportResult> = answer(diagnostics::answer),
        code_action(CodeActionParams) -> Result<Option<CodeActionResponse>> = answer(actions::answer),
        code_lens(CodeLensParams) -> Result<Option<Vec<CodeLens>>> = answer(reading::lenses),
        document_link(DocumentLinkParams) -> Result<Option<Vec<DocumentLink>>> = answer(reading::links),
        folding_range(FoldingRangeParams) -> Result<Option<Vec<FoldingRange>>> = answer(reading::folds),
        selection_range(SelectionRangeParams) -> Result<Option<Vec<SelectionRange>>> = answer(reading::selections),
        symbol(WorkspaceSymbolParams) -> Result<Option<Vec<SymbolInformation>>> = answer(symbols::of_workspace),
        range_formatting(DocumentRangeFormattingParams) -> Result<Option<Vec<TextEdit>>> = answer(formatting::range),
        on_type_formatting(DocumentOnTypeFormattingParams) -> Result<Option<Vec<TextEdit>>> = answer(formatting::on_type),
        goto_definition(GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> = answer(names::definition),
        document_highlight(DocumentHighlightParams) -> Result<Option<Vec<DocumentHighlight>>> = answer(names::highlights),
        will_rename_files(RenameFilesParams) -> Result<Option<WorkspaceEdit>> = answer_when_read(file_rename::changes),
    }

    async fn prepare_rename(
        &self,
        params: TextDocumentPositionParams,
    ) -> Result<Option<PrepareRenameResponse>> {
        self.engine.answer(params, names::prepare).await?
    }

    async fn execute_command(&self, params: ExecuteCommandParams) -> Result<Option<Value>> {
        self.engine.answer(params, commands::execute).await?
    }

    async fn rename(&self, params: RenameParams) -> Result<Option<WorkspaceEdit>> {
        self.engine.answer_when_read(params, names::rename).await?
    }

    async fn references(&self, params: ReferenceParams) -> Result<Option<Vec<Location>>> {
        let found = self.engine.ask_later(move |session, reply| {
            let found = names::references(session, &params, &|| reply.is_closed());
            let _ = reply.send(found);
        });
        found.await
    }

    async fn workspace_diagnostic(
        &self,
        params: WorkspaceDiagnosticParams,
    ) -> Result<WorkspaceDiagnosticReportResult> {
        let report = self
            .engine
            .ask_later(move |session, reply| session.pull(params, reply));
        Ok(WorkspaceDiagnosticReportResult::Report(report.await?))
    }
}
