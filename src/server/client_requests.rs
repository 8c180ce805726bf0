//! What the server says to the client unasked, findings aside: that it should
//! ask again, because something that it has not edited changed what it shows;
//! that something went wrong; and what it asks the client for.

use std::sync::Arc;
use std::time::Duration;

use serde_json::Value;
use tokio::runtime::Handle;
use tokio::sync::Notify;
use tower_lsp::Client;
use tower_lsp::lsp_types::request::WorkDoneProgressCreate;
use tower_lsp::lsp_types::{
    ConfigurationItem, MessageType, Position, ProgressToken, Range, Registration,
    ShowDocumentParams, Url, WorkDoneProgressCreateParams,
};

use super::capabilities::ClientSide;
use super::engine::Engine;
use super::paths;
use super::session::Session;
use super::settings::SECTION;

/// How often files are looked at for changes where the client does not watch
/// them.
const BETWEEN_LOOKS: Duration = Duration::from_secs(2);

/// The way to say so.
pub(crate) struct ClientRequests {
    client: Client,
    runtime: Handle,
    /// Where answers go.
    engine: Engine,
    /// That the client should ask again; one question is out at a time.
    stale: Arc<Notify>,
}

impl ClientRequests {
    /// For a client, with questions waited for on this runtime.
    pub(crate) fn new(client: Client, runtime: Handle, engine: Engine) -> ClientRequests {
        ClientRequests {
            client,
            runtime,
            engine,
            stale: Arc::default(),
        }
    }

    /// From now on the client is asked to ask again, whenever it should, for
    /// findings, hints, figures over surfaces and colours, as far as it can.
    pub(crate) fn begin(&self, side: &ClientSide) {
        let (findings, hints) = (side.pulls, side.can("workspace.inlayHint.refreshSupport"));
        let lenses = side.can("workspace.codeLens.refreshSupport");
        let colours = side.can("workspace.semanticTokens.refreshSupport");
        let stale = Arc::clone(&self.stale);
        self.say(|client| async move {
            loop {
                stale.notified().await;
                if findings {
                    let _ = client.workspace_diagnostic_refresh().await;
                }
                if hints {
                    let _ = client.inlay_hint_refresh().await;
                }
                if lenses {
                    let _ = client.code_lens_refresh().await;
                }
                if colours {
                    let _ = client.semantic_tokens_refresh().await;
                }
            }
        });
    }

    /// The client should ask again.
    pub(crate) fn refresh(&self) {
        self.stale.notify_one();
    }

    /// Waits for something beside all else.
    pub(crate) fn spawn(&self, task: impl Future<Output = ()> + Send + 'static) {
        self.runtime.spawn(task);
    }

    /// Says something to the client. What it is asked must be waited for to the
    /// end: the router does not survive an answer that nobody waits for.
    fn say<F: Future<Output = ()> + Send + 'static>(&self, what: impl FnOnce(Client) -> F) {
        self.spawn(what(self.client.clone()));
    }

    /// Asks the client to watch files.
    pub(crate) fn watch(&self, files: Registration) {
        self.say(|client| async move {
            let _ = client.register_capability(vec![files]).await;
        });
    }

    /// Has the session look again and again whether files have changed, for a
    /// client that does not watch them.
    pub(crate) fn look_around(&self) {
        let engine = self.engine.clone();
        self.spawn(async move {
            loop {
                tokio::time::sleep(BETWEEN_LOOKS).await;
                engine.tell(Session::look_around);
            }
        });
    }

    /// Asks the client for its settings, of everything and of folders; `take`
    /// is given each in turn.
    pub(crate) fn ask_for_settings(
        &self,
        folders: &[String],
        take: impl FnOnce(&mut Session, Vec<Value>) + Send + 'static,
    ) {
        let of = |scope_uri| ConfigurationItem {
            scope_uri,
            section: Some(SECTION.to_owned()),
        };
        let each = folders.iter().map(|folder| of(paths::address(folder)));
        let items = std::iter::once(of(None)).chain(each).collect();
        let engine = self.engine.clone();
        self.say(|client| async move {
            if let Ok(values) = client.configuration(items).await {
                engine.tell(|session| take(session, values));
            }
        });
    }

    /// Asks the client for a display of progress; gives whether it agrees.
    pub(crate) fn create_progress(
        &self,
        token: ProgressToken,
    ) -> impl Future<Output = bool> + Send + 'static {
        let client = self.client.clone();
        async move {
            let params = WorkDoneProgressCreateParams { token };
            let agreed = client.send_request::<WorkDoneProgressCreate>(params);
            agreed.await.is_ok()
        }
    }

    /// Has the client show a document, the cursor at a place.
    pub(crate) fn show(&self, uri: Url, at: Position) {
        let params = ShowDocumentParams {
            uri,
            external: None,
            take_focus: Some(true),
            selection: Some(Range::new(at, at)),
        };
        self.say(|client| async move {
            let _ = client.show_document(params).await;
        });
    }

    /// Shows the user a sentence.
    pub(crate) fn warn(&self, what: String) {
        self.say(|client| async move { client.show_message(MessageType::WARNING, what).await });
    }

    /// Writes a line into the client's log.
    pub(crate) fn log(&self, what: String) {
        self.say(|client| async move { client.log_message(MessageType::ERROR, what).await });
    }
}
