//! The drains and the flights of steps, as the take-off has them.

use super::{cell, plain};
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
        let title = (!part.name.is_empty()).then(|| capital(&plain(&part.name)));
        blocks.extend(title.map(Block::Subheading));
        blocks.push(Block::Table(laid_out(&part.tables)));
    }
    blocks
}

/// All that is told of a part in one table: what it is, and its figures. Of what
/// has several figures each says what it is, so that no row needs a head.
fn laid_out(tables: &[figure_tables::Table]) -> Table {
    let column = |share| Column {
        heading: String::new(),
        share,
        holds: Holds::Words,
    };
    let rows = tables.iter().flat_map(|table| match table {
        figure_tables::Table::Whole(figures) => figures
            .iter()
            .map(|(what, shown)| vec![(*what).to_owned(), cell(shown)])
            .collect::<Vec<_>>(),
        figure_tables::Table::Rows(heads, rows) => rows
            .iter()
            .map(|(name, cells)| vec![plain(name), figures_of(heads, cells)])
            .collect(),
    });
    Table {
        columns: vec![column(3.0), column(7.0)],
        rows: rows
            .map(|cells| Row {
                cells,
                is_total: false,
            })
            .collect(),
    }
}

/// Figures, each after what it is: `area 2.66 m², mass 254 kg`.
fn figures_of(heads: &[&str], cells: &[String]) -> String {
    let told = heads.iter().zip(cells);
    let told = told.filter(|(_, own)| !own.is_empty());
    let told: Vec<String> = told
        .map(|(head, own)| format!("{head} {}", cell(own)))
        .collect();
    told.join(", ")
}
