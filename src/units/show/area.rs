//! Areas.

use super::digits::{measure, places};
use crate::units::System;
use crate::units::unit::SQUARE_FOOT;

/// An area in square metres: `436.5 sq ft` or `40.6 m²`.
pub fn area(square_metres: f64, system: System) -> String {
    match system {
        System::Imperial => {
            let square_feet = SQUARE_FOOT.from_base(square_metres);
            measure(square_feet, places(square_feet), " sq ft")
        }
        System::Metric => measure(square_metres, places(square_metres), " m²"),
    }
}

#[cfg(test)]
mod tests {
    use super::super::{NO_FIGURE, TOO_LARGE};
    use super::*;

    #[test]
    fn areas_are_shown_to_three_figures_at_least() {
        for (square_metres, imperial, metric) in [
            (40.552_177, "436.5 sq ft", "40.6 m²"),
            (29.0322, "312.5 sq ft", "29 m²"),
            (0.020_645_12, "0.222 sq ft", "0.0206 m²"),
            (4.645_152, "50 sq ft", "4.65 m²"),
            (2_000.0, "21,527.8 sq ft", "2,000 m²"),
            (0.0, "0 sq ft", "0 m²"),
            (f64::NAN, NO_FIGURE, NO_FIGURE),
            (1e300, TOO_LARGE, TOO_LARGE),
        ] {
            assert_eq!(area(square_metres, System::Imperial), imperial);
            assert_eq!(area(square_metres, System::Metric), metric);
        }
    }
}
