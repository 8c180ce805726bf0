//! Lengths.

use super::digits::{measure, rounds_below};
use super::feet_inches;
use crate::units::System;
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

#[cfg(test)]
mod tests {
    use super::super::{NO_FIGURE, TOO_LARGE};
    use super::*;

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
