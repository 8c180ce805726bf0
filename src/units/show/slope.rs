//! Slopes and shares.

use super::digits::measure;

/// Slopes flatter than this are not said as one in so many.
const FLATTEST: f64 = 0.000_1;

/// A slope as a fraction of one, in per cent and as one in so many:
/// `2.08 % (1:48)`. A slope that is none, or steeper than 1:1, in per cent only.
pub fn slope(slope: f64) -> String {
    let percent = measure(slope * 100.0, 2, " %");
    if !(FLATTEST..=1.0).contains(&slope.abs()) {
        return percent;
    }
    let run = 1.0 / slope.abs();
    let places = if run < 9.95 { 1 } else { 0 };
    format!("{percent} (1:{})", measure(run, places, ""))
}

/// The same with so many more decimals, of the ratio too.
pub(super) fn finely(slope: f64, more: u32) -> String {
    let percent = measure(slope * 100.0, 2 + more.saturating_sub(1), " %");
    format!("{percent} (1:{})", measure(1.0 / slope.abs(), more, ""))
}

/// A share as a fraction of one, in per cent: `12 %`.
pub fn share(share: f64) -> String {
    measure(share * 100.0, 2, " %")
}

#[cfg(test)]
mod tests {
    use super::super::{NO_FIGURE, TOO_LARGE};
    use super::*;

    #[test]
    fn slopes_are_said_both_ways() {
        for (value, shown) in [
            (1.0 / 48.0, "2.08 % (1:48)"),
            (1.0 / 60.0, "1.67 % (1:60)"),
            (0.02, "2 % (1:50)"),
            (-0.02, "-2 % (1:50)"),
            (1.0 / 12.0, "8.33 % (1:12)"),
            (0.125, "12.5 % (1:8)"),
            (0.4, "40 % (1:2.5)"),
            (1.0, "100 % (1:1)"),
            (2.0, "200 %"),
            (0.0, "0 %"),
            (0.000_09, "0.01 %"),
            (1.0 / 1_500.0, "0.07 % (1:1,500)"),
            (f64::NAN, NO_FIGURE),
            (f64::INFINITY, TOO_LARGE),
        ] {
            assert_eq!(slope(value), shown, "{value}");
        }
    }

    #[test]
    fn shares_are_in_per_cent() {
        for (value, shown) in [
            (0.12, "12 %"),
            (1.0 / 3.0, "33.33 %"),
            (0.0, "0 %"),
            (1.5, "150 %"),
        ] {
            assert_eq!(share(value), shown);
        }
    }
}
