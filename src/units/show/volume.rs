//! Volumes.

use super::digits::{measure, places, rounds_below};
use crate::units::System;
use crate::units::unit::{CUBIC_FOOT, CUBIC_YARD, LITRE};

/// A volume in cubic metres: `7.2 cu yd` or `5.5 m³`; below a cubic yard in
/// cubic feet, below a tenth of a cubic metre in litres.
pub fn volume(cubic_metres: f64, system: System) -> String {
    volume_beside(cubic_metres, None, system)
}

/// A volume beside another that it is held against: both in the unit of the
/// larger.
pub fn volume_beside(cubic_metres: f64, other: Option<f64>, system: System) -> String {
    let largest = cubic_metres.abs().max(other.unwrap_or(0.0).abs());
    let (small, limit, small_unit, large, large_unit) = match system {
        System::Imperial => {
            let cubic_yards = CUBIC_YARD.from_base(cubic_metres);
            (&CUBIC_FOOT, 27, " cu ft", cubic_yards, " cu yd")
        }
        System::Metric => (&LITRE, 100, " L", cubic_metres, " m³"),
    };
    // As shown, to a tenth, so that no 27 cu ft are shown beside 1 cu yd.
    if rounds_below(small.from_base(largest) * 10.0, limit * 10) {
        let small = small.from_base(cubic_metres);
        measure(small, places(small), small_unit)
    } else {
        measure(large, places(large), large_unit)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{NO_FIGURE, TOO_LARGE};
    use super::*;

    #[test]
    fn two_volumes_are_shown_in_one_unit() {
        for (one, other, imperial, metric) in [
            (0.57, 4.3, "0.746 cu yd", "0.57 m³"),
            (4.3, 0.57, "5.62 cu yd", "4.3 m³"),
            (0.05, 0.06, "1.77 cu ft", "50 L"),
        ] {
            let beside = |system| volume_beside(one, Some(other), system);
            assert_eq!(beside(System::Imperial), imperial);
            assert_eq!(beside(System::Metric), metric);
        }
    }

    #[test]
    fn small_volumes_are_shown_in_small_units() {
        for (cubic_metres, imperial, metric) in [
            (5.5, "7.19 cu yd", "5.5 m³"),
            (8.0, "10.5 cu yd", "8 m³"),
            (0.764_554_857_984, "1 cu yd", "0.765 m³"),
            (0.763, "26.9 cu ft", "0.763 m³"),
            (0.1, "3.53 cu ft", "0.1 m³"),
            (0.099_9, "3.53 cu ft", "99.9 L"),
            (0.099_96, "3.53 cu ft", "0.1 m³"),
            (0.005, "0.177 cu ft", "5 L"),
            (-5.5, "-7.19 cu yd", "-5.5 m³"),
            (f64::NAN, NO_FIGURE, NO_FIGURE),
            (f64::INFINITY, TOO_LARGE, TOO_LARGE),
        ] {
            assert_eq!(
                volume(cubic_metres, System::Imperial),
                imperial,
                "{cubic_metres}"
            );
            assert_eq!(
                volume(cubic_metres, System::Metric),
                metric,
                "{cubic_metres}"
            );
        }
    }
}
