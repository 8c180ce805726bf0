//! What it costs: all of it for the office, for the client the price alone.

use super::said;
use crate::analysis::Analysis;
use crate::drawing::{Block, Column, Holds, Row, Table};
use crate::quantities::CostHeading;
use crate::report::trade::{UNKNOWN, price_per_area};
use crate::text::capital;
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
    let columns = columns.map(|(heading, share, holds)| column(heading, share, holds));
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

/// The price by part of the work for the client, and where they sign; that it
/// is not ready to sign where the price is not known.
pub(crate) fn price(analysis: &Analysis) -> Vec<Block> {
    let money = analysis.figures.money.as_deref();
    let priced = money.and_then(|money| money.price_parts().zip(money.total()));
    let mut blocks = vec![Block::Heading("The price".to_owned())];
    let Some((parts, total)) = priced else {
        let words = "The price is not known yet: this is not ready to sign.";
        blocks.push(Block::Text(words.to_owned()));
        return blocks;
    };
    let is_delivered = money.is_some_and(|money| money.line(CostHeading::Deliveries).is_some());
    let row = |words: String, amount: Money, is_total: bool| Row {
        cells: vec![words, amount.to_string()],
        is_total,
    };
    let rows = parts.iter().map(|part| {
        let words = match part.of {
            CostHeading::Materials if is_delivered => "Materials, brought to the site".to_owned(),
            CostHeading::Materials => "Materials".to_owned(),
            CostHeading::Hire => "Machines and tools".to_owned(),
            CostHeading::Labour => "The work on site".to_owned(),
            CostHeading::Disposal => "What is dug, taken away".to_owned(),
            CostHeading::TaxOnEverything(_) => "Tax".to_owned(),
            _ => capital(&said(&part.name)),
        };
        row(words, part.amount, false)
    });
    let rows = rows.chain([row("In all".to_owned(), total, true)]);
    blocks.push(Block::Table(Table {
        columns: vec![
            column("Part of the work", 6.0, Holds::Words),
            column("Price", 3.0, Holds::Figures),
        ],
        rows: rows.collect(),
    }));
    blocks.push(Block::Quiet(
        "Each part is complete. Work that this document does not name is not in the price."
            .to_owned(),
    ));
    blocks.extend(signatures(analysis, total));
    blocks
}

/// What is agreed, and a line for each to sign on.
fn signatures(analysis: &Analysis, total: Money) -> [Block; 1] {
    let by = analysis.job.heading.prepared_by.as_ref();
    let by = by.map_or_else(
        || "Contractor".to_owned(),
        |by| format!("Contractor: {}", said(&by.value)),
    );
    let line = |who: String| Row {
        cells: vec![who, String::new(), String::new(), String::new()],
        is_total: false,
    };
    let table = Table {
        columns: vec![
            column("", 4.0, Holds::Words),
            column("Name", 4.0, Holds::Blanks),
            column("Signature", 5.0, Holds::Blanks),
            column("Date", 3.0, Holds::Blanks),
        ],
        rows: vec![line("Client".to_owned()), line(by)],
    };
    let agreed = format!("What this document says is to be built, for {total} in all.");
    [Block::Together(vec![
        Block::Heading("Agreed".to_owned()),
        Block::Text(agreed),
        Block::Table(table),
    ])]
}

fn column(heading: &str, share: f64, holds: Holds) -> Column {
    Column {
        heading: heading.to_owned(),
        share,
        holds,
    }
}

fn known(amount: Option<Money>) -> String {
    amount.map_or_else(|| UNKNOWN.to_owned(), |amount| amount.to_string())
}
