//! Who is let in, and to what.

use hyper::header::{HOST, HeaderMap, HeaderName, ORIGIN};
use hyper::{Method, StatusCode, Uri};

/// Tells which page has a browser ask: every browser of today says so.
const FETCH_SITE: HeaderName = HeaderName::from_static("sec-fetch-site");

/// What is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Asked {
    /// The page.
    Html,
    /// Its style.
    Style,
    /// Its script.
    Script,
    /// What there is to show, now and whenever it changes.
    Events,
}

/// Knows the names under which the page may be asked for.
#[derive(Debug, Clone)]
pub(crate) struct Door {
    names: [String; 2],
}

impl Door {
    /// That of a port.
    pub(crate) fn at(port: u16) -> Door {
        Door {
            names: ["127.0.0.1", "localhost"].map(|host| format!("{host}:{port}")),
        }
    }

    /// What a request asks for.
    ///
    /// # Errors
    /// How it is refused: a page of another origin is kept out, and so is
    /// whoever reaches this address by another name than its own, which a
    /// foreign page could have made for itself; of paths there are four.
    pub(crate) fn asked(
        &self,
        method: &Method,
        uri: &Uri,
        headers: &HeaderMap,
    ) -> Result<Asked, StatusCode> {
        if !self.is_own(uri, headers) {
            return Err(StatusCode::FORBIDDEN);
        }
        if method != Method::GET {
            return Err(StatusCode::METHOD_NOT_ALLOWED);
        }
        match (uri.path(), uri.query()) {
            ("/", None) => Ok(Asked::Html),
            ("/page.css", None) => Ok(Asked::Style),
            ("/page.js", None) => Ok(Asked::Script),
            ("/events", None) => Ok(Asked::Events),
            _ => Err(StatusCode::NOT_FOUND),
        }
    }

    fn is_own(&self, uri: &Uri, headers: &HeaderMap) -> bool {
        let is_name = |name: &str| self.names.iter().any(|own| own == name);
        let all = |header: HeaderName, fits: &dyn Fn(&str) -> bool| {
            let mut values = headers.get_all(header).iter();
            values.all(|value| value.to_str().is_ok_and(fits))
        };
        let is_origin = |origin: &str| origin.strip_prefix("http://").is_some_and(is_name);
        headers.contains_key(HOST)
            && all(HOST, &is_name)
            && all(ORIGIN, &is_origin)
            && all(FETCH_SITE, &|site| ["none", "same-origin"].contains(&site))
            && uri.authority().is_none_or(|name| is_name(name.as_str()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use hyper::header::HeaderValue;

    fn asked(
        method: Method,
        uri: &'static str,
        headers: &[(&'static str, &str)],
    ) -> Result<Asked, StatusCode> {
        let named = headers.iter().map(|(name, value)| {
            let value = HeaderValue::from_str(value).expect("a header");
            (HeaderName::from_static(name), value)
        });
        let mut all = HeaderMap::new();
        named.for_each(|(name, value)| {
            all.append(name, value);
        });
        Door::at(8042).asked(&method, &Uri::from_static(uri), &all)
    }

    #[test]
    fn the_page_is_had_by_its_own_name() {
        let own = [("host", "127.0.0.1:8042")];
        for (path, what) in [
            ("/", Asked::Html),
            ("/page.css", Asked::Style),
            ("/page.js", Asked::Script),
            ("/events", Asked::Events),
            ("http://localhost:8042/", Asked::Html),
        ] {
            assert_eq!(asked(Method::GET, path, &own), Ok(what), "{path}");
        }
        let from_itself = [
            ("host", "localhost:8042"),
            ("origin", "http://localhost:8042"),
            ("sec-fetch-site", "same-origin"),
        ];
        assert_eq!(
            asked(Method::GET, "/events", &from_itself),
            Ok(Asked::Events)
        );
    }

    #[test]
    fn nobody_else_and_nothing_else_is_let_in() {
        const OWN: (&str, &str) = ("host", "127.0.0.1:8042");
        let forbidden = Err(StatusCode::FORBIDDEN);
        for headers in [
            &[][..],
            &[("host", "patio.example:8042")],
            &[("host", "127.0.0.1")],
            &[("host", "127.0.0.1:8043")],
            &[("host", "127.0.0.1:8042.patio.example")],
            &[OWN, ("host", "patio.example")],
            &[OWN, ("origin", "https://patio.example")],
            &[OWN, ("origin", "https://127.0.0.1:8042")],
            &[OWN, ("origin", "http://127.0.0.1:8043")],
            &[OWN, ("origin", "null")],
            &[OWN, ("sec-fetch-site", "cross-site")],
            &[OWN, ("sec-fetch-site", "same-site")],
        ] {
            assert_eq!(asked(Method::GET, "/", headers), forbidden, "{headers:?}");
        }
        assert_eq!(
            asked(Method::GET, "http://patio.example/", &[OWN]),
            forbidden
        );
        for path in [
            "/x",
            "//",
            "/../Cargo.toml",
            "/page.css/..",
            "/%2e%2e/Cargo.toml",
            "/?",
            "/events?x=1",
        ] {
            assert_eq!(
                asked(Method::GET, path, &[OWN]),
                Err(StatusCode::NOT_FOUND),
                "{path}"
            );
        }
        for method in [Method::POST, Method::PUT, Method::DELETE, Method::OPTIONS] {
            assert_eq!(
                asked(method, "/", &[OWN]),
                Err(StatusCode::METHOD_NOT_ALLOWED)
            );
        }
    }
}
