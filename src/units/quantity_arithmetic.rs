//! Arithmetic of quantities, which minds what they measure.

use std::cmp::Ordering;
use std::fmt;

use super::{Currency, Dimension, Kind, Number, Quantity};

/// Why two quantities have no sum, product or order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ArithmeticError {
    /// They measure different things and cannot be added or compared.
    Mismatch {
        /// What the first measures.
        left: Dimension,
        /// What the second measures.
        right: Dimension,
    },
    /// They are money of two currencies, and no rate between them is known.
    MixedCurrencies {
        /// The currency of the first.
        left: Currency,
        /// The currency of the second.
        right: Currency,
    },
    /// The second is zero and was to divide the first.
    DivisionByZero,
    /// The result is too large for any number.
    TooLarge,
    /// A temperature on a scale can be compared, but not reckoned with.
    Temperature,
}

impl fmt::Display for ArithmeticError {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Mismatch { left, right } => {
                write!(formatter, "{left} and {right} cannot be added or compared")
            }
            Self::MixedCurrencies { left, right } => {
                write!(
                    formatter,
                    "{left} and {right} are two currencies; use one of them"
                )
            }
            Self::DivisionByZero => formatter.write_str("this divides by zero"),
            Self::TooLarge => formatter.write_str("this comes to too large a number"),
            Self::Temperature => formatter
                .write_str("temperatures cannot be added, subtracted, multiplied or divided"),
        }
    }
}

impl std::error::Error for ArithmeticError {}

/// The outcome of arithmetic.
type Outcome<T = Quantity> = Result<T, ArithmeticError>;

impl Quantity {
    /// The sum of two quantities that measure the same; a bare zero goes
    /// with anything. A proportion and a plain number make a proportion.
    pub fn plus(self, other: Self) -> Outcome {
        self.combine(other, Number::plus)
    }

    /// The difference, under the terms of [`Quantity::plus`].
    pub fn minus(self, other: Self) -> Outcome {
        self.combine(other, Number::minus)
    }

    /// The product. A slope times a length is a length.
    pub fn times(self, other: Self) -> Outcome {
        self.refuse_temperature(other)?;
        let dimension = self
            .dimension
            .times(other.dimension)
            .ok_or(ArithmeticError::TooLarge)?;
        let number = self
            .number
            .times(other.number)
            .ok_or(ArithmeticError::TooLarge)?;
        self.composed(other, number, dimension)
    }

    /// The quotient. Like over like is a proportion: a drop over a run is a
    /// slope.
    pub fn divided_by(self, other: Self) -> Outcome {
        self.refuse_temperature(other)?;
        if other.number.is_zero() {
            return Err(ArithmeticError::DivisionByZero);
        }
        let dimension = self
            .dimension
            .divided_by(other.dimension)
            .ok_or(ArithmeticError::TooLarge)?;
        let number = self
            .number
            .divided_by(other.number)
            .ok_or(ArithmeticError::TooLarge)?;
        self.composed(other, number, dimension)
    }

    /// The quantity as far on the other side of zero.
    pub fn negated(self) -> Outcome {
        self.refuse_temperature(self)?;
        Ok(Self {
            number: self.number.negated(),
            ..self
        })
    }

    /// The smaller of two quantities that measure the same.
    pub fn min(self, other: Self) -> Outcome {
        let (left, right) = self.alike(other)?;
        Ok(if right.number.compare(left.number).is_lt() {
            right
        } else {
            left
        })
    }

    /// The greater of two quantities that measure the same.
    pub fn max(self, other: Self) -> Outcome {
        let (left, right) = self.alike(other)?;
        Ok(if right.number.compare(left.number).is_gt() {
            right
        } else {
            left
        })
    }

    /// Which of two quantities that measure the same is greater.
    pub fn compare(self, other: Self) -> Outcome<Ordering> {
        let (left, right) = self.alike(other)?;
        Ok(left.number.compare(right.number))
    }

    /// The smallest multiple of `step` not below this, both measuring the same.
    pub fn round_up_to_step(self, step: Self) -> Outcome {
        self.combine(step, |number, step| Some(number.round_up_to_step(step)))
    }

    fn combine(self, other: Self, numbers: impl Fn(Number, Number) -> Option<Number>) -> Outcome {
        let (left, right) = self.alike(other)?;
        left.refuse_temperature(right)?;
        let number = numbers(left.number, right.number).ok_or(ArithmeticError::TooLarge)?;
        Ok(Self { number, ..left })
    }

    /// Both quantities, as of one dimension, kind and currency.
    fn alike(self, other: Self) -> Outcome<(Self, Self)> {
        let (left, right) = (self.dimension, other.dimension);
        let dimension = if left == right || other.stands_for_none_of(left) {
            left
        } else if self.stands_for_none_of(right) {
            right
        } else {
            return Err(ArithmeticError::Mismatch { left, right });
        };
        let kind = if dimension.is_none() {
            self.wider_kind(other)
        } else {
            Kind::Plain
        };
        let currency = self.common_currency(other)?;
        let made = |number| Self {
            number,
            dimension,
            kind,
            currency,
        };
        Ok((made(self.number), made(other.number)))
    }

    fn stands_for_none_of(self, dimension: Dimension) -> bool {
        self.is_bare_zero() && dimension != Dimension::TEMPERATURE
    }

    /// A product or quotient of two quantities.
    fn composed(self, other: Self, number: Number, dimension: Dimension) -> Outcome {
        let common = self.common_currency(other)?;
        let kind = match dimension.is_none() {
            true if !self.dimension.is_none() => Kind::Proportion,
            true => self.wider_kind(other),
            false => Kind::Plain,
        };
        let currency = if dimension.money == 0 { None } else { common };
        Ok(Self {
            number,
            dimension,
            kind,
            currency,
        })
    }

    fn wider_kind(self, other: Self) -> Kind {
        if self.kind == Kind::Proportion {
            self.kind
        } else {
            other.kind
        }
    }

    fn common_currency(self, other: Self) -> Outcome<Option<Currency>> {
        match (self.currency, other.currency) {
            (Some(left), Some(right)) if left != right => {
                Err(ArithmeticError::MixedCurrencies { left, right })
            }
            (left, right) => Ok(left.or(right)),
        }
    }

    fn refuse_temperature(self, other: Self) -> Outcome<()> {
        match self.dimension.temperature == 0 && other.dimension.temperature == 0 {
            true => Ok(()),
            false => Err(ArithmeticError::Temperature),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::unit::{self, Unit};
    use super::super::{Scale, temperature_from};
    use super::*;
    use proptest::prelude::*;

    fn of(number: i64, unit: &Unit) -> Quantity {
        Quantity::of(Number::whole(number), unit).unwrap()
    }

    fn plain(number: i64) -> Quantity {
        Quantity::plain(Number::whole(number))
    }

    fn percent(number: i64) -> Quantity {
        Quantity::percent(Number::whole(number)).unwrap()
    }

    fn degrees(number: i64) -> Quantity {
        temperature_from(Number::whole(number), Scale::Fahrenheit).unwrap()
    }

    #[test]
    fn like_goes_with_like() {
        let (foot, inch) = (of(1, &unit::FOOT), of(1, &unit::INCH));
        assert_eq!(foot.plus(inch), Ok(of(13, &unit::INCH)));
        assert_eq!(foot.minus(inch), Ok(of(11, &unit::INCH)));
        assert_eq!(foot.minus(of(12, &unit::INCH)), Ok(of(0, &unit::INCH)));
        assert_eq!(foot.compare(of(12, &unit::INCH)), Ok(Ordering::Equal));
        assert_eq!(foot.max(inch), Ok(foot));
        assert_eq!(foot.min(inch), Ok(inch));
        assert_eq!(
            of(7, &unit::INCH).round_up_to_step(of(2, &unit::INCH)),
            Ok(of(8, &unit::INCH))
        );
        assert_eq!(inch.negated(), Ok(of(-1, &unit::INCH)));
    }

    #[test]
    fn different_things_are_refused_with_both_named() {
        let mismatch = |left, right| ArithmeticError::Mismatch { left, right };
        let (length, area) = (of(1, &unit::FOOT), of(1, &unit::SQUARE_FOOT));
        let refused = mismatch(Dimension::LENGTH, Dimension::AREA);
        assert_eq!(length.plus(area), Err(refused));
        assert_eq!(length.minus(area), Err(refused));
        assert_eq!(length.compare(area), Err(refused));
        assert_eq!(length.max(area), Err(refused));
        assert_eq!(
            length.plus(plain(1)),
            Err(mismatch(Dimension::LENGTH, Dimension::NONE))
        );
        assert_eq!(
            plain(5).plus(of(30, &unit::DEGREE)),
            Err(mismatch(Dimension::NONE, Dimension::ANGLE))
        );
        assert_eq!(
            refused.to_string(),
            "a length and an area cannot be added or compared"
        );
    }

    #[test]
    fn a_bare_zero_goes_with_anything_but_temperature() {
        let length = of(1, &unit::FOOT);
        assert_eq!(length.plus(plain(0)), Ok(length));
        assert_eq!(plain(0).minus(length), length.negated());
        assert_eq!(plain(0).max(of(-1, &unit::FOOT)), Ok(of(0, &unit::FOOT)));
        for (left, right) in [(plain(0), degrees(40)), (degrees(40), plain(0))] {
            let (left_is, right_is) = (left.dimension, right.dimension);
            let refused = ArithmeticError::Mismatch {
                left: left_is,
                right: right_is,
            };
            assert_eq!(left.compare(right), Err(refused));
        }
        assert!(length.plus(percent(0)).is_err());
    }

    #[test]
    fn products_and_quotients_measure_what_they_should() {
        let (foot, pound) = (of(1, &unit::FOOT), of(1, &unit::POUND));
        let area = foot.times(foot).unwrap();
        assert_eq!(area, of(1, &unit::SQUARE_FOOT));
        let density = pound.divided_by(area.times(foot).unwrap()).unwrap();
        assert_eq!(density, of(1, &unit::POUND_PER_CUBIC_FOOT));
        let slope = of(1, &unit::INCH).divided_by(of(50, &unit::INCH)).unwrap();
        assert_eq!(slope, percent(2));
        assert_eq!(slope.times(of(100, &unit::INCH)), Ok(of(2, &unit::INCH)));
    }

    #[test]
    fn a_proportion_stays_one() {
        for (result, kind) in [
            (percent(2).times(plain(3)), Kind::Proportion),
            (plain(3).times(percent(2)), Kind::Proportion),
            (percent(2).divided_by(plain(3)), Kind::Proportion),
            (plain(1).plus(percent(12)), Kind::Proportion),
            (
                of(1, &unit::POUND).divided_by(of(2, &unit::POUND)),
                Kind::Proportion,
            ),
            (plain(2).times(plain(3)), Kind::Plain),
            (plain(2).divided_by(plain(3)), Kind::Plain),
            (percent(2).times(of(1, &unit::FOOT)), Kind::Plain),
        ] {
            assert_eq!(result.unwrap().kind, kind);
        }
    }

    #[test]
    fn currencies_do_not_mix() {
        let money = |currency| Quantity::money(Number::whole(6), currency);
        let (pounds, euros) = (money(Currency::Gbp), money(Currency::Eur));
        let mixed = ArithmeticError::MixedCurrencies {
            left: Currency::Gbp,
            right: Currency::Eur,
        };
        assert_eq!(pounds.plus(euros), Err(mixed));
        assert_eq!(pounds.divided_by(euros), Err(mixed));
        assert_eq!(pounds.plus(pounds).unwrap().currency, Some(Currency::Gbp));
        assert_eq!(
            pounds.times(plain(2)).unwrap().currency,
            Some(Currency::Gbp)
        );
        let share = pounds.divided_by(pounds).unwrap();
        assert_eq!(share, Quantity::proportion(Number::ONE));
        let price = pounds.divided_by(of(3, &unit::KILOGRAM)).unwrap();
        assert_eq!(price.times(of(3, &unit::KILOGRAM)), Ok(pounds));
    }

    #[test]
    fn temperatures_are_only_compared() {
        assert_eq!(degrees(40).compare(degrees(50)), Ok(Ordering::Less));
        assert_eq!(degrees(40).max(degrees(50)), Ok(degrees(50)));
        for result in [
            degrees(40).plus(degrees(50)),
            degrees(40).minus(degrees(50)),
            degrees(40).times(plain(2)),
            plain(2).divided_by(degrees(40)),
            degrees(40).negated(),
        ] {
            assert_eq!(result, Err(ArithmeticError::Temperature));
        }
    }

    #[test]
    fn results_that_are_none_say_why() {
        assert_eq!(
            plain(1).divided_by(plain(0)),
            Err(ArithmeticError::DivisionByZero)
        );
        let largest = Quantity::plain(Number::Near(f64::MAX));
        assert_eq!(largest.plus(largest), Err(ArithmeticError::TooLarge));
        assert_eq!(largest.times(largest), Err(ArithmeticError::TooLarge));
        let mut high = of(1, &unit::METRE);
        for _ in 0..6 {
            high = high.times(high).unwrap();
        }
        assert_eq!(high.times(high), Err(ArithmeticError::TooLarge));
    }

    proptest! {
        #[test]
        fn no_arithmetic_panics(
            a in (any::<i64>(), 0..unit::UNITS.len()), b in (any::<i64>(), 0..unit::UNITS.len()),
        ) {
            let (a, b) = (of(a.0, unit::UNITS[a.1]), of(b.0, unit::UNITS[b.1]));
            let _ = (a.plus(b), a.minus(b), a.times(b), a.divided_by(b));
            let _ = (a.min(b), a.max(b), a.compare(b), a.round_up_to_step(b));
        }

        #[test]
        fn dividing_undoes_multiplying(a in 1i64..9_999, b in 1i64..9_999, u in 0..unit::UNITS.len()) {
            let (a, b) = (of(a, unit::UNITS[u]), of(b, &unit::FOOT));
            prop_assert_eq!(a.times(b).unwrap().divided_by(b), Ok(a));
        }
    }
}
