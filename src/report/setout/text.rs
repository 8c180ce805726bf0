//! The setting out as a sheet to print, for a line of 100 characters.

use super::reasons::{assumed, unknown};
use super::tables::{Table, spot_heading, spot_tables, tables};
use super::words::marks;
use crate::analysis::Analysis;
use crate::drawing::plan_north;
use crate::quantities::{SettingOutFigures, setting_out, setting_out_workings};
use crate::report::columns::Columns;
use crate::report::takeoff_text::{Sheet, SheetLayout, labelled, working_text};
use crate::report::trade::UNKNOWN;
use crate::report::words::{WIDTH, counted, wrapped};
use crate::report::{Summary, shown_path};
use crate::units::System;
use crate::vocabulary::spelled_in;

/// Words of a row stand beside their figures up to this width.
const WIDEST_WORDS: usize = 34;

/// How a job is set out, as text; paths as seen from a folder. `shows_working`
/// ends it with how each figure came about.
pub fn setout_text(analysis: &Analysis, folder: &str, shows_working: bool) -> String {
    let found = setting_out(&analysis.job);
    let mut parts = vec![stop(analysis), head(analysis, &found, folder)];
    for own in &found.surfaces {
        let tables = tables(&analysis.job, &found, own);
        let tables: Vec<String> = tables.iter().map(drawn).collect();
        let name = own.name.to_uppercase();
        parts.push(match tables.is_empty() {
            true => format!("{name}\n  {UNKNOWN}\n"),
            false => format!("{name}\n{}", tables.join("\n")),
        });
    }
    let points: Vec<String> = spot_tables(&analysis.job, &found)
        .iter()
        .map(drawn)
        .collect();
    if !points.is_empty() {
        let heading = spot_heading(&found).to_uppercase();
        parts.push(format!("{heading}\n{}", points.join("\n")));
    }
    parts.push(list("ASSUMED", "*", assumed(analysis, &found)));
    parts.push(list("NOT KNOWN", UNKNOWN, unknown(analysis, &found)));
    if shows_working {
        let sheet = Sheet::of(analysis, folder, SheetLayout::default());
        let workings = setting_out_workings(&analysis.job);
        let texts = workings.iter().map(|working| working_text(&sheet, working));
        parts.push(texts.collect());
    }
    parts.retain(|part| !part.is_empty());
    parts.join("\n")
}

/// What stands on top where the check finds errors.
fn stop(analysis: &Analysis) -> String {
    match Summary::standing(analysis).errors {
        0 => String::new(),
        errors => format!(
            "DO NOT SET OUT FROM THIS: the check of the spec finds {}.\n",
            counted(errors, "error", "errors")
        ),
    }
}

fn head(analysis: &Analysis, found: &SettingOutFigures, folder: &str) -> String {
    let job = &analysis.job;
    let system = job.heading.system();
    let title = job.heading.title.as_ref();
    let title = title.map_or("Untitled job", |title| &title.value);
    let mut text = format!("Setting out: {title}\n\n");
    let reference = job.heading.reference.iter();
    let date = job.heading.date.iter();
    text.extend(reference.map(|stated| labelled("reference", &stated.value, WIDTH)));
    text.extend(date.map(|stated| labelled("date", &stated.value, WIDTH)));
    text += &labelled("from", &shown_path(&analysis.path, folder), WIDTH);
    let metric = spelled_in(job.heading.region(), "metres, levels in millimetres");
    text += &labelled(
        "measured in",
        match system {
            System::Imperial => "feet and inches to 1/16\", levels in inches",
            System::Metric => &metric,
        },
        WIDTH,
    );
    match &found.marks {
        Some(own) => {
            text += &labelled("marks", &marks(own, system), WIDTH);
            text += &labelled("side", "as you stand at A and look to B", WIDTH);
        }
        None => text += &labelled("marks", UNKNOWN, WIDTH),
    }
    if let Some(words) = plan_north(analysis) {
        text += &labelled("north", &words, WIDTH);
    }
    let notes = job.setting_out.iter().flat_map(|own| &own.notes);
    for note in notes {
        text += &labelled("note", &note.value, WIDTH);
    }
    text
}

fn drawn(table: &Table) -> String {
    let mut columns = Columns::new(&table.heads).with_words_up_to(WIDEST_WORDS);
    for row in &table.rows {
        columns.row(row.clone());
    }
    let has_heads = table.heads.iter().any(|(head, _)| !head.is_empty());
    let text = columns.text();
    let text = match has_heads {
        true => text,
        false => text
            .split_once('\n')
            .map_or(String::new(), |(_, rest)| rest.to_owned()),
    };
    let title = wrapped(&table.title, "  ", WIDTH);
    format!("{title}\n{text}")
}

fn list(heading: &str, mark: &str, items: Vec<String>) -> String {
    let lines = items.iter();
    let lines: String = lines
        .map(|item| wrapped(item, &format!("  {mark} "), WIDTH) + "\n")
        .collect();
    match lines.is_empty() {
        true => lines,
        false => format!("{heading}\n{lines}"),
    }
}
