//! The setting out as Markdown: the tables of the sheet.

use super::reasons::{assumed, unknown};
use super::tables::{Table, spot_heading, spot_tables, tables};
use super::words::marks;
use crate::analysis::Analysis;
use crate::drawing::plan_north;
use crate::quantities::setting_out;
use crate::report::columns::Side;
use crate::report::markdown::{list, plain, row};
use crate::report::words::counted;
use crate::report::{Summary, shown_path};

/// How a job is set out, as Markdown; paths as seen from a folder.
pub fn setout_markdown(analysis: &Analysis, folder: &str) -> String {
    let job = &analysis.job;
    let system = job.heading.system();
    let found = setting_out(job);
    let title = job.heading.title.as_ref();
    let title = title.map_or("Untitled job", |title| title.value.as_str());
    let mut text = format!("# Setting out: {}\n\n", plain(title));
    let errors = Summary::standing(analysis).errors;
    if errors > 0 {
        let count = counted(errors, "error", "errors");
        text += &format!("**Do not set out from this: the check of the spec finds {count}.**\n\n");
    }
    text += &format!("From {}.", plain(&shown_path(&analysis.path, folder)));
    if let Some(own) = &found.marks {
        let marks = marks(own, system);
        text += &format!(" Marks: {marks}; the side is as you stand at A and look to B.");
    }
    text.extend(plan_north(analysis).map(|words| format!(" {words}")));
    text.push('\n');
    let notes = job.setting_out.iter().flat_map(|own| &own.notes);
    text.extend(notes.map(|note| format!("\n> {}\n", plain(&note.value))));
    for own in &found.surfaces {
        text += &format!("\n## {}\n", plain(&own.name));
        for table in tables(job, &found, own) {
            text += &drawn(&table);
        }
    }
    let points = spot_tables(job, &found);
    if !points.is_empty() {
        text += &format!("\n## {}\n", spot_heading(&found));
        text.extend(points.iter().map(drawn));
    }
    text += &list("Assumed", &assumed(analysis, &found));
    text += &list("Not known", &unknown(analysis, &found));
    text
}

fn drawn(table: &Table) -> String {
    let heads = table.heads.iter();
    let heads = row(heads.map(|(head, _)| (*head).to_owned()));
    let rules = table.heads.iter().map(|(_, side)| match side {
        Side::Left => "---".to_owned(),
        Side::Right => "---:".to_owned(),
    });
    let rows = table.rows.iter();
    let rows: String = rows
        .map(|cells| row(cells.iter().map(|cell| plain(cell))))
        .collect();
    let title = plain(&table.title);
    format!("\n{title}\n\n{heads}{}{rows}", row(rules))
}
