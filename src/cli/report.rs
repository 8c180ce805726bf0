//! `drylay report`: all of a job in one document.

use super::one_spec::OneSpec;
use super::output::write_bytes;
use super::problem::Problem;
use super::sheet_arguments::{ReportArguments, ReportFormat, Whom};
use super::status::{GOOD, Status};
use crate::drawing::pdf;
use crate::report::{Handing, Reader, report_html, report_pages};

/// Writes the report of a spec.
pub(crate) fn report(arguments: &ReportArguments) -> Result<Status, Problem> {
    let spec = OneSpec::named(&arguments.spec, &arguments.output, "report")?;
    let handing = Handing {
        reader: match arguments.whom {
            None => Reader::Office,
            Some(Whom::Client) => Reader::Client,
            Some(Whom::Crew) => Reader::Crew,
            Some(Whom::Supplier) => Reader::Supplier,
        },
        folder: &spec.folder,
        today: &spec.today,
    };
    let format = arguments
        .output
        .format(arguments.format, ReportFormat::Html)?;
    let written = match format {
        ReportFormat::Html => report_html(&spec.analysis, &handing).into_bytes(),
        ReportFormat::Pdf => {
            let pages = report_pages(&spec.analysis, &handing);
            spec.tell_lacking(&pages, "HTML");
            pdf(&pages)
        }
    };
    write_bytes(&written, arguments.output.output.as_deref())?;
    Ok(GOOD)
}
