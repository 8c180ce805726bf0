//! Checked arithmetic on exact fractions.
//!
//! A fraction here is in lowest terms, with a denominator above zero and a
//! numerator that can be negated. Every function gives nothing when its
//! result does not fit, or when it is given something else.

use std::cmp::Ordering;

use num_rational::Ratio;

/// An exact fraction.
pub(crate) type Fraction = Ratio<i128>;

/// A fraction as a number holds it. It may lie at any word in memory, where a
/// [`Fraction`] takes up room so as to lie at every other one; there are very
/// many numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
#[repr(C, packed(8))]
pub struct Held(Fraction);

impl Held {
    /// The fraction, to be held.
    pub const fn new(fraction: Fraction) -> Held {
        Held(fraction)
    }

    /// The fraction, to be worked with.
    pub const fn fraction(self) -> Fraction {
        self.0
    }
}

/// `numerator / denominator` in lowest terms.
pub(crate) fn reduced(numerator: i128, denominator: i128) -> Option<Fraction> {
    let divisor = i128::try_from(common_divisor(numerator, denominator)).ok()?;
    if denominator == 0 || divisor == 0 {
        return None;
    }
    let (mut numerator, mut denominator) = (numerator / divisor, denominator / divisor);
    if denominator < 0 {
        (numerator, denominator) = (numerator.checked_neg()?, denominator.checked_neg()?);
    }
    (numerator != i128::MIN).then_some(Ratio::new_raw(numerator, denominator))
}

/// `numerator / denominator` in lowest terms, for tables that are constants.
///
/// Both must be above zero.
pub(super) const fn constant(numerator: i128, denominator: i128) -> Fraction {
    let (mut a, mut b) = (numerator, denominator);
    while b != 0 {
        (a, b) = (b, a % b);
    }
    Ratio::new_raw(numerator / a, denominator / a)
}

/// The sum of two fractions.
pub(crate) fn sum(a: Fraction, b: Fraction) -> Option<Fraction> {
    let shared = i128::try_from(common_divisor(*a.denom(), *b.denom())).ok()?;
    let a_share = a.denom().checked_div(shared)?;
    let b_share = b.denom().checked_div(shared)?;
    let left = a.numer().checked_mul(b_share)?;
    let right = b.numer().checked_mul(a_share)?;
    reduced(left.checked_add(right)?, a_share.checked_mul(*b.denom())?)
}

/// The fraction below zero by as much as this one is above.
pub(crate) fn negated(a: Fraction) -> Option<Fraction> {
    Some(Ratio::new_raw(a.numer().checked_neg()?, *a.denom()))
}

/// The product of two fractions.
pub(crate) fn product(a: Fraction, b: Fraction) -> Option<Fraction> {
    // Crosswise in lowest terms first, so that only a result too large overflows.
    let left = reduced(*a.numer(), *b.denom())?;
    let right = reduced(*b.numer(), *a.denom())?;
    reduced(
        left.numer().checked_mul(*right.numer())?,
        left.denom().checked_mul(*right.denom())?,
    )
}

/// The quotient of two fractions; nothing if `b` is zero.
pub(crate) fn quotient(a: Fraction, b: Fraction) -> Option<Fraction> {
    product(a, reduced(*b.denom(), *b.numer())?)
}

/// The largest whole number not above the fraction.
pub(crate) fn floor(a: Fraction) -> Option<i128> {
    a.numer().checked_div_euclid(*a.denom())
}

/// Which of two fractions is greater, exactly.
pub(crate) fn order(a: Fraction, b: Fraction) -> Option<Ordering> {
    if *a.denom() <= 0 || *b.denom() <= 0 {
        return None;
    }
    match (
        a.numer().checked_mul(*b.denom()),
        b.numer().checked_mul(*a.denom()),
    ) {
        (Some(left), Some(right)) => Some(left.cmp(&right)),
        _ => Some(a.cmp(&b)),
    }
}

fn common_divisor(a: i128, b: i128) -> u128 {
    let (mut a, mut b) = (a.unsigned_abs(), b.unsigned_abs());
    while b != 0 {
        // Almost every number fits half the width, where dividing is quick.
        (a, b) = match (u64::try_from(a), u64::try_from(b)) {
            (Ok(a), Ok(b)) => return u128::from(narrow_divisor(a, b)),
            _ => (b, a % b),
        };
    }
    a
}

fn narrow_divisor(mut a: u64, mut b: u64) -> u64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn fractions_are_kept_in_lowest_terms() {
        for (n, d, reduced_to) in [
            (6, 8, Some((3, 4))),
            (6, -8, Some((-3, 4))),
            (0, -8, Some((0, 1))),
            (i128::MIN, 2, Some((i128::MIN / 2, 1))),
            (1, 0, None),
            (0, 0, None),
            (i128::MIN, 1, None),
            (1, i128::MIN, None),
            (i128::MIN, i128::MIN, None),
        ] {
            let found = reduced(n, d).map(|a| (*a.numer(), *a.denom()));
            assert_eq!(found, reduced_to, "{n}/{d}");
        }
        assert_eq!(constant(254, 10_000), Ratio::new_raw(127, 5_000));
    }

    fn any_fraction() -> impl Strategy<Value = Fraction> {
        let wide = prop_oneof![any::<i128>(), -99i128..99, Just(i128::MIN), Just(i128::MAX)];
        (wide.clone(), wide).prop_map(|(n, d)| Ratio::new_raw(n, d))
    }

    proptest! {
        #[test]
        fn nothing_here_panics(a in any_fraction(), b in any_fraction()) {
            let _ = (sum(a, b), product(a, b), quotient(a, b), negated(a), floor(a), order(a, b));
        }

        #[test]
        fn small_fractions_follow_the_laws(
            (a, b, c) in (-999i128..999, 1i128..999, -999i128..999)
                .prop_map(|(n, d, m)| (reduced(n, d), reduced(m, d), reduced(m, 7)))
        ) {
            let (a, b, c) = (a.unwrap(), b.unwrap(), c.unwrap());
            prop_assert_eq!(sum(a, b), sum(b, a));
            prop_assert_eq!(
                product(a, sum(b, c).unwrap()),
                sum(product(a, b).unwrap(), product(a, c).unwrap())
            );
            if let Some(ratio) = quotient(a, b) {
                prop_assert_eq!(product(ratio, b), Some(a));
            }
            prop_assert_eq!(order(a, b), order(negated(b).unwrap(), negated(a).unwrap()));
        }
    }
}
