//! What a body says: a request or notification, an answer, or nothing sound.

use serde::Deserialize;
use serde_json::Value;
use tower_lsp::jsonrpc::{Error, Id, Request, Response};

use super::surrogates::mended;

/// A message from the client.
#[derive(Debug)]
pub(crate) enum Message {
    /// A request or a notification.
    Request(Request),
    /// The answer to a request of ours.
    Response(Response),
    /// Neither; this is what it is answered with.
    Unsound(Response),
}

/// Reads a body.
pub(crate) fn read(body: &[u8]) -> Message {
    let value = serde_json::from_slice::<Value>(body).ok();
    // Each body is read as it is first: few hold half a character.
    let value = value.or_else(|| serde_json::from_slice(&mended(body)?).ok());
    let Some(mut value) = value else {
        return Message::Unsound(Response::from_error(Id::Null, Error::parse_error()));
    };
    let id = value.get("id").and_then(|id| Id::deserialize(id).ok());
    let read = if value.get("method").is_some() {
        mend(&mut value);
        serde_json::from_value(value).ok().map(Message::Request)
    } else if value.get("result").is_some() || value.get("error").is_some() {
        serde_json::from_value(value).ok().map(Message::Response)
    } else {
        None
    };
    let refusal = || Response::from_error(id.unwrap_or(Id::Null), Error::invalid_request());
    read.unwrap_or_else(|| Message::Unsound(refusal()))
}

/// Puts right what the router and the types of its crate do not take as the
/// protocol has it: `"params": null` where a method takes none, and a client's
/// `workspace.diagnostics`, which the types call `diagnostic`.
fn mend(message: &mut Value) {
    let Some(message) = message.as_object_mut() else {
        return;
    };
    if message.get("params").is_some_and(Value::is_null) {
        message.remove("params");
    }
    if let Some(Value::Object(workspace)) = message
        .get_mut("params")
        .and_then(|params| params.pointer_mut("/capabilities/workspace"))
        && let Some(diagnostics) = workspace.remove("diagnostics")
    {
        workspace.insert("diagnostic".to_owned(), diagnostics);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use tower_lsp::jsonrpc::ErrorCode;

    #[test]
    fn requests_and_answers_are_told_apart() {
        let request = read(br#"{"jsonrpc":"2.0","id":1,"method":"shutdown","params":null}"#);
        let Message::Request(request) = request else {
            panic!("{request:?}")
        };
        assert_eq!((request.method(), request.params()), ("shutdown", None));
        for answer in [
            r#"{"jsonrpc":"2.0","id":0,"result":null}"#,
            r#"{"jsonrpc":"2.0","id":0,"error":{"code":-32603,"message":"no"}}"#,
        ] {
            assert!(
                matches!(read(answer.as_bytes()), Message::Response(_)),
                "{answer}"
            );
        }
    }

    #[test]
    fn half_a_character_costs_no_edit() {
        let body = br#"{"jsonrpc":"2.0","method":"a","params":{"text":"x\ud83dy"}}"#;
        let Message::Request(request) = read(body) else {
            panic!("it is a notification")
        };
        let text = request.params().map(|params| params["text"].clone());
        assert_eq!(text, Some("x\u{fffd}y".into()));
    }

    #[test]
    fn what_is_neither_is_answered_with_an_error() {
        let (unread, unsound) = (ErrorCode::ParseError, ErrorCode::InvalidRequest);
        for (body, id, code) in [
            ("", Id::Null, unread),
            ("{", Id::Null, unread),
            ("\u{feff}{}", Id::Null, unread),
            ("[]", Id::Null, unsound),
            ("7", Id::Null, unsound),
            (r#"{"id":7}"#, 7.into(), unsound),
            (
                r#"{"jsonrpc":"2.0","id":"a","method":7}"#,
                "a".into(),
                unsound,
            ),
            (
                r#"{"jsonrpc":"1.0","id":3,"method":"x"}"#,
                3.into(),
                unsound,
            ),
        ] {
            let Message::Unsound(answer) = read(body.as_bytes()) else {
                panic!("{body}")
            };
            assert_eq!(answer.id(), &id, "{body}");
            assert_eq!(answer.error().map(|error| error.code), Some(code), "{body}");
        }
        let nested = "[".repeat(100_000);
        assert!(matches!(read(nested.as_bytes()), Message::Unsound(_)));
        assert!(matches!(read(b"\"\xff\""), Message::Unsound(_)));
    }
}
