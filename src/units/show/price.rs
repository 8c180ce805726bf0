//! Prices: money for one of a unit.

use crate::units::unit::{
    CUBIC_METRE, CUBIC_YARD, DAY, FOOT, METRE, SQUARE_FOOT, SQUARE_METRE, TON, TONNE, Unit,
};
use crate::units::{Dimension, Money, Quantity, System};

/// A price for one of what is usual in the system, `$42/ton`, `£6.50/m²`.
///
/// Nothing if the quantity is no price.
pub fn price(quantity: &Quantity, system: System) -> Option<String> {
    let (unit, name): (&Unit, _) = match (quantity.dimension, system) {
        (Dimension::MONEY_PER_LENGTH, System::Imperial) => (&FOOT, "ft"),
        (Dimension::MONEY_PER_LENGTH, System::Metric) => (&METRE, "m"),
        (Dimension::MONEY_PER_AREA, System::Imperial) => (&SQUARE_FOOT, "sq ft"),
        (Dimension::MONEY_PER_AREA, System::Metric) => (&SQUARE_METRE, "m²"),
        (Dimension::MONEY_PER_VOLUME, System::Imperial) => (&CUBIC_YARD, "cu yd"),
        (Dimension::MONEY_PER_VOLUME, System::Metric) => (&CUBIC_METRE, "m³"),
        (Dimension::MONEY_PER_MASS, System::Imperial) => (&TON, "ton"),
        (Dimension::MONEY_PER_MASS, System::Metric) => (&TONNE, "t"),
        (Dimension::MONEY_PER_TIME, _) => (&DAY, "day"),
        _ => return None,
    };
    let amount = Money::round(&quantity.times(Quantity::one(unit)).ok()?)?.to_string();
    let amount = amount.strip_suffix(".00").unwrap_or(&amount);
    Some(format!("{amount}/{name}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Currency, Number, unit};

    fn money(text: &str, currency: Currency) -> Quantity {
        Quantity::money(Number::parse(text).unwrap(), currency)
    }

    #[test]
    fn prices_are_for_what_is_usual() {
        for (amount, currency, unit, imperial, metric) in [
            ("42", Currency::Dollar, &unit::TON, "$42/ton", "$46.30/t"),
            (
                "5.80",
                Currency::Usd,
                &unit::SQUARE_FOOT,
                "$5.80/sq ft",
                "$62.43/m²",
            ),
            (
                "24",
                Currency::Gbp,
                &unit::SQUARE_METRE,
                "£2.23/sq ft",
                "£24/m²",
            ),
            ("74", Currency::Aud, &unit::DAY, "$74/day", "$74/day"),
            ("6", Currency::Eur, &unit::METRE, "€1.83/ft", "€6/m"),
            (
                "90",
                Currency::Eur,
                &unit::CUBIC_METRE,
                "€68.81/cu yd",
                "€90/m³",
            ),
        ] {
            let rate = money(amount, currency)
                .divided_by(Quantity::one(unit))
                .unwrap();
            assert_eq!(price(&rate, System::Imperial).as_deref(), Some(imperial));
            assert_eq!(price(&rate, System::Metric).as_deref(), Some(metric));
        }
    }

    #[test]
    fn what_is_no_price_is_not_shown_as_one() {
        assert_eq!(price(&money("42", Currency::Usd), System::Imperial), None);
        assert_eq!(price(&Quantity::plain(Number::ONE), System::Imperial), None);
    }
}
