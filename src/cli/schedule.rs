//! `drylay schedule`: when the work of a spec is done.

use super::drawing::in_svg;
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
    let told = |why: &str| spec.problem(why);
    if analysis.job.work.is_none() {
        return Err(told(
            "it says nothing of the work: a `work` section states start, crew and day",
        ));
    }
    let chart = || {
        schedule_chart(analysis, spec.file(), arguments.sheet.map(Into::into))
            .ok_or_else(|| told("it has no schedule to draw"))
    };
    let format = arguments.format.or_else(|| arguments.output.format());
    let format = format.unwrap_or(ScheduleFormat::Text);
    let file = arguments.output.output.as_deref();
    let text = match format {
        ScheduleFormat::Text => Some(schedule_text(analysis, &spec.folder, arguments.working)),
        ScheduleFormat::Csv => Some(schedule_csv(analysis)),
        ScheduleFormat::Json => Some(schedule_json(analysis)),
        _ => None,
    };
    if let Some(text) = text {
        write_result(&text, file)?;
        return Ok(GOOD);
    }
    let written = match format {
        ScheduleFormat::Text | ScheduleFormat::Csv | ScheduleFormat::Json => Vec::new(),
        ScheduleFormat::Ics => schedule_ics(analysis)
            .ok_or_else(|| told("a calendar needs dates: state the `start` of the work"))?
            .into_bytes(),
        ScheduleFormat::Svg => in_svg(analysis, &chart()?),
        ScheduleFormat::Pdf => pdf([&chart()?]),
        ScheduleFormat::Png => png(&chart()?).unwrap_or_default(),
    };
    write_bytes(&written, file)?;
    Ok(GOOD)
}
