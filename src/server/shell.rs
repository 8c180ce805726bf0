//! The shell around the router: what the protocol promises and the router
//! does not keep by itself.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::task::{Context, Poll};

use futures::FutureExt;
use futures::future::BoxFuture;
use tower::Service;
use tower_lsp::jsonrpc::{Error, Id, Request, Response};

use super::lifecycle::Lifecycle;

/// A service that answers every request, also where the one inside panics or
/// keeps silent, and that knows whether the client has said good-bye.
pub(crate) struct Shell<S> {
    inner: S,
    life: Arc<Lifecycle>,
}

impl<S> Shell<S> {
    /// Puts the shell around a service.
    pub(crate) fn new(inner: S, life: Arc<Lifecycle>) -> Shell<S> {
        Shell { inner, life }
    }
}

impl<S> Service<Request> for Shell<S>
where
    S: Service<Request, Response = Option<Response>>,
    S::Future: Send + 'static,
{
    type Response = Option<Response>;
    type Error = S::Error;
    type Future = BoxFuture<'static, Result<Option<Response>, S::Error>>;

    fn poll_ready(&mut self, context: &mut Context<'_>) -> Poll<Result<(), S::Error>> {
        self.inner.poll_ready(context)
    }

    fn call(&mut self, request: Request) -> Self::Future {
        let id = request.id().cloned();
        let is_beginning = request.method() == "initialize";
        let is_shutdown = request.method() == "shutdown";
        let life = Arc::clone(&self.life);
        let called = catch_unwind(AssertUnwindSafe(|| self.inner.call(request)));
        async move {
            let answer = match called {
                Ok(future) => AssertUnwindSafe(future).catch_unwind().await,
                Err(panic) => Err(panic),
            };
            let answer = match answer {
                Ok(Ok(answer)) => answer.or_else(|| refusal(id, Error::method_not_found())),
                Ok(Err(error)) => return Err(error),
                Err(_) => refusal(id, Error::internal_error()),
            };
            if is_beginning && answer.as_ref().is_some_and(Response::is_ok) {
                life.begin();
            }
            if is_shutdown && answer.as_ref().is_some_and(Response::is_ok) {
                life.shut_down();
            }
            Ok(answer)
        }
        .boxed()
    }
}

/// The answer to a request that got none; notifications are not answered.
fn refusal(id: Option<Id>, error: Error) -> Option<Response> {
    id.map(|id| Response::from_error(id, error))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::convert::Infallible;
    use tower_lsp::jsonrpc::ErrorCode;

    /// Panics at once or later, or keeps silent, as its method says.
    struct Unreliable;

    impl Service<Request> for Unreliable {
        type Response = Option<Response>;
        type Error = Infallible;
        type Future = BoxFuture<'static, Result<Option<Response>, Infallible>>;

        fn poll_ready(&mut self, _: &mut Context<'_>) -> Poll<Result<(), Infallible>> {
            Poll::Ready(Ok(()))
        }

        fn call(&mut self, request: Request) -> Self::Future {
            let (method, id, _) = request.into_parts();
            assert_ne!(method, "panics at once");
            async move {
                assert_ne!(method, "panics later");
                Ok(id
                    .filter(|_| method != "keeps silent")
                    .map(|id| Response::from_ok(id, method.into())))
            }
            .boxed()
        }
    }

    fn answer(
        shell: &mut Shell<Unreliable>,
        method: &'static str,
        id: Option<i64>,
    ) -> Option<Response> {
        let request = Request::build(method);
        let request = match id {
            Some(id) => request.id(id).finish(),
            None => request.finish(),
        };
        shell.call(request).now_or_never().unwrap().unwrap()
    }

    #[test]
    fn a_panic_is_answered_and_does_not_end_it() {
        let mut shell = Shell::new(Unreliable, Arc::default());
        for (method, code) in [
            ("panics at once", ErrorCode::InternalError),
            ("panics later", ErrorCode::InternalError),
            ("keeps silent", ErrorCode::MethodNotFound),
        ] {
            let refused = answer(&mut shell, method, Some(1)).unwrap();
            assert_eq!(
                refused.error().map(|error| error.code),
                Some(code),
                "{method}"
            );
            assert_eq!(answer(&mut shell, method, None), None);
            assert!(answer(&mut shell, "works", Some(2)).unwrap().is_ok());
        }
    }

    #[test]
    fn only_an_answered_shutdown_counts() {
        let life = Arc::new(Lifecycle::default());
        let mut shell = Shell::new(Unreliable, Arc::clone(&life));
        answer(&mut shell, "shutdown", None);
        assert_eq!(life.exit_code(), 1);
        answer(&mut shell, "shutdown", Some(1));
        assert_eq!(life.exit_code(), 0);
    }
}
