//! `drylay compare`: the figures of two specs beside each other.

use std::path::Path;
use std::sync::Arc;

use super::arguments::CompareArguments;
use super::disk::Disk;
use super::output::write_result;
use super::problem::Problem;
use super::run::{GOOD, Status};
use super::source::{Source, current_folder, path_of};
use crate::analysis::{Analyser, Analysis};
use crate::host::today;
use crate::report::comparison;

/// Compares two specs and writes what changes.
pub fn compare(arguments: &CompareArguments) -> Result<Status, Problem> {
    let folder = current_folder()?;
    let old = analysis(&arguments.old, &folder)?;
    let new = analysis(&arguments.new, &folder)?;
    write_result(
        &comparison(&old, &new, &folder),
        arguments.output.output.as_deref(),
    )?;
    Ok(GOOD)
}

fn analysis(path: &Path, folder: &str) -> Result<Arc<Analysis>, Problem> {
    let source = Source::at(&path_of(path)?, folder);
    let source = source.map_err(|unread| Problem::with_file(unread.path, unread.why))?;
    Ok(Analyser::new().analyse(&source.path, source.text, &Disk, &today()))
}
