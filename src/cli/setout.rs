//! `drylay setout`: how a spec is pegged out on the ground.

use super::arguments::{SetoutArguments, SetoutFormat};
use super::one_spec::OneSpec;
use super::output::{write_bytes, write_result};
use super::problem::Problem;
use super::status::{GOOD, Status};
use crate::drawing::pdf;
use crate::report::{setout_csv, setout_json, setout_markdown, setout_pages, setout_text};

/// Works out how a spec is set out and writes the sheet.
pub(crate) fn setout(arguments: &SetoutArguments) -> Result<Status, Problem> {
    let spec = OneSpec::named(&arguments.spec, &arguments.output, "set out")?;
    let (analysis, folder) = (&spec.analysis, &spec.folder);
    let format = arguments
        .output
        .format(arguments.format, SetoutFormat::Text)?;
    let output = arguments.output.output.as_deref();
    let text = match format {
        SetoutFormat::Text => setout_text(analysis, folder, arguments.working),
        SetoutFormat::Csv => setout_csv(analysis),
        SetoutFormat::Json => setout_json(analysis),
        SetoutFormat::Markdown => setout_markdown(analysis, folder),
        SetoutFormat::Pdf => {
            let pages = setout_pages(analysis, folder, &spec.today);
            spec.tell_lacking(&pages, "text");
            write_bytes(&pdf(&pages), output)?;
            return Ok(GOOD);
        }
    };
    write_result(&text, output)?;
    Ok(GOOD)
}
