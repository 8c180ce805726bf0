//! What to order, and what it costs.

use super::sheet::Sheet;
use crate::quantities::{FigureRef, Order, by_supplier};
use crate::report::columns::{Columns, Side};
use crate::report::trade::{UNKNOWN, asked_for, needed_in, order_price, sold};
use crate::report::words::{counted, wrapped};
use crate::units::{Money, System, show};

/// The columns that are left of a job in which nothing has a price.
const UNPRICED: usize = 3;

/// The orders of a job, and their total if anything is priced.
pub(super) fn text(sheet: &Sheet<'_>) -> String {
    let orders = &sheet.analysis.figures.orders;
    if orders.is_empty() {
        return String::new();
    }
    let heads = [
        ("", Side::Left),
        ("needed", Side::Right),
        ("order", Side::Right),
        ("price", Side::Right),
        ("cost", Side::Right),
    ];
    let is_priced = orders
        .iter()
        .any(|order| order.price.is_some() || order.delivery.is_some());
    let shown = if is_priced { heads.len() } else { UNPRICED };
    // A name with its size stands on a line of its own where it is long.
    let widest = (sheet.layout.width / 2).saturating_sub(2);
    let columns = Columns::new(heads.get(..shown).unwrap_or_default());
    let mut columns = columns.with_words_up_to(widest);
    for order in orders.iter() {
        columns.row(order_cells(sheet, order).into_iter().take(shown));
        if let Some(delivery) = &order.delivery {
            let loads = counted(delivery.loads as usize, "load", "loads");
            let cost = delivery.cost.to_string();
            columns.row([
                "  its delivery".to_owned(),
                String::new(),
                loads,
                String::new(),
                cost,
            ]);
        }
    }
    if let Some(total) = sheet.analysis.figures.total {
        let is_whole = sheet.analysis.figures.unpriced() == 0;
        let label = if is_whole { "total" } else { "priced so far" };
        let blank = String::new;
        columns.row([
            label.to_owned(),
            blank(),
            blank(),
            blank(),
            total.to_string(),
        ]);
    }
    let workings = sheet.workings((0..orders.len()).map(FigureRef::Order));
    let suppliers = suppliers(sheet);
    format!(
        "ORDERS\n{}{}{suppliers}{workings}",
        columns.within(sheet.layout.width),
        notes(sheet)
    )
}

/// What is bought of whom; empty where the spec names no supplier.
fn suppliers(sheet: &Sheet<'_>) -> String {
    let lists = by_supplier(&sheet.analysis.figures.orders);
    if lists.iter().all(|(supplier, _)| supplier.is_none()) {
        return String::new();
    }
    let mut text = "\n".to_owned();
    for (supplier, orders) in lists {
        let named = orders.iter().map(|order| bought(order, sheet.system));
        let mut parts: Vec<String> = named.collect();
        let costs: Option<Vec<Money>> = orders.iter().map(|order| with_delivery(order)).collect();
        let together = costs.filter(|costs| costs.len() > 1).and_then(|costs| {
            let mut costs = costs.into_iter();
            let first = costs.next()?;
            costs.try_fold(first, Money::plus)
        });
        parts.extend(together.map(|cost| format!("{cost} in all")));
        text += &sheet.labelled_parts(supplier.unwrap_or("no supplier named"), &parts);
    }
    text
}

/// What is ordered of a material: `crushed-stone 12 ton`.
fn bought(order: &Order, system: System) -> String {
    let ordered = order
        .ordered
        .map(|ordered| sold(ordered.to_f64(), &order.unit));
    let ordered = ordered.unwrap_or_else(|| UNKNOWN.to_owned());
    format!("{} {ordered}", order.name(system))
}

/// What an order costs, brought to the site.
fn with_delivery(order: &Order) -> Option<Money> {
    match &order.delivery {
        Some(delivery) => order.cost?.plus(delivery.cost),
        None => order.cost,
    }
}

fn order_cells(sheet: &Sheet<'_>, order: &Order) -> [String; 5] {
    let unknown = || UNKNOWN.to_owned();
    let pack = order.pack.as_ref();
    let pack = pack.map(|pack| format!(" of {}", show::quantity(pack, sheet.system)));
    let ordered = order
        .ordered
        .map(|ordered| sold(ordered.to_f64(), &order.unit));
    let least = if order.is_minimum { " †" } else { "" };
    [
        sheet.marked_order(order),
        order
            .needed
            .map_or_else(unknown, |amount| needed_in(amount, &order.unit)),
        ordered.map_or_else(unknown, |ordered| {
            format!("{ordered}{}{least}", pack.unwrap_or_default())
        }),
        order_price(&sheet.analysis.job, order).unwrap_or_else(unknown),
        order.cost.map_or_else(unknown, |cost| cost.to_string()),
    ]
}

/// What the table leaves to be said: the least that is sold, and suppliers'
/// own names.
fn notes(sheet: &Sheet<'_>) -> String {
    let orders = &sheet.analysis.figures.orders;
    let mut text = String::new();
    if orders.iter().any(|order| order.is_minimum) {
        text += &(wrapped("† the least that is sold", "  ", sheet.layout.width) + "\n");
    }
    let called: String = orders
        .iter()
        .filter_map(|order| called(sheet, order))
        .collect();
    if text.is_empty() && called.is_empty() {
        return text;
    }
    format!("\n{text}{called}")
}

/// The name to ask a supplier for, where the spec gives one.
fn called(sheet: &Sheet<'_>, order: &Order) -> Option<String> {
    let called = asked_for(&sheet.analysis.job, order)?;
    let words = format!("{}: ask for \"{called}\"", order.material);
    Some(sheet.labelled("called", &words))
}
