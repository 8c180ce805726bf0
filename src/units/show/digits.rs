//! Figures in digits: rounded, grouped by commas, without needless zeros.

use crate::units::rounding::nearest;

/// Shown for what is no number.
pub const NO_FIGURE: &str = "no figure";

/// Shown for a number beyond anything that is built.
pub const TOO_LARGE: &str = "too large to show";

/// Where [`TOO_LARGE`] begins.
const LARGEST: f64 = 1e15;

/// Figures of a float beyond which its digits mean nothing.
const LAST_EXACT: f64 = 9_007_199_254_740_992.0;

/// A plain number, to four decimals, or as many as a small one needs.
pub fn number(value: f64) -> String {
    measure(value, places(value).max(4), "")
}

/// Digits with a comma before every group of three, from the right.
pub fn grouped(digits: &str) -> String {
    let count = digits.chars().count();
    let mut result = String::with_capacity(count + count / 3);
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (count - index).is_multiple_of(3) {
            result.push(',');
        }
        result.push(digit);
    }
    result
}

/// A figure to so many decimals at most, and its unit with the space before.
pub(super) fn measure(value: f64, places: u32, unit: &str) -> String {
    match rounded(value, places) {
        Some(digits) => digits + unit,
        None if value.is_nan() => NO_FIGURE.to_owned(),
        None => TOO_LARGE.to_owned(),
    }
}

/// The decimals that show three figures, and one at least.
pub(super) fn places(value: f64) -> u32 {
    match value.abs() {
        size if size < 0.01 => 6,
        size if size < 0.1 => 4,
        size if size < 1.0 => 3,
        size if size < 10.0 => 2,
        _ => 1,
    }
}

/// The decimals that show three figures, and none from a hundred on.
pub(super) fn few_places(value: f64) -> u32 {
    if value.abs() < 99.95 {
        places(value)
    } else {
        0
    }
}

/// The nearest whole number to the size of a figure, from half way up;
/// nothing if there is none or it is too large.
pub(super) fn nearest_size(value: f64) -> Option<u64> {
    let size = nearest(value).abs();
    (size <= LAST_EXACT).then_some(size as u64)
}

/// True if a figure rounds to less than `limit` whole ones.
pub(super) fn rounds_below(value: f64, limit: u64) -> bool {
    nearest_size(value).is_some_and(|rounded| rounded < limit)
}

fn rounded(value: f64, places: u32) -> Option<String> {
    if value.is_nan() || value.abs() >= LARGEST {
        return None;
    }
    let sound = |places: &u32| value.abs() * 10_f64.powi(*places as i32) < LAST_EXACT;
    let places = (0..=places.min(6)).rev().find(sound)?;
    let scale = 10_u64.pow(places);
    let scaled = nearest_size(value * scale as f64)?;
    let whole = grouped(&(scaled / scale).to_string());
    let part = match places {
        0 => String::new(),
        places => format!("{:0width$}", scaled % scale, width = places as usize),
    };
    let part = part.trim_end_matches('0');
    let sign = if value < 0.0 && scaled > 0 { "-" } else { "" };
    let point = if part.is_empty() { "" } else { "." };
    Some(format!("{sign}{whole}{point}{part}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn numbers_are_shown_without_needless_digits() {
        for (value, shown) in [
            (0.0, "0"),
            (-0.0, "0"),
            (1.0, "1"),
            (-1.5, "-1.5"),
            (1_234.5, "1,234.5"),
            (1_000_000.0, "1,000,000"),
            (2.0 / 3.0, "0.6667"),
            (0.000_25, "0.00025"),
            (-0.000_000_1, "0"),
            (999_999_999_999_999.0, "999,999,999,999,999"),
            (1e15, TOO_LARGE),
            (-1e300, TOO_LARGE),
            (f64::INFINITY, TOO_LARGE),
            (f64::NEG_INFINITY, TOO_LARGE),
            (f64::NAN, NO_FIGURE),
        ] {
            assert_eq!(number(value), shown, "{value}");
        }
    }

    #[test]
    fn half_way_goes_up() {
        for (value, places, shown) in [
            (0.125, 2, "0.13"),
            (1.005, 2, "1.01"),
            (2.5, 0, "3"),
            (-2.5, 0, "-3"),
            (0.05, 1, "0.1"),
            (9.96, 1, "10"),
            (0.049_9, 1, "0"),
            (99.5, 0, "100"),
        ] {
            assert_eq!(measure(value, places, ""), shown, "{value}");
        }
    }

    #[test]
    fn digits_are_grouped_from_the_right() {
        for (digits, shown) in [
            ("", ""),
            ("1", "1"),
            ("123", "123"),
            ("1234", "1,234"),
            ("123456", "123,456"),
        ] {
            assert_eq!(grouped(digits), shown);
        }
    }

    proptest! {
        #[test]
        fn every_float_is_shown(value in any::<f64>(), places in any::<u32>()) {
            prop_assert!(!measure(value, places, "").is_empty());
            prop_assert!(!number(value).is_empty());
        }

        #[test]
        fn what_is_shown_is_near(value in -1e6..1e6_f64) {
            let shown: f64 = measure(value, 3, "").replace(',', "").parse().unwrap();
            // A computed figure within its own error of a tie is rounded up.
            let nudge = 1e-12 * value.abs() + 1e-9;
            prop_assert!((shown - value).abs() <= 0.000_5 + nudge);
        }
    }
}
