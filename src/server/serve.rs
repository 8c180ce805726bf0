//! The session: from the first message to the exit status.

use std::fs::File;
use std::io::{self, BufRead, BufReader, BufWriter, Write};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
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
use super::engine::Engine;
use super::fast_requests::FastRequests;
use super::frames::{self, Frame};
use super::lifecycle::Lifecycle;
use super::message::{self, Message};
use super::session::Session;
use super::shell::Shell;
use super::workspace::Worker;
use super::writer::Writer;

/// The exit status of a session that the client has left without a word.
const ABANDONED: i32 = 1;

/// Room for messages that are deep.
const STACK: usize = 8 << 20;

/// How long the last words may take to be written.
const LAST_WORDS: Duration = Duration::from_secs(1);

/// What ends the session.
#[derive(Debug)]
pub(crate) enum Event {
    /// The client has said so, or says nothing more: the exit status.
    Ended(i32),
    /// The client's process has ended, or it no longer reads.
    ClientGone,
}

/// Serves the client on standard input and output until the session ends, and
/// gives the exit status: 0 after a shutdown and an exit, otherwise 1.
///
/// The program should end then: a thread may still wait for standard input.
pub fn serve() -> i32 {
    let input = BufReader::new(io::stdin());
    match standard_output() {
        Ok(output) => run(input, BufWriter::new(output)),
        Err(error) => not_started(&error),
    }
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

fn not_started(error: &io::Error) -> i32 {
    eprintln!("drylay: the server could not be started: {error}");
    ABANDONED
}

/// Serves a client on any pair of streams.
fn run(input: impl BufRead + Send + 'static, output: impl Write + Send + 'static) -> i32 {
    start(input, output).unwrap_or_else(|error| not_started(&error))
}

fn start(
    input: impl BufRead + Send + 'static,
    output: impl Write + Send + 'static,
) -> io::Result<i32> {
    // Messages are taken in turn by the thread that reads them; here stays what
    // has to wait.
    let runtime = runtime::Builder::new_current_thread()
        .enable_time()
        .build()?;
    let (events, mut happening) = unbounded_channel();
    let gone = events.clone();
    let writer = Writer::to(output, move || drop(gone.send(Event::ClientGone)));

    let life = Arc::new(Lifecycle::default());
    let mut questions = None;
    let mut started = Ok(());
    let (service, socket) = LspService::build(|client| {
        let client_requests = ClientRequests::new(client.clone(), runtime.handle().clone());
        let (engine, queue) = Engine::with_queue();
        let mut session = Session::new(Arc::clone(&writer), client_requests);
        let to_desk = engine.another();
        let (to_answer, life) = (Arc::clone(&writer), Arc::clone(&life));
        questions = Some(FastRequests::new(engine.another(), to_answer, life));
        started = Worker::start(move |done| to_desk.tell(move |session| session.done(done)))
            .map(|worker| session.employ(worker))
            .and_then(|()| queue.work_on(session));
        Backend::new(client, engine, events.clone())
    })
    .custom_method("window/workDoneProgress/cancel", Backend::cancel_progress)
    .finish();
    started?;
    let (mut questions_to_client, answers) = socket.split();
    let connection = Connection {
        runtime: runtime.handle().clone(),
        shell: Shell::new(service, Arc::clone(&life)),
        answers,
        life,
        writer: Arc::clone(&writer),
        questions,
    };
    thread::Builder::new()
        .name("input".to_owned())
        .stack_size(STACK)
        .spawn(move || {
            let status = catch_unwind(AssertUnwindSafe(|| connection.run(input)));
            let _ = events.send(Event::Ended(status.unwrap_or(ABANDONED)));
        })?;
    let to_client = Arc::clone(&writer);
    runtime.spawn(async move {
        while let Some(question) = questions_to_client.next().await {
            to_client.send(&question);
        }
    });
    let ended = runtime.block_on(happening.recv());
    writer.finish(LAST_WORDS);
    Ok(match ended {
        Some(Event::Ended(status)) => status,
        Some(Event::ClientGone) | None => ABANDONED,
    })
}

struct Connection<A> {
    /// Where what has to wait goes on.
    runtime: runtime::Handle,
    shell: Shell<LspService<Backend>>,
    /// Where the client's answers go.
    answers: A,
    life: Arc<Lifecycle>,
    writer: Arc<Writer>,
    questions: Option<FastRequests>,
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
                            return self.life.exit_code();
                        }
                    }
                },
            }
        }
    }

    /// Begins with a request in its turn, and goes on with it beside what
    /// comes next if it has to wait.
    fn take(&mut self, request: Request) {
        let request = match &mut self.questions {
            Some(questions) => questions.take(request),
            None => Some(request),
        };
        let Some(request) = request else { return };
        let ready = poll_fn(|context| self.shell.poll_ready(context));
        if ready.now_or_never().is_none_or(|ready| ready.is_err()) {
            return;
        }
        let mut begun = self.shell.call(request);
        match (&mut begun).now_or_never() {
            Some(answer) => give(&self.writer, answer),
            None => {
                let writer = Arc::clone(&self.writer);
                self.runtime
                    .spawn(async move { give(&writer, begun.await) });
            }
        }
    }
}

fn give(writer: &Writer, answer: Result<Option<Response>, ExitedError>) {
    if let Ok(Some(answer)) = answer {
        writer.send(&answer);
    }
}
