//! The writer: what waits to be written, and the thread that writes it.
//!
//! Messages keep their order. Of a document's findings only the newest wait:
//! a client that reads slowly never gets older findings after newer ones, nor
//! a long tail of versions that it has left behind.

use std::collections::VecDeque;
use std::io::Write;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use indexmap::IndexMap;
use serde::Serialize;
use tower_lsp::lsp_types::Url;

use super::diagnostics_cache::{Ready, write};
use super::frames;

/// What waits to be written, in order.
#[derive(Default)]
pub(crate) struct Writer {
    waiting: Mutex<Waiting>,
    changed: Condvar,
}

#[derive(Default)]
struct Waiting {
    messages: VecDeque<Vec<u8>>,
    findings: IndexMap<Url, Published>,
    writing: bool,
    broken: bool,
}

impl Waiting {
    fn is_empty(&self) -> bool {
        self.messages.is_empty() && self.findings.is_empty()
    }
}

/// A document's findings, to be written.
pub(crate) struct Published {
    /// The document.
    pub uri: Url,
    /// Its version, if it is open.
    pub version: Option<i32>,
    /// Its findings.
    pub findings: Vec<Arc<Ready>>,
}

impl Published {
    /// The notification that carries them.
    fn body(&self) -> serde_json::Result<String> {
        let uri = serde_json::to_string(&self.uri)?;
        let mut body = format!(
            r#"{{"jsonrpc":"2.0","method":"textDocument/publishDiagnostics","params":{{"uri":{uri},"diagnostics":["#
        );
        write(&self.findings, &mut body);
        body.push(']');
        if let Some(version) = self.version {
            body.push_str(&format!(r#","version":{version}"#));
        }
        body.push_str("}}");
        Ok(body)
    }
}

impl Writer {
    /// A queue that a thread writes to `out`. When writing fails, the client
    /// is gone: the writer takes nothing more, and `when_broken` is called.
    pub(crate) fn to(
        out: impl Write + Send + 'static,
        when_broken: impl FnOnce() + Send + 'static,
    ) -> Arc<Writer> {
        let writer = Arc::new(Writer::default());
        let emptied = Arc::clone(&writer);
        thread::spawn(move || {
            emptied.empty(out);
            when_broken();
        });
        writer
    }

    /// Puts a message in; what cannot be written as JSON is left out.
    pub(crate) fn send(&self, message: &impl Serialize) {
        if let Ok(body) = serde_json::to_string(message) {
            self.send_written(body);
        }
    }

    /// Puts a message in that is written already.
    pub(crate) fn send_written(&self, body: String) {
        let mut waiting = self.lock();
        if !waiting.broken {
            waiting.messages.push_back(body.into_bytes());
            self.changed.notify_all();
        }
    }

    /// Puts a document's findings in, in place of older ones that still wait.
    pub(crate) fn publish(&self, findings: Published) {
        let mut waiting = self.lock();
        if !waiting.broken {
            waiting.findings.insert(findings.uri.clone(), findings);
            self.changed.notify_all();
        }
    }

    /// Waits until all is written, but no longer than `limit`.
    pub(crate) fn finish(&self, limit: Duration) {
        let end = Instant::now() + limit;
        let mut waiting = self.lock();
        while !waiting.broken && (waiting.writing || !waiting.is_empty()) {
            let left = end.saturating_duration_since(Instant::now());
            if left.is_zero() {
                return;
            }
            waiting = self
                .changed
                .wait_timeout(waiting, left)
                .unwrap_or_else(PoisonError::into_inner)
                .0;
        }
    }

    fn lock(&self) -> MutexGuard<'_, Waiting> {
        self.waiting.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Writes what waits, until writing fails.
    fn empty(&self, mut out: impl Write) {
        loop {
            let (messages, findings) = self.take();
            let written = messages
                .iter()
                .try_for_each(|body| frames::write(&mut out, body))
                .and_then(|()| {
                    findings
                        .values()
                        .try_for_each(|own| frames::write(&mut out, own.body()?.as_bytes()))
                })
                .and_then(|()| out.flush());
            let mut waiting = self.lock();
            waiting.writing = false;
            waiting.broken = written.is_err();
            self.changed.notify_all();
            if waiting.broken {
                return;
            }
        }
    }

    fn take(&self) -> (VecDeque<Vec<u8>>, IndexMap<Url, Published>) {
        let mut waiting = self.lock();
        while waiting.is_empty() {
            waiting = self
                .changed
                .wait(waiting)
                .unwrap_or_else(PoisonError::into_inner);
        }
        waiting.writing = true;
        (
            std::mem::take(&mut waiting.messages),
            std::mem::take(&mut waiting.findings),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io;
    use std::sync::mpsc;

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
            self.may
                .recv()
                .map_err(|_| io::ErrorKind::BrokenPipe.into())
        }
    }

    fn findings(name: &str, version: i32) -> Published {
        let uri = Url::parse(&format!("file:///{name}")).unwrap();
        Published {
            uri,
            version: Some(version),
            findings: Vec::new(),
        }
    }

    #[test]
    fn only_the_newest_findings_wait() {
        let read = Arc::new(Mutex::new(Vec::new()));
        let (go, may) = mpsc::channel();
        let writer = Writer::to(
            Slow {
                read: Arc::clone(&read),
                may,
            },
            || (),
        );
        writer.send(&"held");
        while read.lock().unwrap().is_empty() {
            thread::yield_now();
        }
        for version in 1..=50 {
            writer.publish(findings("a", version));
            writer.publish(findings("b", version));
        }
        writer.send(&"last");
        go.send(()).unwrap();
        go.send(()).unwrap();
        writer.finish(Duration::from_secs(60));
        let read = String::from_utf8(read.lock().unwrap().clone()).unwrap();
        assert_eq!(read.matches("publishDiagnostics").count(), 2, "{read}");
        assert_eq!(read.matches("\"version\":50").count(), 2, "{read}");
        assert!(read.contains("\"last\""));
    }

    #[test]
    fn a_client_that_is_gone_is_noticed() {
        let (go, may) = mpsc::channel();
        let (broken, noticed) = mpsc::channel();
        let writer = Writer::to(
            Slow {
                read: Arc::default(),
                may,
            },
            move || broken.send(()).unwrap(),
        );
        drop(go);
        writer.send(&"anybody there?");
        noticed.recv().unwrap();
        writer.send(&"hello?");
        writer.finish(Duration::from_secs(60));
        assert!(writer.lock().is_empty());
    }
}
