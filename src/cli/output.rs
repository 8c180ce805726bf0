//! Writing results: to standard output, or to a file whole or not at all.

use std::fs;
use std::io::{self, IsTerminal, Write};
use std::path::Path;

use super::problem::Problem;
use crate::host::{in_words, is_same_file, is_spec, write_whole};
use crate::text::{Shown, clean};

/// Writes a result to a file, or to standard output where none is named. A
/// reader that has gone away is no problem. A spec is never overwritten by a
/// result: its name is easily taken for that of the file to be written.
pub(crate) fn write_result(text: &str, file: Option<&Path>) -> Result<(), Problem> {
    write_shown(text, Shown::Lines, file)
}

/// The same for a result that is more than plain lines.
pub(crate) fn write_shown(text: &str, shown: Shown, file: Option<&Path>) -> Result<(), Problem> {
    write(clean(text, shown).as_bytes(), file)
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
        None => to_standard_output(result).map_err(|error| {
            Problem(format!(
                "the result could not be written: {}",
                in_words(&error)
            ))
        }),
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
    match out.write_all(result).and_then(|()| out.flush()) {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
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
