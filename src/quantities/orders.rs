//! What to order: one line a material over the whole job, rounded up once; of
//! one that is bought in several sizes a line for each.

use std::sync::Arc;

use super::costs::{Delivery, delivery, goods, unit_price};
use super::counting::{Troubled, needed};
use super::counts::{Count, Counts};
use super::measures::Counted;
use super::needs::Need;
use super::rounding::rounded_up;
use super::selling::Selling;
use super::size::{Size, by_size};
use super::term::Term;
use super::trace::Trace;
use super::trouble::{Trouble, TroubleKind};
use crate::model::{Job, Material};
use crate::units::{Currency, Money, Number, Quantity, System};

pub(super) use super::needs::needs;

/// An order line: a material in one size over the whole job.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// The material's name.
    pub material: String,
    /// The size of it, where it is bought by its size and that is known.
    pub size: Option<Size>,
    /// In how many sizes the material is bought, each a line of its own.
    pub sizes: usize,
    /// Whether this is the first line of the material, which carries what
    /// bringing all of them costs.
    pub is_first: bool,
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
    /// Whether that is stated and could not be made out.
    pub is_delivery_unread: bool,
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

/// The order lines of a material for all that needs it: one for each size in
/// which it is bought. Of several the working takes down the one at an index.
pub(super) fn orders(
    job: &Job,
    material: &Material,
    (needs, counts): (&[Arc<Need>], &Counts),
    (trace, shown): (&Trace, usize),
    troubles: &mut Vec<Trouble>,
) -> Vec<Order> {
    let silent = Trace::silent();
    let selling = Selling::of(material, counts.usual);
    let sizes = by_size(needs.iter().map(Arc::as_ref));
    let count = sizes.len();
    let mut lines = Vec::with_capacity(count);
    for (index, (size, own)) in sizes.into_iter().enumerate() {
        let trace = if index == shown { trace } else { &silent };
        let of_size = own.iter().filter_map(|need| needs.get(*need));
        let needs: Vec<Arc<Need>> = of_size.cloned().collect();
        let counted = own.iter().filter_map(|need| counts.each.get(*need));
        let counted: Vec<Count> = counted.copied().collect();
        let mut troubled = Troubled {
            material,
            needs: &needs,
            troubles,
        };
        let line = line(job, &selling, &counted, trace, &mut troubled);
        lines.push(Order {
            size,
            sizes: count,
            is_first: index == 0,
            ..line
        });
    }
    let mut troubled = Troubled {
        material,
        needs,
        troubles,
    };
    let trace = if shown == 0 { trace } else { &silent };
    let delivery = brought(job, &selling, &lines, trace, &mut troubled);
    if let Some(first) = lines.first_mut() {
        first.delivery = delivery;
        first.is_delivery_unread = material.is_unread("delivery");
    }
    lines
}

/// The order line of what a material is needed for in one size, its delivery
/// left out.
fn line(
    job: &Job,
    selling: &Selling<'_>,
    counts: &[Count],
    trace: &Trace,
    troubled: &mut Troubled<'_>,
) -> Order {
    let (material, needs) = (troubled.material, troubled.needs);
    // What was written of its sale goes before what is usual, read or not.
    let is_read = material.is_sale_read();
    let needed = is_read.then(|| needed(selling, (needs, counts), trace, troubled));
    let needed = needed.flatten();
    let exact = needed.and_then(|needed| {
        let number = |needed: Counted<'_>| Some(selling.counted_in(Number::near(needed.number)?));
        needed.map(number).known()
    });
    let ordered = exact.map(|needed| rounded_up(selling, needed, needs, trace, troubled));
    let (ordered, is_minimum) = ordered.unzip();
    let price = is_read.then(|| price(selling, needs, job.heading.currency(), trace, troubled));
    let price = price.flatten();
    let cost = ordered
        .zip(price)
        .and_then(|(ordered, price)| goods(ordered, price, trace));
    Order {
        material: material.name.clone(),
        size: None,
        sizes: 1,
        is_first: true,
        called: material.called_in(job.heading.region()),
        supplier: material.supplier.clone(),
        needed: needed.map(|needed| needed.value.number),
        ordered: ordered.map(|ordered| ordered.value.number),
        unit: selling.word().to_owned(),
        pack: selling.content().copied(),
        is_minimum: is_minimum.unwrap_or_default(),
        price: price.map(|price| price.value),
        cost,
        delivery: None,
        is_delivery_unread: false,
    }
}

/// What it costs to bring all that is ordered of a material, in whatever size:
/// it comes on the same loads.
fn brought(
    job: &Job,
    selling: &Selling<'_>,
    lines: &[Order],
    trace: &Trace,
    troubled: &mut Troubled<'_>,
) -> Option<Delivery> {
    let mut ordered = lines.iter().map(|line| line.ordered);
    let all = ordered.try_fold(Number::ZERO, |sum, own| sum.plus(own?))?;
    if all.is_zero() {
        return None;
    }
    let name = match lines.len() {
        1 => "ordered",
        _ => "ordered in all sizes",
    };
    let all = trace.term(name, selling.counted_in(all));
    let needs = troubled.needs;
    match delivery(selling, all, needs, job.heading.currency(), trace) {
        Ok(delivery) => delivery,
        Err(kind) => {
            let stated = troubled.material.delivery.as_ref();
            troubled.add(kind, stated.map(|stated| stated.place));
            None
        }
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
        // What it comes to in the job's money nobody knows.
        return None;
    }
    let one = format_args!("price of one {}", selling.word());
    Some(trace.stated(one, price, stated.place))
}

impl Order {
    /// What tells it from the other lines: the material, and of one that is
    /// bought in several sizes which of them it is.
    pub fn name(&self, system: System) -> String {
        match &self.size {
            Some(_) if self.sizes > 1 => self.full_name(system),
            _ => self.material.clone(),
        }
    }

    /// The material with its size, as a supplier needs it.
    pub fn full_name(&self, system: System) -> String {
        match &self.size {
            Some(size) => format!("{}, {}", self.material, size.shown(system)),
            None => self.material.clone(),
        }
    }

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
