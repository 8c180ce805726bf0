//! Any quantity, shown by what it measures.

use super::digits::{measure, places};
use super::{
    angle, area, coverage, density, length, load, mass, number, output, price, rainfall, share,
    slope, strength, temperature, time, volume,
};
use crate::units::{Dimension, Kind, Money, Quantity, System};

/// Proportions up to this are shown as slopes are, both ways.
const STEEPEST_FALL: f64 = 0.1;

/// A quantity as text for people in the units of a system.
///
/// A proportion of up to 10 % is shown as a slope; where it is known to be a
/// share, use [`share`]. What has no usual unit is shown in base units.
pub fn quantity(quantity: &Quantity, system: System) -> String {
    let value = quantity.si();
    match quantity.dimension {
        Dimension::NONE => match quantity.kind {
            Kind::Plain => number(value),
            Kind::Proportion if value.abs() <= STEEPEST_FALL => slope(value),
            Kind::Proportion => share(value),
        },
        Dimension::LENGTH => length(value, system),
        Dimension::AREA => area(value, system),
        Dimension::VOLUME => volume(value, system),
        Dimension::MASS => mass(value, system),
        Dimension::DENSITY => density(value, system),
        Dimension::LOAD => load(value, system),
        Dimension::STRENGTH => strength(value, system),
        Dimension::COVERAGE => coverage(value, system),
        Dimension::RAINFALL => rainfall(value, system),
        Dimension::TIME => time(value),
        Dimension::TEMPERATURE => temperature(value, system),
        Dimension::ANGLE => angle(value),
        Dimension::MONEY => Money::round(quantity)
            .map_or_else(|| in_base_units(quantity), |money| money.to_string()),
        _ if quantity.dimension.time == -1 && quantity.currency.is_none() => {
            output(quantity, system)
        }
        _ => price(quantity, system).unwrap_or_else(|| in_base_units(quantity)),
    }
}

/// A quantity in the units of `first` with the other system's in brackets,
/// `24' 1" (7.34 m)`; once only if both show the same.
pub fn in_both(shown: &Quantity, first: System) -> String {
    let (here, there) = (quantity(shown, first), quantity(shown, first.other()));
    if here == there {
        here
    } else {
        format!("{here} ({there})")
    }
}

fn in_base_units(quantity: &Quantity) -> String {
    let Dimension {
        length,
        mass,
        money,
        time,
        temperature,
        angle,
    } = quantity.dimension;
    let currency = quantity
        .currency
        .map_or("money", |currency| currency.code());
    let units = [
        (money, currency),
        (mass, "kg"),
        (length, "m"),
        (angle, "°"),
        (temperature, "K"),
        (time, "s"),
    ];
    let on_side = |above: bool| {
        let of_side = units
            .iter()
            .filter(|(power, _)| *power != 0 && (*power > 0) == above);
        let powered = of_side.map(|(power, unit)| match power.unsigned_abs() {
            1 => (*unit).to_owned(),
            power => format!("{unit}{power}"),
        });
        powered.collect::<Vec<_>>().join("·")
    };
    let unit = match (on_side(true), on_side(false)) {
        (above, below) if below.is_empty() => format!(" {above}"),
        (above, below) if above.is_empty() => format!(" per {below}"),
        (above, below) => format!(" {above}/{below}"),
    };
    let value = quantity.si();
    measure(value, places(value), &unit)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Currency, Number};
    use proptest::prelude::*;

    fn near(value: f64, dimension: Dimension) -> Quantity {
        Quantity::near(value, dimension).unwrap()
    }

    #[test]
    fn quantities_are_shown_by_what_they_measure() {
        let proportion = |value| Quantity::proportion(Number::Near(value));
        let output = Dimension {
            length: 2,
            time: -1,
            ..Dimension::NONE
        };
        let odd = Dimension {
            length: 2,
            time: -2,
            ..Dimension::NONE
        };
        let stiffness = Dimension {
            length: -4,
            mass: 1,
            ..Dimension::NONE
        };
        let per_length = Dimension {
            length: -1,
            ..Dimension::NONE
        };
        for (shown, imperial, metric) in [
            (near(7.34, Dimension::LENGTH), "24' 1\"", "7.34 m"),
            (near(40.552_177, Dimension::AREA), "436.5 sq ft", "40.6 m²"),
            (near(8.0, Dimension::VOLUME), "10.5 cu yd", "8 m³"),
            (near(13_250.0, Dimension::MASS), "14.6 tons", "13.25 t"),
            (near(7_200.0, Dimension::TIME), "2 h", "2 h"),
            (near(35.0, Dimension::ANGLE), "35°", "35°"),
            (near(278.15, Dimension::TEMPERATURE), "41 °F", "5 °C"),
            (Quantity::plain(Number::whole(12)), "12", "12"),
            (proportion(1.0 / 60.0), "1.67 % (1:60)", "1.67 % (1:60)"),
            (proportion(0.12), "12 %", "12 %"),
            (
                Quantity::money(Number::whole(42), Currency::Usd),
                "$42.00",
                "$42.00",
            ),
            (near(0.001, output), "38.8 sq ft/h", "3.6 m²/h"),
            (near(3.0, odd), "3 m2/s2", "3 m2/s2"),
            (near(3.0, stiffness), "3 kg/m4", "3 kg/m4"),
            (near(3.0, per_length), "3 per m", "3 per m"),
        ] {
            assert_eq!(quantity(&shown, System::Imperial), imperial);
            assert_eq!(quantity(&shown, System::Metric), metric);
        }
    }

    #[test]
    fn both_systems_are_shown_where_they_differ() {
        let length = near(7.34, Dimension::LENGTH);
        assert_eq!(in_both(&length, System::Imperial), "24' 1\" (7.34 m)");
        assert_eq!(in_both(&length, System::Metric), "7.34 m (24' 1\")");
        assert_eq!(
            in_both(&near(7_200.0, Dimension::TIME), System::Metric),
            "2 h"
        );
    }

    proptest! {
        #[test]
        fn any_quantity_is_shown(value in any::<f64>(), powers in prop::array::uniform6(-4i8..5)) {
            let [length, mass, money, time, temperature, angle] = powers;
            let dimension = Dimension { length, mass, money, time, temperature, angle };
            for currency in [None, Some(Currency::Gbp)] {
                let shown = Quantity { currency, ..Quantity::new(Number::Near(value), dimension) };
                prop_assert!(!in_both(&shown, System::Metric).is_empty());
            }
        }
    }
}
