//! `drylay setout`: how a spec is pegged out on the ground.

use super::arguments::{SetoutArguments, SetoutFormat};
use super::disk::Disk;
use super::output::{refuse_inputs, write_result};
use super::problem::Problem;
use super::source::{Source, current_folder};
use super::status::{GOOD, Status};
use crate::analysis::Analyser;
use crate::host::today;
use crate::model::FileKind;
use crate::report::{setout_csv, setout_json, setout_markdown, setout_text, shown_path};

/// Works out how a spec is set out and writes the sheet.
pub fn setout(arguments: &SetoutArguments) -> Result<Status, Problem> {
    let folder = current_folder()?;
    let output = arguments.output.output.as_deref();
    refuse_inputs(output, arguments.spec.as_deref())?;
    let source = Source::named(arguments.spec.as_deref(), &arguments.stdin, &folder)?;
    let analysis = Analyser::new().analyse(&source.path, source.text, &Disk, &today());
    if analysis.job.kind == FileKind::Standard {
        let path = shown_path(&source.path, &folder);
        return Err(Problem::with_file(
            path,
            "it is a standard, which has nothing to set out",
        ));
    }
    let text = match arguments.format {
        SetoutFormat::Text => setout_text(&analysis, &folder, arguments.working),
        SetoutFormat::Csv => setout_csv(&analysis),
        SetoutFormat::Json => setout_json(&analysis),
        SetoutFormat::Markdown => setout_markdown(&analysis, &folder),
    };
    write_result(&text, output)?;
    Ok(GOOD)
}
