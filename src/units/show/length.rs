//! Lengths.

use super::digits::{measure, rounds_below};
use super::feet_inches;
use crate::units::System;
use crate::units::rounding::nearest;
use crate::units::unit::MILLIMETRE;

/// A length in metres: feet and inches, or millimetres below a metre and
/// metres to the millimetre from there on: `24' 1"`, `150 mm`, `3.6 m`.
/// Below 10 mm tenths are shown.
pub fn length(metres: f64, system: System) -> String {
    let millimetres = MILLIMETRE.from_base(metres);
    match system {
        System::Imperial => feet_inches(metres),
        System::Metric if rounds_below(millimetres * 10.0, 100) => measure(millimetres, 1, " mm"),
        System::Metric if rounds_below(millimetres, 1_000) => measure(millimetres, 0, " mm"),
        System::Metric => measure(metres, 3, " m"),
    }
}

/// A length as it is read off a tape or a staff: to 1/16 in or to the whole
/// millimetre, however short.
pub fn read_off(metres: f64, system: System) -> String {
    let mark = match system {
        System::Imperial => metres,
        System::Metric => MILLIMETRE.from_base(metres).round() / 1000.0,
    };
    length(mark, system)
}

/// The sides of one thing, all in one unit: what has a side under a metre is in
/// millimetres, `1800 mm` by `320 mm`. A side that was written in tenths of a
/// millimetre keeps them, `102.5 mm`: it is bought by that size.
pub fn sides<const N: usize>(metres: [f64; N], system: System) -> [String; N] {
    let is_short = |side: &f64| rounds_below(MILLIMETRE.from_base(*side), 1_000);
    let is_in_millimetres = system == System::Metric && metres.iter().any(is_short);
    metres.map(|side| match is_in_millimetres {
        // No comma: two sides in a list would read as more.
        true if tenths_of_millimetres(side) > 0 || !is_short(&side) => measure(
            MILLIMETRE.from_base(side),
            tenths_of_millimetres(side),
            " mm",
        )
        .replace(',', ""),
        _ => length(side, system),
    })
}

/// The decimals that a size in millimetres is written with: one where it comes
/// out in tenths, as what somebody wrote does, and none for what was worked out.
pub(crate) fn tenths_of_millimetres(metres: f64) -> u32 {
    let tenths = MILLIMETRE.from_base(metres) * 10.0;
    let is_even = (tenths - nearest(tenths)).abs() < 1e-6;
    u32::from(is_even && (nearest(tenths) % 10.0).abs() > 0.5)
}

#[cfg(test)]
mod tests {
    use super::super::{NO_FIGURE, TOO_LARGE};
    use super::*;

    #[test]
    fn the_sides_of_one_thing_are_in_one_unit() {
        let metric = |sides: [f64; 3]| super::sides(sides, System::Metric).join(" by ");
        assert_eq!(metric([1.8, 0.32, 0.05]), "1800 mm by 320 mm by 50 mm");
        assert_eq!(metric([1.8, 1.5, 1.2]), "1.8 m by 1.5 m by 1.2 m");
        assert_eq!(metric([0.6, 0.6, 0.0055]), "600 mm by 600 mm by 5.5 mm");
        let brick = metric([0.215, 0.1025, 0.065]);
        assert_eq!(brick, "215 mm by 102.5 mm by 65 mm");
        assert_eq!(
            metric([1.2192, 0.0985, 1.0 / 3.0]),
            "1219.2 mm by 98.5 mm by 333 mm"
        );
        let imperial = super::sides([0.6096, 0.3048], System::Imperial);
        assert_eq!(imperial.join(" by "), "2' 0\" by 1' 0\"");
    }

    #[test]
    fn metric_lengths_are_in_millimetres_below_a_metre() {
        for (metres, shown) in [
            (0.15, "150 mm"),
            (0.0032, "3.2 mm"),
            (0.003, "3 mm"),
            (0.009_96, "10 mm"),
            (0.0124, "12 mm"),
            (0.999_4, "999 mm"),
            (0.999_5, "1 m"),
            (3.6, "3.6 m"),
            (7.3152, "7.315 m"),
            (1_234.5, "1,234.5 m"),
            (-0.06, "-60 mm"),
            (0.0, "0 mm"),
            (f64::NAN, NO_FIGURE),
            (f64::INFINITY, TOO_LARGE),
        ] {
            assert_eq!(length(metres, System::Metric), shown, "{metres}");
        }
        assert_eq!(length(7.34, System::Imperial), "24' 1\"");
    }

    #[test]
    fn nobody_reads_tenths_of_a_millimetre_off_a_staff() {
        for (metres, shown) in [
            (0.0032, "3 mm"),
            (-0.0027, "-3 mm"),
            (0.0004, "0 mm"),
            (-0.0004, "0 mm"),
            (1.2346, "1.235 m"),
        ] {
            assert_eq!(read_off(metres, System::Metric), shown, "{metres}");
        }
        assert_eq!(read_off(0.0254, System::Imperial), "1\"");
    }
}
