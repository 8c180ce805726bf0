//! Writing results: to standard output, or to a file whole or not at all.

use std::fs;
use std::io::{self, Write};
use std::path::Path;

use super::problem::Problem;
use crate::host::in_words;

/// Writes a result to a file, or to standard output where none is named. A
/// reader that has gone away is no problem.
pub fn write_result(text: &str, file: Option<&Path>) -> Result<(), Problem> {
    match file {
        None => to_standard_output(text).map_err(|error| {
            Problem(format!(
                "the result could not be written: {}",
                in_words(&error)
            ))
        }),
        Some(file) => to_file(text, file)
            .map_err(|error| Problem::with_file(file.display(), in_words(&error))),
    }
}

fn to_standard_output(text: &str) -> io::Result<()> {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}

/// Writes a temporary file beside the one that is meant and renames it, so
/// that nobody ever sees half a file.
fn to_file(text: &str, file: &Path) -> io::Result<()> {
    let existing = fs::metadata(file).ok();
    // A pipe or a device is no file that could be replaced.
    if existing.as_ref().is_some_and(|about| !about.is_file()) {
        return fs::OpenOptions::new()
            .write(true)
            .open(file)?
            .write_all(text.as_bytes());
    }
    // A link stays one: what it points at is replaced.
    let file = &fs::canonicalize(file).unwrap_or_else(|_| file.to_owned());
    let folder = file
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    let mut whole = new_file(folder.unwrap_or(Path::new(".")))?;
    whole.write_all(text.as_bytes())?;
    if let Some(about) = existing {
        whole.as_file().set_permissions(about.permissions())?;
    }
    whole.persist(file).map(drop).map_err(|failed| failed.error)
}

/// A new file in a folder, gone again unless it is given a name.
fn new_file(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".drylay-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // Less what the user's mask takes away, as for any new file.
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    builder.tempfile_in(folder)
}

/// Shows a table that is no result, on standard error.
pub fn show_beside(text: &str) {
    // If standard error is gone there is nobody left to show it to.
    let _ = io::stderr().lock().write_all(text.as_bytes());
}

/// Says something that is no result, on standard error.
pub fn tell(text: &str) {
    // If standard error is gone there is nobody left to tell.
    let _ = writeln!(io::stderr().lock(), "drylay: {text}");
}
