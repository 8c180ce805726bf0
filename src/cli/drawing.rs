//! `drylay drawing`: the plan of a spec and the sections on sheets.

use super::one_spec::OneSpec;
use super::output::write_bytes;
use super::problem::Problem;
use super::sheet_arguments::{DrawingArguments, DrawingFormat};
use super::status::{GOOD, Status};
use crate::analysis::Analysis;
use crate::drawing::{Anchor, Choice, Drawing, Dress, dxf, pdf, png, sheets, svg};

/// Draws the sheets of a spec and writes them, or one of them.
pub(crate) fn drawing(arguments: &DrawingArguments) -> Result<Status, Problem> {
    let spec = OneSpec::named(&arguments.spec, &arguments.output, "draw")?;
    let choice = Choice {
        scale: arguments.scale.clone(),
        sheet: arguments.sheet.map(Into::into),
        room: None,
        is_upright: arguments.upright,
        shows_contours: arguments.contours,
        shows_pegs: arguments.pegs,
        is_parted: arguments.parts,
        is_alone: false,
        is_outline: false,
    };
    let drawn = sheets(&spec.analysis, spec.file(), &choice);
    let drawn = drawn.map_err(|misfit| spec.problem(misfit))?;
    let format = arguments
        .output
        .format(arguments.format, DrawingFormat::Svg)?;
    let written = match (format, arguments.page) {
        (DrawingFormat::Pdf, None) => {
            spec.tell_lacking(&drawn, "SVG");
            pdf(&drawn)
        }
        (_, page) => {
            let drawing = one_of(&spec, &drawn, page)?;
            if matches!(format, DrawingFormat::Pdf | DrawingFormat::Png) {
                spec.tell_lacking([drawing], "SVG");
            }
            in_format(&spec.analysis, drawing, format)
        }
    };
    write_bytes(&written, arguments.output.output.as_deref())?;
    Ok(GOOD)
}

/// The sheet of a number, counted from 1; the first if none is named.
pub(super) fn one_of<'d>(
    spec: &OneSpec,
    sheets: &'d [Drawing],
    page: Option<usize>,
) -> Result<&'d Drawing, Problem> {
    let page = page.unwrap_or(1);
    let sheet = page.checked_sub(1).and_then(|index| sheets.get(index));
    sheet.ok_or_else(|| {
        spec.problem(match sheets.len() {
            1 => format!("it has no sheet {page}: there is 1"),
            count => format!("it has no sheet {page}: there are {count}"),
        })
    })
}

fn in_format(analysis: &Analysis, drawing: &Drawing, format: DrawingFormat) -> Vec<u8> {
    match format {
        DrawingFormat::Svg => in_svg(analysis, drawing),
        DrawingFormat::Pdf => pdf([drawing]),
        DrawingFormat::Png => png(drawing).unwrap_or_default(),
        DrawingFormat::Dxf => dxf(drawing).into_bytes(),
    }
}

/// A drawing as SVG with its own type, each mark by the entry it comes from.
pub(super) fn in_svg(analysis: &Analysis, drawing: &Drawing) -> Vec<u8> {
    let dress = Dress {
        has_type: true,
        anchor: &|place| analysis.ordinal(place).map(Anchor::from),
    };
    svg(drawing, &dress).into_bytes()
}
