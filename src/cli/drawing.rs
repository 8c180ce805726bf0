//! `drylay drawing`: the plan of a spec on a sheet.

use super::arguments::{DrawingArguments, DrawingFormat};
use super::disk::Disk;
use super::output::{refuse_inputs, write_bytes};
use super::problem::Problem;
use super::source::{Source, current_folder};
use super::status::{GOOD, Status};
use crate::analysis::{Analyser, Analysis};
use crate::drawing::{Anchor, Choice, Drawing, Dress, dxf, pdf, plan, png, svg};
use crate::host::today;
use crate::model::FileKind;
use crate::report::shown_path;

/// Draws the plan of a spec and writes it.
pub fn drawing(arguments: &DrawingArguments) -> Result<Status, Problem> {
    let folder = current_folder()?;
    let output = arguments.output.output.as_deref();
    refuse_inputs(output, arguments.spec.as_deref())?;
    let source = Source::named(arguments.spec.as_deref(), &arguments.stdin, &folder)?;
    let analysis = Analyser::new().analyse(&source.path, source.text, &Disk, &today());
    let path = shown_path(&source.path, &folder);
    if analysis.job.kind == FileKind::Standard {
        return Err(Problem::with_file(
            path,
            "it is a standard, which has nothing to draw",
        ));
    }
    let choice = Choice {
        scale: arguments.scale.clone(),
        sheet: arguments.sheet.map(Into::into),
        is_upright: arguments.upright,
    };
    let file = path.rsplit('/').next().unwrap_or(&path);
    let drawn = plan(&analysis, file, &choice);
    let drawn = drawn.map_err(|misfit| Problem::with_file(&path, misfit))?;
    let written = in_format(&analysis, &drawn, format(arguments));
    write_bytes(&written, output)?;
    Ok(GOOD)
}

/// The format that is asked for: by name, or by the file's ending.
fn format(arguments: &DrawingArguments) -> DrawingFormat {
    let ending = arguments.output.output.as_ref().and_then(|file| {
        let ending = file.extension()?.to_str()?.to_ascii_lowercase();
        <DrawingFormat as clap::ValueEnum>::from_str(&ending, true).ok()
    });
    arguments.format.or(ending).unwrap_or(DrawingFormat::Svg)
}

fn in_format(analysis: &Analysis, drawing: &Drawing, format: DrawingFormat) -> Vec<u8> {
    match format {
        DrawingFormat::Svg => {
            let dress = Dress {
                has_type: true,
                anchor: &|place| analysis.ordinal(place).map(Anchor::from),
            };
            svg(drawing, &dress).into_bytes()
        }
        DrawingFormat::Pdf => pdf(drawing),
        DrawingFormat::Png => png(drawing).unwrap_or_default(),
        DrawingFormat::Dxf => dxf(drawing).into_bytes(),
    }
}
