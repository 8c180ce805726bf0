//! How the job is set out: the tables of the setting-out sheet.

use super::{cell, plain, said};
use crate::analysis::Analysis;
use crate::drawing::{Block, Column, Holds, Row, Table};
use crate::quantities::setting_out;
use crate::report::columns::Side;
use crate::report::setout::{SetoutTable, setout_spot_tables, setout_tables};
use crate::text::capital;

/// The tables of every surface; nothing where there is nothing to set out.
pub(crate) fn tables(analysis: &Analysis) -> Vec<Block> {
    let found = setting_out(&analysis.job);
    let mut blocks = Vec::new();
    for own in &found.surfaces {
        let tables = setout_tables(&analysis.job, &found, own);
        if blocks.is_empty() && !tables.is_empty() {
            blocks.push(Block::Chapter);
            blocks.push(Block::Heading("Setting out".to_owned()));
        }
        for table in tables {
            let title = format!("{}: {}", capital(&plain(&own.name)), said(&table.title));
            blocks.push(Block::Subheading(title));
            blocks.push(Block::Table(laid_out(&table)));
        }
    }
    let points = setout_spot_tables(&analysis.job, &found);
    if blocks.is_empty() && !points.is_empty() {
        blocks.push(Block::Chapter);
        blocks.push(Block::Heading("Setting out".to_owned()));
    }
    for table in points {
        let title = format!("Drains and steps: {}", said(&table.title));
        blocks.push(Block::Subheading(title));
        blocks.push(Block::Table(laid_out(&table)));
    }
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
