//! All findings of the workspace, for a client that asks for them.

use std::collections::{BTreeSet, HashMap, HashSet};

use indexmap::IndexMap;
use serde_json::json;
use tokio::sync::oneshot::Sender;
use tower_lsp::lsp_types::notification::Progress;
use tower_lsp::lsp_types::*;

use crate::server::numbered::Numbered;
use crate::server::writer::Writer;

/// How many reports go into one message.
const BATCH: usize = 200;

/// What is told of specs, by their addresses, in order.
pub(crate) type Reports = IndexMap<Url, WorkspaceDocumentDiagnosticReport>;

/// A question for all findings.
pub(crate) struct Pull {
    /// The numbers of the findings that the client has.
    pub has: HashMap<Url, String>,
    /// How to tell it part of the answer beforehand, if it wants that.
    token: Option<ProgressToken>,
    reported: HashSet<Url>,
    reply: Sender<WorkspaceDiagnosticReport>,
}

impl Pull {
    /// A question, and where its answer goes.
    pub(crate) fn new(
        params: WorkspaceDiagnosticParams,
        reply: Sender<WorkspaceDiagnosticReport>,
    ) -> Pull {
        let has = params.previous_result_ids.into_iter();
        Pull {
            has: has.map(|own| (own.uri, own.value)).collect(),
            token: params.partial_result_params.partial_result_token,
            reported: HashSet::new(),
            reply,
        }
    }

    /// Whether nobody waits for the answer any more.
    pub(crate) fn is_over(&self) -> bool {
        self.reply.is_closed()
    }

    /// What it is to be told of a spec: all, or that nothing has changed.
    pub(crate) fn report(
        &self,
        uri: &Url,
        version: Option<i32>,
        found: &Numbered,
    ) -> WorkspaceDocumentDiagnosticReport {
        let (uri, version) = (uri.clone(), version.map(i64::from));
        let number = found.number.to_string();
        if self.has.get(&uri) == Some(&number) {
            return WorkspaceUnchangedDocumentDiagnosticReport {
                uri,
                version,
                unchanged_document_diagnostic_report: UnchangedDocumentDiagnosticReport {
                    result_id: number,
                },
            }
            .into();
        }
        full(uri, version, Some(number), found.findings.clone())
    }

    /// Tells of a spec at once, as part of the answer, if it wants that.
    pub(crate) fn tell(&mut self, writer: &Writer, uri: &Url, found: &Numbered) {
        if self.token.is_some() {
            self.send(writer, &[self.report(uri, None, found)]);
            self.reported.insert(uri.clone());
        }
    }

    /// Answers: what was told is left out, and of specs that the client knows
    /// and that are gone it is told that nothing is found in them.
    pub(crate) fn answer(self, writer: &Writer, mut reports: Reports) {
        reports.retain(|uri, _| !self.reported.contains(uri));
        let known = |uri: &&Url| reports.contains_key(*uri) || self.reported.contains(*uri);
        let gone = self.has.keys().filter(|uri| !known(uri));
        let gone: BTreeSet<Url> = gone.cloned().collect();
        let mut items: Vec<_> = reports.into_values().collect();
        let none = |uri| full(uri, None, None, Vec::new());
        items.extend(gone.into_iter().map(none));
        if self.token.is_some() {
            items.chunks(BATCH).for_each(|part| self.send(writer, part));
            items.clear();
        }
        // Nobody may wait for it any more.
        let _ = self.reply.send(WorkspaceDiagnosticReport { items });
    }

    fn send(&self, writer: &Writer, items: &[WorkspaceDocumentDiagnosticReport]) {
        writer.announce::<Progress>(&json!({"token": self.token, "value": {"items": items}}));
    }
}

fn full(
    uri: Url,
    version: Option<i64>,
    result_id: Option<String>,
    items: Vec<Diagnostic>,
) -> WorkspaceDocumentDiagnosticReport {
    WorkspaceFullDocumentDiagnosticReport {
        uri,
        version,
        full_document_diagnostic_report: FullDocumentDiagnosticReport { result_id, items },
    }
    .into()
}
