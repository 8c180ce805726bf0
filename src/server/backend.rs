//! What the protocol's methods do, but for those of `fast_requests`: each puts
//! its job on the engine's queue before it first waits, so that jobs come in
//! the order of the messages.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

use futures::FutureExt;
use futures::future::BoxFuture;
use serde_json::Value;
use tokio::sync::mpsc::UnboundedSender;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::*;
use tower_lsp::{Client, LanguageServer, async_trait};

use super::capabilities::{self, ClientSide};
use super::engine::Engine;
use super::serve::Event;
use super::session::Session;
use super::workspace::Roots;
use super::{
    actions, commands, completion, diagnostics, file_rename, formatting, hints, hover, names,
    paths, reading, signature, symbols,
};
use crate::host::watch_process;

/// How often files are looked at for changes where the client does not watch
/// them.
const BETWEEN_LOOKS: Duration = Duration::from_secs(2);

/// The server as the router sees it.
pub(crate) struct Backend {
    client: Client,
    engine: Engine,
    events: UnboundedSender<Event>,
    /// How often the client was asked for its settings.
    questions: Arc<AtomicU64>,
}

impl Backend {
    /// A server for a client, with its engine.
    pub(crate) fn new(client: Client, engine: Engine, events: UnboundedSender<Event>) -> Backend {
        Backend {
            client,
            engine,
            events,
            questions: Arc::default(),
        }
    }

    /// Asks the client to watch the files that specs are made of. The question
    /// is waited for to its end, by a task of its own.
    fn watch_files(&self, above: Vec<String>) {
        let client = self.client.clone();
        tokio::spawn(async move {
            let files = capabilities::watched_files(&above);
            let _ = client.register_capability(vec![files]).await;
        });
    }

    /// Looks again and again whether files have changed, for a client that does
    /// not watch them.
    fn look_around(&self) {
        let engine = self.engine.clone();
        tokio::spawn(async move {
            loop {
                tokio::time::sleep(BETWEEN_LOOKS).await;
                engine.tell(Session::look_around);
            }
        });
    }

    /// Files have changed on disk, or come, or gone.
    fn changed_outside(&self, paths: Vec<String>) {
        self.engine
            .tell(move |session| session.changed_outside(&paths));
    }

    /// The client wants no more of a display of progress, and of what it shows.
    pub(crate) async fn cancel_progress(&self, params: WorkDoneProgressCancelParams) {
        if let NumberOrString::String(token) = params.token {
            self.engine
                .tell(move |session| session.stop_reading(&token));
        }
    }

    /// Asks the client for its settings, if it can be asked: for those of each
    /// folder where there are several, whose settings it does not send by
    /// itself, and for all if it has `sent_none`.
    async fn ask_for_settings(&self, sent_none: bool) {
        let folders = self.engine.ask(move |session| {
            let folders = match session.roots.all() {
                [] | [_] => Vec::new(),
                several => several.to_vec(),
            };
            let is_needed = sent_none || !folders.is_empty();
            (session.client.tells_settings && is_needed).then_some(folders)
        });
        let Ok(Some(folders)) = folders.await else {
            return;
        };
        let client = self.client.clone();
        let engine = self.engine.clone();
        let question = self.questions.fetch_add(1, Ordering::SeqCst) + 1;
        let questions = Arc::clone(&self.questions);
        tokio::spawn(async move {
            let of = |scope_uri| ConfigurationItem {
                scope_uri,
                section: Some("drylay".to_owned()),
            };
            let each = folders.iter().map(|folder| of(paths::address(folder)));
            let items = std::iter::once(of(None)).chain(each).collect();
            // Of several answers under way the last question's counts.
            if let Ok(values) = client.configuration(items).await
                && questions.load(Ordering::SeqCst) == question
            {
                let mut values = values.into_iter();
                let whole = values.next().unwrap_or_default();
                let each = folders.into_iter().zip(values).collect();
                engine
                    .tell(move |session| session.configure(|scopes| scopes.set_each(whole, each)));
            }
        });
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

/// Methods that are answered by a function of the session each, in the form
/// that `async_trait` gives the trait.
macro_rules! answers {
    ($($method:ident($params:ty) -> $result:ty = $answer:path,)*) => {$(
        fn $method<'own, 'asked>(&'own self, params: $params) -> BoxFuture<'asked, Result<$result>>
        where
            'own: 'asked,
            Self: 'asked,
        {
            self.engine.answer(params, $answer).boxed()
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
            watch_process(process, move || drop(events.send(Event::ClientGone)));
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

    async fn initialized(&self, _: InitializedParams) {
        self.engine.tell(Session::search);
        let watched = self.engine.ask(|session| {
            let above = match session.client.watches_elsewhere {
                true => session.roots.above(session.disk.as_ref()),
                false => Vec::new(),
            };
            session.client.watches.then_some(above)
        });
        match watched.await {
            Ok(Some(above)) => self.watch_files(above),
            _ => self.look_around(),
        }
        self.ask_for_settings(false).await;
    }

    async fn shutdown(&self) -> Result<()> {
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        self.engine
            .tell(move |session| session.open(params.text_document));
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let document = params.text_document;
        self.engine.tell(move |session| {
            session.change(&document.uri, document.version, params.content_changes)
        });
    }

    async fn did_save(&self, params: DidSaveTextDocumentParams) {
        self.engine
            .tell(move |session| session.save(&params.text_document.uri));
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        self.engine
            .tell(move |session| session.close(&params.text_document.uri));
    }

    async fn did_change_watched_files(&self, params: DidChangeWatchedFilesParams) {
        let changed = params.changes.iter().map(|change| paths::of(&change.uri));
        self.changed_outside(changed.collect());
    }

    async fn did_create_files(&self, params: CreateFilesParams) {
        let come = params
            .files
            .iter()
            .filter_map(|file| paths::of_text(&file.uri));
        self.changed_outside(come.collect());
    }

    async fn did_rename_files(&self, params: RenameFilesParams) {
        let files = params.files.iter();
        let both = files.flat_map(|file| [&file.old_uri, &file.new_uri]);
        self.changed_outside(both.filter_map(|uri| paths::of_text(uri)).collect());
    }

    async fn did_delete_files(&self, params: DeleteFilesParams) {
        let gone = params
            .files
            .iter()
            .filter_map(|file| paths::of_text(&file.uri));
        self.changed_outside(gone.collect());
    }

    async fn did_change_workspace_folders(&self, params: DidChangeWorkspaceFoldersParams) {
        let paths = |folders: &[WorkspaceFolder]| -> Vec<String> {
            folders
                .iter()
                .map(|folder| paths::of(&folder.uri))
                .collect()
        };
        let come = paths(&params.event.added);
        let gone = paths(&params.event.removed);
        self.engine.tell(move |session| {
            session.roots.change(come, &gone);
            session.search();
        });
        self.ask_for_settings(false).await;
    }

    async fn did_change_configuration(&self, params: DidChangeConfigurationParams) {
        let sent_none = params.settings.is_null();
        if !sent_none {
            self.engine
                .tell(move |session| session.configure(|scopes| scopes.set(params.settings)));
        }
        self.ask_for_settings(sent_none).await;
    }

    answers! {
        hover(HoverParams) -> Option<Hover> = hover::answer,
        completion(CompletionParams) -> Option<CompletionResponse> = completion::answer,
        completion_resolve(CompletionItem) -> CompletionItem = completion::resolved,
        signature_help(SignatureHelpParams) -> Option<SignatureHelp> = signature::answer,
        inlay_hint_resolve(InlayHint) -> InlayHint = hints::resolved,
        diagnostic(DocumentDiagnosticParams) -> DocumentDiagnosticReportResult = diagnostics::answer,
        code_action(CodeActionParams) -> Option<CodeActionResponse> = actions::answer,
        code_lens(CodeLensParams) -> Option<Vec<CodeLens>> = reading::lenses,
        document_link(DocumentLinkParams) -> Option<Vec<DocumentLink>> = reading::links,
        folding_range(FoldingRangeParams) -> Option<Vec<FoldingRange>> = reading::folds,
        selection_range(SelectionRangeParams) -> Option<Vec<SelectionRange>> = reading::selections,
        symbol(WorkspaceSymbolParams) -> Option<Vec<SymbolInformation>> = symbols::of_workspace,
        range_formatting(DocumentRangeFormattingParams) -> Option<Vec<TextEdit>> = formatting::range,
        on_type_formatting(DocumentOnTypeFormattingParams) -> Option<Vec<TextEdit>> = formatting::on_type,
        goto_definition(GotoDefinitionParams) -> Option<GotoDefinitionResponse> = names::definition,
        document_highlight(DocumentHighlightParams) -> Option<Vec<DocumentHighlight>> = names::highlights,
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

    async fn will_rename_files(&self, params: RenameFilesParams) -> Result<Option<WorkspaceEdit>> {
        self.engine
            .answer_when_read(params, file_rename::changes)
            .await
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
