//! Messages on the wire: a header that tells the length, then the body.

use std::io::{self, BufRead, IoSlice, Read, Write};

/// The longest header block that is read; a longer one is no header.
const LONGEST_HEADER: u64 = 64 * 1024;

/// The longest body that is read, in bytes.
const LONGEST_BODY: usize = 1 << 30;

/// What was read from the wire.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Frame {
    /// A body, whatever it may hold.
    Body(Vec<u8>),
    /// A header without a length that can be read; what follows is taken for
    /// the next header.
    BadHeader,
    /// The end of the stream, also in the middle of a message.
    End,
}

/// Reads the next message.
pub(crate) fn read(from: &mut impl BufRead) -> Frame {
    match header(from) {
        Ok(Header::Length(length)) => match body(from, length) {
            Ok(body) => Frame::Body(body),
            Err(_) => Frame::End,
        },
        Ok(Header::Unreadable) => Frame::BadHeader,
        Ok(Header::End) | Err(_) => Frame::End,
    }
}

/// Writes a body with its header, in one go if the other side takes so much: a
/// client that is woken by the header alone would have to wait again.
pub(crate) fn write(to: &mut impl Write, body: &[u8]) -> io::Result<()> {
    let header = format!("Content-Length: {}\r\n\r\n", body.len());
    let both = [IoSlice::new(header.as_bytes()), IoSlice::new(body)];
    let written = match to.write_vectored(&both) {
        Err(error) if error.kind() == io::ErrorKind::Interrupted => 0,
        written => written?,
    };
    let of_body = written.saturating_sub(header.len());
    to.write_all(header.as_bytes().get(written..).unwrap_or_default())?;
    to.write_all(body.get(of_body..).unwrap_or_default())
}

enum Header {
    Length(usize),
    Unreadable,
    End,
}

/// Reads up to the empty line; blank lines before a header do not count.
fn header(from: &mut impl BufRead) -> io::Result<Header> {
    let mut from = from.take(LONGEST_HEADER);
    let mut length = None;
    let mut begun = false;
    let mut line = Vec::new();
    loop {
        line.clear();
        if from.read_until(b'\n', &mut line)? == 0 {
            return Ok(if from.limit() == 0 {
                Header::Unreadable
            } else {
                Header::End
            });
        }
        let line = line.trim_ascii();
        if line.is_empty() && begun {
            return Ok(length.map_or(Header::Unreadable, Header::Length));
        }
        begun |= !line.is_empty();
        length = length.or_else(|| content_length(line));
    }
}

fn content_length(line: &[u8]) -> Option<usize> {
    let colon = line.iter().position(|byte| *byte == b':')?;
    let (name, value) = line.split_at_checked(colon)?;
    if !name.trim_ascii().eq_ignore_ascii_case(b"content-length") {
        return None;
    }
    let value = std::str::from_utf8(value.get(1..)?).ok()?;
    value
        .trim()
        .parse()
        .ok()
        .filter(|length| *length <= LONGEST_BODY)
}

/// Reads a body piece by piece, so that a header that promises much more than
/// follows costs no memory.
fn body(from: &mut impl BufRead, length: usize) -> io::Result<Vec<u8>> {
    let mut body = Vec::with_capacity(length.min(1 << 20));
    from.take(length as u64).read_to_end(&mut body)?;
    if body.len() == length {
        Ok(body)
    } else {
        Err(io::ErrorKind::UnexpectedEof.into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(mut wire: &[u8]) -> Vec<Frame> {
        let mut frames = Vec::new();
        loop {
            let frame = read(&mut wire);
            let end = frame == Frame::End;
            frames.push(frame);
            if end {
                return frames;
            }
        }
    }

    fn is(text: &str) -> Frame {
        Frame::Body(text.into())
    }

    #[test]
    fn bodies_are_read_by_their_length() {
        for (wire, frames) in [
            ("", vec![Frame::End]),
            ("Content-Length: 2\r\n\r\n{}", vec![is("{}"), Frame::End]),
            (
                "content-length:2\r\nContent-Type: x; charset=utf-8\r\n\r\n{}Content-Length: 1\r\n\r\n1",
                vec![is("{}"), is("1"), Frame::End],
            ),
            ("Content-Length: 0\r\n\r\n", vec![is(""), Frame::End]),
            ("Content-Length: 9\r\n\r\n{}", vec![Frame::End]),
            ("Content-Length: 2\r\n", vec![Frame::End]),
        ] {
            assert_eq!(all(wire.as_bytes()), frames, "{wire:?}");
        }
    }

    #[test]
    fn a_header_without_a_length_costs_itself_only() {
        for header in [
            "Content-Length: two",
            "Content-Length: -1",
            "Content-Type: x",
            "hello",
        ] {
            let wire = format!("{header}\r\n\r\nContent-Length: 2\r\n\r\n{{}}");
            assert_eq!(
                all(wire.as_bytes()),
                [Frame::BadHeader, is("{}"), Frame::End],
                "{header}"
            );
        }
    }

    #[test]
    fn a_promise_that_is_not_kept_costs_no_memory() {
        let wire = format!("Content-Length: {LONGEST_BODY}\r\n\r\n{{}}");
        assert_eq!(all(wire.as_bytes()), [Frame::End]);
        let wire = format!("Content-Length: {}\r\n\r\n{{}}", usize::MAX);
        assert_eq!(all(wire.as_bytes()).first(), Some(&Frame::BadHeader));
    }

    #[test]
    fn what_is_written_is_read_back() {
        let mut wire = Vec::new();
        write(&mut wire, "½".as_bytes()).unwrap();
        assert_eq!(wire, "Content-Length: 2\r\n\r\n½".as_bytes());
        assert_eq!(all(&wire), [is("½"), Frame::End]);
    }
}
