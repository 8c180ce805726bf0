//! A number, exact as long as it can be.

use std::cmp::Ordering;

use num_rational::Ratio;

use super::exact::{self, Fraction, Held};
use super::rounding::nearest;

/// How far above a whole number, relative to it, a number that is not exact
/// may stand and still be taken for it, so that 12 bags that were worked out
/// as 12.0000000001 are not ordered as 13.
const NEARLY_WHOLE: f64 = 1e-9;

/// A number, exact as long as it can be.
///
/// What a specification writes is exact, and so is what sums, differences,
/// products and quotients make of it: counts and comparisons at a limit can
/// be trusted. A number that grows past what fits, or that comes from a
/// curve or a root, is a near one, and all that is worked out from it is too.
///
/// A near number is finite when it was made by the functions here. None of
/// them panics, whatever they are given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Number {
    /// Exactly this fraction.
    Exact(Held),
    /// This, or very nearly.
    Near(f64),
}

impl Number {
    /// Zero.
    pub const ZERO: Self = Self::whole(0);
    /// One.
    pub const ONE: Self = Self::whole(1);

    /// A whole number.
    pub const fn whole(value: i64) -> Self {
        Self::exact(Ratio::new_raw(value as i128, 1))
    }

    /// Exactly a fraction.
    pub const fn exact(fraction: Fraction) -> Self {
        Self::Exact(Held::new(fraction))
    }

    /// The exact `numerator / denominator`; nothing if the denominator is zero.
    pub fn ratio(numerator: i128, denominator: i128) -> Option<Self> {
        match exact::reduced(numerator, denominator) {
            Some(fraction) => Some(Self::exact(fraction)),
            None => Self::near(numerator as f64 / denominator as f64),
        }
    }

    /// A number from a computation that is not exact; nothing if it is
    /// infinite or no number.
    pub fn near(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self::Near(value))
    }

    /// The number as a float; the closest one, give or take its last digit.
    pub fn to_f64(self) -> f64 {
        match self {
            Self::Exact(held) => {
                let fraction = held.fraction();
                *fraction.numer() as f64 / *fraction.denom() as f64
            }
            Self::Near(value) => value,
        }
    }

    /// True if no rounding has touched the number.
    pub const fn is_exact(self) -> bool {
        matches!(self, Self::Exact(_))
    }

    /// True for zero.
    pub fn is_zero(self) -> bool {
        match self {
            Self::Exact(held) => *held.fraction().numer() == 0,
            Self::Near(value) => value == 0.0,
        }
    }

    /// True below zero.
    pub fn is_negative(self) -> bool {
        self.compare(Self::ZERO).is_lt()
    }

    /// The sum; nothing if it is too large for any number.
    pub fn plus(self, other: Self) -> Option<Self> {
        self.combine(other, exact::sum, |a, b| a + b)
    }

    /// The difference; nothing if it is too large for any number.
    pub fn minus(self, other: Self) -> Option<Self> {
        self.plus(other.negated())
    }

    /// The product; nothing if it is too large for any number.
    pub fn times(self, other: Self) -> Option<Self> {
        self.combine(other, exact::product, |a, b| a * b)
    }

    /// The quotient; nothing if `other` is zero or the result too large.
    pub fn divided_by(self, other: Self) -> Option<Self> {
        if other.is_zero() {
            return None;
        }
        self.combine(other, exact::quotient, |a, b| a / b)
    }

    /// The number as far on the other side of zero.
    #[must_use]
    pub fn negated(self) -> Self {
        match self {
            Self::Exact(held) => {
                exact::negated(held.fraction()).map_or(Self::Near(-self.to_f64()), Self::exact)
            }
            Self::Near(value) => Self::Near(-value),
        }
    }

    /// The number without its sign.
    #[must_use]
    pub fn absolute(self) -> Self {
        if self.is_negative() {
            self.negated()
        } else {
            self
        }
    }

    /// Which of two numbers is greater: exactly if both are exact, otherwise
    /// as floats, where no-number comes after all others.
    pub fn compare(self, other: Self) -> Ordering {
        if let (Self::Exact(a), Self::Exact(b)) = (self, other)
            && let Some(order) = exact::order(a.fraction(), b.fraction())
        {
            return order;
        }
        let (a, b) = (self.to_f64(), other.to_f64());
        a.partial_cmp(&b)
            .unwrap_or_else(|| a.is_nan().cmp(&b.is_nan()))
    }

    /// The smaller of two numbers.
    #[must_use]
    pub fn min(self, other: Self) -> Self {
        if other.compare(self).is_lt() {
            other
        } else {
            self
        }
    }

    /// The greater of two numbers.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        if other.compare(self).is_gt() {
            other
        } else {
            self
        }
    }

    /// The largest whole number not above this one. A near number that lies
    /// a hair below a whole one counts as that one.
    #[must_use]
    pub fn floor(self) -> Self {
        match self {
            Self::Exact(held) => exact::floor(held.fraction()).map_or(self, whole_exact),
            Self::Near(value) => whole_near((value + hair(value)).floor()),
        }
    }

    /// The smallest whole number not below this one. A near number that lies
    /// a hair above a whole one counts as that one.
    #[must_use]
    pub fn ceil(self) -> Self {
        self.negated().floor().negated()
    }

    /// The nearest whole number; from half way, the one further from zero. A
    /// near number that computing left a hair below half way goes up too.
    #[must_use]
    pub fn round(self) -> Self {
        let half = Self::exact(exact::constant(1, 2));
        match (self, self.absolute().plus(half)) {
            (Self::Exact(_), Some(size @ Self::Exact(_))) if self.is_negative() => {
                size.floor().negated()
            }
            (Self::Exact(_), Some(size @ Self::Exact(_))) => size.floor(),
            _ => whole_near(nearest(self.to_f64())),
        }
    }

    /// The smallest multiple of `step` not below this number, as when goods
    /// are sold in steps; the number itself if `step` is not above zero.
    #[must_use]
    pub fn round_up_to_step(self, step: Self) -> Self {
        if step.compare(Self::ZERO).is_le() {
            return self;
        }
        let steps = self.divided_by(step).map(Self::ceil);
        steps.and_then(|steps| steps.times(step)).unwrap_or(self)
    }

    fn combine(
        self,
        other: Self,
        exactly: impl Fn(Fraction, Fraction) -> Option<Fraction>,
        nearly: impl Fn(f64, f64) -> f64,
    ) -> Option<Self> {
        if let (Self::Exact(a), Self::Exact(b)) = (self, other)
            && let Some(result) = exactly(a.fraction(), b.fraction())
        {
            return Some(Self::exact(result));
        }
        Self::near(nearly(self.to_f64(), other.to_f64()))
    }
}

impl From<i64> for Number {
    fn from(value: i64) -> Self {
        Self::whole(value)
    }
}

fn whole_exact(value: i128) -> Number {
    Number::ratio(value, 1).unwrap_or(Number::Near(value as f64))
}

/// A whole number is exact again, as what is counted is, unless it is so
/// large that floats have gaps between whole numbers there.
fn whole_near(value: f64) -> Number {
    const LAST_WITHOUT_GAPS: f64 = 9_007_199_254_740_992.0;
    if value.abs() <= LAST_WITHOUT_GAPS {
        Number::whole(value as i64)
    } else {
        Number::Near(value)
    }
}

fn hair(value: f64) -> f64 {
    NEARLY_WHOLE * value.abs().max(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn ratio(n: i128, d: i128) -> Number {
        Number::ratio(n, d).unwrap()
    }

    #[test]
    fn three_tenths_in_tenths_are_three() {
        let (tenth, fifth) = (ratio(1, 10), ratio(2, 10));
        let tenths = tenth
            .plus(fifth)
            .and_then(|sum| sum.divided_by(tenth))
            .unwrap();
        assert_eq!(tenths.ceil(), Number::whole(3));
        assert_eq!(
            ((0.1_f64 + 0.2) / 0.1).ceil(),
            4.0,
            "what floats would have given"
        );
    }

    #[test]
    fn what_does_not_fit_is_near_from_then_on() {
        let mut sum = Number::ZERO;
        for n in 1..=120 {
            sum = sum.plus(ratio(1, n)).unwrap();
        }
        assert!(!sum.is_exact());
        assert!(!sum.minus(sum).unwrap().is_exact());
        assert!((sum.to_f64() - 5.368_868_287_353_394).abs() < 1e-12);
    }

    #[test]
    fn some_results_are_no_number() {
        let largest = Number::Near(f64::MAX);
        assert_eq!(Number::ONE.divided_by(Number::ZERO), None);
        assert_eq!(Number::ONE.divided_by(Number::Near(0.0)), None);
        assert_eq!(largest.plus(largest), None);
        assert_eq!(largest.times(largest), None);
        assert_eq!(Number::ratio(1, 0), None);
        assert_eq!(Number::near(f64::NAN), None);
        assert_eq!(Number::near(f64::INFINITY), None);
    }

    #[test]
    fn numbers_are_rounded_as_counts_are() {
        for (number, floor, round, ceil) in [
            (ratio(5, 2), 2, 3, 3),
            (ratio(-5, 2), -3, -3, -2),
            (ratio(7, 3), 2, 2, 3),
            (Number::whole(4), 4, 4, 4),
            (Number::Near(12.000_000_000_1), 12, 12, 12),
            (Number::Near(11.999_999_999_9), 12, 12, 12),
            (Number::Near(12.000_1), 12, 12, 13),
            (Number::Near(-0.4), -1, 0, 0),
        ] {
            assert_eq!(number.floor(), Number::whole(floor), "{number:?}");
            assert_eq!(number.round(), Number::whole(round), "{number:?}");
            assert_eq!(number.ceil(), Number::whole(ceil), "{number:?}");
        }
    }

    #[test]
    fn orders_are_rounded_up_to_a_step() {
        for (number, step, rounded) in [
            (ratio(731, 100), ratio(1, 4), ratio(15, 2)),
            (ratio(15, 2), ratio(1, 4), ratio(15, 2)),
            (Number::Near(7.3), ratio(1, 10), ratio(73, 10)),
            (Number::Near(7.31), ratio(1, 10), ratio(74, 10)),
            (Number::whole(7), Number::ZERO, Number::whole(7)),
            (Number::whole(7), Number::whole(-2), Number::whole(7)),
            (
                Number::Near(1e300),
                Number::Near(1e-300),
                Number::Near(1e300),
            ),
        ] {
            assert_eq!(
                number.round_up_to_step(step),
                rounded,
                "{number:?} by {step:?}"
            );
        }
    }

    #[test]
    fn comparison_is_exact_between_exact_numbers() {
        let third = ratio(1, 3);
        let hardly_more = ratio((1 << 60) + 1, 3 << 60);
        assert_eq!(third.to_f64(), hardly_more.to_f64());
        assert!(third.compare(hardly_more).is_lt());
        assert!(ratio(1, 2).compare(Number::Near(0.5)).is_eq());
        assert!(Number::ZERO.compare(Number::Near(-0.0)).is_eq());
        assert!(Number::Near(f64::NAN).compare(Number::ONE).is_gt());
        assert!(
            Number::Near(f64::NAN)
                .compare(Number::Near(f64::NAN))
                .is_eq()
        );
        assert_eq!(ratio(1, 2).min(ratio(1, 3)), ratio(1, 3));
        assert_eq!(ratio(1, 2).max(ratio(1, 3)), ratio(1, 2));
    }

    /// Any number at all, also such as no function here would make.
    fn any_number() -> impl Strategy<Value = Number> {
        let wide = prop_oneof![any::<i128>(), -99i128..99, Just(i128::MIN), Just(i128::MAX)];
        prop_oneof![
            (wide.clone(), wide).prop_map(|(n, d)| Number::exact(Ratio::new_raw(n, d))),
            any::<f64>().prop_map(Number::Near),
        ]
    }

    proptest! {
        #[test]
        fn no_arithmetic_panics(a in any_number(), b in any_number()) {
            let results = [a.plus(b), a.minus(b), a.times(b), a.divided_by(b)];
            for result in results.into_iter().flatten() {
                prop_assert!(result.to_f64().is_finite());
            }
            let _ = (a.floor(), a.ceil(), a.round(), a.round_up_to_step(b), a.absolute());
            let _ = (a.compare(b), a.min(b), a.max(b), a.is_zero());
        }

        #[test]
        fn order_can_be_turned_round(a in any_number(), b in any_number()) {
            prop_assert_eq!(a.compare(b), b.compare(a).reverse());
        }

        #[test]
        fn a_step_is_never_below(n in -99_999i128..99_999, d in 1i128..999, s in 1i128..99) {
            let (number, step) = (ratio(n, d), ratio(s, 20));
            let rounded = number.round_up_to_step(step);
            prop_assert!(rounded.compare(number).is_ge());
            prop_assert!(rounded.minus(step).unwrap().compare(number).is_lt());
        }
    }
}
