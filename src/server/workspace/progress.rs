//! How far reading the workspace has come, shown by the client.

use serde_json::{Value, json};
use tokio::sync::mpsc::{UnboundedSender, unbounded_channel};
use tower_lsp::lsp_types::{ProgressToken, notification};

use crate::server::client_requests::ClientRequests;
use crate::server::writer::Writer;

/// A display of progress that the client was asked for. It ends when it is
/// dropped.
pub(crate) struct Progress {
    /// Its name.
    pub token: ProgressToken,
    says: UnboundedSender<Value>,
    total: usize,
    shown: usize,
}

impl Progress {
    /// Asks for a display and begins it. What is said before the client has
    /// agreed waits; where it does not agree nothing is shown.
    pub(crate) fn begin(
        client_requests: &ClientRequests,
        writer: &Writer,
        number: u64,
        total: usize,
    ) -> Progress {
        let token = ProgressToken::String(format!("drylay-reading-{number}"));
        let (says, mut said) = unbounded_channel::<Value>();
        let asked = client_requests.create_progress(token.clone());
        let (writer, of) = (writer.clone(), token.clone());
        client_requests.spawn(async move {
            let is_agreed = asked.await;
            while let Some(value) = said.recv().await {
                if is_agreed {
                    writer
                        .announce::<notification::Progress>(&json!({"token": of, "value": value}));
                }
            }
        });
        let progress = Progress {
            token,
            says,
            total,
            shown: 0,
        };
        progress.say(json!({
            "kind": "begin", "title": "Reading specs", "cancellable": true,
            "message": format!("0 of {total}"), "percentage": 0,
        }));
        progress
    }

    /// So many specs are left; told for each hundredth part.
    pub(crate) fn left(&mut self, left: usize) {
        self.total = self.total.max(left);
        let done = self.total - left;
        let percent = done * 100 / self.total.max(1);
        if percent > self.shown {
            self.shown = percent;
            let message = format!("{done} of {}", self.total);
            self.say(json!({"kind": "report", "message": message, "percentage": percent}));
        }
    }

    fn say(&self, value: Value) {
        // The listener ends only after this.
        let _ = self.says.send(value);
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.say(json!({"kind": "end"}));
    }
}
