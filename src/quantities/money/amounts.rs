//! Amounts of money, rates and shares as the terms of a formula. An amount is
//! rounded to the cent where it is charged.

use std::ops::{Add, Div, Mul, Sub};

use super::super::measures::{Count, Measure, Measured};
use super::super::schedule::Hours;
use super::super::term::Term;
use crate::units::unit::HOUR;
use crate::units::{Currency, Dimension, Money, Number, Quantity, System, show};

/// An amount of money, whole in cents.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::quantities) struct Amount(pub Money);

/// Money over a volume or a time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rate(pub Quantity);

/// A share of an amount, exact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Portion(pub Number);

impl Measure for Amount {
    fn shown(self, _: System) -> String {
        self.0.to_string()
    }
}

impl Measure for Rate {
    /// A wage is for an hour; a day of a job has not twenty-four of them.
    fn shown(self, system: System) -> String {
        let by_hour = (self.0.dimension == Dimension::MONEY_PER_TIME)
            .then(|| Money::round(&self.0.times(Quantity::one(&HOUR)).ok()?))
            .flatten();
        match by_hour {
            Some(amount) => format!("{amount}/h"),
            None => show::quantity(&self.0, system),
        }
    }
}

impl Measure for Portion {
    fn shown(self, _: System) -> String {
        show::share(self.0.to_f64())
    }
}

impl Amount {
    /// A stated amount in the currency of the job, rounded to the cent; `None`
    /// if it is in another.
    pub(crate) fn of(stated: &Quantity, job: Currency) -> Option<Amount> {
        let own = stated.resolved(job);
        (own.currency == Some(job))
            .then(|| Money::round(&own))
            .flatten()
            .map(Amount)
    }

    /// The amount times a number, rounded to the cent.
    fn scaled(self, by: impl FnOnce(Number) -> Option<Number>) -> Option<Amount> {
        let exact = self.0.quantity()?;
        let number = by(exact.number)?;
        Money::round(&Quantity { number, ..exact }).map(Amount)
    }
}

impl Rate {
    /// A stated rate in the currency of the job; `None` if it is in another.
    pub(crate) fn of(stated: &Quantity, job: Currency) -> Option<Rate> {
        let own = stated.resolved(job);
        (own.currency == Some(job)).then_some(Rate(own))
    }
}

impl Add for Amount {
    type Output = Option<Amount>;

    fn add(self, other: Amount) -> Option<Amount> {
        self.0.plus(other.0).map(Amount)
    }
}

impl Sub for Amount {
    type Output = Option<Amount>;

    fn sub(self, other: Amount) -> Option<Amount> {
        let cents = self.0.cents.checked_sub(other.0.cents)?;
        let own = Money { cents, ..self.0 };
        (self.0.currency == other.0.currency).then_some(Amount(own))
    }
}

impl Mul<Portion> for Amount {
    type Output = Option<Amount>;

    fn mul(self, share: Portion) -> Option<Amount> {
        self.scaled(|number| number.times(share.0))
    }
}

impl Div<Portion> for Amount {
    type Output = Option<Amount>;

    fn div(self, share: Portion) -> Option<Amount> {
        self.scaled(|number| number.divided_by(share.0))
    }
}

impl Div<Hours> for Amount {
    type Output = Option<Amount>;

    /// What comes to one hour.
    fn div(self, hours: Hours) -> Option<Amount> {
        let hours = Number::near(hours.0)?;
        self.scaled(|number| number.divided_by(hours))
    }
}

impl Sub<Portion> for f64 {
    type Output = Option<Portion>;

    /// What is left of a whole number of wholes.
    fn sub(self, share: Portion) -> Option<Portion> {
        Number::whole(self as i64).minus(share.0).map(Portion)
    }
}

impl Mul<Amount> for Count {
    type Output = Option<Amount>;

    fn mul(self, price: Amount) -> Option<Amount> {
        let count = Number::near(self.0)?;
        price.scaled(|number| number.times(count))
    }
}

impl Mul<Rate> for Measured {
    type Output = Option<Amount>;

    fn mul(self, rate: Rate) -> Option<Amount> {
        let much = Quantity::near(self.value, self.dimension)?;
        let cost = rate.0.times(much).ok()?;
        (cost.dimension == Dimension::MONEY)
            .then(|| Money::round(&cost))
            .flatten()
            .map(Amount)
    }
}

/// The sum of some amounts; `None` of none.
pub(super) fn sum<'t>(
    amounts: impl IntoIterator<Item = Term<'t, Amount>>,
) -> Option<Term<'t, Amount>> {
    let mut amounts = amounts.into_iter();
    let first = amounts.next()?;
    amounts.try_fold(first, |sum, one| (sum + one).known())
}

#[cfg(test)]
mod tests {
    use super::super::super::fixture::quantity;
    use super::*;

    fn dollars(text: &str) -> Amount {
        Amount::of(&quantity(text), Currency::Usd).unwrap()
    }

    fn portion(text: &str) -> Portion {
        Portion(quantity(text).number)
    }

    #[test]
    fn shares_are_taken_exactly_and_rounded_once() {
        let decimal = |amount: Option<Amount>| amount.unwrap().0.decimal();
        for (amount, share, of_it, over_it) in [
            ("$100", "18 %", "18.00", "555.56"),
            ("$0.05", "10 %", "0.01", "0.50"),
            ("$1,234.56", "7.5 %", "92.59", "16460.80"),
        ] {
            assert_eq!(decimal(dollars(amount) * portion(share)), of_it);
            assert_eq!(decimal(dollars(amount) / portion(share)), over_it);
        }
        let left = (1.0 - portion("18 %")).unwrap();
        assert_eq!(decimal(dollars("$82") / left), "100.00");
        assert_eq!(dollars("$1") / portion("0 %"), None);
    }

    #[test]
    fn another_currency_is_no_amount_of_the_job() {
        assert_eq!(Amount::of(&quantity("£1"), Currency::Usd), None);
        assert_eq!(Rate::of(&quantity("£1/m3"), Currency::Usd), None);
        assert!(Rate::of(&quantity("$1/m3"), Currency::Usd).is_some());
    }

    #[test]
    fn a_rate_takes_what_it_is_for_and_nothing_else() {
        let much = |text: &str| Measured {
            value: quantity(text).si(),
            dimension: quantity(text).dimension,
        };
        let rate = Rate::of(&quantity("$38/h"), Currency::Usd).unwrap();
        assert_eq!(much("90 min") * rate, Some(dollars("$57")));
        assert_eq!(much("90 m") * rate, None);
    }
}
