//! What orders cost. Each line is rounded to the cent, half up, and the total
//! is the sum of the lines.

use std::sync::Arc;

use super::measures::Counted;
use super::needs::Need;
use super::rounding::Exact;
use super::selling::Selling;
use super::term::Term;
use super::trace::Trace;
use super::trouble::TroubleKind;
use crate::model::Stated;
use crate::units::{Currency, Dimension, Money, Number, Quantity};

/// What bringing an order costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Delivery {
    /// How many loads are begun.
    pub loads: f64,
    /// What they cost together.
    pub cost: Money,
}

/// The price of one sold unit, exact where price and densities are; or what
/// keeps it from being known.
pub(super) fn unit_price(
    selling: &Selling<'_>,
    price: &Stated<Quantity>,
    needs: &[Arc<Need>],
    job: Currency,
) -> Result<Quantity, TroubleKind> {
    let sold = || selling.word().to_owned();
    if let Some(pack) = &selling.material.price_pack
        && !pack.eq_ignore_ascii_case(selling.word())
    {
        return Err(TroubleKind::PricePack {
            priced: pack.clone(),
            sold: sold(),
        });
    }
    let stated = price.value.resolved(job);
    let priced = Dimension::MONEY
        .divided_by(stated.dimension)
        .unwrap_or_default();
    let refused = || TroubleKind::PriceUnit {
        priced,
        sold: sold(),
    };
    let currency = stated.currency.unwrap_or(job);
    if stated.dimension == Dimension::MONEY {
        return Ok(Quantity::money(stated.number, currency));
    }
    if stated.dimension.money != 1 || priced.is_none() {
        return Err(refused());
    }
    selling
        .measured_by(Number::ONE, priced, needs)
        .and_then(|measure| stated.number.times(measure))
        .map(|number| Quantity::money(number, currency))
        .ok_or_else(refused)
}

/// What so many sold units cost.
pub(super) fn goods<'t>(
    ordered: Term<'t, Exact<'_>>,
    price: Term<'t, Quantity>,
    trace: &'t Trace,
) -> Option<Money> {
    let exact = (ordered * price.called("price")).known()?;
    let cost = exact.map(|cost| Money::round(&cost)).known()?;
    Some(trace.gives("cost, to the cent", cost).value)
}

/// What the loads cost that so many sold units take; `Err` if the size of a
/// load is in something that they cannot be turned into.
pub(super) fn delivery(
    selling: &Selling<'_>,
    ordered: Term<'_, Exact<'_>>,
    needs: &[Arc<Need>],
    job: Currency,
    trace: &Trace,
) -> Result<Option<Delivery>, TroubleKind> {
    let Some(stated) = &selling.material.delivery else {
        return Ok(None);
    };
    let size = stated.value.size;
    let refused = || TroubleKind::Terms {
        what: "delivery",
        stated: size.dimension,
        sold: selling.word().to_owned(),
    };
    let brought = |ordered: Exact<'_>| {
        let number = selling.measured_by(ordered.number, size.dimension, needs)?;
        Some(Quantity { number, ..size })
    };
    let brought = ordered.map(brought).known().ok_or_else(refused)?;
    let price = stated.value.price.resolved(job);
    if let Some(priced) = price.currency.filter(|priced| *priced != job) {
        return Err(TroubleKind::Currency { priced, job });
    }
    let price = trace.stated("one load costs", price, stated.place);
    let holds = trace.stated("one load holds", size, stated.place);
    let words = ["", " ÷ ", ", rounded up"];
    let loads = brought.joined(words, holds, |brought, size| {
        let loads = brought.number.divided_by(size.number)?.ceil();
        Some(Counted {
            number: loads,
            unit: "load",
        })
    });
    let cost = loads.known().and_then(|loads| {
        let loads = trace.gives("loads begun", loads);
        let cost = (loads * price).known()?;
        let cost = cost.map(|cost| Money::round(&cost)).known()?;
        Some((loads, trace.gives("delivery", cost)))
    });
    Ok(cost.map(|(loads, cost)| Delivery {
        loads: loads.value.number.to_f64(),
        cost: cost.value,
    }))
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{
        area_of, job, job_of, layer, material, sold, sourced, stated, surface,
    };
    use super::*;
    use crate::model::{Load, Material};
    use crate::vocabulary::Role;

    /// Stone of 100 lb a cubic foot.
    fn stone(sold_by: &str, price: &str) -> Material {
        Material {
            density: sourced("100 lb/cu ft"),
            sold: sold(sold_by),
            price: Some(stated(price)),
            ..material("stone")
        }
    }

    fn decimal(money: Option<Money>) -> Option<String> {
        money.map(Money::decimal)
    }

    #[test]
    fn a_price_may_be_for_what_the_goods_can_be_turned_into() {
        // A base of 100 cu ft: 5 tons, 3.75 cu yd, 200 bags of 50 lb.
        for (sold_by, price, expected) in [
            ("by ton", "$38", Some("190.00")),
            ("by ton", "$38/ton", Some("190.00")),
            ("by ton", "$0.02/lb", Some("200.00")),
            ("by ton", "$27/cu yd", Some("100.00")),
            ("by cu yd", "$38/cu yd", Some("142.50")),
            ("by cu yd", "$40/ton", Some("202.50")),
            ("by bag of 50 lb", "$5.40", Some("1080.00")),
            ("by bag of 50 lb", "$0.10/lb", Some("1000.00")),
            ("by ton", "$2/sq ft", Some("200.00")),
            ("by ton", "$2/ft", None),
            ("by ton", "$2/h", None),
        ] {
            let figures = figures(&job_of(Role::Base, stone(sold_by, price), "100", "12 in"));
            assert_eq!(
                decimal(figures.orders[0].cost).as_deref(),
                expected,
                "{sold_by} at {price}"
            );
            let refused = figures
                .troubles
                .iter()
                .any(|trouble| matches!(trouble.kind, TroubleKind::PriceUnit { .. }));
            assert_eq!(refused, expected.is_none(), "{sold_by} at {price}");
        }
    }

    #[test]
    fn a_line_is_rounded_to_the_cent_half_up() {
        for (price, expected) in [
            ("$0.501", "2.51"),
            ("$0.5", "2.50"),
            ("$0.5009", "2.50"),
            ("$0.0001", "0.00"),
        ] {
            let figures = figures(&job_of(Role::Base, stone("by ton", price), "100", "12 in"));
            assert_eq!(
                decimal(figures.orders[0].cost).as_deref(),
                Some(expected),
                "{price}"
            );
        }
    }

    #[test]
    fn a_price_for_a_pack_names_the_pack_it_is_sold_in() {
        for (pack, priced) in [("bag", true), ("BAG", true), ("pallet", false)] {
            let own = Material {
                price_pack: Some(pack.to_owned()),
                ..stone("by bag of 50 lb", "$5")
            };
            let figures = figures(&job_of(Role::Base, own, "100", "12 in"));
            assert_eq!(figures.orders[0].cost.is_some(), priced, "{pack}");
            assert_eq!(figures.troubles.is_empty(), priced, "{pack}");
        }
    }

    #[test]
    fn each_load_begun_is_paid() {
        for (sold_by, size, loads) in [
            ("by ton", "5 ton", Some(1.0)),
            ("by ton", "4.9 ton", Some(2.0)),
            ("by ton", "2,000 lb", Some(5.0)),
            ("by cu yd", "5 ton", Some(2.0)),
            ("by bag of 50 lb", "5 ton", Some(1.0)),
            ("by bag of 50 lb", "64", Some(4.0)),
            ("by ton", "10 ft", None),
        ] {
            let own = Material {
                delivery: Some(Stated::new(
                    Load {
                        price: stated("$95").value,
                        size: stated(size).value,
                    },
                    super::super::fixture::line(1),
                )),
                ..stone(sold_by, "$38")
            };
            let figures = figures(&job_of(Role::Base, own, "100", "12 in"));
            let delivery = figures.orders[0].delivery;
            assert_eq!(
                delivery.map(|delivery| delivery.loads),
                loads,
                "{sold_by} by {size}"
            );
            assert_eq!(figures.troubles.is_empty(), loads.is_some());
            if let Some(delivery) = delivery {
                let goods = figures.orders[0].cost.unwrap().cents;
                assert_eq!(figures.total.unwrap().cents, goods + delivery.cost.cents);
            }
        }
    }

    #[test]
    fn the_total_is_the_sum_of_the_lines() {
        let entry = |name: &str, price: Option<&str>| {
            let own = Material {
                name: name.to_owned(),
                price: price.map(stated),
                ..stone("by ton", "$1")
            };
            layer(Role::Base, own, "12 in")
        };
        for (prices, total, unpriced) in [
            (vec![Some("$0.501"), Some("$0.501")], Some("5.02"), 0),
            (vec![Some("$10"), None], Some("50.00"), 1),
            (vec![None, None], None, 2),
            (vec![Some("$10"), Some("£10")], None, 1),
        ] {
            let layers = prices
                .iter()
                .zip(["a", "b"])
                .map(|(price, name)| entry(name, *price))
                .collect();
            let figures = figures(&job(vec![surface(
                "yard",
                area_of("100 ft", "1 ft"),
                layers,
            )]));
            assert_eq!(decimal(figures.total).as_deref(), total, "{prices:?}");
            assert_eq!(figures.unpriced(), unpriced);
        }
    }
}
