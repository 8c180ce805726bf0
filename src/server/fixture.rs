//! A session for tests, with a client that says nothing.

use tokio::runtime::{Builder, Runtime};
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{InitializeParams, InitializeResult};
use tower_lsp::{LanguageServer, LspService, async_trait};

use super::client_requests::ClientRequests;
use super::session::Session;
use super::writer::Writer;

struct Nobody;

#[async_trait]
impl LanguageServer for Nobody {
    async fn initialize(&self, _: InitializeParams) -> Result<InitializeResult> {
        Ok(InitializeResult::default())
    }

    async fn shutdown(&self) -> Result<()> {
        Ok(())
    }
}

/// An empty session, and what its messages are sent on.
pub(crate) fn session() -> (Runtime, Session) {
    let runtime = Builder::new_current_thread().build().unwrap();
    let mut session = None;
    let _ = LspService::new(|client| {
        let client_requests = ClientRequests::new(client, runtime.handle().clone());
        session = Some(Session::new(
            Writer::to(std::io::sink(), || ()),
            client_requests,
        ));
        Nobody
    });
    (runtime, session.unwrap())
}
