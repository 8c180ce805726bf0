//! Writing results: to standard output, or to a file whole or not at all.

use std::fmt::{self, Write as _};
use std::fs;
use std::io::{self, IsTerminal, Write};
use std::path::Path;

use serde::Serialize;

use super::problem::Problem;
use crate::host::{in_words, is_same_file, is_spec, write_whole};
use crate::text::{Shown, clean};

/// Writes a result to a file, or to standard output where none is named. A
/// spec is never overwritten by a result: its name is easily taken for that of
/// the file to be written.
pub(crate) fn write_result(text: &str, file: Option<&Path>) -> Result<(), Problem> {
    write(clean(text, Shown::Lines).as_bytes(), file)
}

/// The same for a result that may be long, or more than plain lines. Standard
/// output takes it as it comes, so that it need not be held whole.
pub(crate) fn write_shown(
    text: &dyn fmt::Display,
    shown: Shown,
    file: Option<&Path>,
) -> Result<(), Problem> {
    if file.is_some() {
        return write(clean(&text.to_string(), shown).as_bytes(), file);
    }
    let mut cleaned = Cleaned {
        shown,
        waiting: String::new(),
        written: Ok(()),
    };
    // That a text cannot be shown says no more than what stopped it.
    let _ = write!(cleaned, "{text}");
    cleaned.finish().map_err(unwritten)
}

/// Cleans a text on its way to standard output, some lines at a time.
struct Cleaned {
    shown: Shown,
    waiting: String,
    written: io::Result<()>,
}

/// A document as JSON, each part of it made as it is written.
pub(crate) struct Json<T>(pub(crate) T);

impl<T: Serialize> fmt::Display for Json<T> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Strings and numbers under keys that are strings always serialise:
        // what fails is the writing.
        serde_json::to_writer_pretty(Utf8(out), &self.0).map_err(|_| fmt::Error)?;
        out.write_str("\n")
    }
}

/// Takes the bytes of JSON as the text that they are.
struct Utf8<'a, 'f>(&'a mut fmt::Formatter<'f>);

impl Write for Utf8<'_, '_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let text = str::from_utf8(bytes).map_err(io::Error::other)?;
        self.0.write_str(text).map_err(io::Error::other)?;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// So many bytes are cleaned and written at once, and what is left of a line.
const AT_ONCE: usize = 64 * 1024;

impl fmt::Write for Cleaned {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        let lines = text.rfind('\n').map_or(0, |end| end + 1);
        let (ended, begun) = text.split_at_checked(lines).unwrap_or((text, ""));
        self.waiting.push_str(ended);
        if ended.is_empty() || self.waiting.len() < AT_ONCE {
            self.waiting.push_str(begun);
            return Ok(());
        }
        self.write_waiting(begun.to_owned())
    }
}

impl Cleaned {
    fn write_waiting(&mut self, rest: String) -> fmt::Result {
        let lines = std::mem::replace(&mut self.waiting, rest);
        let mut out = io::stdout().lock();
        self.written = out.write_all(clean(&lines, self.shown).as_bytes());
        match self.written {
            Ok(()) => Ok(()),
            Err(_) => Err(fmt::Error),
        }
    }

    fn finish(mut self) -> io::Result<()> {
        if self.written.is_ok() && self.write_waiting(String::new()).is_ok() {
            self.written = io::stdout().lock().flush();
        }
        pipe_may_break(self.written)
    }
}

/// The same for a spec, or the lines that change in one: to a file or another
/// program it goes as it is.
pub(crate) fn write_spec(text: &str, file: Option<&Path>) -> Result<(), Problem> {
    match file.is_none() && io::stdout().is_terminal() {
        true => write_result(text, None),
        false => write(text, file),
    }
}

/// The same for a result that is no text.
pub(crate) fn write_bytes(bytes: &[u8], file: Option<&Path>) -> Result<(), Problem> {
    write(bytes, file)
}

fn write(result: impl AsRef<[u8]>, file: Option<&Path>) -> Result<(), Problem> {
    let result = result.as_ref();
    match file {
        None => to_standard_output(result).map_err(unwritten),
        Some(file) => {
            refuse_spec(file)?;
            rewrite(result, file)
        }
    }
}

/// Writes a spec anew where it lies.
pub(crate) fn rewrite(result: impl AsRef<[u8]>, file: &Path) -> Result<(), Problem> {
    write_whole(file, result.as_ref())
        .map_err(|error| Problem::with_file(file.display(), in_words(&error)))
}

/// Refuses a file for the result that is, or is called, a spec.
fn refuse_spec(file: &Path) -> Result<(), Problem> {
    let target = fs::canonicalize(file);
    let leads_to_spec = target.is_ok_and(|target| is_spec(&target));
    let why = match (is_spec(file) || leads_to_spec, file.exists()) {
        (false, _) => return Ok(()),
        (true, true) => "the result would overwrite this spec: write it to another file",
        (true, false) => "a result is not a spec: write it to a file with another ending",
    };
    Err(Problem::with_file(file.display(), why))
}

/// Refuses a file for the result that is read to make it, under whatever name.
pub(crate) fn refuse_inputs<'a>(
    file: Option<&Path>,
    inputs: impl IntoIterator<Item = &'a Path>,
) -> Result<(), Problem> {
    let Some(file) = file else { return Ok(()) };
    refuse_spec(file)?;
    match inputs.into_iter().any(|input| is_same_file(file, input)) {
        true => Err(Problem::with_file(
            file.display(),
            "the result would overwrite what it is made from: write it to another file",
        )),
        false => Ok(()),
    }
}

fn to_standard_output(result: &[u8]) -> io::Result<()> {
    let mut out = io::stdout().lock();
    pipe_may_break(out.write_all(result).and_then(|()| out.flush()))
}

/// A reader that has gone away is no problem.
fn pipe_may_break(written: io::Result<()>) -> io::Result<()> {
    match written {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}

fn unwritten(error: io::Error) -> Problem {
    Problem(format!(
        "the result could not be written: {}",
        in_words(&error)
    ))
}

/// Shows a table that is no result, on standard error.
pub(crate) fn show_beside(text: &str) {
    // If standard error is gone there is nobody left to show it to.
    let _ = io::stderr()
        .lock()
        .write_all(clean(text, Shown::Lines).as_bytes());
}

/// Says something that is no result, on standard error.
pub(crate) fn tell(text: &str) {
    // If standard error is gone there is nobody left to tell.
    let text = clean(text, Shown::Line);
    let _ = writeln!(io::stderr().lock(), "drylay: {text}");
}
