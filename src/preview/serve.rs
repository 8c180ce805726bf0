//! Answering a browser.

use std::convert::Infallible;
use std::net::TcpListener;
use std::sync::Arc;
use std::time::Duration;

use futures::StreamExt;
use futures::stream::{self, BoxStream};
use http_body_util::{Either, Full, StreamBody};
use hyper::body::{Bytes, Frame, Incoming};
use hyper::header::{HeaderName, HeaderValue};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Request, Response, StatusCode};
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::sync::{Semaphore, watch};

use super::Page;
use super::door::{Asked, Door};

/// How many may be connected at a time: a few windows of a browser.
const SEATS: usize = 48;

/// How long a request may take to be said.
const PATIENCE: Duration = Duration::from_secs(10);

/// How long to wait where no connection can be taken, as when too many files
/// are open.
const PAUSE: Duration = Duration::from_millis(100);

/// What holds for every answer: nothing is kept, nothing is asked of another
/// place, nothing in the page runs but its own script, and no other page holds
/// it.
const RULES: [(&str, &str); 6] = [
    (
        "content-security-policy",
        "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; \
         font-src data:; img-src data:; base-uri 'none'; form-action 'none'; \
         frame-ancestors 'none'",
    ),
    ("x-content-type-options", "nosniff"),
    ("cache-control", "no-store"),
    ("referrer-policy", "no-referrer"),
    ("cross-origin-resource-policy", "same-origin"),
    ("cross-origin-opener-policy", "same-origin"),
];

type Events = StreamBody<BoxStream<'static, Result<Frame<Bytes>, Infallible>>>;
type Answer = Response<Either<Full<Bytes>, Events>>;

/// The page as it is sent, and who may have it.
struct Served {
    html: Bytes,
    style: Bytes,
    script: Bytes,
    door: Door,
    reported: watch::Receiver<String>,
}

/// Answers until the program ends.
pub(crate) fn serve(
    listener: TcpListener,
    page: Page,
    door: Door,
    reported: watch::Receiver<String>,
) {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build();
    // Without a runtime there is nothing to answer with, and the page stays
    // away: the caller has found the port and the thread, which are scarcer.
    if let Ok(runtime) = runtime {
        let served = Arc::new(Served {
            html: page.html.into(),
            style: page.style.into(),
            script: page.script.into(),
            door,
            reported,
        });
        runtime.block_on(accept(listener, served));
    }
}

async fn accept(listener: TcpListener, served: Arc<Served>) {
    let Ok(listener) = tokio::net::TcpListener::from_std(listener) else {
        return;
    };
    let seats = Arc::new(Semaphore::new(SEATS));
    loop {
        let Ok((stream, _)) = listener.accept().await else {
            tokio::time::sleep(PAUSE).await;
            continue;
        };
        let Ok(seat) = Arc::clone(&seats).try_acquire_owned() else {
            continue;
        };
        let served = Arc::clone(&served);
        tokio::spawn(async move {
            let service = service_fn(move |request| {
                let answer = answer(&served, &request);
                async move { Ok::<_, Infallible>(answer) }
            });
            // A browser that goes away in the middle of an answer is no matter.
            let _ = http1::Builder::new()
                .timer(TokioTimer::new())
                .header_read_timeout(PATIENCE)
                .serve_connection(TokioIo::new(stream), service)
                .await;
            drop(seat);
        });
    }
}

fn answer(served: &Served, request: &Request<Incoming>) -> Answer {
    let asked = served
        .door
        .asked(request.method(), request.uri(), request.headers());
    let whole = |bytes: &Bytes| Either::Left(Full::new(bytes.clone()));
    let (status, kind, body) = match asked {
        Ok(Asked::Html) => (StatusCode::OK, "text/html", whole(&served.html)),
        Ok(Asked::Style) => (StatusCode::OK, "text/css", whole(&served.style)),
        Ok(Asked::Script) => (StatusCode::OK, "text/javascript", whole(&served.script)),
        Ok(Asked::Events) => {
            let events = Either::Right(events(served.reported.clone()));
            (StatusCode::OK, "text/event-stream", events)
        }
        Err(status) => {
            let words = status.canonical_reason().unwrap_or_default();
            (
                status,
                "text/plain",
                whole(&Bytes::from_static(words.as_bytes())),
            )
        }
    };
    let mut answer = Response::new(body);
    *answer.status_mut() = status;
    let headers = answer.headers_mut();
    if let Ok(kind) = HeaderValue::from_str(&format!("{kind}; charset=utf-8")) {
        headers.insert(hyper::header::CONTENT_TYPE, kind);
    }
    for (name, rule) in RULES {
        headers.insert(
            HeaderName::from_static(name),
            HeaderValue::from_static(rule),
        );
    }
    answer
}

/// What is told, now and from now on; the latest where a browser is slow.
fn events(mut reported: watch::Receiver<String>) -> Events {
    reported.mark_changed();
    let events = stream::unfold(reported, |mut reported| async move {
        loop {
            reported.changed().await.ok()?;
            let event = reported.borrow_and_update().clone();
            if !event.is_empty() {
                return Some((Ok(Frame::data(Bytes::from(event))), reported));
            }
        }
    });
    StreamBody::new(events.boxed())
}
