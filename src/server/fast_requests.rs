//! Requests that are asked right behind an edit, or whose answers are long.
//! What they are answered with is written once, from what is ready, and past
//! the router, which would take every answer apart and put it together again.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use tower_lsp::jsonrpc::{Error, Id, Request, Response, Result};

use super::engine::Engine;
use super::lifecycle::Lifecycle;
use super::session::Session;
use super::writer::Writer;
use super::{answers, completion, diagnostics, formatting, hints, reading, symbols, tokens};

/// How a question is answered: from what it asks to the result, which is
/// written as JSON behind what is written already.
type Answering = fn(&mut Session, Value, &mut String) -> Result<()>;

/// The questions that are answered here.
const ANSWERED: &[(&str, Answering)] = &[
    ("textDocument/diagnostic", |session, params, to| {
        diagnostics::asked(session, &read(params)?, to);
        Ok(())
    }),
    ("textDocument/formatting", |session, params, to| {
        or_null(formatting::whole(session, &read(params)?, to), to)
    }),
    ("textDocument/rangeFormatting", |session, params, to| {
        or_null(formatting::range(session, &read(params)?, to), to)
    }),
    ("textDocument/semanticTokens/full", |session, params, to| {
        or_null(tokens::full(session, &read(params)?, to), to)
    }),
    (
        "textDocument/semanticTokens/full/delta",
        |session, params, to| or_null(tokens::delta(session, &read(params)?, to), to),
    ),
    (
        "textDocument/semanticTokens/range",
        |session, params, to| or_null(tokens::range(session, &read(params)?, to), to),
    ),
    ("textDocument/documentSymbol", |session, params, to| {
        or_null(symbols::answer(session, &read(params)?, to), to)
    }),
    ("textDocument/foldingRange", |session, params, to| {
        or_null(reading::folds(session, &read(params)?, to), to)
    }),
    ("textDocument/hover", |session, params, to| {
        write(&answers::hover(session, &read(params)?), to)
    }),
    ("textDocument/completion", |session, params, to| {
        write(&completion::answer(session, &read(params)?), to)
    }),
    ("textDocument/inlayHint", |session, params, to| {
        write(&hints::answer(session, &read(params)?), to)
    }),
];

fn read<T: DeserializeOwned>(params: Value) -> Result<T> {
    serde_json::from_value(params).map_err(|error| Error::invalid_params(error.to_string()))
}

fn write(answer: &impl Serialize, to: &mut String) -> Result<()> {
    let written = serde_json::to_string(answer).map_err(|_| Error::internal_error())?;
    to.push_str(&written);
    Ok(())
}

/// Of a document that is not open nothing is known, and nothing was written.
fn or_null(answer: Option<()>, to: &mut String) -> Result<()> {
    if answer.is_none() {
        to.push_str("null");
    }
    Ok(())
}

/// The questions that are not answered yet.
pub(crate) struct FastRequests {
    engine: Engine,
    writer: Arc<Writer>,
    life: Arc<Lifecycle>,
    waiting: Vec<(Id, Arc<AtomicBool>)>,
}

impl FastRequests {
    /// No question yet.
    pub(crate) fn new(engine: Engine, writer: Arc<Writer>, life: Arc<Lifecycle>) -> FastRequests {
        FastRequests {
            engine,
            writer,
            life,
            waiting: Vec::new(),
        }
    }

    /// Takes a request if it is one of these questions, or calls one off;
    /// gives back any other. Outside a session the router refuses them.
    pub(crate) fn take(&mut self, request: Request) -> Option<Request> {
        if request.method() == "$/cancelRequest" && request.id().is_none() {
            return (!self.call_off(request.params())).then_some(request);
        }
        let method = request.method();
        let answering = ANSWERED.iter().find(|(own, _)| *own == method);
        let (Some((_, answering)), Some(id), true) =
            (answering, request.id().cloned(), self.life.is_open())
        else {
            return Some(request);
        };
        let (_, _, params) = request.into_parts();
        self.ask(*answering, id, params.unwrap_or_default());
        None
    }

    fn ask(&mut self, answering: Answering, id: Id, params: Value) {
        let called_off = Arc::new(AtomicBool::new(false));
        // Of those that are answered nobody else has this any more.
        self.waiting.retain(|(_, own)| Arc::strong_count(own) > 1);
        self.waiting.push((id.clone(), Arc::clone(&called_off)));
        let answer = Answer {
            id,
            writer: Arc::clone(&self.writer),
            is_given: false,
        };
        self.engine.tell(move |session| {
            answer.give(|to| match called_off.load(Ordering::Relaxed) {
                true => Err(Error::request_cancelled()),
                false => answering(session, params, to),
            });
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
    writer: Arc<Writer>,
    is_given: bool,
}

impl Answer {
    fn give(mut self, write: impl FnOnce(&mut String) -> Result<()>) {
        let id = serde_json::to_string(&self.id).unwrap_or_default();
        let mut body = format!(r#"{{"jsonrpc":"2.0","id":{id},"result":"#);
        let written = write(&mut body);
        self.is_given = true;
        match written {
            Ok(()) => {
                body.push('}');
                self.writer.send_written(body);
            }
            Err(error) => self.refuse(error),
        }
    }

    fn refuse(&self, error: Error) {
        self.writer
            .send(&Response::from_error(self.id.clone(), error));
    }
}

impl Drop for Answer {
    fn drop(&mut self) {
        if !self.is_given {
            self.refuse(Error::internal_error());
        }
    }
}
