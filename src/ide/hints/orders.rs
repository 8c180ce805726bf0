//! What is ordered, and what it costs.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::ide::packs::counted;
use crate::quantities::{CostHeading, FigureRef, Order};
use crate::units::{Money, System, show};

/// At a material's heading its order, at the job's heading the total.
pub(crate) fn add(hints: &mut Collecting<'_>) {
    let analysis = hints.analysis;
    let system = analysis.job.heading.system();
    for (index, order) in analysis.figures.orders.iter().enumerate() {
        let place = analysis
            .job
            .materials
            .get(order.material.as_str())
            .and_then(|own| own.place);
        if let Some(place) = place {
            let of = HintOf::Figure(FigureRef::Order(index));
            hints.add(HintKind::Orders, of, place, || label(order, system));
        }
    }
    if let (Some(place), Some(total)) = (analysis.job.heading.place, analysis.figures.total) {
        hints.add(HintKind::Orders, HintOf::Itself, place, || {
            Some(match analysis.figures.unpriced() {
                0 => format!("{total} in all"),
                1 => format!("{total} in all, 1 order without a price"),
                unpriced => format!("{total} in all, {unpriced} orders without a price"),
            })
        });
    }
}

/// At each hire and each line of the budget what it comes to, at the budget's
/// heading the total.
pub(crate) fn add_money(hints: &mut Collecting<'_>) {
    let Some(money) = &hints.analysis.figures.money else {
        return;
    };
    let hires = money.hires.iter().zip(hints.analysis.job.hires.iter());
    for (index, (hire, own)) in hires.enumerate() {
        let of = HintOf::Figure(FigureRef::Hire(index));
        hints.add(HintKind::Orders, of, own.place, || {
            Some(hire.cost?.to_string())
        });
    }
    for (index, line) in money.costs.iter().enumerate() {
        let is_total = line.heading == CostHeading::Total;
        // What no line of the budget states stands in the take-off alone.
        let is_unstated = matches!(
            line.heading,
            CostHeading::Materials
                | CostHeading::Deliveries
                | CostHeading::Hire
                | CostHeading::Cost
        );
        if is_unstated || matches!(line.heading, CostHeading::Item(_)) {
            continue;
        }
        let of = HintOf::Figure(FigureRef::Cost(index));
        hints.add(HintKind::Orders, of, line.place, || {
            let amount = line.amount?;
            Some(match is_total {
                true => format!("{amount} in all"),
                false => amount.to_string(),
            })
        });
    }
    for (index, quote) in money.quotes.iter().enumerate() {
        let of = HintOf::Figure(FigureRef::Quote(index));
        hints.add(HintKind::Orders, of, quote.place, || {
            let saved = quote.saved?;
            Some(match saved.cents < 0 {
                true => format!(
                    "cheaper by {}",
                    Money {
                        cents: saved.cents.saturating_neg(),
                        ..saved
                    }
                ),
                false => format!("saves {saved}"),
            })
        });
    }
}

/// A number of sold units: `14.7 tons`, `2.5 cu yd`.
fn counted_in(ordered: f64, unit: &str) -> String {
    let plural = if unit == "ton" && ordered != 1.0 {
        "s"
    } else {
        ""
    };
    format!("{} {unit}{plural}", show::number(ordered))
}

/// `order 14.7 tons · $558.60 + $95.00 delivery`, with the size of which it is
/// where there are several.
fn label(order: &Order, system: System) -> Option<String> {
    let ordered = order.ordered?.to_f64();
    let amount = match order.unit.as_str() {
        "each" => show::number(ordered),
        word if order.pack.is_some() => counted(ordered, word),
        unit => counted_in(ordered, unit),
    };
    let mut label = format!("order {amount}");
    if let Some(size) = order.size.as_ref().filter(|_| order.sizes > 1) {
        label += &format!(" of {}", size.shown(system));
    }
    if let Some(cost) = order.cost {
        label += &format!(" · {cost}");
    }
    if let Some(delivery) = order.delivery {
        label += &format!(" + {} delivery", delivery.cost);
    }
    Some(label)
}
