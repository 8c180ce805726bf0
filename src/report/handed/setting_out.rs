//! How the job is set out: the tables of the setting-out sheet.

use super::words::noted;
use super::{cell, plain, said};
use crate::analysis::Analysis;
use crate::drawing::{Block, Column, Holds, Row, Table, plan_north};
use crate::quantities::{SettingOutFigures, setting_out};
use crate::report::columns::Side;
use crate::report::setout::{
    SetoutTable, setout_marks, setout_spot_heading, setout_spot_tables, setout_tables,
    setout_unknown,
};
use crate::text::capital;

/// The tables of every surface; nothing where there is nothing to set out.
pub(crate) fn tables(analysis: &Analysis) -> Vec<Block> {
    let found = setting_out(&analysis.job);
    let mut blocks = Vec::new();
    for own in &found.surfaces {
        for table in setout_tables(&analysis.job, &found, own) {
            let title = format!("{}: {}", capital(&plain(&own.name)), said(&table.title));
            blocks.push(Block::Subheading(title));
            blocks.push(Block::Table(laid_out(&table)));
        }
    }
    for table in setout_spot_tables(&analysis.job, &found) {
        let heading = setout_spot_heading(&found);
        let title = format!("{heading}: {}", said(&table.title));
        blocks.push(Block::Subheading(title));
        blocks.push(Block::Table(laid_out(&table)));
    }
    if !blocks.is_empty() {
        blocks.splice(0..0, head(analysis, &found));
    }
    blocks
}

/// What stands over the tables: where the marks are, what is to be said of
/// them, and what is not known.
fn head(analysis: &Analysis, found: &SettingOutFigures) -> Vec<Block> {
    let job = &analysis.job;
    let mut blocks = vec![Block::Chapter, Block::Heading("Setting out".to_owned())];
    blocks.extend(found.marks.as_ref().map(|own| {
        let marks = setout_marks(own, job.heading.system());
        Block::Text(format!(
            "The marks, east and north: {marks}. The side is as you stand at A and look to B."
        ))
    }));
    blocks.extend(plan_north(analysis).map(Block::Text));
    let notes = job.setting_out.iter().flat_map(|own| &own.notes);
    blocks.extend(notes.map(noted));
    let unknown = setout_unknown(analysis, found);
    let unknown: Vec<String> = unknown
        .iter()
        .map(|why| format!("Not known, because {}.", said(why)))
        .collect();
    blocks.extend((!unknown.is_empty()).then_some(Block::List(unknown)));
    blocks
}

/// A table with each column as wide as what is longest in it asks for.
fn laid_out(table: &SetoutTable) -> Table {
    let columns = table.heads.iter().enumerate().map(|(at, (head, side))| {
        let cells = table.rows.iter().filter_map(|row| row.get(at));
        let longest = cells.map(|cell| cell.chars().count()).max();
        let letters = longest.unwrap_or_default().max(head.chars().count());
        Column {
            heading: (*head).to_owned(),
            share: letters.clamp(4, 40) as f64,
            holds: match side {
                Side::Left if *head == "read" => Holds::Blanks,
                Side::Left => Holds::Words,
                Side::Right => Holds::MoreFigures,
            },
        }
    });
    let rows = table.rows.iter().map(|row| Row {
        cells: row.iter().map(|own| cell(own)).collect(),
        is_total: false,
    });
    Table {
        columns: columns.collect(),
        rows: rows.collect(),
    }
}
