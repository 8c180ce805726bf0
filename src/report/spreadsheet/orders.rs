//! The sheet of orders: what to buy, and what it costs.

use rust_xlsxwriter::XlsxError;

use super::table::{Book, Cell, named, numbers, said, to_the_cent, words};
use crate::analysis::Analysis;
use crate::quantities::Order;
use crate::report::trade::price_decimal;
use crate::report::{cautions, unknown};
use crate::units::{Currency, Money, Quantity, show};

/// The cells in which the orders come together.
pub(crate) const GOODS: &str = "goods";
pub(crate) const DELIVERIES: &str = "deliveries";

/// The number that an amount is in a cell.
pub(crate) fn amount(money: Option<Money>) -> Option<f64> {
    money?.decimal().parse().ok()
}

/// A price as the number that the sheets show.
pub(crate) fn price(price: Option<&Quantity>) -> Option<f64> {
    price_decimal(price?)?.parse().ok()
}

/// A heading of money in the job's own.
pub(crate) fn money_heading(heading: &str, currency: Currency) -> String {
    format!("{heading} ({})", currency.code())
}

/// Adds the sheet.
pub(crate) fn add(book: &mut Book, analysis: &Analysis) -> Result<(), XlsxError> {
    let orders = &analysis.figures.orders;
    let (system, currency) = (book.system, book.currency);
    let money = |heading: &str| money_heading(heading, currency);
    let columns = vec![
        words("Material", 28.0),
        numbers("Needed (as sold)".to_owned(), 12.0, "#,##0.00"),
        numbers("To order (as sold)".to_owned(), 12.0, "#,##0.##"),
        words("Sold by the", 12.0),
        words("One holds", 12.0),
        numbers(money("Price of one"), 13.0, "#,##0.00####"),
        numbers(money("Cost"), 13.0, "#,##0.00"),
        numbers("Loads".to_owned(), 8.0, "#,##0"),
        numbers(money("A load"), 12.0, "#,##0.00"),
        numbers(money("Delivery"), 13.0, "#,##0.00"),
        words("From", 20.0),
        words("Size", 30.0),
    ];
    let mut names: Vec<(String, String)> = Vec::new();
    let mut table = book.table("Orders", columns)?;
    let first = table.next();
    for (number, order) in orders.iter().enumerate() {
        let row = table.next();
        let ordered = named("ordered", &order.material, number + 1);
        let price_name = named("price", &order.material, number + 1);
        let cost = format!(
            "=IF(AND(ISNUMBER({ordered}),ISNUMBER({price_name})),{},\"–\")",
            to_the_cent(&format!("{ordered}*{price_name}"))
        );
        names.push((ordered, format!("Orders!$C${row}")));
        names.push((price_name, format!("Orders!$F${row}")));
        let pack = order.pack.as_ref();
        let mut cells = vec![
            said(&order.material),
            Cell::Number(order.needed),
            Cell::Number(order.ordered.map(|ordered| ordered.to_f64())),
            said(&order.unit),
            pack.map_or(Cell::Empty, |pack| said(&show::quantity(pack, system))),
            Cell::Number(price(order.price.as_ref())),
            Cell::Formula(cost, amount(order.cost)),
        ];
        cells.extend(delivery(order, row));
        cells.push(order.supplier.as_deref().map_or(Cell::Empty, said));
        let size = order.size.as_ref().map(|size| size.shown(system));
        cells.push(size.as_deref().map_or(Cell::Empty, said));
        table.row(cells)?;
    }
    let last = table.next().saturating_sub(1).max(first);
    let total = table.next();
    if !orders.is_empty() {
        let brought: f64 = orders
            .iter()
            .filter_map(|order| amount(order.delivery.as_ref().map(|own| own.cost)))
            .sum();
        let is_whole = analysis.figures.unpriced() == 0;
        let costs: Vec<f64> = orders
            .iter()
            .filter_map(|order| amount(order.cost))
            .collect();
        let goods = (!costs.is_empty()).then(|| costs.iter().sum());
        let of_priced = |sum: &str| format!("=IF(COUNT(G{first}:G{last})=0,\"–\",{sum})");
        let label = if is_whole {
            "Together"
        } else {
            "Together, of what is priced"
        };
        table.total(vec![
            said(label),
            Cell::Empty,
            Cell::Empty,
            Cell::Empty,
            Cell::Empty,
            Cell::Empty,
            Cell::Formula(of_priced(&format!("SUM(G{first}:G{last})")), goods),
            Cell::Empty,
            Cell::Empty,
            Cell::Formula(format!("=SUM(J{first}:J{last})"), Some(brought)),
        ])?;
        table.total(vec![
            said("Total with delivery"),
            Cell::Empty,
            Cell::Empty,
            Cell::Empty,
            Cell::Empty,
            Cell::Empty,
            Cell::Formula(
                of_priced(&format!("{GOODS}+{DELIVERIES}")),
                goods.map(|goods: f64| goods + brought),
            ),
        ])?;
        names.push((GOODS.to_owned(), format!("Orders!$G${total}")));
        names.push((DELIVERIES.to_owned(), format!("Orders!$J${total}")));
        names.push((
            "orders_total".to_owned(),
            format!("Orders!$G${}", total + 1),
        ));
    }
    table.list("Not known", &unknown(analysis))?;
    table.list("Take care", &cautions(analysis))?;
    table.finish()?;
    names
        .into_iter()
        .try_for_each(|(name, cell)| book.name(&name, &cell))
}

/// The loads, what one costs, and both together.
fn delivery(order: &Order, row: u32) -> [Cell; 3] {
    let Some(delivery) = &order.delivery else {
        return [Cell::Empty, Cell::Empty, Cell::Empty];
    };
    let cost = amount(Some(delivery.cost));
    let each = cost
        .map(|cost| cost / delivery.loads)
        .filter(|each| each.is_finite());
    [
        Cell::Number(Some(delivery.loads)),
        Cell::Number(each),
        Cell::Formula(format!("={}", to_the_cent(&format!("H{row}*I{row}"))), cost),
    ]
}
