//! What it costs: all of it for the office, for the client the price alone.

use super::said;
use crate::analysis::Analysis;
use crate::drawing::{Block, Column, Holds, Row, Table};
use crate::quantities::CostHeading;
use crate::report::trade::{UNKNOWN, price_per_area};
use crate::units::Money;

/// The cost by heading; empty without a budget.
pub(crate) fn whole(analysis: &Analysis) -> Vec<Block> {
    let money = analysis.figures.money.as_deref();
    let Some(money) = money.filter(|money| !money.costs.is_empty()) else {
        return Vec::new();
    };
    let system = analysis.job.heading.system();
    let columns = [
        ("", 6.0, Holds::Words),
        ("Amount", 3.0, Holds::Figures),
        ("By area", 3.0, Holds::MoreFigures),
        ("Not known, because", 6.0, Holds::Words),
    ];
    let columns = columns.map(|(heading, share, holds)| Column {
        heading: heading.to_owned(),
        share,
        holds,
    });
    let rows = money.costs.iter().map(|line| {
        let by_area = line.per_area.as_ref();
        let by_area = by_area.and_then(|share| price_per_area(share, system));
        Row {
            cells: vec![
                said(&line.name),
                known(line.amount),
                by_area.unwrap_or_else(|| UNKNOWN.to_owned()),
                line.unknown.as_deref().map(said).unwrap_or_default(),
            ],
            is_total: matches!(line.heading, CostHeading::Cost | CostHeading::Total),
        }
    });
    vec![
        Block::Heading("What it costs".to_owned()),
        Block::Table(Table {
            columns: columns.to_vec(),
            rows: rows.collect(),
        }),
    ]
}

fn known(amount: Option<Money>) -> String {
    amount.map_or_else(|| UNKNOWN.to_owned(), |amount| amount.to_string())
}
