//! Rounding up what is needed to what is sold.

use std::sync::Arc;

use super::counting::Troubled;
use super::measures::Counted;
use super::needs::Need;
use super::selling::Selling;
use super::term::Term;
use super::trace::Trace;
use super::trouble::TroubleKind;
use crate::units::{Number, Quantity};

/// So many of what is sold, exact.
pub(super) type Exact<'a> = Counted<'a, Number>;

/// What is ordered for what is needed: rounded up once to the step, and at
/// least the minimum; and whether it was raised to that.
pub(super) fn rounded_up<'s, 't: 's>(
    selling: &'s Selling<'_>,
    needed: Term<'t, Exact<'s>>,
    needs: &[Arc<Need>],
    trace: &'t Trace,
    troubled: &mut Troubled<'_>,
) -> (Term<'t, Exact<'s>>, bool) {
    let step = step(selling, needs, trace, troubled);
    let to_step = |needed: Exact<'s>, step: Exact<'_>| Counted {
        number: needed.number.round_up_to_step(step.number),
        ..needed
    };
    let rounded = match step.value.number.compare(Number::ONE).is_eq() {
        true => needed.then(", rounded up", |needed| to_step(needed, step.value)),
        false => needed.joined(["", ", rounded up to the next ", ""], step, to_step),
    };
    let ordered = trace.gives("ordered", rounded);
    if ordered.value.number.is_zero() {
        return (ordered, false);
    }
    let least = least(selling, needs, trace, troubled);
    match least.filter(|least| ordered.value.number.compare(least.value.number).is_lt()) {
        Some(least) => {
            let words = ["the greater of ", " and ", ""];
            let raised = ordered.joined(words, least, |_, least| least);
            (trace.gives("ordered", raised), true)
        }
        None => (ordered, false),
    }
}

/// The step that orders go in: as stated, else what is usual.
fn step<'s, 't: 's>(
    selling: &'s Selling<'_>,
    needs: &[Arc<Need>],
    trace: &'t Trace,
    troubled: &mut Troubled<'_>,
) -> Term<'t, Exact<'s>> {
    let usual = || trace.term("step", selling.counted_in(selling.usual_step()));
    let Some(stated) = &selling.material.step else {
        return usual();
    };
    let own = selling.in_sold_units(&stated.value, needs);
    match own.filter(|step| step.compare(Number::ZERO).is_gt()) {
        Some(step) => {
            let step = selling.counted_in(step);
            let step = trace.input("in steps of", step, Some(stated.origin));
            step.called("step")
        }
        None => {
            let kind = terms("in steps of", &stated.value, selling);
            troubled.add(kind, stated.origin.place());
            usual()
        }
    }
}

/// The least that is sold, if one is stated; of packs, whole ones.
fn least<'s, 't: 's>(
    selling: &'s Selling<'_>,
    needs: &[Arc<Need>],
    trace: &'t Trace,
    troubled: &mut Troubled<'_>,
) -> Option<Term<'t, Exact<'s>>> {
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
    let least = selling.counted_in(least);
    Some(trace.stated("the least that is sold", least, stated.place))
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
