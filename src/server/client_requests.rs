//! What the server says to the client unasked, findings aside: that it should
//! ask again, because something that it has not edited changed what it shows,
//! and that something went wrong.

use std::sync::Arc;

use tokio::runtime::Handle;
use tokio::sync::Notify;
use tower_lsp::Client;
use tower_lsp::lsp_types::request::WorkDoneProgressCreate;
use tower_lsp::lsp_types::{
    MessageType, Position, ProgressToken, Range, ShowDocumentParams, Url,
    WorkDoneProgressCreateParams,
};

use super::capabilities::ClientSide;

/// The way to say so.
pub(crate) struct ClientRequests {
    client: Client,
    runtime: Handle,
    /// That the client should ask again; one question is out at a time.
    stale: Arc<Notify>,
}

impl ClientRequests {
    /// For a client, with questions waited for on this runtime.
    pub(crate) fn new(client: Client, runtime: Handle) -> ClientRequests {
        ClientRequests {
            client,
            runtime,
            stale: Arc::default(),
        }
    }

    /// From now on the client is asked to ask again, whenever it should, for
    /// findings, hints, figures over surfaces and colours, as far as it can.
    pub(crate) fn begin(&self, side: &ClientSide) {
        let (findings, hints) = (side.pulls, side.refreshes_hints);
        let (lenses, colours) = (side.refreshes_lenses, side.refreshes_colours);
        let (client, stale) = (self.client.clone(), Arc::clone(&self.stale));
        // A question must be waited for to its end: the router does not
        // survive an answer that nobody waits for.
        self.runtime.spawn(async move {
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

    /// Asks the client for a display of progress; gives whether it agrees.
    pub(crate) fn create_progress(
        &self,
        token: String,
    ) -> impl Future<Output = bool> + Send + 'static {
        let client = self.client.clone();
        let params = WorkDoneProgressCreateParams {
            token: ProgressToken::String(token),
        };
        async move {
            client
                .send_request::<WorkDoneProgressCreate>(params)
                .await
                .is_ok()
        }
    }

    /// Has the client show a document, the cursor at a place.
    pub(crate) fn show(&self, uri: Url, at: Position) {
        let client = self.client.clone();
        let params = ShowDocumentParams {
            uri,
            external: None,
            take_focus: Some(true),
            selection: Some(Range::new(at, at)),
        };
        self.runtime.spawn(async move {
            let _ = client.show_document(params).await;
        });
    }

    /// Shows the user a sentence.
    pub(crate) fn warn(&self, what: String) {
        let client = self.client.clone();
        self.runtime
            .spawn(async move { client.show_message(MessageType::WARNING, what).await });
    }

    /// Writes a line into the client's log.
    pub(crate) fn log(&self, what: String) {
        let client = self.client.clone();
        self.runtime
            .spawn(async move { client.log_message(MessageType::ERROR, what).await });
    }
}
