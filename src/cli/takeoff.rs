//! `drylay takeoff`: the quantities, orders and costs of a spec.

use super::arguments::{TakeoffArguments, TakeoffFormat};
use super::one_spec::OneSpec;
use super::output::{write_bytes, write_result};
use super::problem::Problem;
use super::status::{GOOD, Status};
use crate::report::{
    SheetLayout, takeoff_csv, takeoff_json, takeoff_markdown, takeoff_text, takeoff_xlsx,
};

/// Takes a spec off and writes the sheet.
pub(crate) fn takeoff(arguments: &TakeoffArguments) -> Result<Status, Problem> {
    let spec = OneSpec::named(&arguments.spec, &arguments.output, "take off")?;
    let (analysis, folder) = (&spec.analysis, &spec.folder);
    let output = arguments.output.output.as_deref();
    let format = arguments
        .output
        .format(arguments.format, TakeoffFormat::Text)?;
    let text = match format {
        TakeoffFormat::Text => {
            let layout = SheetLayout::default().with_working(arguments.working);
            takeoff_text(analysis, folder, layout)
        }
        TakeoffFormat::Json => takeoff_json(analysis),
        TakeoffFormat::Csv => takeoff_csv(analysis),
        TakeoffFormat::Markdown => takeoff_markdown(analysis, folder),
        TakeoffFormat::Xlsx => {
            let workbook = takeoff_xlsx(analysis, folder, &spec.today);
            let workbook =
                workbook.ok_or_else(|| spec.problem("it has more in it than a workbook holds"))?;
            write_bytes(&workbook, output)?;
            return Ok(GOOD);
        }
    };
    write_result(&text, output)?;
    Ok(GOOD)
}
