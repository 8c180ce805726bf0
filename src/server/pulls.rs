//! Findings that a client asks for. They are written from what is ready, and
//! past the router, which would take every one of them apart and put it
//! together again.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use serde_json::Value;
use tower_lsp::jsonrpc::{Error, Id, Request, Response};
use tower_lsp::lsp_types::DocumentDiagnosticParams;

use super::desk::Desk;
use super::engine::Engine;
use super::life::Life;
use super::prepared::{Ready, written};
use super::tray::Tray;

/// The questions for findings that are not answered yet.
pub struct Pulls {
    engine: Engine,
    tray: Arc<Tray>,
    life: Arc<Life>,
    waiting: Vec<(Id, Arc<AtomicBool>)>,
}

impl Pulls {
    /// No question yet.
    pub fn new(engine: Engine, tray: Arc<Tray>, life: Arc<Life>) -> Pulls {
        Pulls {
            engine,
            tray,
            life,
            waiting: Vec::new(),
        }
    }

    /// Takes a request if it is a question for findings, or calls one off;
    /// gives back any other. Outside a session the router refuses them.
    pub fn take(&mut self, request: Request) -> Option<Request> {
        let is_open = self.life.is_open();
        match (request.method(), request.id()) {
            ("textDocument/diagnostic", Some(id)) if is_open => {
                let id = id.clone();
                self.ask(id, request.params().cloned());
                None
            }
            ("$/cancelRequest", None) if self.call_off(request.params()) => None,
            _ => Some(request),
        }
    }

    fn ask(&mut self, id: Id, params: Option<Value>) {
        let called_off = Arc::new(AtomicBool::new(false));
        // Of those that are answered nobody else has this any more.
        self.waiting.retain(|(_, own)| Arc::strong_count(own) > 1);
        self.waiting.push((id.clone(), Arc::clone(&called_off)));
        let answer = Answer {
            id,
            tray: Arc::clone(&self.tray),
            is_given: false,
        };
        self.engine
            .tell(move |desk| match params.map(serde_json::from_value) {
                _ if called_off.load(Ordering::Relaxed) => {
                    answer.refuse(Error::request_cancelled())
                }
                Some(Ok(params)) => answer.give(desk, &params),
                _ => answer.refuse(Error::invalid_params("a document is to be named")),
            });
    }

    /// Calls a question off; whether there is one.
    fn call_off(&self, params: Option<&Value>) -> bool {
        let id = params.and_then(|params| serde_json::from_value(params.get("id")?.clone()).ok());
        let own = self
            .waiting
            .iter()
            .find(|(own, _)| Some(own) == id.as_ref());
        own.is_some_and(|(_, called_off)| {
            called_off.store(true, Ordering::Relaxed);
            Arc::strong_count(called_off) > 1
        })
    }
}

/// A question that is answered in any case: with an error if working on it
/// fails.
struct Answer {
    id: Id,
    tray: Arc<Tray>,
    is_given: bool,
}

impl Answer {
    fn refuse(mut self, error: Error) {
        self.is_given = true;
        self.tray
            .send(&Response::from_error(self.id.clone(), error));
    }

    /// The findings of a document, or that they are as they were. A document
    /// that is not open has none.
    fn give(mut self, desk: &mut Desk, params: &DocumentDiagnosticParams) {
        let (number, findings) = match desk.findings(&params.text_document.uri) {
            Some((number, findings)) => (Some(number.to_string()), findings),
            None => (None, Vec::new()),
        };
        let result = match &number {
            Some(number) if params.previous_result_id.as_ref() == Some(number) => {
                format!(r#"{{"kind":"unchanged","resultId":"{number}"}}"#)
            }
            _ => full(number.as_deref(), &findings),
        };
        let id = serde_json::to_string(&self.id).unwrap_or_default();
        self.is_given = true;
        self.tray.send_written(format!(
            r#"{{"jsonrpc":"2.0","id":{id},"result":{result}}}"#
        ));
    }
}

impl Drop for Answer {
    fn drop(&mut self) {
        if !self.is_given {
            let error = Error::internal_error();
            self.tray
                .send(&Response::from_error(self.id.clone(), error));
        }
    }
}

/// A whole report.
fn full(number: Option<&str>, findings: &[Arc<Ready>]) -> String {
    let number = number.map_or_else(String::new, |own| format!(r#""resultId":"{own}","#));
    let items = written(findings);
    format!(r#"{{"kind":"full",{number}"items":[{items}]}}"#)
}
