//! `drylay drawing`: the plan of a spec and the sections on sheets.

use super::disk::Disk;
use super::output::{refuse_inputs, write_bytes};
use super::problem::Problem;
use super::sheet_arguments::{DrawingArguments, DrawingFormat};
use super::source::{Source, current_folder};
use super::status::{GOOD, Status};
use crate::analysis::{Analyser, Analysis};
use crate::drawing::{Anchor, Choice, Drawing, Dress, dxf, pdf, png, sheets, svg};
use crate::host::today;
use crate::model::FileKind;
use crate::report::shown_path;

/// Draws the sheets of a spec and writes them, or one of them.
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
        shows_pegs: arguments.pegs,
    };
    let file = path.rsplit('/').next().unwrap_or(&path);
    let drawn = sheets(&analysis, file, &choice);
    let drawn = drawn.map_err(|misfit| Problem::with_file(&path, misfit))?;
    let format = format(arguments);
    let written = match (format, arguments.page) {
        (DrawingFormat::Pdf, None) => pdf(&drawn),
        (_, page) => {
            let page = page.unwrap_or(1);
            let sheet = page.checked_sub(1).and_then(|index| drawn.get(index));
            let sheet =
                sheet.ok_or_else(|| Problem::with_file(&path, no_page(page, drawn.len())))?;
            in_format(&analysis, sheet, format)
        }
    };
    write_bytes(&written, output)?;
    Ok(GOOD)
}

fn no_page(page: usize, count: usize) -> String {
    match count {
        1 => format!("it has no sheet {page}: the plan is all there is, as nothing is built"),
        count => format!("it has no sheet {page}: there are {count}"),
    }
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
        DrawingFormat::Pdf => pdf([drawing]),
        DrawingFormat::Png => png(drawing).unwrap_or_default(),
        DrawingFormat::Dxf => dxf(drawing).into_bytes(),
    }
}
