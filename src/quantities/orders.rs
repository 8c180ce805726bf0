//! What to order: one line a material over the whole job, rounded up once.

use super::costs::{Delivery, delivery, goods, unit_price};
use super::needs::Need;
use super::notes::{Amount, Notes};
use super::selling::{Selling, Short};
use super::states::with_waste;
use super::trouble::{Trouble, TroubleKind};
use crate::findings::Place;
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
    /// What needs it.
    pub places: Vec<Place>,
}

/// The order line of a material for all that needs it.
pub(super) fn order(
    job: &Job,
    material: &Material,
    needs: &[Need],
    notes: &mut impl Notes,
    troubles: &mut Vec<Trouble>,
) -> Order {
    let selling = Selling::of(material, needs, job.heading.system());
    let mut troubled = Troubled {
        material,
        needs,
        troubles,
    };
    let needed = needed(&selling, needs, notes, &mut troubled);
    let (ordered, is_minimum) = match needed.and_then(Number::near) {
        Some(needed) => {
            let (ordered, is_minimum) = rounded_up(&selling, needed, needs, notes, &mut troubled);
            (Some(ordered), is_minimum)
        }
        None => (None, false),
    };
    let currency = job.heading.currency();
    let price = price(&selling, needs, currency, notes, &mut troubled);
    let cost = ordered
        .zip(price)
        .and_then(|(ordered, price)| goods(ordered, &price, notes, selling.word()));
    let delivery = match ordered.filter(|ordered| !ordered.is_zero()) {
        Some(ordered) => match delivery(&selling, ordered, needs, currency, notes) {
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
        called: material.called.clone(),
        needed,
        ordered,
        unit: selling.word().to_owned(),
        pack: selling.content().copied(),
        is_minimum,
        price,
        cost,
        delivery,
        places: needs.iter().map(|need| need.place).collect(),
    }
}

/// Where the troubles of one material go.
struct Troubled<'a> {
    material: &'a Material,
    needs: &'a [Need],
    troubles: &'a mut Vec<Trouble>,
}

impl Troubled<'_> {
    /// A trouble at the line that states what is wrong, else at the material,
    /// else at the first place that needs it.
    fn add(&mut self, kind: TroubleKind, line: Option<Place>) {
        let used = self.needs.first().map(|need| need.place);
        let Some(place) = line.or(self.material.place).or(used) else {
            return;
        };
        self.troubles.push(Trouble {
            kind,
            name: self.material.name.clone(),
            place,
            uses: self.needs.iter().map(|need| need.place).collect(),
        });
    }
}

/// What is needed of a material in sold units, each need with its waste.
fn needed(
    selling: &Selling<'_>,
    needs: &[Need],
    notes: &mut impl Notes,
    troubled: &mut Troubled<'_>,
) -> Option<f64> {
    let unit = selling.word();
    if let Some(content) = selling.content() {
        let sold = selling.material.sold.as_ref().map(|sold| sold.origin);
        notes.input(&format!("one {unit}"), Amount::Quantity(content), sold);
    }
    let mut sum = Some(0.0);
    let mut told = None;
    for need in needs {
        let amount = match selling.amount(need) {
            Ok(amount) => Some(amount * with_waste(need.waste.as_ref())),
            Err(short) => {
                let place = selling
                    .material
                    .sold
                    .as_ref()
                    .and_then(|sold| sold.origin.place());
                if told.replace(short) != Some(short)
                    && let Some(kind) = kind_of(short, selling)
                {
                    troubled.add(
                        kind,
                        if short == Short::NotConvertible {
                            place
                        } else {
                            None
                        },
                    );
                }
                None
            }
        };
        if let Some(amount) = amount {
            notes.stated(&need.what, Amount::Counted(amount, unit), need.place);
        }
        if let Some(waste) = &need.waste {
            let of = format!("waste in it, {}", need.what);
            notes.input(&of, Amount::Share(waste.value), Some(waste.origin));
        }
        sum = sum.zip(amount).map(|(sum, amount)| sum + amount);
    }
    if let Some(sum) = sum {
        notes.step(
            "needed",
            "sum of what needs it",
            &[],
            Amount::Counted(sum, unit),
        );
    }
    sum
}

fn kind_of(short: Short, selling: &Selling<'_>) -> Option<TroubleKind> {
    match short {
        Short::Unknown => None,
        Short::NoDensity => Some(TroubleKind::NoDensity),
        Short::NoUnitSize => Some(TroubleKind::NoUnitSize),
        Short::NotConvertible => Some(TroubleKind::NotConvertible {
            sold: selling.word().to_owned(),
            wants: selling.one().1,
        }),
    }
}

/// What is ordered for what is needed, and whether it is the least sold.
fn rounded_up(
    selling: &Selling<'_>,
    needed: Number,
    needs: &[Need],
    notes: &mut impl Notes,
    troubled: &mut Troubled<'_>,
) -> (Number, bool) {
    let unit = selling.word();
    let material = selling.material;
    let mut step = selling.usual_step();
    if let Some(stated) = &material.step {
        match selling
            .in_sold_units(&stated.value, needs)
            .filter(|step| step.compare(Number::ZERO).is_gt())
        {
            Some(own) => {
                step = own;
                notes.input(
                    "in steps of",
                    Amount::Counted(own.to_f64(), unit),
                    Some(stated.origin),
                );
            }
            None => troubled.add(
                TroubleKind::Terms {
                    what: "in steps of",
                    stated: stated.value.dimension,
                    sold: unit.to_owned(),
                },
                stated.origin.place(),
            ),
        }
    }
    let rounded = needed.round_up_to_step(step);
    notes.step(
        "ordered",
        "{needed}, up to whole steps of {step}",
        &[
            Amount::Number(needed.to_f64()),
            Amount::Number(step.to_f64()),
        ],
        Amount::Counted(rounded.to_f64(), unit),
    );
    let Some(stated) = material.minimum.as_ref().filter(|_| !rounded.is_zero()) else {
        return (rounded, false);
    };
    let Some(least) = selling.in_sold_units(&stated.value, needs) else {
        troubled.add(
            TroubleKind::Terms {
                what: "minimum",
                stated: stated.value.dimension,
                sold: unit.to_owned(),
            },
            Some(stated.place),
        );
        return (rounded, false);
    };
    // A least that is given in another measure may come to part of a pack.
    let least = if selling.content().is_some() {
        least.ceil()
    } else {
        least
    };
    if rounded.compare(least).is_ge() {
        return (rounded, false);
    }
    let terms = [
        Amount::Number(rounded.to_f64()),
        Amount::Number(least.to_f64()),
    ];
    notes.stated(
        "the least that is sold",
        Amount::Counted(least.to_f64(), unit),
        stated.place,
    );
    let raised = Amount::Counted(least.to_f64(), unit);
    notes.step(
        "ordered",
        "the greater of {ordered} and {the least}",
        &terms,
        raised,
    );
    (least, true)
}

/// The price of one sold unit.
fn price(
    selling: &Selling<'_>,
    needs: &[Need],
    currency: Currency,
    notes: &mut impl Notes,
    troubled: &mut Troubled<'_>,
) -> Option<Quantity> {
    let stated = selling.material.price.as_ref()?;
    let price = match unit_price(selling, stated, needs, currency) {
        Ok(price) => price,
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
    notes.stated(
        &format!("price of one {}", selling.word()),
        Amount::Quantity(&price),
        stated.place,
    );
    Some(price)
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{
        area_of, catalogued, close, job, job_of, layer, line, material, sold, sourced, stated,
        surface,
    };
    use super::*;
    use crate::units::Dimension;
    use crate::vocabulary::Role;

    fn stone(sold_by: &str) -> Material {
        Material {
            density: sourced("100 lb/cu ft"),
            sold: sold(sold_by),
            ..material("stone")
        }
    }

    /// The order of a base of so many cubic feet, 100 lb each.
    fn ordered(material: Material, cubic_feet: &str) -> (Order, Vec<TroubleKind>) {
        let figures = figures(&job_of(Role::Base, material, cubic_feet, "12 in"));
        let troubles = figures
            .troubles
            .iter()
            .map(|trouble| trouble.kind.clone())
            .collect();
        (figures.orders[0].clone(), troubles)
    }

    fn number(order: &Order) -> f64 {
        order.ordered.map_or(f64::NAN, Number::to_f64)
    }

    #[test]
    fn orders_are_rounded_up_to_their_step() {
        for (sold_by, step, cubic_feet, expected) in [
            ("by ton", None, "100", 5.0),
            ("by ton", None, "100.1", 5.1),
            ("by t", None, "100", 4.6),
            ("by cu yd", None, "100", 3.75),
            ("by m3", None, "100", 2.9),
            ("by lb", None, "100", 10_000.0),
            ("by bag of 50 lb", None, "100", 200.0),
            ("by bag of 50 lb", None, "100.1", 201.0),
            ("by bag of 0.5 cu ft", None, "100", 200.0),
            ("by ton", Some("1/4 ton"), "100.1", 5.25),
            ("by ton", Some("500 lb"), "100.1", 5.25),
            ("by cu yd", Some("1 cu yd"), "100", 4.0),
            ("by bag of 50 lb", Some("10"), "100.1", 210.0),
        ] {
            let own = Material {
                step: step.and_then(sourced),
                ..stone(sold_by)
            };
            let (order, troubles) = ordered(own, cubic_feet);
            assert!(
                close(number(&order), expected, 1e-12),
                "{sold_by} {step:?}: {order:?}"
            );
            assert!(troubles.is_empty());
        }
    }

    #[test]
    fn a_minimum_is_a_least_and_no_step() {
        for (sold_by, minimum, expected, is_minimum) in [
            ("by ton", "3 ton", 5.0, false),
            ("by ton", "5 ton", 5.0, false),
            ("by ton", "5.25 ton", 5.25, true),
            ("by ton", "12,000 lb", 6.0, true),
            ("by cu yd", "5 cu yd", 5.0, true),
            ("by cu yd", "5.4 ton", 4.0, true),
            ("by bag of 50 lb", "10,010 lb", 201.0, true),
            ("by bag of 50 lb", "300", 300.0, true),
        ] {
            let own = Material {
                minimum: Some(stated(minimum)),
                ..stone(sold_by)
            };
            let (order, _) = ordered(own, "100");
            assert!(
                close(number(&order), expected, 1e-12),
                "{sold_by} {minimum}: {order:?}"
            );
            assert_eq!(order.is_minimum, is_minimum);
        }
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
        assert_eq!(figures.orders[0].places.len(), 3);
    }

    #[test]
    fn waste_of_a_layer_replaces_the_material_s() {
        for (own, entry, tons) in [("5 %", None, 5.25), ("5 %", Some("12 %"), 5.6)] {
            let own = Material {
                waste: sourced(own),
                ..stone("by ton")
            };
            let mut base = layer(Role::Base, own, "12 in");
            base.waste = entry.map(stated);
            let figures = figures(&job(vec![surface(
                "a",
                area_of("100 ft", "1 ft"),
                vec![base],
            )]));
            assert!(close(figures.orders[0].needed.unwrap(), tons, 1e-12));
        }
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
    fn stone_goes_as_far_as_its_supplier_says_a_base_as_thick_as_it_is() {
        for (role, sold_by, covers, expected) in [
            (Role::Paving, "by ton", "80 sq ft/ton", 1.25),
            (
                Role::Paving,
                "by pallet of 3,000 lb",
                "80 sq ft/ton",
                2500.0 / 3000.0,
            ),
            (
                Role::Paving,
                "by pallet of 3,000 lb",
                "120 sq ft",
                100.0 / 120.0,
            ),
            (Role::Base, "by ton", "80 sq ft/ton", 5.0),
        ] {
            let own = Material {
                covers: sourced(covers),
                ..stone(sold_by)
            };
            let figures = figures(&job_of(role, own, "100", "12 in"));
            let needed = figures.orders[0].needed.unwrap();
            assert!(
                close(needed, expected, 1e-12),
                "{} {sold_by}: {needed}",
                role.word()
            );
        }
    }

    #[test]
    fn a_mix_out_of_a_bag_goes_by_what_it_makes() {
        let figures = figures(&job_of(Role::Bond, catalogued("thin-set"), "96", "1/8 in"));
        assert!(close(figures.orders[0].needed.unwrap(), 2.0, 1e-12));
        assert_eq!(figures.orders[0].unit, "bag");
    }

    #[test]
    fn a_material_that_does_not_say_is_counted_as_usual() {
        let gravel = || Material {
            sold: None,
            ..stone("by ton")
        };
        for (role, own, unit) in [
            (Role::Base, gravel(), "ton"),
            (Role::Base, material("stone"), "cu yd"),
            (Role::Paving, gravel(), "sq ft"),
            (Role::Fabric, material("fabric"), "sq ft"),
        ] {
            let thickness = if role == Role::Fabric { "" } else { "12 in" };
            let figures = figures(&job_of(role, own, "100", thickness));
            assert_eq!(figures.orders[0].unit, unit, "{}", role.word());
            assert!(figures.orders[0].ordered.is_some());
        }
    }

    #[test]
    fn what_cannot_be_counted_is_told_and_not_guessed() {
        let bare = |sold_by: &str| Material {
            sold: sold(sold_by),
            ..material("stone")
        };
        let not_convertible = |sold: &str, wants| TroubleKind::NotConvertible {
            sold: sold.to_owned(),
            wants,
        };
        for (role, own, expected) in [
            (Role::Base, bare("by ton"), TroubleKind::NoDensity),
            (Role::Base, bare("by bag of 50 lb"), TroubleKind::NoDensity),
            (
                Role::Base,
                stone("by ft"),
                not_convertible("ft", Dimension::LENGTH),
            ),
            (
                Role::Base,
                stone("by each"),
                not_convertible("each", Dimension::NONE),
            ),
            (Role::Paving, stone("by each"), TroubleKind::NoUnitSize),
            (
                Role::Fabric,
                bare("by ton"),
                not_convertible("ton", Dimension::MASS),
            ),
        ] {
            let thickness = if role == Role::Fabric { "" } else { "12 in" };
            let figures = figures(&job_of(role, own, "100", thickness));
            let order = &figures.orders[0];
            assert_eq!(
                (order.needed, order.ordered, order.cost),
                (None, None, None)
            );
            let kinds: Vec<_> = figures
                .troubles
                .iter()
                .map(|trouble| &trouble.kind)
                .collect();
            assert_eq!(kinds, [&expected], "{}", role.word());
        }
    }

    #[test]
    fn what_another_finding_tells_is_not_told_again() {
        let mut job = job_of(Role::Base, stone("by ton"), "100", "12 in");
        job.surfaces[0].outline = None;
        let figures = figures(&job);
        assert_eq!(figures.orders[0].ordered, None);
        assert!(figures.troubles.is_empty());
    }

    #[test]
    fn steps_and_minimums_in_something_else_are_told() {
        let own = Material {
            step: sourced("1 sq ft"),
            minimum: Some(stated("4 ft")),
            ..stone("by ton")
        };
        let (order, troubles) = ordered(own, "100");
        assert!(close(number(&order), 5.0, 1e-12), "{order:?}");
        let named: Vec<_> = troubles
            .iter()
            .map(|kind| match kind {
                TroubleKind::Terms { what, .. } => *what,
                _ => "other",
            })
            .collect();
        assert_eq!(
            named,
            ["minimum"],
            "a layer's area and mass are in proportion, its length is none"
        );
    }
}
