//! How a figure came about, under the figure.

use super::sheet::Sheet;
use crate::model::Origin;
use crate::quantities::{Input, Step, Working};
use crate::report::row::spot;
use crate::report::words::{WIDTH, wrapped};

/// A working: what goes in and where each value comes from, then the steps.
pub(in crate::report) fn working_text(sheet: &Sheet<'_>, working: &Working) -> String {
    let mut text = format!("\n    working: {}\n", working.title);
    for input in &working.inputs {
        text += &input_text(sheet, input);
    }
    for step in &working.steps {
        text += &step_text(step);
    }
    for remark in &working.remarks {
        text += &(wrapped(remark, "      note: ", WIDTH) + "\n");
    }
    text
}

fn input_text(sheet: &Sheet<'_>, input: &Input) -> String {
    let value = format!("{:<30} {:<18} ", input.name, input.value);
    let from = input
        .origin
        .map_or_else(|| "worked out".to_owned(), |origin| said(sheet, origin));
    let first = format!("      {value}");
    // What is too long for its column pushes the source to the next line.
    match first.chars().count() > 56 {
        true => format!(
            "{}\n{}\n",
            first.trim_end(),
            wrapped(&from, &" ".repeat(56), WIDTH)
        ),
        false => wrapped(&from, &format!("{first:<56}"), WIDTH) + "\n",
    }
}

fn step_text(step: &Step) -> String {
    let indent = " ".repeat(10);
    let mut text = wrapped(
        &format!("{} = {}", step.gives, step.formula),
        "      ",
        WIDTH,
    );
    for line in [&step.numbers, &step.result] {
        // A formula in words alone has no numbers to fill in.
        if !line.is_empty() && *line != step.formula {
            text = format!("{text}\n{}", wrapped(&format!("= {line}"), &indent, WIDTH));
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
