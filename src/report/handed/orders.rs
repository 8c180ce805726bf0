//! The orders as a list to shop by.

use super::{Reader, said};
use crate::analysis::Analysis;
use crate::drawing::{Block, Column, Holds, Row, Table};
use crate::quantities::Order;
use crate::report::trade::{UNKNOWN, price, sold};
use crate::report::words::counted;
use crate::units::show;

fn column(heading: &str, share: f64, holds: Holds) -> Column {
    Column {
        heading: heading.to_owned(),
        share,
        holds,
    }
}

/// The list with a box to tick for each; for the office with what it costs.
pub fn shopping(analysis: &Analysis, reader: Reader) -> Vec<Block> {
    let figures = &analysis.figures;
    if figures.orders.is_empty() {
        return Vec::new();
    }
    let has_money = reader.sees_costs();
    let mut columns = vec![
        column("", 1.0, Holds::Ticks),
        column("Material", 5.0, Holds::Words),
        column("To order", 3.0, Holds::Figures),
        column("One holds", 2.0, Holds::MoreFigures),
    ];
    if has_money {
        columns.push(column("Price", 2.5, Holds::MoreFigures));
        columns.push(column("Cost", 2.5, Holds::Figures));
    }
    let mut rows = Vec::new();
    for order in figures.orders.iter() {
        let mut cells = cells(analysis, order);
        if has_money {
            let unit = order.price.as_ref();
            let unit = unit.and_then(|own| price(own, &order.unit));
            cells.push(unit.unwrap_or_else(|| format!("{UNKNOWN} no price")));
            let cost = order.cost.map(|cost| cost.to_string());
            cells.push(cost.unwrap_or_else(|| UNKNOWN.to_owned()));
        }
        rows.push(Row {
            cells,
            is_total: false,
        });
        rows.extend(delivery(order, has_money));
    }
    if let Some(total) = figures.total.filter(|_| has_money) {
        let label = match figures.unpriced() {
            0 => "Total",
            _ => "Total of what is priced",
        };
        let mut cells = vec![String::new(), label.to_owned()];
        cells.extend([
            String::new(),
            String::new(),
            String::new(),
            total.to_string(),
        ]);
        rows.push(Row {
            cells,
            is_total: true,
        });
    }
    vec![
        Block::NewPage,
        Block::Heading("Shopping list".to_owned()),
        Block::Table(Table { columns, rows }),
    ]
}

/// What a supplier is asked for: no price, no other word of the job.
pub fn for_supplier(analysis: &Analysis) -> Vec<Block> {
    let columns = vec![
        column("", 1.0, Holds::Ticks),
        column("Material", 5.0, Holds::Words),
        column("To order", 3.0, Holds::Figures),
        column("One holds", 2.0, Holds::MoreFigures),
        column("Asked for as", 5.0, Holds::Words),
    ];
    let orders = analysis.figures.orders.iter();
    let rows: Vec<Row> = orders
        .map(|order| {
            let mut cells = cells(analysis, order);
            cells.push(order.called.as_deref().map(said).unwrap_or_default());
            Row {
                cells,
                is_total: false,
            }
        })
        .collect();
    let mut blocks = vec![Block::Heading("To order".to_owned())];
    match rows.is_empty() {
        true => blocks.push(Block::Text("Nothing is to be ordered.".to_owned())),
        false => blocks.push(Block::Table(Table { columns, rows })),
    }
    blocks
}

/// A box, the material, how much, and what one pack holds.
fn cells(analysis: &Analysis, order: &Order) -> Vec<String> {
    let system = analysis.job.heading.system();
    let ordered = order.ordered;
    let ordered = ordered.map(|ordered| sold(ordered.to_f64(), &order.unit));
    let pack = order.pack.as_ref();
    vec![
        "box".to_owned(),
        said(&order.material),
        ordered.unwrap_or_else(|| format!("{UNKNOWN} not known")),
        pack.map(|pack| show::quantity(pack, system))
            .unwrap_or_default(),
    ]
}

fn delivery(order: &Order, has_money: bool) -> Option<Row> {
    let delivery = order.delivery.as_ref()?;
    let loads = counted(delivery.loads as usize, "load", "loads");
    let mut cells = vec![
        String::new(),
        format!("delivery of {}", said(&order.material)),
        loads,
        String::new(),
    ];
    if has_money {
        cells.extend([String::new(), delivery.cost.to_string()]);
    }
    Some(Row {
        cells,
        is_total: false,
    })
}
