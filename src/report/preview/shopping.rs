//! What to buy, as a list to tick.

use maud::{Markup, html};

use super::parts::said;
use crate::analysis::Analysis;
use crate::quantities::Order;
use crate::report::trade::{UNKNOWN, price, sold};
use crate::report::words::counted;
use crate::units::show;

/// The orders of a job; empty if there are none.
pub(super) fn shopping(analysis: &Analysis) -> Markup {
    let figures = &analysis.figures;
    let system = analysis.job.heading.system();
    let is_priced = figures.orders.iter().any(|order| order.cost.is_some());
    let pack = |order: &Order| {
        let pack = order.pack.as_ref()?;
        Some(format!(" of {}", show::quantity(pack, system)))
    };
    html! {
        @if !figures.orders.is_empty() {
            h2 { "Shopping list" }
            div.wide { table {
                @for order in figures.orders.iter() {
                    @let name = order.full_name(system);
                    tr {
                        td.tick { input type="checkbox" data-of=(said(&name))
                            aria-label=(said(&name)); }
                        th scope="row" { (said(&name)) }
                        td { strong { (ordered(order)) } (pack(order).unwrap_or_default()) }
                        @if is_priced { td { (cost(order)) } }
                    }
                    @if let Some(delivery) = &order.delivery {
                        tr {
                            td {} th.quiet scope="row" { "its delivery" }
                            td { (counted(delivery.loads as usize, "load", "loads")) }
                            @if is_priced { td { (delivery.cost.to_string()) } }
                        }
                    }
                }
                @if let Some(total) = figures.total {
                    tr.total {
                        td {}
                        th scope="row" {
                            @if figures.unpriced() == 0 { "Total" } @else { "Total of what is priced" }
                        }
                        td {} td { (total.to_string()) }
                    }
                }
            } }
        }
    }
}

fn ordered(order: &Order) -> String {
    match order.ordered {
        Some(ordered) => sold(ordered.to_f64(), &order.unit),
        None => UNKNOWN.to_owned(),
    }
}

/// What an order costs; where that is not known, why.
fn cost(order: &Order) -> String {
    match (order.cost, &order.price) {
        (Some(cost), _) => cost.to_string(),
        (None, Some(own)) => {
            let price = price(own, &order.unit).unwrap_or_default();
            format!("{UNKNOWN} at {price}")
        }
        (None, None) => format!("{UNKNOWN} no price"),
    }
}
