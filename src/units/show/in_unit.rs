//! Figures in a unit that is given, as goods are ordered.

use super::{NO_FIGURE, TOO_LARGE, number};
use crate::units::Quantity;
use crate::units::unit::{CUBIC_METRE, DAY, SQUARE_METRE, TON, Unit, WEEK};

/// A quantity in a given unit, to four decimals: `12.25 cu yd`, `3 tons`.
///
/// Nothing if the unit measures something else.
pub fn in_unit(quantity: &Quantity, unit: &Unit) -> Option<String> {
    let figure = quantity.in_unit(unit)?.to_f64();
    let digits = number(figure);
    if digits == TOO_LARGE || digits == NO_FIGURE {
        return Some(digits);
    }
    let name = unit_name(unit, digits == "1");
    Some(format!("{digits} {name}"))
}

/// The name of a unit for people, of one or of several.
fn unit_name(unit: &Unit, one: bool) -> &'static str {
    let several = [(&TON, "tons"), (&DAY, "days"), (&WEEK, "weeks")];
    let raised = [(&SQUARE_METRE, "m²"), (&CUBIC_METRE, "m³")];
    let named = several.iter().filter(|_| !one).chain(&raised);
    let mut found = named
        .filter(|(named, _)| *named == unit)
        .map(|(_, name)| *name);
    found.next().unwrap_or(unit.symbol)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::unit::{CUBIC_YARD, POUND, SQUARE_FOOT};
    use crate::units::{Dimension, Number};

    #[test]
    fn goods_are_shown_in_the_unit_they_are_sold_by() {
        for (written, unit, shown) in [
            ("12.25", &CUBIC_YARD, "12.25 cu yd"),
            ("1", &TON, "1 ton"),
            ("1.1", &TON, "1.1 tons"),
            ("0.4", &CUBIC_METRE, "0.4 m³"),
            ("1", &SQUARE_METRE, "1 m²"),
            ("1,313", &SQUARE_FOOT, "1,313 sq ft"),
            ("2", &DAY, "2 days"),
        ] {
            let quantity = Quantity::of(Number::parse(written).unwrap(), unit).unwrap();
            assert_eq!(in_unit(&quantity, unit).as_deref(), Some(shown));
        }
    }

    #[test]
    fn a_unit_of_something_else_shows_nothing() {
        assert_eq!(in_unit(&Quantity::one(&TON), &CUBIC_YARD), None);
        let odd = |value| Quantity::new(Number::Near(value), Dimension::MASS);
        assert_eq!(in_unit(&odd(f64::NAN), &POUND), None);
        assert_eq!(in_unit(&odd(1e300), &POUND), Some(TOO_LARGE.to_owned()));
    }
}
