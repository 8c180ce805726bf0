//! The one thread that owns the session, and the queue of its jobs.

use std::any::Any;
use std::future::{Ready, ready};
use std::io;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};
use std::thread;

use tokio::sync::oneshot;
use tower_lsp::jsonrpc::{Error, Result};

use super::session::Session;

/// Room for trees that are deep.
const STACK: usize = 16 << 20;

/// What the session is to do.
pub(crate) type Job = Box<dyn FnOnce(&mut Session) + Send>;

/// The way to the engine's thread; it ends when every way to it is dropped.
#[derive(Clone)]
pub(crate) struct Engine {
    jobs: Sender<Job>,
}

/// The jobs that wait for the engine's thread.
pub(crate) type Queue = Receiver<Job>;

/// Starts the thread, on a session that it owns from now on.
pub(crate) fn work_on(queue: Queue, session: Session) -> io::Result<()> {
    let thread = thread::Builder::new()
        .name("engine".to_owned())
        .stack_size(STACK);
    thread.spawn(move || work(session, &queue)).map(drop)
}

impl Engine {
    /// The way to a thread that is still to be started.
    pub(crate) fn with_queue() -> (Engine, Queue) {
        let (jobs, queue) = channel();
        (Engine { jobs }, queue)
    }

    /// Puts a job on the queue, at once.
    pub(crate) fn tell(&self, job: impl FnOnce(&mut Session) + Send + 'static) {
        // The thread outlives every sender; there is nobody to tell otherwise.
        let _ = self.jobs.send(Box::new(job));
    }

    /// Tells the session what a notification says.
    pub(crate) fn note<P: Send + 'static>(
        &self,
        params: P,
        note: impl FnOnce(&mut Session, P) + Send + 'static,
    ) -> Ready<()> {
        self.tell(|session| note(session, params));
        ready(())
    }

    /// Has the session answer a request. Its job is on the queue before this
    /// first waits; so it is for the other ways to ask.
    pub(crate) async fn answer<P: Send + 'static, T: Send + 'static>(
        &self,
        params: P,
        answer: fn(&mut Session, &P) -> T,
    ) -> Result<T> {
        self.ask(move |session| answer(session, &params)).await
    }

    /// The same once every spec of the workspace is known; the answer may be
    /// cut short when nobody waits for it any more, which it is given to ask.
    pub(crate) async fn answer_when_read<P: Send + 'static, T: Send + 'static>(
        &self,
        params: P,
        answer: fn(&mut Session, &P, &dyn Fn() -> bool) -> T,
    ) -> Result<T> {
        self.ask_later(move |session, reply| {
            session.when_read(Box::new(move |session| {
                let found = answer(session, &params, &|| reply.is_closed());
                let _ = reply.send(found);
            }));
        })
        .await
    }

    /// Puts a question to the session. When nobody waits any more, because the
    /// request was cancelled, it is not worked on. One that panics is answered
    /// with an error.
    pub(crate) async fn ask<T: Send + 'static>(
        &self,
        question: impl FnOnce(&mut Session) -> T + Send + 'static,
    ) -> Result<T> {
        self.ask_later(|session, reply| drop(reply.send(question(session))))
            .await
    }

    /// The same for a question that may have to wait: whoever is asked keeps
    /// the way to answer it.
    pub(crate) async fn ask_later<T: Send + 'static>(
        &self,
        question: impl FnOnce(&mut Session, oneshot::Sender<T>) + Send + 'static,
    ) -> Result<T> {
        let (reply, answer) = oneshot::channel();
        self.tell(move |session| {
            if !reply.is_closed() {
                question(session, reply);
            }
        });
        answer.await.map_err(|_| Error::internal_error())
    }
}

/// Does the jobs in turn, and what waits in the session while there are none.
fn work(mut session: Session, jobs: &Receiver<Job>) {
    loop {
        let waiting = jobs.try_recv();
        if matches!(waiting, Err(TryRecvError::Empty))
            && guarded(&mut session, Session::step).unwrap_or(true)
        {
            continue;
        }
        let Ok(job) = waiting.or_else(|_| jobs.recv()) else {
            return;
        };
        let _ = guarded(&mut session, job);
    }
}

/// Does a job; a panic is reported and costs that job.
fn guarded<T>(session: &mut Session, job: impl FnOnce(&mut Session) -> T) -> Option<T> {
    let done = catch_unwind(AssertUnwindSafe(|| job(session)));
    let fault = |panic: Box<dyn Any + Send>| {
        let what = words(panic.as_ref());
        let requests = &session.client_requests;
        requests.log(format!("drylay met a fault of its own and goes on: {what}"));
    };
    done.map_err(fault).ok()
}

/// What a panic says.
fn words(panic: &(dyn Any + Send)) -> &str {
    let text = panic.downcast_ref::<&str>().copied();
    text.or_else(|| panic.downcast_ref::<String>().map(String::as_str))
        .unwrap_or("no reason given")
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicUsize, Ordering};
    use std::sync::{Arc, Mutex};

    use tokio::runtime::Runtime;
    use tower_lsp::jsonrpc::ErrorCode;

    use super::super::fixture;
    use super::*;

    fn engine() -> (Runtime, Engine) {
        let (runtime, session) = fixture::session();
        let (engine, queue) = Engine::with_queue();
        work_on(queue, session).unwrap();
        (runtime, engine)
    }

    #[test]
    fn a_job_that_panics_costs_itself_only() {
        let (runtime, engine) = engine();
        let refused = runtime.block_on(engine.ask(|_| -> u8 { panic!("as the test wants") }));
        assert_eq!(
            refused.map_err(|error| error.code),
            Err(ErrorCode::InternalError)
        );
        engine.tell(|_| panic!("as the test wants"));
        assert_eq!(runtime.block_on(engine.ask(|_| 7)), Ok(7));
    }

    #[test]
    fn jobs_are_done_in_the_order_in_which_they_were_put() {
        let (runtime, engine) = engine();
        let done = Arc::new(Mutex::new(Vec::new()));
        for number in 0..100 {
            let done = Arc::clone(&done);
            engine.tell(move |_| done.lock().unwrap().push(number));
        }
        let seen = Arc::clone(&done);
        let answer = runtime.block_on(engine.ask(move |_| seen.lock().unwrap().len()));
        assert_eq!(answer, Ok(100));
        assert!(done.lock().unwrap().is_sorted());
    }

    #[test]
    fn a_question_that_nobody_waits_for_is_not_worked_on() {
        let (runtime, engine) = engine();
        let worked = Arc::new(AtomicUsize::new(0));
        let (go, wait) = channel();
        engine.tell(move |_| wait.recv().unwrap());
        let count = Arc::clone(&worked);
        let mut dropped = Box::pin(engine.ask(move |_| count.fetch_add(1, Ordering::SeqCst)));
        let _ = futures::FutureExt::now_or_never(&mut dropped);
        drop(dropped);
        go.send(()).unwrap();
        runtime.block_on(engine.ask(|_| ())).unwrap();
        assert_eq!(worked.load(Ordering::SeqCst), 0);
    }
}
