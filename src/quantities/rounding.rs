//! Rounding up what is needed to what is sold.

use std::sync::Arc;

use std::cmp::Ordering;

use super::counting::Troubled;
use super::needs::Need;
use super::notes::{Amount, Notes};
use super::selling::Selling;
use super::trouble::TroubleKind;
use crate::units::{Number, Quantity};

/// What is ordered for what is needed: rounded up once to the step, and at
/// least the minimum; and whether it was raised to that.
pub(super) fn rounded_up(
    selling: &Selling<'_>,
    needed: Number,
    needs: &[Arc<Need>],
    notes: &mut impl Notes,
    troubled: &mut Troubled<'_>,
) -> (Number, bool) {
    let unit = selling.word();
    let step = step(selling, needs, notes, troubled);
    let rounded = needed.round_up_to_step(step);
    let formula = match step.compare(Number::ONE) {
        Ordering::Equal => "{needed}, rounded up",
        _ => "{needed}, rounded up to the next {step}",
    };
    let (shown, ordered) = (needed.to_f64(), Amount::Counted(rounded.to_f64(), unit));
    let terms = [Amount::Number(shown), Amount::Number(step.to_f64())];
    notes.step("ordered", formula, &terms, ordered);
    if rounded.is_zero() {
        return (rounded, false);
    }
    match least(selling, needs, notes, troubled) {
        Some(least) if rounded.compare(least).is_lt() => {
            let raised = Amount::Counted(least.to_f64(), unit);
            let formula = "the greater of {ordered} and {the least that is sold}";
            notes.step("ordered", formula, &[ordered, raised], raised);
            (least, true)
        }
        _ => (rounded, false),
    }
}

/// The step that orders go in: as stated, else what is usual.
fn step(
    selling: &Selling<'_>,
    needs: &[Arc<Need>],
    notes: &mut impl Notes,
    troubled: &mut Troubled<'_>,
) -> Number {
    let Some(stated) = &selling.material.step else {
        return selling.usual_step();
    };
    let own = selling.in_sold_units(&stated.value, needs);
    match own.filter(|step| step.compare(Number::ZERO).is_gt()) {
        Some(step) => {
            let shown = Amount::Counted(step.to_f64(), selling.word());
            notes.input("in steps of", shown, Some(stated.origin));
            step
        }
        None => {
            let kind = terms("in steps of", &stated.value, selling);
            troubled.add(kind, stated.origin.place());
            selling.usual_step()
        }
    }
}

/// The least that is sold, if one is stated; of packs, whole ones.
fn least(
    selling: &Selling<'_>,
    needs: &[Arc<Need>],
    notes: &mut impl Notes,
    troubled: &mut Troubled<'_>,
) -> Option<Number> {
    let stated = selling.material.minimum.as_ref()?;
    let Some(least) = selling.in_sold_units(&stated.value, needs) else {
        let kind = terms("minimum", &stated.value, selling);
        troubled.add(kind, Some(stated.place));
        return None;
    };
    let least = match selling.content() {
        Some(_) => least.ceil(),
        None => least,
    };
    let shown = Amount::Counted(least.to_f64(), selling.word());
    notes.stated("the least that is sold", shown, stated.place);
    Some(least)
}

fn terms(what: &'static str, stated: &Quantity, selling: &Selling<'_>) -> TroubleKind {
    TroubleKind::Terms {
        what,
        stated: stated.dimension,
        sold: selling.word().to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{close, job_of, material, sold, sourced, stated};
    use super::super::{Order, figures};
    use super::*;
    use crate::model::Material;
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
        let troubles = figures.troubles.iter();
        let troubles = troubles.map(|trouble| trouble.kind.clone()).collect();
        (Order::clone(&figures.orders[0]), troubles)
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
