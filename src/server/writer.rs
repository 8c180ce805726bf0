//! The writer: a thread that writes what goes out, so that nothing else waits
//! for a client that reads slowly.
//!
//! Messages keep their order. Of a document's findings only the newest are
//! written of those that wait: a client that reads slowly never gets older
//! findings after newer ones, nor a long tail of versions that it has left
//! behind. The router's crate would stop taking edits in while the client does
//! not read.

use std::io::{self, Write};
use std::iter;
use std::mem;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use std::time::Duration;

use indexmap::IndexMap;
use serde::Serialize;
use tower_lsp::lsp_types::notification::{Notification, PublishDiagnostics};
use tower_lsp::lsp_types::{PublishDiagnosticsParams, Url};

use super::frames;

/// The way to the thread.
#[derive(Clone)]
pub(crate) struct Writer {
    queue: Sender<Outgoing>,
    newest: Newest,
}

/// The newest findings of each document that wait, and no older ones: a client
/// that does not read does not make them pile up.
type Newest = Arc<Mutex<IndexMap<Url, PublishDiagnosticsParams>>>;

enum Outgoing {
    Message(Vec<u8>),
    /// There are findings that wait.
    Findings,
    /// To be told once all before it is written.
    Mark(Sender<()>),
}

impl Writer {
    /// Starts the thread, which writes to `out`. When writing fails, the client
    /// is gone: nothing more is written, and `when_broken` is called.
    pub(crate) fn to(
        out: impl Write + Send + 'static,
        when_broken: impl FnOnce() + Send + 'static,
    ) -> Writer {
        let (queue, waiting) = channel();
        let newest = Newest::default();
        let findings = Arc::clone(&newest);
        thread::spawn(move || {
            if write_all(out, &waiting, &findings).is_err() {
                when_broken();
            }
        });
        Writer { queue, newest }
    }

    /// Puts a message in; what cannot be written as JSON is left out.
    pub(crate) fn send(&self, message: &impl Serialize) {
        if let Ok(body) = serde_json::to_vec(message) {
            self.send_written(body);
        }
    }

    /// Puts a message in that is written already.
    pub(crate) fn send_written(&self, body: Vec<u8>) {
        self.put(Outgoing::Message(body));
    }

    /// Puts a notification in.
    pub(crate) fn announce<N: Notification>(&self, params: &impl Serialize) {
        self.send(&notification::<N>(params));
    }

    /// Puts a document's findings in.
    pub(crate) fn publish(&self, findings: PublishDiagnosticsParams) {
        let mut newest = self.newest.lock().unwrap_or_else(PoisonError::into_inner);
        if newest.is_empty() {
            self.put(Outgoing::Findings);
        }
        newest.insert(findings.uri.clone(), findings);
    }

    /// Waits until all is written, but no longer than `limit`.
    pub(crate) fn finish(&self, limit: Duration) {
        let (mark, reached) = channel();
        self.put(Outgoing::Mark(mark));
        // An error is that of a client that is gone, or slow.
        let _ = reached.recv_timeout(limit);
    }

    fn put(&self, outgoing: Outgoing) {
        // The thread ends before the way to it when the client is gone.
        let _ = self.queue.send(outgoing);
    }
}

/// A notification as it is written.
fn notification<N: Notification>(params: impl Serialize) -> impl Serialize {
    #[derive(Serialize)]
    struct Notified<P> {
        jsonrpc: &'static str,
        method: &'static str,
        params: P,
    }
    let (jsonrpc, method) = ("2.0", N::METHOD);
    Notified {
        jsonrpc,
        method,
        params,
    }
}

/// Writes what waits, as long as there is a way to put more in.
fn write_all(mut out: impl Write, waiting: &Receiver<Outgoing>, newest: &Newest) -> io::Result<()> {
    while let Ok(first) = waiting.recv() {
        let mut reached = Vec::new();
        let batch: Vec<Outgoing> = iter::once(first).chain(waiting.try_iter()).collect();
        for outgoing in batch {
            match outgoing {
                Outgoing::Message(body) => frames::write(&mut out, &body)?,
                Outgoing::Findings => {}
                Outgoing::Mark(mark) => reached.push(mark),
            }
        }
        let findings = mem::take(&mut *newest.lock().unwrap_or_else(PoisonError::into_inner));
        for findings in findings.values() {
            let body = serde_json::to_vec(&notification::<PublishDiagnostics>(findings))?;
            frames::write(&mut out, &body)?;
        }
        out.flush()?;
        for mark in reached {
            let _ = mark.send(());
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::sync::mpsc;

    use super::*;

    /// A client that reads when it is told to.
    struct Slow {
        read: Arc<Mutex<Vec<u8>>>,
        may: mpsc::Receiver<()>,
    }

    impl Write for Slow {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            self.read.lock().unwrap().extend_from_slice(bytes);
            Ok(bytes.len())
        }

        fn flush(&mut self) -> io::Result<()> {
            let gone = |_| io::ErrorKind::BrokenPipe.into();
            self.may.recv().map_err(gone)
        }
    }

    #[test]
    fn only_the_newest_findings_wait() {
        let read = Arc::default();
        let (go, may) = channel();
        let slow = Slow {
            read: Arc::clone(&read),
            may,
        };
        let writer = Writer::to(slow, || ());
        writer.send(&"held");
        while read.lock().unwrap().is_empty() {
            thread::yield_now();
        }
        for version in 1..=50 {
            for name in ["a", "b"] {
                let uri = Url::parse(&format!("file:///{name}")).unwrap();
                let none = Vec::new();
                writer.publish(PublishDiagnosticsParams::new(uri, none, Some(version)));
            }
        }
        writer.send(&"last");
        assert_eq!(
            writer.newest.lock().unwrap().len(),
            2,
            "older ones are gone"
        );
        go.send(()).unwrap();
        go.send(()).unwrap();
        drop(go);
        writer.finish(Duration::from_secs(60));
        let read = String::from_utf8(read.lock().unwrap().clone()).unwrap();
        assert_eq!(read.matches("publishDiagnostics").count(), 2, "{read}");
        assert_eq!(read.matches("\"version\":50").count(), 2, "{read}");
        assert!(read.contains("\"last\""));
    }

    #[test]
    fn a_client_that_is_gone_is_noticed() {
        let (go, may) = channel();
        let (broken, noticed) = channel();
        let slow = Slow {
            read: Arc::default(),
            may,
        };
        let writer = Writer::to(slow, move || broken.send(()).unwrap());
        drop(go);
        writer.send(&"anybody there?");
        noticed.recv().unwrap();
        writer.send(&"hello?");
        writer.finish(Duration::from_secs(60));
    }
}
