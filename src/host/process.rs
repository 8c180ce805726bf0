//! Whether another process still lives.

use std::path::Path;
use std::thread;
use std::time::Duration;

/// How often it is looked for.
const BETWEEN_LOOKS: Duration = Duration::from_secs(2);

/// Calls `when_ended` once a process has ended.
///
/// Watched only where a process can be looked up and is there to begin with:
/// one in a container of its own has a number that means nothing here.
pub(crate) fn watch_process(process: u32, when_ended: impl FnOnce() + Send + 'static) {
    let entry = format!("/proc/{process}");
    if !Path::new(&entry).exists() {
        return;
    }
    thread::spawn(move || {
        while Path::new(&entry).exists() {
            thread::sleep(BETWEEN_LOOKS);
        }
        when_ended();
    });
}
