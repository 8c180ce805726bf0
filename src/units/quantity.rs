//! A number of something.

use super::unit::{FOOT, INCH};
use super::{Currency, Dimension, Number, Unit};

/// What a number without a dimension is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Kind {
    /// A bare number, or anything that has a dimension.
    #[default]
    Plain,
    /// One that says how much of something: from `2 %`, from `1:60`, or like
    /// over like. Slopes and shares are of this kind.
    Proportion,
}

/// A number of something, in base units: metres, kilograms, seconds, kelvin,
/// the units of its currency, degrees of angle, and what is made of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// How much, in base units.
    pub number: Number,
    /// Of what.
    pub dimension: Dimension,
    /// What it is if it has no dimension.
    pub kind: Kind,
    /// The currency of the money in it, if there is any.
    pub currency: Option<Currency>,
}

impl Quantity {
    /// So much of a dimension, in base units.
    pub const fn new(number: Number, dimension: Dimension) -> Self {
        Self {
            number,
            dimension,
            kind: Kind::Plain,
            currency: None,
        }
    }

    /// A bare number.
    pub const fn plain(number: Number) -> Self {
        Self::new(number, Dimension::NONE)
    }

    /// A slope or a share, as a fraction of one.
    pub const fn proportion(number: Number) -> Self {
        Self {
            kind: Kind::Proportion,
            ..Self::plain(number)
        }
    }

    /// So many hundredths, as `2 %` says; nothing if it is too large.
    pub fn percent(number: Number) -> Option<Self> {
        number.divided_by(Number::whole(100)).map(Self::proportion)
    }

    /// An amount of money.
    pub const fn money(amount: Number, currency: Currency) -> Self {
        Self {
            currency: Some(currency),
            ..Self::new(amount, Dimension::MONEY)
        }
    }

    /// What a computation gave in base units; nothing if it gave no number.
    pub fn near(value: f64, dimension: Dimension) -> Option<Self> {
        Number::near(value).map(|number| Self::new(number, dimension))
    }

    /// One of a unit, as in `$42/ton`.
    pub const fn one(unit: &Unit) -> Self {
        Self::new(unit.size(), unit.dimension)
    }

    /// So many of a unit; nothing if it is too large.
    pub fn of(number: Number, unit: &Unit) -> Option<Self> {
        number
            .times(unit.size())
            .map(|number| Self::new(number, unit.dimension))
    }

    /// A length in feet and inches, `24' 6 1/2"`; nothing if it is too large.
    pub fn feet_inches(feet: Number, inches: Number) -> Option<Self> {
        let length = feet.times(FOOT.size())?.plus(inches.times(INCH.size())?)?;
        Some(Self::new(length, Dimension::LENGTH))
    }

    /// How many of a unit this is, exactly if it is exact itself; nothing if
    /// the unit measures something else.
    pub fn in_unit(&self, unit: &Unit) -> Option<Number> {
        let alike = self.dimension == unit.dimension;
        alike.then(|| self.number.divided_by(unit.size())).flatten()
    }

    /// The number in base units, which for an angle are degrees.
    pub fn si(&self) -> f64 {
        self.number.to_f64()
    }

    /// The number of degrees as radians; of use for an angle only.
    pub fn radians(&self) -> f64 {
        self.si().to_radians()
    }

    /// True for a zero without a unit, which may stand for none of anything
    /// except temperature.
    pub fn is_bare_zero(&self) -> bool {
        self.dimension.is_none() && self.kind == Kind::Plain && self.number.is_zero()
    }

    /// The quantity in a job whose currency is `job`: see [`Currency::resolved`].
    #[must_use]
    pub fn resolved(self, job: Currency) -> Self {
        Self {
            currency: self.currency.map(|currency| currency.resolved(job)),
            ..self
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{find_unit, unit};
    use super::*;

    #[test]
    fn written_quantities_are_exact() {
        let half = Number::parse("1/2").unwrap();
        let of = |text: &str, symbol: &str| {
            Quantity::of(Number::parse(text).unwrap(), find_unit(symbol).unwrap()).unwrap()
        };
        assert_eq!(
            Quantity::feet_inches(Number::whole(24), Number::parse("6½").unwrap()).unwrap(),
            of("294.5", "in")
        );
        assert_eq!(of("1", "m").number, Number::ONE);
        assert_eq!(of("25.4", "mm"), of("1", "in"));
        assert_eq!(of("2,000", "lb"), of("1", "ton"));
        assert_ne!(of("1", "ton"), of("1", "t"));
        assert_eq!(
            Quantity::percent(Number::whole(50)),
            Some(Quantity::proportion(half))
        );
        assert_ne!(
            Quantity::percent(Number::whole(50)),
            Some(Quantity::plain(half))
        );
        assert_eq!(
            of("10", "ft").in_unit(&unit::INCH),
            Some(Number::whole(120))
        );
        assert_eq!(of("10", "ft").in_unit(&unit::POUND), None);
        assert_eq!(of("180", "deg").radians(), std::f64::consts::PI);
    }

    #[test]
    fn only_a_zero_without_unit_is_bare() {
        assert!(Quantity::plain(Number::ZERO).is_bare_zero());
        assert!(!Quantity::proportion(Number::ZERO).is_bare_zero());
        assert!(!Quantity::new(Number::ZERO, Dimension::LENGTH).is_bare_zero());
        assert!(!Quantity::plain(Number::ONE).is_bare_zero());
    }

    #[test]
    fn a_dollar_takes_the_currency_of_its_job() {
        let price = Quantity::money(Number::ONE, Currency::Dollar);
        assert_eq!(price.resolved(Currency::Aud).currency, Some(Currency::Aud));
        assert_eq!(
            price.resolved(Currency::Eur).currency,
            Some(Currency::Dollar)
        );
        assert_eq!(
            Quantity::plain(Number::ONE)
                .resolved(Currency::Aud)
                .currency,
            None
        );
    }
}
