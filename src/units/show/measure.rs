//! Rainfall, times, temperatures and angles.

use super::digits::{measure, number, places, rounds_below};
use crate::units::unit::{DAY, HOUR, INCH, MILLIMETRE, MINUTE};
use crate::units::{Dimension, Number, Quantity, Scale, System, degrees_in, find_unit};

/// A rainfall, or what the ground takes in, in metres a second:
/// `3.5 in/h` or `50 mm/h`.
pub fn rainfall(metres_per_second: f64, system: System) -> String {
    let metres_per_hour = metres_per_second * HOUR.size().to_f64();
    match system {
        System::Imperial => measure(INCH.from_base(metres_per_hour), 2, " in/h"),
        System::Metric => measure(MILLIMETRE.from_base(metres_per_hour), 1, " mm/h"),
    }
}

/// A depth of rain in metres, which no tape measures: `2.04 in` or `10.4 mm`.
pub fn rain_depth(metres: f64, system: System) -> String {
    match system {
        System::Imperial => measure(INCH.from_base(metres), 3, " in"),
        System::Metric => measure(MILLIMETRE.from_base(metres), 2, " mm"),
    }
}

/// How fast work is done, in base units for a second: `12 sq ft/h` or
/// `1.1 m²/h`; what is no such rate in base units.
pub fn output(output: &Quantity, system: System) -> String {
    let of = Dimension {
        time: 0,
        ..output.dimension
    };
    let unit = match (of, system) {
        (Dimension::AREA, System::Imperial) => "sq ft",
        (Dimension::AREA, System::Metric) => "m²",
        (Dimension::VOLUME, System::Imperial) => "cu yd",
        (Dimension::VOLUME, System::Metric) => "m³",
        (Dimension::MASS, System::Imperial) => "ton",
        (Dimension::MASS, System::Metric) => "t",
        _ => return number(output.si()),
    };
    let size = find_unit(unit).map_or(1.0, |unit| unit.size().to_f64());
    let in_an_hour = output.si() * HOUR.size().to_f64() / size;
    measure(in_an_hour, places(in_an_hour), &format!(" {unit}/h"))
}

/// A time in seconds: `45 min`, `2.5 h`, `7 days`.
pub fn time(seconds: f64) -> String {
    let (minutes, hours) = (MINUTE.from_base(seconds), HOUR.from_base(seconds));
    if rounds_below(minutes * 10.0, 600) {
        measure(minutes, 1, " min")
    } else if rounds_below(hours * 10.0, 480) {
        measure(hours, 1, " h")
    } else {
        measure(DAY.from_base(seconds), 1, " days")
    }
}

/// A temperature in kelvin: `40 °F` or `4.4 °C`.
pub fn temperature(kelvin: f64, system: System) -> String {
    let (scale, unit) = match system {
        System::Imperial => (Scale::Fahrenheit, " °F"),
        System::Metric => (Scale::Celsius, " °C"),
    };
    let degrees = degrees_in(Number::Near(kelvin), scale);
    measure(degrees.map_or(kelvin, Number::to_f64), 1, unit)
}

/// An angle in degrees: `35.2°`.
pub fn angle(degrees: f64) -> String {
    measure(degrees, 2, "°")
}

#[cfg(test)]
mod tests {
    use super::super::{NO_FIGURE, TOO_LARGE};
    use super::*;

    #[test]
    fn rainfall_is_shown_an_hour() {
        let inches = 3.5 * 0.0254 / 3_600.0;
        assert_eq!(rainfall(inches, System::Imperial), "3.5 in/h");
        assert_eq!(rainfall(inches, System::Metric), "88.9 mm/h");
        assert_eq!(rainfall(f64::NAN, System::Metric), NO_FIGURE);
    }

    #[test]
    fn rain_is_as_deep_as_it_is_stated() {
        for (millimetres, metric, imperial) in [
            (51.816, "51.82 mm", "2.04 in"),
            (10.4, "10.4 mm", "0.409 in"),
            (42.96, "42.96 mm", "1.691 in"),
            (42.0, "42 mm", "1.654 in"),
            (72.5424, "72.54 mm", "2.856 in"),
        ] {
            let metres = millimetres / 1_000.0;
            assert_eq!(rain_depth(metres, System::Metric), metric);
            assert_eq!(rain_depth(metres, System::Imperial), imperial);
        }
    }

    #[test]
    fn times_are_shown_in_the_unit_that_fits() {
        for (seconds, shown) in [
            (0.0, "0 min"),
            (90.0, "1.5 min"),
            (2_700.0, "45 min"),
            (3_599.0, "1 h"),
            (3_600.0, "1 h"),
            (9_000.0, "2.5 h"),
            (86_400.0, "24 h"),
            (172_799.0, "2 days"),
            (-7_200.0, "-2 h"),
            (604_800.0, "7 days"),
            (f64::INFINITY, TOO_LARGE),
        ] {
            assert_eq!(time(seconds), shown);
        }
    }

    #[test]
    fn temperatures_and_angles_are_in_degrees() {
        assert_eq!(temperature(277.594_444_444, System::Imperial), "40 °F");
        assert_eq!(temperature(277.594_444_444, System::Metric), "4.4 °C");
        assert_eq!(temperature(268.15, System::Metric), "-5 °C");
        assert_eq!(temperature(f64::NAN, System::Metric), NO_FIGURE);
        assert_eq!(temperature(f64::MAX, System::Imperial), TOO_LARGE);
        assert_eq!(angle(35.2), "35.2°");
        assert_eq!(angle(-90.0), "-90°");
    }
}
