//! The session: from the first message to the exit status.
//!
//! Messages are read and written here and not by the router's crate. Its
//! reader never comes past a body that is not UTF-8, and waits for ever for
//! one whose header promises too much; it drops an edit that holds half a
//! character, and takes no edits in while the client does not read.

use std::fs::File;
use std::io::{self, BufRead, BufReader, BufWriter};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::thread;
use std::time::Duration;

use futures::future::poll_fn;
use futures::{FutureExt, Sink, SinkExt, StreamExt};
use tokio::runtime;
use tokio::sync::mpsc::unbounded_channel;
use tower::Service;
use tower_lsp::jsonrpc::{Error, Id, Request, Response};
use tower_lsp::{ExitedError, LspService};

use super::backend::Backend;
use super::client_requests::ClientRequests;
use super::engine::{self, Engine};
use super::fast_requests;
use super::frames::{self, Frame};
use super::message::{self, Message};
use super::session::Session;
use super::workspace::Worker;
use super::writer::Writer;

/// The exit status of a session that the client has left without a word.
pub(crate) const ABANDONED: i32 = 1;

/// Room for messages that are deep.
const STACK: usize = 8 << 20;

/// How long the last words may take to be written.
const LAST_WORDS: Duration = Duration::from_secs(1);

/// Serves the client on standard input and output until the session ends, and
/// gives the exit status: 0 after a shutdown and an exit, otherwise 1.
///
/// The program should end then: a thread may still wait for standard input.
pub fn serve() -> i32 {
    run().unwrap_or_else(|error| {
        eprintln!("drylay: the server could not be started: {error}");
        ABANDONED
    })
}

/// Standard output as a file: the handle of the library looks for line ends in
/// all that it is given.
#[cfg(unix)]
fn standard_output() -> io::Result<File> {
    use std::os::fd::AsFd;
    Ok(io::stdout().as_fd().try_clone_to_owned()?.into())
}

#[cfg(windows)]
fn standard_output() -> io::Result<File> {
    use std::os::windows::io::AsHandle;
    Ok(io::stdout().as_handle().try_clone_to_owned()?.into())
}

fn run() -> io::Result<i32> {
    // Messages are taken in turn by the thread that reads them; here stays what
    // has to wait.
    let runtime = runtime::Builder::new_current_thread()
        .enable_time()
        .build()?;
    let (events, mut happening) = unbounded_channel();
    let gone = events.clone();
    let output = BufWriter::new(standard_output()?);
    let writer = Writer::to(output, move || gone.send(ABANDONED).unwrap_or_default());

    let (engine, queue) = Engine::with_queue();
    let (service, socket) = LspService::build(|client| Backend {
        client,
        engine: engine.clone(),
        events: events.clone(),
    })
    .custom_method("window/workDoneProgress/cancel", Backend::cancel_progress)
    .finish();
    let (client, handle) = (service.inner().client.clone(), runtime.handle().clone());
    let client_requests = ClientRequests::new(client, handle.clone(), engine.clone());
    let to_session = engine.clone();
    let worker = Worker::start(move |done| to_session.tell(|session| session.done(done)))?;
    engine::work_on(queue, Session::new(writer.clone(), client_requests, worker))?;
    let (mut questions, answers) = socket.split();
    let connection = Connection {
        runtime: handle,
        service,
        answers,
        engine,
        stage: Stage::Begun,
        writer: writer.clone(),
    };
    thread::Builder::new()
        .name("input".to_owned())
        .stack_size(STACK)
        .spawn(move || {
            let status = catch_unwind(AssertUnwindSafe(|| {
                connection.run(BufReader::new(io::stdin()))
            }));
            let _ = events.send(status.unwrap_or(ABANDONED));
        })?;
    let to_client = writer.clone();
    runtime.spawn(async move {
        while let Some(question) = questions.next().await {
            to_client.send(&question);
        }
    });
    let ended = runtime.block_on(happening.recv());
    writer.finish(LAST_WORDS);
    Ok(ended.unwrap_or(ABANDONED))
}

struct Connection<A> {
    /// Where what has to wait goes on.
    runtime: runtime::Handle,
    service: LspService<Backend>,
    /// Where the client's answers go.
    answers: A,
    engine: Engine,
    stage: Stage,
    writer: Writer,
}

/// How far a session has come, by what was answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stage {
    Begun,
    Open,
    ShutDown,
}

impl<A: Sink<Response> + Unpin> Connection<A> {
    /// Takes messages in turn until the session ends; gives its exit status.
    fn run(mut self, mut input: impl BufRead) -> i32 {
        let runtime = self.runtime.clone();
        let _inside = runtime.enter();
        loop {
            match frames::read(&mut input) {
                Frame::End => return ABANDONED,
                Frame::BadHeader => {
                    self.writer
                        .send(&Response::from_error(Id::Null, Error::parse_error()));
                }
                Frame::Body(body) => match message::read(&body) {
                    Message::Unsound(refusal) => self.writer.send(&refusal),
                    Message::Response(answer) => {
                        // The router panics at an answer that came too late.
                        let taken = AssertUnwindSafe(self.answers.send(answer)).catch_unwind();
                        let _ = taken.now_or_never();
                    }
                    Message::Request(request) => {
                        let is_exit = request.method() == "exit";
                        self.take(request);
                        if is_exit {
                            return i32::from(self.stage != Stage::ShutDown);
                        }
                    }
                },
            }
        }
    }

    /// Begins with a request in its turn, and goes on with it beside what
    /// comes next if it has to wait.
    fn take(&mut self, request: Request) {
        let request = match self.stage {
            Stage::Open => fast_requests::take(request, &self.engine, &self.writer),
            // The router refuses what comes too early or too late.
            Stage::Begun | Stage::ShutDown => Some(request),
        };
        let Some(request) = request else { return };
        let next = match request.method() {
            "initialize" => Stage::Open,
            "shutdown" => Stage::ShutDown,
            _ => self.stage,
        };
        let ready = poll_fn(|context| self.service.poll_ready(context));
        if ready.now_or_never().is_none_or(|ready| ready.is_err()) {
            return;
        }
        let (id, writer) = (request.id().cloned(), self.writer.clone());
        let answer = answered(id, self.service.call(request));
        let mut is_done = Box::pin(answer.map(move |answer| {
            let sent = answer.inspect(|answer| writer.send(answer));
            sent.is_some_and(|answer| answer.is_ok())
        }));
        match (&mut is_done).now_or_never() {
            Some(true) => self.stage = next,
            Some(false) => {}
            None => drop(self.runtime.spawn(is_done)),
        }
    }
}

/// What the router answers to a request, or a refusal where it panics or
/// keeps silent, as it does of a method that begins with `$/`. Notifications,
/// which have no `id`, are not answered.
async fn answered(
    id: Option<Id>,
    call: impl Future<Output = Result<Option<Response>, ExitedError>>,
) -> Option<Response> {
    let refusal = |error| Some(Response::from_error(id?, error));
    match AssertUnwindSafe(call).catch_unwind().await {
        Ok(Ok(None)) => refusal(Error::method_not_found()),
        Ok(answer) => answer.ok().flatten(),
        Err(_) => refusal(Error::internal_error()),
    }
}

#[cfg(test)]
mod tests {
    use std::future::ready;

    use tower_lsp::jsonrpc::ErrorCode;

    use super::*;

    #[test]
    fn a_panic_and_a_silence_are_answered() {
        let refused = |call| {
            let answer = answered(Some(Id::Number(7)), call).now_or_never()??;
            Some(answer.error()?.code)
        };
        let panics = async { panic!("as the test wants") }.boxed();
        assert_eq!(refused(panics), Some(ErrorCode::InternalError));
        let silent = || ready(Ok(None)).boxed();
        assert_eq!(refused(silent()), Some(ErrorCode::MethodNotFound));
        let notified = answered(None, silent()).now_or_never();
        assert_eq!(notified, Some(None), "a notification is not answered");
    }
}
