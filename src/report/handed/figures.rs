//! The drains and the flights of steps, as the take-off has them.

use super::{cell, plain, said};
use crate::analysis::Analysis;
use crate::drawing::{Block, Column, Holds, Row, Table};
use crate::report::figure_tables::{self, figure_tables};
use crate::text::capital;

/// The figures of every part of a kind, under a heading; nothing where there
/// is none.
pub(crate) fn tables(analysis: &Analysis, kind: &str, heading: &str) -> Vec<Block> {
    let mut blocks = Vec::new();
    for part in figure_tables(analysis) {
        if part.kind != kind {
            continue;
        }
        if blocks.is_empty() {
            blocks.push(Block::Heading(heading.to_owned()));
        }
        let title = capital(&plain(&part.name));
        blocks.push(Block::Subheading(title));
        blocks.extend(part.tables.iter().map(|own| Block::Table(laid_out(own))));
    }
    blocks
}

/// A table with words in its first column and figures in the others.
fn laid_out(table: &figure_tables::Table) -> Table {
    let column = |heading: &str, share, holds| Column {
        heading: heading.to_owned(),
        share,
        holds,
    };
    let row = |cells: Vec<String>| Row {
        cells,
        is_total: false,
    };
    match table {
        figure_tables::Table::Whole(figures) => Table {
            columns: vec![
                column("", 3.0, Holds::Words),
                column("", 3.0, Holds::Figures),
            ],
            rows: figures
                .iter()
                .map(|(what, shown)| row(vec![(*what).to_owned(), cell(shown)]))
                .collect(),
        },
        figure_tables::Table::Rows(heads, rows) => {
            let figures = heads
                .iter()
                .map(|head| column(head, 3.0, Holds::MoreFigures));
            let cells = |(name, cells): &(String, Vec<String>)| {
                let cells = cells.iter().map(|own| cell(own));
                row(std::iter::once(said(name)).chain(cells).collect())
            };
            Table {
                columns: std::iter::once(column("", 6.0, Holds::Words))
                    .chain(figures)
                    .collect(),
                rows: rows.iter().map(cells).collect(),
            }
        }
    }
}
