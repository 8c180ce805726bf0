//! `drylay standard`: which limits of a practice's own apply.

use std::sync::Arc;

use super::arguments::StandardArguments;
use super::disk::Disk;
use super::output::write_result;
use super::problem::Problem;
use super::run::{GOOD, Status};
use super::source::{Source, current_folder, path_of};
use crate::analysis::Analyser;
use crate::host::today;
use crate::report::standards;

/// Shows what applies to a spec, or to any that may lie in a folder.
pub fn standard(arguments: &StandardArguments) -> Result<Status, Problem> {
    let folder = current_folder()?;
    let path = path_of(&arguments.path)?;
    let source = match arguments.path.is_dir() {
        true => Source {
            path: format!("{}/any.patio", path.trim_end_matches('/')),
            text: Arc::from(""),
        },
        false => Source::at(&path, &folder)
            .map_err(|unread| Problem::with_file(unread.path, unread.why))?,
    };
    let analysis = Analyser::new().analyse(&source.path, source.text, &Disk, &today());
    write_result(
        &standards(&analysis, &folder),
        arguments.output.output.as_deref(),
    )?;
    Ok(GOOD)
}
