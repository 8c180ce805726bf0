//! `drylay takeoff`: the quantities, orders and costs of a spec.

use super::arguments::{TakeoffArguments, TakeoffFormat};
use super::disk::Disk;
use super::output::{refuse_inputs, write_bytes, write_result};
use super::problem::Problem;
use super::source::{Source, current_folder};
use super::status::{GOOD, Status};
use crate::analysis::Analyser;
use crate::host::today;
use crate::model::FileKind;
use crate::report::{
    shown_path, takeoff_csv, takeoff_json, takeoff_markdown, takeoff_text, takeoff_xlsx,
};

/// Takes a spec off and writes the sheet.
pub fn takeoff(arguments: &TakeoffArguments) -> Result<Status, Problem> {
    let folder = current_folder()?;
    let output = arguments.output.output.as_deref();
    refuse_inputs(output, arguments.spec.as_deref())?;
    let source = Source::named(arguments.spec.as_deref(), &arguments.stdin, &folder)?;
    let today = today();
    let analysis = Analyser::new().analyse(&source.path, source.text, &Disk, &today);
    if analysis.job.kind == FileKind::Standard {
        let path = shown_path(&source.path, &folder);
        return Err(Problem::with_file(
            path,
            "it is a standard, which has nothing to take off",
        ));
    }
    let text = match arguments.format {
        TakeoffFormat::Text => takeoff_text(&analysis, &folder, arguments.working),
        TakeoffFormat::Json => takeoff_json(&analysis),
        TakeoffFormat::Csv => takeoff_csv(&analysis),
        TakeoffFormat::Markdown => takeoff_markdown(&analysis, &folder),
        TakeoffFormat::Xlsx => {
            let workbook = takeoff_xlsx(&analysis, &folder, &today);
            let workbook = workbook.ok_or_else(|| {
                let path = shown_path(&source.path, &folder);
                Problem::with_file(path, "it has more in it than a workbook holds")
            })?;
            write_bytes(&workbook, output)?;
            return Ok(GOOD);
        }
    };
    write_result(&text, output)?;
    Ok(GOOD)
}
