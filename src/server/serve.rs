//! The session: from the first message to the exit status.

use std::io::{self, BufRead, BufReader, BufWriter, Write};
use std::panic::AssertUnwindSafe;
use std::sync::Arc;
use std::thread;
use std::time::Duration;

use futures::future::poll_fn;
use futures::{FutureExt, SinkExt, StreamExt};
use tokio::runtime;
use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, unbounded_channel};
use tower::Service;
use tower_lsp::jsonrpc::{Error, Id, Request, Response};
use tower_lsp::{ClientSocket, ExitedError, LspService};

use super::backend::Backend;
use super::desk::Desk;
use super::engine::Engine;
use super::frames::{self, Frame};
use super::life::Life;
use super::message::{self, Message};
use super::outbox::Outbox;
use super::questions::Questions;
use super::shell::Shell;
use super::tray::Tray;
use super::workspace::Crew;

/// The exit status of a session that the client has left without a word.
const ABANDONED: i32 = 1;

/// How long the last words may take to be written.
const LAST_WORDS: Duration = Duration::from_secs(1);

/// What the session waits for.
#[derive(Debug)]
pub enum Event {
    /// Something came over the wire.
    Read(Frame),
    /// The client's process has ended, or it no longer reads.
    ClientGone,
}

/// Serves the client on standard input and output until the session ends, and
/// gives the exit status: 0 after a shutdown and an exit, otherwise 1.
///
/// The program should end then: a thread may still wait for standard input.
pub fn serve() -> i32 {
    run(BufReader::new(io::stdin()), BufWriter::new(io::stdout()))
}

/// Serves a client on any pair of streams.
fn run(input: impl BufRead + Send + 'static, output: impl Write + Send + 'static) -> i32 {
    start(input, output).unwrap_or_else(|error| {
        eprintln!("drylay: the server could not be started: {error}");
        ABANDONED
    })
}

fn start(
    input: impl BufRead + Send + 'static,
    output: impl Write + Send + 'static,
) -> io::Result<i32> {
    // One thread is enough: handlers do nothing but put jobs on the queue and
    // wait, and messages must be taken in turn.
    let runtime = runtime::Builder::new_current_thread()
        .enable_time()
        .build()?;
    let (events, happening) = unbounded_channel();
    let gone = events.clone();
    let tray = Tray::to(output, move || drop(gone.send(Event::ClientGone)));

    let life = Arc::new(Life::default());
    let mut questions = None;
    let mut started = Ok(());
    let (service, socket) = LspService::build(|client| {
        let outbox = Outbox::new(client.clone(), runtime.handle().clone());
        let (engine, queue) = Engine::with_queue();
        let mut desk = Desk::new(Arc::clone(&tray), outbox);
        let to_desk = engine.another();
        let (to_answer, life) = (Arc::clone(&tray), Arc::clone(&life));
        questions = Some(Questions::new(engine.another(), to_answer, life));
        started = Crew::start(move |done| to_desk.tell(move |desk| desk.done(done)))
            .map(|crew| desk.employ(crew))
            .and_then(|()| queue.work_on(desk));
        Backend::new(client, engine, events.clone())
    })
    .custom_method("window/workDoneProgress/cancel", Backend::cancel_progress)
    .finish();
    started?;
    thread::Builder::new()
        .name("input".to_owned())
        .spawn(move || read_all(input, &events))?;

    let session = Session {
        shell: Shell::new(service, Arc::clone(&life)),
        life,
        tray,
        questions,
    };
    Ok(runtime.block_on(session.run(happening, socket)))
}

/// Hands on what comes over the wire, to its end.
fn read_all(mut input: impl BufRead, events: &UnboundedSender<Event>) {
    loop {
        let frame = frames::read(&mut input);
        let last = frame == Frame::End;
        if events.send(Event::Read(frame)).is_err() || last {
            return;
        }
    }
}

struct Session {
    shell: Shell<LspService<Backend>>,
    life: Arc<Life>,
    tray: Arc<Tray>,
    questions: Option<Questions>,
}

impl Session {
    /// Takes messages in turn until the session ends; gives its exit status.
    async fn run(mut self, mut happening: UnboundedReceiver<Event>, socket: ClientSocket) -> i32 {
        let (mut questions, mut answers) = socket.split();
        let tray = Arc::clone(&self.tray);
        tokio::spawn(async move {
            while let Some(question) = questions.next().await {
                tray.send(&question);
            }
        });
        while let Some(Event::Read(frame)) = happening.recv().await {
            match frame {
                Frame::End => break,
                Frame::BadHeader => {
                    self.tray
                        .send(&Response::from_error(Id::Null, Error::parse_error()));
                }
                Frame::Body(body) => match message::read(&body) {
                    Message::Unsound(refusal) => self.tray.send(&refusal),
                    Message::Response(answer) => {
                        // The router panics at an answer that came too late.
                        let taken = AssertUnwindSafe(answers.send(answer)).catch_unwind();
                        let _ = taken.await;
                    }
                    Message::Request(request) => {
                        let is_exit = request.method() == "exit";
                        self.take(request).await;
                        if is_exit {
                            self.tray.finish(LAST_WORDS);
                            return self.life.exit_code();
                        }
                    }
                },
            }
        }
        self.tray.finish(LAST_WORDS);
        ABANDONED
    }

    /// Begins with a request in its turn, and goes on with it beside what
    /// comes next if it has to wait.
    async fn take(&mut self, request: Request) {
        let request = match &mut self.questions {
            Some(questions) => questions.take(request),
            None => Some(request),
        };
        let Some(request) = request else { return };
        if poll_fn(|context| self.shell.poll_ready(context))
            .await
            .is_err()
        {
            return;
        }
        let mut begun = self.shell.call(request);
        match (&mut begun).now_or_never() {
            Some(answer) => give(&self.tray, answer),
            None => {
                let tray = Arc::clone(&self.tray);
                tokio::spawn(async move { give(&tray, begun.await) });
            }
        }
    }
}

fn give(tray: &Tray, answer: Result<Option<Response>, ExitedError>) {
    if let Ok(Some(answer)) = answer {
        tray.send(&answer);
    }
}
