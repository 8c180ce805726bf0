//! A desk for tests, with a client that says nothing.

use tokio::runtime::{Builder, Runtime};
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{InitializeParams, InitializeResult};
use tower_lsp::{LanguageServer, LspService, async_trait};

use super::desk::Desk;
use super::outbox::Outbox;
use super::tray::Tray;

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

/// An empty desk, and what its messages are sent on.
pub fn desk() -> (Runtime, Desk) {
    let runtime = Builder::new_current_thread().build().unwrap();
    let mut desk = None;
    let _ = LspService::new(|client| {
        let outbox = Outbox::new(client, runtime.handle().clone());
        desk = Some(Desk::new(Tray::to(std::io::sink(), || ()), outbox));
        Nobody
    });
    (runtime, desk.unwrap())
}
