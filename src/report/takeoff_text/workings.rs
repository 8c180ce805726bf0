//! How a figure came about, under the figure.

use super::sheet::Sheet;
use crate::model::Origin;
use crate::quantities::{Input, Step, Working};
use crate::report::row::spot;
use crate::report::words::{WIDTH, wrapped};

/// Where the source of an input begins: beside its value, or under it where
/// the sheet is too narrow for both.
const BESIDE: usize = 56;
const UNDER: usize = 10;

/// A working: what goes in and where each value comes from, then the steps.
pub(in crate::report) fn working_text(sheet: &Sheet<'_>, working: &Working) -> String {
    let mut text = format!("\n    working: {}\n", working.title);
    for input in &working.inputs {
        text += &input_text(sheet, input);
    }
    for step in &working.steps {
        text += &step_text(step, sheet.layout.width);
    }
    for remark in &working.remarks {
        text += &(wrapped(remark, "      note: ", sheet.layout.width) + "\n");
    }
    text
}

fn input_text(sheet: &Sheet<'_>, input: &Input) -> String {
    let value = format!("{:<30} {:<18} ", input.name, input.value);
    let from = input
        .origin
        .map_or_else(|| "worked out".to_owned(), |origin| said(sheet, origin));
    let first = format!("      {value}");
    let width = sheet.layout.width;
    let column = if width < WIDTH { UNDER } else { BESIDE };
    // What is too long for its column pushes the source to the next line.
    match first.chars().count() > column {
        true => format!(
            "{}\n{}\n",
            first.trim_end(),
            wrapped(&from, &" ".repeat(column), width)
        ),
        false => wrapped(&from, &format!("{first:<column$}"), width) + "\n",
    }
}

fn step_text(step: &Step, width: usize) -> String {
    let indent = " ".repeat(10);
    let mut text = wrapped(
        &format!("{} = {}", step.gives, step.formula),
        "      ",
        width,
    );
    for line in [&step.numbers, &step.result] {
        // A formula in words alone has no numbers to fill in.
        if !line.is_empty() && *line != step.formula {
            text = format!("{text}\n{}", wrapped(&format!("= {line}"), &indent, width));
        }
    }
    text + "\n"
}

/// Where a value comes from, in words.
fn said(sheet: &Sheet<'_>, origin: Origin) -> String {
    match origin {
        Origin::Line(place) => match spot(sheet.analysis, place, sheet.folder) {
            Some(at) if at.file == 0 => format!("line {}", at.start.0),
            Some(at) => format!("{} line {}", at.path, at.start.0),
            None => "the spec".to_owned(),
        },
        Origin::Catalogue { material, source } => format!("built-in {material}: {source}"),
        Origin::Default { what, source } => format!("usual {what}: {source}"),
    }
}
