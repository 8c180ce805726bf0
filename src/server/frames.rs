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
        Ok(Some(length)) => body(from, length).map_or(Frame::End, Frame::Body),
        Ok(None) => Frame::BadHeader,
        Err(_) => Frame::End,
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

/// Reads up to the empty line, blank lines before a header not counted, and
/// gives the length that it tells, if it tells one.
fn header(from: &mut impl BufRead) -> io::Result<Option<usize>> {
    let mut from = from.take(LONGEST_HEADER);
    let mut length = None;
    let mut begun = false;
    let mut line = Vec::new();
    loop {
        line.clear();
        if from.read_until(b'\n', &mut line)? == 0 {
            return match from.limit() {
                0 => Ok(None),
                _ => Err(io::ErrorKind::UnexpectedEof.into()),
            };
        }
        let line = line.trim_ascii();
        if line.is_empty() && begun {
            return Ok(length);
        }
        begun |= !line.is_empty();
        length = length.or_else(|| content_length(line));
    }
}

fn content_length(line: &[u8]) -> Option<usize> {
    let (name, value) = std::str::from_utf8(line).ok()?.split_once(':')?;
    let is_it = name.trim().eq_ignore_ascii_case("content-length");
    let length: Option<usize> = value.trim().parse().ok().filter(|_| is_it);
    length.filter(|length| *length <= LONGEST_BODY)
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

    /// All that is read up to the end.
    fn all(mut wire: &[u8]) -> Vec<Frame> {
        let frames = std::iter::from_fn(|| Some(read(&mut wire)));
        frames.take_while(|frame| *frame != Frame::End).collect()
    }

    fn is(text: &str) -> Frame {
        Frame::Body(text.into())
    }

    #[test]
    fn bodies_are_read_by_their_length() {
        for (wire, frames) in [
            ("", vec![]),
            ("Content-Length: 2\r\n\r\n{}", vec![is("{}")]),
            (
                "content-length:2\r\nContent-Type: x; charset=utf-8\r\n\r\n{}Content-Length: 1\r\n\r\n1",
                vec![is("{}"), is("1")],
            ),
            ("Content-Length: 0\r\n\r\n", vec![is("")]),
            ("Content-Length: 9\r\n\r\n{}", vec![]),
            ("Content-Length: 2\r\n", vec![]),
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
                [Frame::BadHeader, is("{}")],
                "{header}"
            );
        }
    }

    #[test]
    fn a_promise_that_is_not_kept_costs_no_memory() {
        let wire = format!("Content-Length: {LONGEST_BODY}\r\n\r\n{{}}");
        assert!(all(wire.as_bytes()).is_empty());
        let wire = format!("Content-Length: {}\r\n\r\n{{}}", usize::MAX);
        assert_eq!(all(wire.as_bytes()).first(), Some(&Frame::BadHeader));
    }

    #[test]
    fn what_is_written_is_read_back() {
        let mut wire = Vec::new();
        write(&mut wire, "½".as_bytes()).unwrap();
        assert_eq!(wire, "Content-Length: 2\r\n\r\n½".as_bytes());
        assert_eq!(all(&wire), [is("½")]);
    }
}
