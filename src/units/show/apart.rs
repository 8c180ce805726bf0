//! Figures shown so finely that they are told from the one beside them.

use super::digits::measure;
use super::{number, quantity, slope};
use crate::units::unit::{INCH, MILLIMETRE};
use crate::units::{Dimension, Kind, Quantity, System};

/// So many more decimals are shown at most.
const MOST: u32 = 4;

/// A figure as it is usually shown, or with as many more decimals as it takes
/// for it to read unlike another that it differs from: `1.99 % (1:50.3)` beside
/// `2 % (1:50)`.
pub fn apart(figure: &Quantity, other: &str, system: System) -> String {
    let usual = quantity(figure, system);
    if !reads_alike(&usual, other) {
        return usual;
    }
    let mut finer = (1..=MOST).map(|more| finely(figure, more, system));
    let unlike = finer.find(|text| !reads_alike(text, other));
    unlike.unwrap_or(usual)
}

/// Whether two figures are the same text, or give the same ratio.
fn reads_alike(one: &str, other: &str) -> bool {
    let ratio = |text: &str| text.split_once('(').map(|(_, ratio)| ratio.to_owned());
    one == other || (ratio(one).is_some() && ratio(one) == ratio(other))
}

/// A figure with so many more decimals than usual.
fn finely(figure: &Quantity, more: u32, system: System) -> String {
    let value = figure.si();
    match (figure.dimension, figure.kind) {
        (Dimension::NONE, Kind::Proportion) => slope::finely(value, more),
        (Dimension::NONE, _) => number(value),
        (Dimension::LENGTH, _) => match system {
            System::Imperial => measure(INCH.from_base(value), 1 + more, " in"),
            System::Metric => measure(MILLIMETRE.from_base(value), more, " mm"),
        },
        _ => quantity(figure, system),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Number;

    #[test]
    fn what_differs_reads_unlike() {
        let slope = |value| Number::near(value).map(Quantity::proportion);
        let length = |value| Quantity::near(value, Dimension::LENGTH);
        let number = |value| Number::near(value).map(Quantity::plain);
        for (figure, other, system, shown) in [
            (
                slope(0.0199),
                "2 % (1:50)",
                System::Metric,
                "1.99 % (1:50.3)",
            ),
            (
                slope(1.0 / 47.0),
                "2.08 % (1:48)",
                System::Metric,
                "2.13 % (1:47)",
            ),
            (slope(0.051), "5 % (1:20)", System::Metric, "5.1 % (1:19.6)"),
            (length(0.0254 / 32.0), "1/16\"", System::Imperial, "0.03 in"),
            (length(0.9), "1 m", System::Metric, "900 mm"),
            (length(0.900_4), "900 mm", System::Metric, "900.4 mm"),
            (number(36.25), "36", System::Metric, "36.25"),
        ] {
            assert_eq!(apart(&figure.unwrap(), other, system), shown);
        }
    }
}
