//! A session for tests, with a client that says nothing.

use tokio::runtime::{Builder, Runtime};
use tokio::sync::mpsc::unbounded_channel;
use tower_lsp::LspService;

use super::backend::Backend;
use super::client_requests::ClientRequests;
use super::engine::Engine;
use super::session::Session;
use super::workspace::Worker;
use super::writer::Writer;

/// An empty session, and what its messages are sent on.
pub(crate) fn session() -> (Runtime, Session) {
    let runtime = Builder::new_current_thread().build().unwrap();
    let (engine, events) = (Engine::with_queue().0, unbounded_channel().0);
    let (service, _) = LspService::new(|client| Backend {
        client,
        engine: engine.clone(),
        events,
    });
    let (client, handle) = (service.inner().client.clone(), runtime.handle().clone());
    let client_requests = ClientRequests::new(client, handle, engine);
    let writer = Writer::to(std::io::sink(), || ());
    let worker = Worker::start(|_| ()).unwrap();
    (runtime, Session::new(writer, client_requests, worker))
}
