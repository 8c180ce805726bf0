//! Flows of water.

use super::digits::measure;
use crate::units::System;
use crate::units::unit::{GALLON, LITRE, MINUTE};

/// A flow in cubic metres a second: `12 gal/min` or `0.75 L/s`.
pub fn flow(cubic_metres_per_second: f64, system: System) -> String {
    match system {
        System::Imperial => {
            let a_minute = cubic_metres_per_second * MINUTE.size().to_f64();
            measure(GALLON.from_base(a_minute), 1, " gal/min")
        }
        System::Metric => measure(LITRE.from_base(cubic_metres_per_second), 2, " L/s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn flows_are_shown_a_second_or_a_minute() {
        assert_eq!(flow(0.000_75, System::Metric), "0.75 L/s");
        assert_eq!(
            flow(0.003_785_411_784 / 60.0 * 12.0, System::Imperial),
            "12 gal/min"
        );
    }
}
