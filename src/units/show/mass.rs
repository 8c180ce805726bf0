//! Masses, and what is mass over something or something over mass.

use super::digits::{few_places, measure, places, rounds_below};
use crate::units::System;
use crate::units::unit::{
    MEGAPASCAL, POUND, POUND_PER_CUBIC_FOOT, POUND_PER_SQUARE_INCH, SQUARE_FOOT, TON, TONNE,
};

/// A mass in kilograms: `14.6 tons` or `13.25 t`; below 1,000 pounds or
/// kilograms in those.
pub fn mass(kilograms: f64, system: System) -> String {
    let (pounds, tons) = (POUND.from_base(kilograms), TON.from_base(kilograms));
    match system {
        System::Imperial if rounds_below(pounds, 1_000) => {
            measure(pounds, few_places(pounds), " lb")
        }
        System::Imperial => match measure(tons, places(tons), "").as_str() {
            "1" => "1 ton".to_owned(),
            _ => measure(tons, places(tons), " tons"),
        },
        System::Metric if rounds_below(kilograms, 1_000) => {
            measure(kilograms, few_places(kilograms), " kg")
        }
        System::Metric => measure(TONNE.from_base(kilograms), 2, " t"),
    }
}

/// A density in kg/m³: `150 lb/cu ft` or `2,400 kg/m³`.
pub fn density(density: f64, system: System) -> String {
    match system {
        System::Imperial => measure(POUND_PER_CUBIC_FOOT.from_base(density), 1, " lb/cu ft"),
        System::Metric => measure(density, few_places(density), " kg/m³"),
    }
}

/// A load in kg/m²: `20.5 lb/sq ft` or `100 kg/m²`.
pub fn load(load: f64, system: System) -> String {
    match system {
        System::Imperial => {
            let pounds = POUND.from_base(load) * SQUARE_FOOT.size().to_f64();
            measure(pounds, places(pounds), " lb/sq ft")
        }
        System::Metric => measure(load, places(load), " kg/m²"),
    }
}

/// A strength in pascals: `2,500 psi` or `17.2 MPa`.
pub fn strength(pascals: f64, system: System) -> String {
    match system {
        System::Imperial => measure(POUND_PER_SQUARE_INCH.from_base(pascals), 0, " psi"),
        System::Metric => measure(MEGAPASCAL.from_base(pascals), 1, " MPa"),
    }
}

/// How far a material goes, in m²/kg: `120 sq ft/ton` or `12.3 m²/t`.
pub fn coverage(coverage: f64, system: System) -> String {
    match system {
        System::Imperial => {
            let square_feet = SQUARE_FOOT.from_base(coverage) * TON.size().to_f64();
            measure(square_feet, places(square_feet), " sq ft/ton")
        }
        System::Metric => {
            let square_metres = coverage * TONNE.size().to_f64();
            measure(square_metres, places(square_metres), " m²/t")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{NO_FIGURE, TOO_LARGE};
    use super::*;

    const A_POUND: f64 = 0.453_592_37;

    #[test]
    fn masses_from_a_thousand_on_are_in_tons() {
        for (pounds, shown) in [
            (564.0, "564 lb"),
            (564.4, "564 lb"),
            (20.5, "20.5 lb"),
            (1.25, "1.25 lb"),
            (999.4, "999 lb"),
            (999.5, "0.5 tons"),
            (2_000.0, "1 ton"),
            (29_200.0, "14.6 tons"),
            (-29_200.0, "-14.6 tons"),
            (f64::NAN, NO_FIGURE),
            (f64::INFINITY, TOO_LARGE),
        ] {
            assert_eq!(mass(pounds * A_POUND, System::Imperial), shown, "{pounds}");
        }
        for (kilograms, shown) in [
            (420.0, "420 kg"),
            (0.5, "0.5 kg"),
            (13_250.0, "13.25 t"),
            (999.6, "1 t"),
            (1_000.0, "1 t"),
            (0.0, "0 kg"),
        ] {
            assert_eq!(mass(kilograms, System::Metric), shown, "{kilograms}");
        }
    }

    #[test]
    fn rates_of_mass_are_shown_in_both_systems() {
        let pcf = POUND_PER_CUBIC_FOOT.size().to_f64();
        assert_eq!(density(150.0 * pcf, System::Imperial), "150 lb/cu ft");
        assert_eq!(density(93.55 * pcf, System::Imperial), "93.6 lb/cu ft");
        assert_eq!(density(2_400.0, System::Metric), "2,400 kg/m³");
        assert_eq!(load(100.0, System::Imperial), "20.5 lb/sq ft");
        assert_eq!(load(100.0, System::Metric), "100 kg/m²");
        let coverage_of = 120.0 * SQUARE_FOOT.size().to_f64() / TON.size().to_f64();
        assert_eq!(coverage(coverage_of, System::Imperial), "120 sq ft/ton");
        assert_eq!(coverage(coverage_of, System::Metric), "12.3 m²/t");
    }
}
