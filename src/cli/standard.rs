//! `drylay standard`: which standard applies, and every limit in force.

use super::applied::applied_at;
use super::arguments::StandardArguments;
use super::output::{refuse_inputs, write_result};
use super::problem::Problem;
use super::source::current_folder;
use super::status::{GOOD, Status};
use crate::report::standards;

/// Shows what applies to a spec, or to any that may lie in a folder.
pub(crate) fn standard(arguments: &StandardArguments) -> Result<Status, Problem> {
    let folder = current_folder()?;
    let analysis = applied_at(&arguments.path, &folder)?;
    let text = standards(&analysis, &folder);
    let output = arguments.output.output.as_deref();
    refuse_inputs(output, [arguments.path.as_path()])?;
    write_result(&text, output)?;
    Ok(GOOD)
}
