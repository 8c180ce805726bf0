//! Amounts of money, whole in cents.

use std::fmt;

use super::{Currency, Dimension, Number, Quantity, show};

/// An amount of money in whole cents, or pence.
///
/// An amount is rounded once, where it is charged, and rounded amounts are
/// summed; a sum is never rounded again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Money {
    /// Hundredths of the unit of the currency.
    pub cents: i128,
    /// The currency.
    pub currency: Currency,
}

impl Money {
    /// Rounds an amount to the cent, half a cent up (away from zero, so that
    /// a credit mirrors its charge). An exact amount is rounded exactly, a computed
    /// one as the exact one would be: 2.675 worked out as 2.674 999 999 999 9
    /// is 2.68.
    ///
    /// Nothing if the quantity is not money, or is too large.
    pub fn round(quantity: &Quantity) -> Option<Self> {
        let currency = quantity
            .currency
            .filter(|_| quantity.dimension == Dimension::MONEY)?;
        let cents = quantity.number.times(Number::whole(100))?;
        let cents = match cents.round() {
            Number::Exact(cents) => cents.fraction().to_integer(),
            Number::Near(cents) if cents.abs() < 1e36 => cents as i128,
            Number::Near(_) => return None,
        };
        Some(Self { cents, currency })
    }

    /// The sum of two amounts; nothing if their currencies differ or the sum
    /// is too large.
    pub fn plus(self, other: Self) -> Option<Self> {
        let cents = self.cents.checked_add(other.cents)?;
        (self.currency == other.currency).then_some(Self { cents, ..self })
    }

    /// The sum of amounts in one currency, nothing spent being zero; nothing
    /// if one is in another currency or the sum is too large.
    pub fn sum(currency: Currency, amounts: impl IntoIterator<Item = Self>) -> Option<Self> {
        amounts
            .into_iter()
            .try_fold(Self { cents: 0, currency }, Self::plus)
    }

    /// The amount as an exact quantity.
    pub fn quantity(self) -> Option<Quantity> {
        Number::ratio(self.cents, 100).map(|number| Quantity::money(number, self.currency))
    }

    /// The amount as a decimal, `1234.50`, for files that programs read.
    pub fn decimal(self) -> String {
        let cents = self.cents.unsigned_abs();
        format!("{}{}.{:02}", self.sign(), cents / 100, cents % 100)
    }

    const fn sign(self) -> &'static str {
        if self.cents < 0 { "-" } else { "" }
    }
}

impl fmt::Display for Money {
    /// Writes the amount for people, `$1,234.50`.
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let cents = self.cents.unsigned_abs();
        let whole = show::grouped(&(cents / 100).to_string());
        write!(
            formatter,
            "{}{}{whole}.{:02}",
            self.sign(),
            self.currency.symbol(),
            cents % 100
        )
    }
}

#[cfg(test)]
mod tests {
    use super::super::unit;
    use super::*;

    fn rounded(number: Number) -> Option<i128> {
        Money::round(&Quantity::money(number, Currency::Usd)).map(|money| money.cents)
    }

    #[test]
    fn amounts_are_rounded_half_up_once() {
        for (written, cents) in [
            ("2.675", 268),
            ("2.6749999999999", 267),
            ("2.665", 267),
            ("0.005", 1),
            ("0.0049", 0),
            ("1/3", 33),
            ("2/3", 67),
            ("42", 4_200),
        ] {
            let number = Number::parse(written).unwrap();
            assert_eq!(rounded(number), Some(cents), "{written}");
            assert_eq!(rounded(number.negated()), Some(-cents), "-{written}");
        }
    }

    #[test]
    fn computed_amounts_are_rounded_as_if_exact() {
        for (computed, cents) in [
            (2.675, 268), // as a float it lies below
            (1.005, 101),
            (8.165, 817),
            (0.1 + 0.2, 30),
            (-2.675, -268),
            (1_234_567.885, 123_456_789),
            (2.674_999, 267),
            (1_234_567.884_9, 123_456_788),
            (0.0, 0),
        ] {
            assert_eq!(rounded(Number::Near(computed)), Some(cents), "{computed}");
        }
        assert_eq!(rounded(Number::Near(f64::MAX)), None);
        assert_eq!(rounded(Number::Near(f64::NAN)), None);
        assert_eq!(rounded(Number::Near(1e40)), None);
    }

    #[test]
    fn an_exact_count_times_an_exact_price_is_exact() {
        let of = |text: &str, unit| Quantity::of(Number::parse(text).unwrap(), unit).unwrap();
        let dollars = Quantity::money(Number::whole(42), Currency::Dollar);
        let price = dollars.divided_by(of("1", &unit::TON)).unwrap();
        let cost = price.times(of("14.6", &unit::TON)).unwrap();
        assert_eq!(Money::round(&cost).unwrap().to_string(), "$613.20");
    }

    #[test]
    fn what_is_not_money_is_not_rounded() {
        assert_eq!(Money::round(&Quantity::plain(Number::ONE)), None);
        assert_eq!(
            Money::round(&Quantity::new(Number::ONE, Dimension::MONEY)),
            None
        );
        let price = Quantity {
            dimension: Dimension::MONEY_PER_MASS,
            ..Quantity::money(Number::ONE, Currency::Usd)
        };
        assert_eq!(Money::round(&price), None);
    }

    #[test]
    fn amounts_of_one_currency_are_summed() {
        let money = |cents, currency| Money { cents, currency };
        let (a, b) = (money(150, Currency::Gbp), money(275, Currency::Gbp));
        assert_eq!(
            Money::sum(Currency::Gbp, [a, b]),
            Some(money(425, Currency::Gbp))
        );
        assert_eq!(Money::sum(Currency::Gbp, []), Some(money(0, Currency::Gbp)));
        assert_eq!(
            Money::sum(Currency::Gbp, [a, money(1, Currency::Eur)]),
            None
        );
        assert_eq!(money(i128::MAX, Currency::Gbp).plus(a), None);
    }

    #[test]
    fn amounts_are_written_for_people_and_programs() {
        for (cents, currency, shown, decimal) in [
            (123_450, Currency::Dollar, "$1,234.50", "1234.50"),
            (-400, Currency::Usd, "-$4.00", "-4.00"),
            (5, Currency::Gbp, "£0.05", "0.05"),
            (-5, Currency::Eur, "-€0.05", "-0.05"),
            (0, Currency::Aud, "$0.00", "0.00"),
            (100_000_000, Currency::Nzd, "$1,000,000.00", "1000000.00"),
        ] {
            let money = Money { cents, currency };
            assert_eq!(money.to_string(), shown);
            assert_eq!(money.decimal(), decimal);
        }
        let extreme = Money {
            cents: i128::MIN,
            currency: Currency::Usd,
        };
        assert!(extreme.to_string().starts_with("-$"));
    }
}
