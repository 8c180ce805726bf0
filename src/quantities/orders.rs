//! What to order: one line a material over the whole job, rounded up once.

use std::sync::Arc;

use super::costs::{Delivery, delivery, goods, unit_price};
use super::counting::{Troubled, needed};
use super::counts::Counts;
use super::measures::Counted;
use super::needs::Need;
use super::rounding::rounded_up;
use super::selling::Selling;
use super::term::Term;
use super::trace::Trace;
use super::trouble::{Trouble, TroubleKind};
use crate::model::{Job, Material};
use crate::units::{Currency, Money, Number, Quantity};

pub(super) use super::needs::needs;

/// An order line: a material over the whole job.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// The material's name.
    pub material: String,
    /// What the supplier calls it.
    pub called: Option<String>,
    /// Who supplies it, if the spec says.
    pub supplier: Option<String>,
    /// What is needed, waste included, in sold units.
    pub needed: Option<f64>,
    /// What is ordered: that, rounded up once to the step, and at least the
    /// minimum.
    pub ordered: Option<Number>,
    /// What it is counted in: `ton`, `bag`, `each`.
    pub unit: String,
    /// What one pack holds.
    pub pack: Option<Quantity>,
    /// Whether it was raised to the least that is sold.
    pub is_minimum: bool,
    /// The price of one sold unit.
    pub price: Option<Quantity>,
    /// What it costs, without delivery, rounded to the cent.
    pub cost: Option<Money>,
    /// What bringing it costs.
    pub delivery: Option<Delivery>,
}

/// The order lines by who supplies them, in the order of first mention; what
/// has no supplier comes last.
pub fn by_supplier(orders: &[Arc<Order>]) -> Vec<(Option<&str>, Vec<&Order>)> {
    let mut lists: Vec<(Option<&str>, Vec<&Order>)> = Vec::new();
    for order in orders {
        let supplier = order.supplier.as_deref();
        match lists.iter_mut().find(|(own, _)| *own == supplier) {
            Some((_, list)) => list.push(order),
            None => lists.push((supplier, vec![order])),
        }
    }
    lists.sort_by_key(|(supplier, _)| supplier.is_none());
    lists
}

/// The order line of a material for all that needs it.
pub(super) fn order(
    job: &Job,
    material: &Material,
    (needs, counts): (&[Arc<Need>], &Counts),
    trace: &Trace,
    troubles: &mut Vec<Trouble>,
) -> Order {
    let selling = Selling::of(material, counts.usual);
    let mut troubled = Troubled {
        material,
        needs,
        troubles,
    };
    let needed = needed(&selling, (needs, &counts.each), trace, &mut troubled);
    let exact = needed.and_then(|needed| {
        let number = |needed: Counted<'_>| Some(selling.counted_in(Number::near(needed.number)?));
        needed.map(number).known()
    });
    let ordered = exact.map(|needed| rounded_up(&selling, needed, needs, trace, &mut troubled));
    let (ordered, is_minimum) = ordered.unzip();
    let currency = job.heading.currency();
    let price = price(&selling, needs, currency, trace, &mut troubled);
    let cost = ordered
        .zip(price)
        .and_then(|(ordered, price)| goods(ordered, price, trace));
    let delivery = match ordered.filter(|ordered| !ordered.value.number.is_zero()) {
        Some(ordered) => match delivery(&selling, ordered, needs, currency, trace) {
            Ok(delivery) => delivery,
            Err(kind) => {
                troubled.add(kind, material.delivery.as_ref().map(|stated| stated.place));
                None
            }
        },
        None => None,
    };
    Order {
        material: material.name.clone(),
        called: material.called_in(job.heading.region()),
        supplier: material.supplier.clone(),
        needed: needed.map(|needed| needed.value.number),
        ordered: ordered.map(|ordered| ordered.value.number),
        unit: selling.word().to_owned(),
        pack: selling.content().copied(),
        is_minimum: is_minimum.unwrap_or_default(),
        price: price.map(|price| price.value),
        cost,
        delivery,
    }
}

/// The price of one sold unit.
fn price<'t>(
    selling: &Selling<'_>,
    needs: &[Arc<Need>],
    currency: Currency,
    trace: &'t Trace,
    troubled: &mut Troubled<'_>,
) -> Option<Term<'t, Quantity>> {
    let stated = selling.material.price.as_ref()?;
    let price = match unit_price(selling, stated, needs, currency) {
        Ok(price) => price,
        // Where nobody knows how much is needed, nobody knows what one of it is
        // of the other either.
        Err(_) if needs.iter().any(|need| need.is_unknown()) => return None,
        Err(kind) => {
            troubled.add(kind, Some(stated.place));
            return None;
        }
    };
    if let Some(priced) = price.currency.filter(|priced| *priced != currency) {
        troubled.add(
            TroubleKind::Currency {
                priced,
                job: currency,
            },
            Some(stated.place),
        );
    }
    let one = format_args!("price of one {}", selling.word());
    Some(trace.stated(one, price, stated.place))
}

impl Order {
    /// What its goods cost, and bringing them.
    pub(super) fn costs(&self) -> [Option<Money>; 2] {
        [self.cost, self.delivery.map(|delivery| delivery.cost)]
    }
}

/// The sum of what order lines and deliveries cost; `None` if nothing is
/// priced or there is more than one currency.
pub(super) fn total(costs: impl Iterator<Item = [Option<Money>; 2]>) -> Option<Money> {
    let mut costs = costs.flatten().flatten().peekable();
    let currency = costs.peek()?.currency;
    Money::sum(currency, costs)
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{
        area_of, catalogued, close, job, layer, line, material, sold, sourced, surface,
    };
    use super::*;
    use crate::vocabulary::Role;

    fn stone(sold_by: &str) -> Material {
        Material {
            density: sourced("100 lb/cu ft"),
            sold: sold(sold_by),
            ..material("stone")
        }
    }

    fn number(order: &Order) -> f64 {
        order.ordered.map_or(f64::NAN, Number::to_f64)
    }

    #[test]
    fn one_line_a_material_over_the_whole_job_is_rounded_once() {
        // Three times 1.01 tons are 3.03, not three times 1.1.
        let base = || layer(Role::Base, stone("by ton"), "12 in");
        let surfaces =
            ["a", "b", "c"].map(|name| surface(name, area_of("20.2 ft", "1 ft"), vec![base()]));
        let figures = figures(&job(surfaces.into()));
        assert_eq!(figures.orders.len(), 1);
        assert!(close(number(&figures.orders[0]), 3.1, 1e-12));
    }

    #[test]
    fn orders_are_listed_by_who_supplies_them() {
        let of = |name: &str, supplier: Option<&str>| {
            let own = Material {
                supplier: supplier.map(str::to_owned),
                density: sourced("100 lb/cu ft"),
                ..material(name)
            };
            layer(Role::Base, own, "12 in")
        };
        let layers = vec![
            of("fill", None),
            of("stone", Some("the yard")),
            of("sand", Some("the pit")),
            of("grit", Some("the yard")),
        ];
        let figures = figures(&job(vec![surface("a", area_of("9 ft", "1 ft"), layers)]));
        let lists = by_supplier(&figures.orders);
        let named: Vec<(Option<&str>, Vec<&str>)> = lists
            .into_iter()
            .map(|(supplier, orders)| {
                let names = orders.iter().map(|order| order.material.as_str());
                (supplier, names.collect())
            })
            .collect();
        let wanted = [
            (Some("the yard"), vec!["stone", "grit"]),
            (Some("the pit"), vec!["sand"]),
            (None, vec!["fill"]),
        ];
        assert_eq!(named, wanted);
    }

    #[test]
    fn what_lies_there_already_is_not_ordered() {
        let mut base = layer(Role::Base, stone("by ton"), "12 in");
        base.existing = Some(line(1));
        let figures = figures(&job(vec![surface(
            "a",
            area_of("100 ft", "1 ft"),
            vec![base],
        )]));
        assert!(figures.orders.is_empty());
    }

    #[test]
    fn joints_of_paving_that_lies_there_already_are_not_ordered() {
        let sand = catalogued("joint-sand");
        for (existing, ordered) in [(None, true), (Some(line(1)), false)] {
            let mut paving = layer(Role::Paving, stone("by ton"), "2 in");
            paving.existing = existing;
            let court = surface("a", area_of("10 ft", "10 ft"), vec![paving]);
            let court = court.jointed("1/2 in", "", Some(sand.clone().into()));
            let figures = figures(&job(vec![court]));
            assert_eq!(figures.order("joint-sand").is_some(), ordered);
        }
    }
}
