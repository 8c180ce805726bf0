//! The table of units.
//!
//! The inch is 25.4 mm and the avoirdupois pound 0.453 592 37 kg, both
//! exactly; the US gallon is 231 cubic inches, the short ton 2,000 lb, the
//! tonne 1,000 kg. These are the definitions of the international yard and
//! pound and of the National Institute of Standards and Technology, Handbook
//! 44, Appendix C, "General Tables of Units of Measurement"; stated from
//! memory. All other factors follow from them.

use num_rational::Ratio;

use super::exact::constant;
use super::{Dimension, Number, System};

/// A unit of measurement that a specification may be written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unit {
    /// The plain form, which the formatter writes.
    pub symbol: &'static str,
    /// What else is read as this unit, in lower case and with single spaces.
    pub spellings: &'static [&'static str],
    /// What it measures.
    pub dimension: Dimension,
    /// How many base units one of it is, exactly: metres, kilograms and
    /// seconds and what is made of them; degrees for an angle, since no
    /// whole angle is an exact number of radians.
    pub factor: Ratio<i128>,
    /// Which system it belongs to; none if both use it.
    pub system: Option<System>,
}

impl Unit {
    /// [`Unit::factor`] as a number.
    pub const fn size(&self) -> Number {
        Number::exact(self.factor)
    }

    /// A figure in base units as a figure in this unit.
    pub fn from_base(&self, value: f64) -> f64 {
        value / self.size().to_f64()
    }
}

/// Writes each unit once, as a static of its own and as a row of [`UNITS`].
macro_rules! table_of_units {
    ($($(#[$doc:meta])* $name:ident = $symbol:literal $spellings:expr,
        $dimension:ident, $numerator:literal / $denominator:literal, $system:expr;)*) => {
        $($(#[$doc])*
        pub static $name: Unit = Unit {
            symbol: $symbol,
            spellings: &$spellings,
            dimension: Dimension::$dimension,
            factor: constant($numerator, $denominator),
            system: $system,
        };)*

        /// Every unit of the language, by what it measures.
        pub static UNITS: &[&Unit] = &[$(&$name),*];
    };
}

const IMPERIAL: Option<System> = Some(System::Imperial);
const METRIC: Option<System> = Some(System::Metric);
const EITHER: Option<System> = None;

table_of_units! {
    /// 25.4 mm.
    INCH = "in" ["inch", "inches"], LENGTH, 254 / 10_000, IMPERIAL;
    /// 12 inches.
    FOOT = "ft" ["foot", "feet"], LENGTH, 3_048 / 10_000, IMPERIAL;
    /// 3 feet.
    YARD = "yd" [], LENGTH, 9_144 / 10_000, IMPERIAL;
    /// A thousandth of a metre.
    MILLIMETRE = "mm" [], LENGTH, 1 / 1_000, METRIC;
    /// A hundredth of a metre.
    CENTIMETRE = "cm" [], LENGTH, 1 / 100, METRIC;
    /// The base unit of length.
    METRE = "m" [], LENGTH, 1 / 1, METRIC;

    /// An inch squared.
    SQUARE_INCH = "sq in" [], AREA, 64_516 / 100_000_000, IMPERIAL;
    /// A foot squared.
    SQUARE_FOOT = "sq ft" ["sqft", "sf", "ft2", "ft²"], AREA, 9_290_304 / 100_000_000, IMPERIAL;
    /// A yard squared.
    SQUARE_YARD = "sq yd" ["yd2", "yd²"], AREA, 83_612_736 / 100_000_000, IMPERIAL;
    /// A metre squared.
    SQUARE_METRE = "m2" ["m²", "sqm", "sq m"], AREA, 1 / 1, METRIC;

    /// An inch cubed.
    CUBIC_INCH = "cu in" [], VOLUME, 16_387_064 / 1_000_000_000_000, IMPERIAL;
    /// A foot cubed.
    CUBIC_FOOT = "cu ft" ["ft3", "ft³"], VOLUME, 28_316_846_592 / 1_000_000_000_000, IMPERIAL;
    /// A yard cubed.
    CUBIC_YARD = "cu yd" ["cy", "yd3", "yd³"], VOLUME, 764_554_857_984 / 1_000_000_000_000, IMPERIAL;
    /// A metre cubed.
    CUBIC_METRE = "m3" ["m³", "cu m"], VOLUME, 1 / 1, METRIC;
    /// A thousandth of a cubic metre.
    LITRE = "L" [], VOLUME, 1 / 1_000, METRIC;
    /// The US gallon, 231 cubic inches.
    GALLON = "gal" [], VOLUME, 3_785_411_784 / 1_000_000_000_000, IMPERIAL;

    /// The avoirdupois pound.
    POUND = "lb" ["lbs"], MASS, 45_359_237 / 100_000_000, IMPERIAL;
    /// The base unit of mass.
    KILOGRAM = "kg" [], MASS, 1 / 1, METRIC;
    /// A thousandth of a kilogram.
    GRAM = "g" [], MASS, 1 / 1_000, METRIC;
    /// The US short ton, 2,000 pounds.
    TON = "ton" ["tons"], MASS, 90_718_474 / 100_000, IMPERIAL;
    /// 1,000 kilograms.
    TONNE = "t" ["tonne", "tonnes"], MASS, 1_000 / 1, METRIC;

    /// A pound in a cubic foot.
    POUND_PER_CUBIC_FOOT = "pcf" [], DENSITY, 453_592_370_000 / 28_316_846_592, IMPERIAL;

    /// A pound of force on a square inch.
    POUND_PER_SQUARE_INCH = "psi" [], STRENGTH, 44_482_216_152_605 / 6_451_600_000, IMPERIAL;
    /// A newton on a square millimetre.
    MEGAPASCAL = "MPa" [], STRENGTH, 1_000_000 / 1, METRIC;

    /// 60 seconds.
    MINUTE = "min" [], TIME, 60 / 1, EITHER;
    /// 60 minutes.
    HOUR = "h" ["hour", "hours"], TIME, 3_600 / 1, EITHER;
    /// 24 hours.
    DAY = "day" ["days"], TIME, 86_400 / 1, EITHER;
    /// 7 days.
    WEEK = "week" ["weeks"], TIME, 604_800 / 1, EITHER;

    /// A 360th of a full turn.
    DEGREE = "deg" ["°"], ANGLE, 1 / 1, EITHER;
}

/// The base unit of time. It is read below a slash where it is said how fast
/// the ground takes water, `m/s`, and nowhere else: there `s` is a name like
/// any other, and so it is no row of [`UNITS`].
pub static SECOND: Unit = Unit {
    symbol: "s",
    spellings: &[],
    dimension: Dimension::TIME,
    factor: constant(1, 1),
    system: EITHER,
};

#[cfg(test)]
mod tests {
    use super::super::exact::{product, quotient};
    use super::*;

    #[test]
    fn factors_follow_from_each_other() {
        let of = |unit: &Unit| unit.factor;
        let times = |a, b| product(a, b).unwrap();
        let whole = |n| constant(n, 1);
        for (whole_unit, parts) in [
            (&FOOT, times(of(&INCH), whole(12))),
            (&YARD, times(of(&FOOT), whole(3))),
            (&METRE, times(of(&CENTIMETRE), whole(100))),
            (&METRE, times(of(&MILLIMETRE), whole(1_000))),
            (&SQUARE_INCH, times(of(&INCH), of(&INCH))),
            (&SQUARE_FOOT, times(of(&FOOT), of(&FOOT))),
            (&SQUARE_YARD, times(of(&YARD), of(&YARD))),
            (&CUBIC_INCH, times(of(&SQUARE_INCH), of(&INCH))),
            (&CUBIC_FOOT, times(of(&SQUARE_FOOT), of(&FOOT))),
            (&CUBIC_YARD, times(of(&SQUARE_YARD), of(&YARD))),
            (&CUBIC_METRE, times(of(&LITRE), whole(1_000))),
            (&GALLON, times(of(&CUBIC_INCH), whole(231))),
            (&TON, times(of(&POUND), whole(2_000))),
            (&KILOGRAM, times(of(&GRAM), whole(1_000))),
            (&TONNE, times(of(&KILOGRAM), whole(1_000))),
            (
                &POUND_PER_CUBIC_FOOT,
                quotient(of(&POUND), of(&CUBIC_FOOT)).unwrap(),
            ),
            // Standard gravity is 9.806 65 m/s².
            (
                &POUND_PER_SQUARE_INCH,
                quotient(
                    times(of(&POUND), constant(980_665, 100_000)),
                    of(&SQUARE_INCH),
                )
                .unwrap(),
            ),
            (&HOUR, times(of(&MINUTE), whole(60))),
            (&DAY, times(of(&HOUR), whole(24))),
            (&WEEK, times(of(&DAY), whole(7))),
        ] {
            assert_eq!(of(whole_unit), parts, "{}", whole_unit.symbol);
        }
    }

    #[test]
    fn factors_are_in_lowest_terms_and_spellings_in_lower_case() {
        for unit in UNITS {
            let (n, d) = (*unit.factor.numer(), *unit.factor.denom());
            assert_eq!(
                super::super::exact::reduced(n, d),
                Some(unit.factor),
                "{}",
                unit.symbol
            );
            for spelling in unit.spellings {
                assert_eq!(*spelling, spelling.to_lowercase());
            }
        }
    }
}
