//! `drylay schedule`: when the work of a spec is done.

use super::drawing::{in_svg, one_of};
use super::one_spec::OneSpec;
use super::output::{write_bytes, write_result};
use super::problem::Problem;
use super::schedule_arguments::{ScheduleArguments, ScheduleFormat};
use super::status::{GOOD, Status};
use crate::drawing::{pdf, png, schedule_chart};
use crate::report::{schedule_csv, schedule_ics, schedule_json, schedule_text};

/// Schedules the work of a spec and writes it.
pub(crate) fn schedule(arguments: &ScheduleArguments) -> Result<Status, Problem> {
    let spec = OneSpec::named(&arguments.spec, &arguments.output, "schedule")?;
    let analysis = &spec.analysis;
    let described = |why: &str| spec.problem(why);
    if analysis.job.work.is_none() {
        return Err(described(
            "it says nothing of the work: a `work` section states start, crew and day",
        ));
    }
    let sheets = || schedule_chart(analysis, spec.file(), arguments.sheet.map(Into::into));
    let format = arguments
        .output
        .format(arguments.format, ScheduleFormat::Text)?;
    let file = arguments.output.output.as_deref();
    match format {
        ScheduleFormat::Text => write_result(
            &schedule_text(analysis, &spec.folder, arguments.working),
            file,
        )?,
        ScheduleFormat::Csv => write_result(&schedule_csv(analysis), file)?,
        ScheduleFormat::Json => write_result(&schedule_json(analysis), file)?,
        ScheduleFormat::Ics => {
            let calendar = schedule_ics(analysis);
            let why = "a calendar needs dates: state the `start` of the work";
            write_bytes(calendar.ok_or_else(|| described(why))?.as_bytes(), file)?;
        }
        ScheduleFormat::Svg => {
            let sheets = sheets();
            let sheet = one_of(&spec, &sheets, arguments.page)?;
            write_bytes(&in_svg(analysis, sheet), file)?;
        }
        ScheduleFormat::Pdf if arguments.page.is_none() => {
            let sheets = sheets();
            spec.tell_lacking(&sheets, "SVG");
            write_bytes(&pdf(&sheets), file)?;
        }
        ScheduleFormat::Pdf => {
            let sheets = sheets();
            let sheet = one_of(&spec, &sheets, arguments.page)?;
            spec.tell_lacking([sheet], "SVG");
            write_bytes(&pdf([sheet]), file)?;
        }
        ScheduleFormat::Png => {
            let sheets = sheets();
            let sheet = one_of(&spec, &sheets, arguments.page)?;
            spec.tell_lacking([sheet], "SVG");
            write_bytes(&png(sheet).unwrap_or_default(), file)?;
        }
    }
    Ok(GOOD)
}
