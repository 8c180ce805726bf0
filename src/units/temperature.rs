//! Temperatures, whose scales do not share their zero.

use super::{Dimension, Number, Quantity};
use crate::units::exact::constant;

/// A scale of temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Scale {
    /// `°F`
    Fahrenheit,
    /// `°C`
    Celsius,
}

const CELSIUS_ZERO: Number = Number::exact(constant(27_315, 100));
const FAHRENHEIT_ZERO: Number = Number::exact(constant(45_967, 100));
const KELVIN_PER_FAHRENHEIT: Number = Number::exact(constant(5, 9));

/// The temperature that reads `number` on a scale, held in kelvin.
///
/// Nothing if it is too large for any number.
pub fn temperature_from(number: Number, scale: Scale) -> Option<Quantity> {
    let kelvin = match scale {
        Scale::Celsius => number.plus(CELSIUS_ZERO)?,
        Scale::Fahrenheit => number.plus(FAHRENHEIT_ZERO)?.times(KELVIN_PER_FAHRENHEIT)?,
    };
    Some(Quantity::new(kelvin, Dimension::TEMPERATURE))
}

/// What a temperature in kelvin reads on a scale, the way back of
/// [`temperature_from`]; nothing if it is too large for any number.
pub fn degrees_in(kelvin: Number, scale: Scale) -> Option<Number> {
    match scale {
        Scale::Celsius => kelvin.minus(CELSIUS_ZERO),
        Scale::Fahrenheit => kelvin
            .divided_by(KELVIN_PER_FAHRENHEIT)?
            .minus(FAHRENHEIT_ZERO),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_meet_where_they_should() {
        for (fahrenheit, celsius) in [(32, 0), (212, 100), (41, 5), (-40, -40)] {
            let left = temperature_from(Number::whole(fahrenheit), Scale::Fahrenheit).unwrap();
            let right = temperature_from(Number::whole(celsius), Scale::Celsius).unwrap();
            assert_eq!(left, right);
            assert_eq!(
                degrees_in(left.number, Scale::Celsius),
                Some(Number::whole(celsius))
            );
            assert_eq!(
                degrees_in(left.number, Scale::Fahrenheit),
                Some(Number::whole(fahrenheit))
            );
        }
    }

    #[test]
    fn a_temperature_beyond_all_numbers_is_none() {
        let largest = Number::Near(f64::MAX);
        assert_eq!(degrees_in(largest, Scale::Fahrenheit), None);
    }
}
