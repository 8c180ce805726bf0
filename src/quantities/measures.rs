//! What the values of a figure's formula measure, so that a length times a
//! length is an area, and nothing else.

use std::iter::Sum;
use std::ops::{Add, Div, Mul, Sub};

use crate::units::unit::HOUR;
use crate::units::{Dimension, Money, Number, Quantity, System, find_unit, show};

/// A value that can be shown.
pub(super) trait Measure: Copy {
    /// The value as text, in the units of a system.
    fn shown(self, system: System) -> String;
}

/// An operation on two numbers. Where the tests of this room run, the operator
/// at one place of the source can be changed: see `tests/operators.rs`.
macro_rules! operate {
    ($left:expr, $sign:tt, $right:expr) => {{
        #[cfg(test)]
        let value = super::tests::operators::operate(stringify!($sign), $left, $right);
        #[cfg(not(test))]
        let value = $left $sign $right;
        value
    }};
}

/// Declares a measure in SI: it adds up with its like, and a share of it is
/// one too.
macro_rules! measures {
    ($($(#[$doc:meta])* $name:ident: $shown:expr;)*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub(super) struct $name(pub f64);

        impl Measure for $name {
            fn shown(self, system: System) -> String {
                let shown: fn(f64, System) -> String = $shown;
                shown(self.0, system)
            }
        }

        impl Sum for $name {
            fn sum<I: Iterator<Item = $name>>(values: I) -> $name {
                // Not `-0.0`, from which Rust starts the sum of nothing.
                values.fold($name(0.0), |sum, value| sum + value)
            }
        }

        outcomes! {
            $name + $name = $name;
            $name - $name = $name;
            $name * Share = $name;
            $name / Share = $name;
        }
    )*}
}

/// Declares what an operator makes of two measures.
macro_rules! outcomes {
    ($($left:ident $sign:tt $right:ident = $outcome:ident;)*) => {$(
        outcomes!(@ $sign $left $right $outcome);
    )*};
    (@ + $left:ident $right:ident $outcome:ident) => { outcomes!(Add add + $left $right $outcome); };
    (@ - $left:ident $right:ident $outcome:ident) => { outcomes!(Sub sub - $left $right $outcome); };
    (@ * $left:ident $right:ident $outcome:ident) => { outcomes!(Mul mul * $left $right $outcome); };
    (@ / $left:ident $right:ident $outcome:ident) => { outcomes!(Div div / $left $right $outcome); };
    ($operator:ident $method:ident $sign:tt $left:ident $right:ident $outcome:ident) => {
        impl $operator<$right> for $left {
            type Output = $outcome;

            #[cfg_attr(test, track_caller)]
            fn $method(self, other: $right) -> $outcome {
                $outcome(operate!(self.0, $sign, other.0))
            }
        }
    };
}

/// Declares the measures that a plain number adds up with.
macro_rules! plain {
    ($($name:ident)*) => {$(
        impl Add<$name> for f64 {
            type Output = $name;

            #[cfg_attr(test, track_caller)]
            fn add(self, other: $name) -> $name {
                $name(operate!(self, +, other.0))
            }
        }

        impl Sub<$name> for f64 {
            type Output = $name;

            #[cfg_attr(test, track_caller)]
            fn sub(self, other: $name) -> $name {
                $name(operate!(self, -, other.0))
            }
        }
    )*}
}

measures! {
    /// Metres.
    Length: show::length;
    /// Metres of rain, told finer than any tape tells a length.
    RainDepth: show::rain_depth;
    /// Square metres.
    Area: show::area;
    /// Cubic metres.
    Volume: show::volume;
    /// Kilograms.
    Mass: show::mass;
    /// Kilograms in a cubic metre.
    Density: show::density;
    /// Metres a second, of rain.
    Rate: show::rainfall;
    /// Cubic metres a second.
    Flow: show::flow;
    /// A slope, as a fraction of one.
    Slope: |slope, _| show::slope(slope);
    /// A share, as a fraction of one.
    Share: |share, _| show::share(share);
    /// So many.
    Count: |number, _| show::number(number);
    /// Degrees.
    Angle: |degrees, _| show::angle(degrees);
}

plain! { Share Count }

outcomes! {
    Length * Length = Area;
    Area * Length = Volume;
    Volume / Length = Area;
    Area / Length = Length;
    Slope * Length = Length;
    Volume * Density = Mass;
    Mass / Density = Volume;
    Mass / Volume = Density;
    Area * Rate = Flow;
    Area * RainDepth = Volume;
    Area * Count = Area;
    Count * Mass = Mass;
    Count * Volume = Volume;
    Mass * Count = Mass;
    Mass / Count = Mass;
    Length / Length = Count;
    Length / Count = Length;
    Length * Count = Length;
    Count * Area = Area;
    Volume * Count = Volume;
    Volume / Count = Volume;
    Area / Area = Count;
    Volume / Volume = Count;
    Mass / Mass = Count;
    Count * Count = Count;
    Count / Count = Count;
}

/// So much of a dimension, in base units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Measured {
    pub value: f64,
    pub dimension: Dimension,
}

impl Measure for Measured {
    fn shown(self, system: System) -> String {
        // Of work, which is counted in hours however long it takes.
        if self.dimension == Dimension::TIME {
            let hours = self.value / HOUR.size().to_f64();
            return format!("{} h", show::number((hours * 100.0).round() / 100.0));
        }
        Quantity::near(self.value, self.dimension).map_or_else(
            || show::number(self.value),
            |own| show::quantity(&own, system),
        )
    }
}

impl Div for Measured {
    type Output = Count;

    /// How often one goes into another of its dimension.
    #[cfg_attr(test, track_caller)]
    fn div(self, other: Measured) -> Count {
        Count(operate!(self.value, /, other.value))
    }
}

/// So many of a unit or a pack: `14.7 tons`, `12 bags`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Counted<'a, N = f64> {
    pub number: N,
    pub unit: &'a str,
}

/// Names of packs that end so take `es` when there are several.
const HISSES: [&str; 4] = ["s", "x", "ch", "sh"];

impl Measure for Counted<'_> {
    fn shown(self, _: System) -> String {
        let digits = show::number(self.number);
        let unit = self.unit;
        let name = match (unit, find_unit(unit)) {
            ("m2", _) => "m²".to_owned(),
            ("m3", _) => "m³".to_owned(),
            _ if digits == "1" => unit.to_owned(),
            ("ton", _) => "tons".to_owned(),
            ("each", _) | (_, Some(_)) => unit.to_owned(),
            (pack, None) if HISSES.iter().any(|end| pack.ends_with(end)) => format!("{pack}es"),
            (pack, None) => format!("{pack}s"),
        };
        format!("{digits} {name}")
    }
}

impl Measure for Counted<'_, Number> {
    fn shown(self, system: System) -> String {
        let number = self.number.to_f64();
        let unit = self.unit;
        Counted { number, unit }.shown(system)
    }
}

impl<'a> Sum for Counted<'a> {
    fn sum<I: Iterator<Item = Counted<'a>>>(values: I) -> Counted<'a> {
        let nothing = Counted {
            number: 0.0,
            unit: "",
        };
        values.fold(nothing, |sum, counted| Counted {
            number: operate!(sum.number, +, counted.number),
            ..counted
        })
    }
}

impl Mul<Quantity> for Counted<'_, Number> {
    type Output = Option<Quantity>;

    /// So many times a price, exact; `None` if the number is out of all
    /// reason.
    fn mul(self, price: Quantity) -> Option<Quantity> {
        let number = self.number.times(price.number)?;
        Some(Quantity { number, ..price })
    }
}

impl Measure for Quantity {
    fn shown(self, system: System) -> String {
        show::quantity(&self, system)
    }
}

impl Measure for Money {
    fn shown(self, _: System) -> String {
        self.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::quantity;
    use super::*;

    #[test]
    fn measures_are_shown_in_the_units_of_the_job() {
        let feet = |value| Measured {
            value,
            dimension: Dimension::LENGTH,
        };
        let in_both = |measure: &dyn Fn(System) -> String, imperial: &str, metric: &str| {
            assert_eq!(measure(System::Imperial), imperial);
            assert_eq!(measure(System::Metric), metric);
        };
        in_both(&|system| Length(0.1524).shown(system), "6\"", "152 mm");
        in_both(&|system| feet(0.1524).shown(system), "6\"", "152 mm");
        in_both(&|system| Mass(1000.0).shown(system), "1.1 tons", "1 t");
        let (slope, shown) = (quantity("1:60"), "1.67 % (1:60)");
        in_both(&|system| Slope(1.0 / 60.0).shown(system), shown, shown);
        in_both(&|system| slope.shown(system), shown, shown);
        in_both(&|system| Share(0.25).shown(system), "25 %", "25 %");
    }

    #[test]
    fn what_is_counted_is_one_or_several() {
        for (number, unit, shown) in [
            (12.0, "bag", "12 bags"),
            (1.0, "bag", "1 bag"),
            (2.0, "box", "2 boxes"),
            (504.0, "each", "504 each"),
            (14.7, "ton", "14.7 tons"),
            (39.1, "m2", "39.1 m²"),
        ] {
            assert_eq!(Counted { number, unit }.shown(System::Imperial), shown);
            let number = Number::near(number).unwrap();
            assert_eq!(Counted { number, unit }.shown(System::Metric), shown);
        }
    }

    #[test]
    fn nothing_adds_up_to_a_plain_nothing() {
        let nothing: Length = std::iter::empty().sum();
        assert!(nothing.0.is_sign_positive());
    }
}
