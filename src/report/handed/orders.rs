//! The orders as a list to shop by.

use super::there_by::Days;
use super::{Reader, plain, said};
use crate::analysis::Analysis;
use crate::drawing::{Block, Column, Holds, Row, Table};
use crate::quantities::{Order, by_supplier};
use crate::report::trade::{UNKNOWN, asked_for, order_price, sold};
use crate::report::words::counted;
use crate::text::capital;
use crate::units::show;

fn column(heading: &str, share: f64, holds: Holds) -> Column {
    Column {
        heading: heading.to_owned(),
        share,
        holds,
    }
}

/// The lists with a box to tick for each order, by who supplies it where the
/// spec says so; for the office with what it costs.
pub(crate) fn shopping(analysis: &Analysis, reader: Reader) -> Vec<Block> {
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
    let days = Days::of(analysis);
    columns.extend(
        days.is_known()
            .then(|| column("There by", 2.4, Holds::MoreFigures)),
    );
    if has_money {
        columns.push(column("Price", 2.5, Holds::MoreFigures));
        columns.push(column("Cost", 2.5, Holds::Figures));
    }
    let mut blocks = vec![Block::Chapter, Block::Heading("Shopping list".to_owned())];
    let lists = by_supplier(&figures.orders);
    let is_one = lists.len() == 1;
    for (supplier, orders) in lists {
        let mut rows = Vec::new();
        for order in orders {
            rows.extend(ordered(analysis, order, &days, has_money));
        }
        if let Some(total) = figures.total.filter(|_| has_money && is_one) {
            let mut cells = vec![String::new(), total_of(figures.unpriced())];
            cells.resize(columns.len() - 1, String::new());
            cells.push(total.to_string());
            rows.push(Row {
                cells,
                is_total: true,
            });
        }
        blocks.extend(called(supplier, is_one).map(Block::Subheading));
        let columns = columns.clone();
        blocks.push(Block::Table(Table { columns, rows }));
    }
    if let Some(total) = figures.total.filter(|_| has_money && !is_one) {
        let words = total_of(figures.unpriced());
        blocks.push(Block::Text(format!("{words}, of all lists: {total}.")));
    }
    blocks
}

fn total_of(unpriced: usize) -> String {
    match unpriced {
        0 => "Total".to_owned(),
        _ => "Total of what is priced".to_owned(),
    }
}

/// Whose list it is; nothing where no supplier is named at all.
fn called(supplier: Option<&str>, is_one: bool) -> Option<String> {
    match supplier {
        Some(name) => Some(format!("From {}", said(name))),
        None if is_one => None,
        None => Some("No supplier named".to_owned()),
    }
}

/// An order and its delivery.
fn ordered(analysis: &Analysis, order: &Order, days: &Days, has_money: bool) -> Vec<Row> {
    let mut cells = cells(analysis, order);
    cells.extend(days.cell(&order.material));
    if has_money {
        let unit = order_price(&analysis.job, order);
        cells.push(unit.unwrap_or_else(|| format!("{UNKNOWN} no price")));
        let cost = order.cost.map(|cost| cost.to_string());
        cells.push(cost.unwrap_or_else(|| UNKNOWN.to_owned()));
    }
    let width = cells.len();
    let row = Row {
        cells,
        is_total: false,
    };
    let delivery = delivery(order, width, has_money);
    std::iter::once(row).chain(delivery).collect()
}

/// What each supplier is asked for, on a page of its own under the head: no
/// price, no other supplier, no other word of the job.
pub(crate) fn for_supplier(analysis: &Analysis, head: &[Block]) -> Vec<Block> {
    let days = Days::of(analysis);
    let mut columns = vec![
        column("", 1.0, Holds::Ticks),
        column("Material", 7.0, Holds::Words),
        column("To order", 2.6, Holds::Figures),
        column("One holds", 2.0, Holds::MoreFigures),
    ];
    columns.extend(
        days.is_known()
            .then(|| column("There by", 2.4, Holds::MoreFigures)),
    );
    let lists = by_supplier(&analysis.figures.orders);
    let mut blocks = Vec::new();
    if lists.is_empty() {
        blocks.extend_from_slice(head);
        blocks.push(Block::Heading("To order".to_owned()));
        blocks.push(Block::Text("Nothing is to be ordered.".to_owned()));
    }
    let is_one = lists.len() == 1;
    for (number, (supplier, orders)) in lists.into_iter().enumerate() {
        if number > 0 {
            blocks.push(Block::NewPage);
        }
        blocks.extend_from_slice(head);
        let heading = called(supplier, is_one).map(|whose| format!("To order: {whose}"));
        blocks.push(Block::Heading(
            heading.unwrap_or_else(|| "To order".to_owned()),
        ));
        let rows = orders
            .into_iter()
            .flat_map(|order| ordered(analysis, order, &days, false));
        blocks.push(Block::Table(Table {
            columns: columns.clone(),
            rows: rows.collect(),
        }));
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
        named(analysis, order),
        ordered.unwrap_or_else(|| format!("{UNKNOWN} not known")),
        pack.map(|pack| show::quantity(pack, system))
            .unwrap_or_default(),
    ]
}

/// The material, and what to ask for where the spec says: `Kerb: "conservation
/// kerb"`.
fn named(analysis: &Analysis, order: &Order) -> String {
    let system = analysis.job.heading.system();
    let name = capital(&plain(&order.full_name(system)));
    match asked_for(&analysis.job, order) {
        Some(called) => format!("{name}: “{}”", said(called)),
        None => name,
    }
}

fn delivery(order: &Order, width: usize, has_money: bool) -> Option<Row> {
    let delivery = order.delivery.as_ref()?;
    // All sizes of a material come together.
    let loads = counted(delivery.loads as usize, "load", "loads");
    let mut cells = vec![
        String::new(),
        format!("delivery of {}", plain(&order.material)),
        loads,
    ];
    cells.resize(width, String::new());
    if has_money && let Some(last) = cells.last_mut() {
        *last = delivery.cost.to_string();
    }
    Some(Row {
        cells,
        is_total: false,
    })
}
