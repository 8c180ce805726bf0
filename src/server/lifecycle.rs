//! The life of a session: whether it was ended as agreed, and whether the
//! client still lives.

use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

/// How often the client's process is looked for.
const BETWEEN_LOOKS: Duration = Duration::from_secs(2);

/// Whether the session has begun, and whether the client has asked to end it.
#[derive(Debug, Default)]
pub(crate) struct Lifecycle {
    begun: AtomicBool,
    shut_down: AtomicBool,
}

impl Lifecycle {
    /// The client has begun the session and was answered.
    pub(crate) fn begin(&self) {
        self.begun.store(true, Ordering::SeqCst);
    }

    /// Whether the session goes on.
    pub(crate) fn is_open(&self) -> bool {
        self.begun.load(Ordering::SeqCst) && !self.shut_down.load(Ordering::SeqCst)
    }

    /// The client has asked to shut down and was answered.
    pub(crate) fn shut_down(&self) {
        self.shut_down.store(true, Ordering::SeqCst);
    }

    /// The exit status of a session that ends now: 0 only after a shutdown.
    pub(crate) fn exit_code(&self) -> i32 {
        i32::from(!self.shut_down.load(Ordering::SeqCst))
    }
}

/// Calls `when_gone` once the client's process has ended. The end of standard
/// input tells the same at once, but a grandchild may hold the pipe open.
///
/// Watched only where a process can be looked up and is there to begin with:
/// a client in a container of its own gives a number that means nothing here.
pub(crate) fn watch(client: u32, when_gone: impl FnOnce() + Send + 'static) {
    let entry = format!("/proc/{client}");
    if !Path::new(&entry).exists() {
        return;
    }
    thread::spawn(move || {
        while Path::new(&entry).exists() {
            thread::sleep(BETWEEN_LOOKS);
        }
        when_gone();
    });
}
