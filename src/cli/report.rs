//! `drylay report`: all of a job in one document.

use super::disk::Disk;
use super::output::{refuse_inputs, write_bytes};
use super::problem::Problem;
use super::sheet_arguments::{ReportArguments, ReportFormat, Whom};
use super::source::{Source, current_folder};
use super::status::{GOOD, Status};
use crate::analysis::Analyser;
use crate::host::today;
use crate::model::FileKind;
use crate::report::{Handing, Reader, report_html, report_pdf, shown_path};

/// Writes the report of a spec.
pub fn report(arguments: &ReportArguments) -> Result<Status, Problem> {
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
            "it is a standard, which has nothing to report",
        ));
    }
    let handing = Handing {
        reader: match arguments.whom {
            None => Reader::Office,
            Some(Whom::Client) => Reader::Client,
            Some(Whom::Crew) => Reader::Crew,
            Some(Whom::Supplier) => Reader::Supplier,
        },
        folder: &folder,
        today: &today,
    };
    let written = match format(arguments) {
        ReportFormat::Html => report_html(&analysis, &handing).into_bytes(),
        ReportFormat::Pdf => report_pdf(&analysis, &handing),
    };
    write_bytes(&written, output)?;
    Ok(GOOD)
}

/// The format that is asked for: by name, or by the file's ending.
fn format(arguments: &ReportArguments) -> ReportFormat {
    let ending = arguments.output.output.as_ref().and_then(|file| {
        let ending = file.extension()?.to_str()?.to_ascii_lowercase();
        <ReportFormat as clap::ValueEnum>::from_str(&ending, true).ok()
    });
    arguments.format.or(ending).unwrap_or(ReportFormat::Html)
}
