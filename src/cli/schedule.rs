//! `drylay schedule`: when the work of a spec is done.

use super::disk::Disk;
use super::output::{refuse_inputs, write_bytes};
use super::problem::Problem;
use super::schedule_arguments::{ScheduleArguments, ScheduleFormat};
use super::source::{Source, current_folder};
use super::status::{GOOD, Status};
use crate::analysis::{Analyser, Analysis};
use crate::drawing::{Anchor, Drawing, Dress, pdf, png, schedule_chart, svg};
use crate::host::today;
use crate::report::{schedule_csv, schedule_ics, schedule_json, schedule_text, shown_path};

/// Schedules the work of a spec and writes it.
pub fn schedule(arguments: &ScheduleArguments) -> Result<Status, Problem> {
    let folder = current_folder()?;
    let output = arguments.output.output.as_deref();
    refuse_inputs(output, arguments.spec.as_deref())?;
    let source = Source::named(arguments.spec.as_deref(), &arguments.stdin, &folder)?;
    let analysis = Analyser::new().analyse(&source.path, source.text, &Disk, &today());
    let path = shown_path(&source.path, &folder);
    let told = |why: &str| Problem::with_file(&path, why);
    if analysis.job.work.is_none() {
        return Err(told(
            "it says nothing of the work: a `work` section states start, crew and day",
        ));
    }
    let chart = || {
        let file = path.rsplit('/').next().unwrap_or(&path);
        schedule_chart(&analysis, file, arguments.sheet.map(Into::into))
            .ok_or_else(|| told("it has no schedule to draw"))
    };
    let written = match format(arguments) {
        ScheduleFormat::Text => schedule_text(&analysis, &folder, arguments.working).into_bytes(),
        ScheduleFormat::Csv => schedule_csv(&analysis).into_bytes(),
        ScheduleFormat::Json => schedule_json(&analysis).into_bytes(),
        ScheduleFormat::Ics => schedule_ics(&analysis)
            .ok_or_else(|| told("a calendar needs dates: state the `start` of the work"))?
            .into_bytes(),
        ScheduleFormat::Svg => in_svg(&analysis, &chart()?),
        ScheduleFormat::Pdf => pdf([&chart()?]),
        ScheduleFormat::Png => png(&chart()?).unwrap_or_default(),
    };
    write_bytes(&written, output)?;
    Ok(GOOD)
}

fn in_svg(analysis: &Analysis, drawing: &Drawing) -> Vec<u8> {
    let dress = Dress {
        has_type: true,
        anchor: &|place| analysis.ordinal(place).map(Anchor::from),
    };
    svg(drawing, &dress).into_bytes()
}

/// The format that is asked for: by name, or by the file's ending.
fn format(arguments: &ScheduleArguments) -> ScheduleFormat {
    let ending = arguments.output.output.as_ref().and_then(|file| {
        let ending = file.extension()?.to_str()?.to_ascii_lowercase();
        <ScheduleFormat as clap::ValueEnum>::from_str(&ending, true).ok()
    });
    arguments.format.or(ending).unwrap_or(ScheduleFormat::Text)
}
