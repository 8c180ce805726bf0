//! Figures as the trade rounds them on a sheet: so many decimals for each
//! measure, so that figures in a column stand under one another.

use crate::materials;
use crate::model::Job;
use crate::quantities::{Order, SizeFigures};
use crate::units::unit::{
    CUBIC_FOOT, CUBIC_YARD, GALLON, LITRE, METRE, POUND, SQUARE_FOOT, SQUARE_METRE, TON, TONNE,
    Unit,
};
use crate::units::{Dimension, Money, Number, Quantity, System, show};
use crate::vocabulary::spelled_in;

/// Shown for what is not known; the foot of the sheet says why.
pub(super) const UNKNOWN: &str = "–";

/// The density of water in kg/m³.
pub(super) const WATER: f64 = 1000.0;

/// A figure with so many decimals and its unit.
pub(super) fn fixed(value: f64, decimals: u32, unit: &str) -> String {
    let scale = 10_f64.powi(decimals as i32);
    let rounded = (value * scale).round() / scale;
    let plain = show::number(rounded);
    if plain == show::TOO_LARGE || plain == show::NO_FIGURE {
        return plain;
    }
    let (whole, part) = plain.split_once('.').unwrap_or((&plain, ""));
    let part: String = part
        .chars()
        .chain("000000".chars())
        .take(decimals as usize)
        .collect();
    let point = if decimals > 0 { "." } else { "" };
    format!("{whole}{point}{part} {unit}")
}

/// An area in square metres: `312.5 sq ft`, `39.06 m²`.
pub(super) fn area(square_metres: f64, system: System) -> String {
    match system {
        System::Imperial => fixed(SQUARE_FOOT.from_base(square_metres), 1, "sq ft"),
        System::Metric => fixed(square_metres, 2, "m²"),
    }
}

/// A volume in cubic metres: cubic yards, and cubic feet below one; cubic
/// metres, and litres below a tenth.
pub(super) fn volume(cubic_metres: f64, system: System) -> String {
    volume_beside(cubic_metres, cubic_metres, system)
}

/// A volume beside another: in the unit of the larger, where it is not nothing
/// in that.
pub(super) fn volume_beside(cubic_metres: f64, other: f64, system: System) -> String {
    let yards = CUBIC_YARD.from_base(cubic_metres);
    let larger = CUBIC_YARD.from_base(other).abs().max(yards.abs());
    let metres = cubic_metres.abs().max(other.abs());
    match system {
        System::Imperial if larger >= 0.995 && yards.abs() >= LEAST => fixed(yards, 2, "cu yd"),
        System::Imperial => fixed(CUBIC_FOOT.from_base(cubic_metres), 1, "cu ft"),
        System::Metric if metres >= 0.0995 && cubic_metres.abs() >= LEAST => {
            fixed(cubic_metres, 2, "m³")
        }
        System::Metric => fixed(LITRE.from_base(cubic_metres), 0, "L"),
    }
}

/// What is less is nothing where it is shown in hundredths.
const LEAST: f64 = 0.005;

/// A mass in kilograms: tons or tonnes to a tenth, and below one of them whole
/// pounds or kilograms.
pub(super) fn mass(kilograms: f64, system: System) -> String {
    mass_beside(kilograms, kilograms, system)
}

/// A mass beside another: in the unit of the larger, where it is not nothing
/// in that.
pub(super) fn mass_beside(kilograms: f64, other: f64, system: System) -> String {
    let larger = kilograms.abs().max(other.abs());
    let (tons, tonnes) = (TON.from_base(kilograms), TONNE.from_base(kilograms));
    match system {
        System::Imperial if POUND.from_base(larger) >= 1_999.5 && tons.abs() >= 0.05 => {
            fixed(tons, 1, "tons")
        }
        System::Imperial => fixed(POUND.from_base(kilograms), 0, "lb"),
        System::Metric if larger >= 999.5 && tonnes.abs() >= 0.05 => fixed(tonnes, 1, "t"),
        System::Metric => fixed(kilograms, 0, "kg"),
    }
}

/// A length in metres, as a tape reads it: `24' 6 1/2"`, `7.468 m`.
pub(super) fn length(metres: f64, system: System) -> String {
    show::length(metres, system)
}

/// A length that is bought by the running foot or metre: `61.0 ft`, `18.60 m`.
pub(super) fn run(metres: f64, system: System) -> String {
    match system {
        System::Imperial => fixed(crate::units::unit::FOOT.from_base(metres), 1, "ft"),
        System::Metric => fixed(METRE.from_base(metres), 2, "m"),
    }
}

/// Water by its mass in kilograms, as it is measured out: `47 gal`, `180 L`.
pub(super) fn water(kilograms: f64, system: System) -> String {
    let cubic_metres = kilograms / WATER;
    match system {
        System::Imperial => fixed(GALLON.from_base(cubic_metres), 0, "gal"),
        System::Metric => fixed(LITRE.from_base(cubic_metres), 0, "L"),
    }
}

/// A share with one decimal: `6.0 %`.
pub(super) fn share(share: f64) -> String {
    fixed(share * 100.0, 1, "%")
}

/// So many sold units: `14.7 tons`, `1 bag`, `62 bags`, `480 each`.
pub(super) fn sold(amount: f64, unit: &str) -> String {
    let digits = show::number(amount);
    let is_one = digits == "1";
    format!("{digits} {}", sold_word(unit, is_one))
}

/// The word for one or several sold units.
fn sold_word(unit: &str, is_one: bool) -> String {
    match unit {
        "m2" => "m²".to_owned(),
        "m3" => "m³".to_owned(),
        "each" if is_one => "piece".to_owned(),
        "each" => "pieces".to_owned(),
        "box" if !is_one => "boxes".to_owned(),
        _ if is_one => unit.to_owned(),
        unit if unit == TON.symbol || !is_measure(unit) => format!("{unit}s"),
        unit => unit.to_owned(),
    }
}

/// Whether a price is for what a unit measures: £42/t for what is sold by t.
fn is_for(price: &Quantity, word: &str) -> bool {
    let unit = crate::units::UNITS.iter().find(|unit| unit.symbol == word);
    let amount = unit.and_then(|unit| price.times(Quantity::one(unit)).ok());
    amount.is_some_and(|amount| amount.dimension == Dimension::MONEY)
}

fn is_to_the_cent(price: &Quantity) -> bool {
    let decimals = price_decimal(price);
    decimals.is_some_and(|text| {
        text.split('.')
            .next_back()
            .is_some_and(|own| own.len() == 2)
    })
}

fn is_measure(word: &str) -> bool {
    crate::units::UNITS
        .iter()
        .any(|unit: &&Unit| unit.symbol == word)
}

/// What is needed, before it is rounded up to what is sold: two decimals.
pub(super) fn needed(amount: f64) -> String {
    fixed(amount, 2, "").trim_end().to_owned()
}

/// What is needed, with the unit that it is sold by: `14.61 tons`; of pieces
/// whole ones, for nobody lays a part of one that was not cut from another.
pub(super) fn needed_in(amount: f64, unit: &str) -> String {
    let amount = match unit {
        "each" => show::number((amount - 1e-6).ceil()),
        _ => needed(amount),
    };
    format!("{amount} {}", sold_word(unit, amount == "1"))
}

/// The price of one sold unit: `$38.00/ton`, `£0.0625/kg`.
pub(super) fn price(price: &Quantity, unit: &str) -> Option<String> {
    let one = sold_word(unit, true);
    let currency = price.currency?;
    let decimal = price_decimal(price)?;
    let (whole, part) = decimal.split_once('.')?;
    let whole = show::grouped(whole);
    Some(format!("{}{whole}.{part}/{one}", currency.symbol()))
}

/// The price of an order: of one sold unit, or as the spec states it where that
/// is for something else, so that $7/sq ft stays what was agreed though the
/// brick is sold by the piece.
pub(super) fn order_price(job: &Job, order: &Order) -> Option<String> {
    let own = order.price.as_ref()?;
    let material = job.materials.get(order.material.as_str());
    let stated = material.and_then(|material| material.price.as_ref());
    // Worked out for what is sold it may go on behind the cent.
    let is_odd = || !is_measure(&order.unit) || !is_to_the_cent(own);
    let other = stated.filter(|stated| {
        stated.value.dimension != Dimension::MONEY
            && !is_for(&stated.value, &order.unit)
            && is_odd()
    });
    match other {
        Some(stated) => {
            let stated = stated.value.resolved(job.heading.currency());
            show::price(&stated, job.heading.system())
        }
        None => price(own, &order.unit),
    }
}

/// What to ask a supplier for, where the spec says it: the catalogue's own words
/// are for whoever writes the spec.
pub(super) fn asked_for<'o>(job: &Job, order: &'o Order) -> Option<&'o str> {
    let region = job.heading.region();
    let called = order.called.as_deref().filter(|_| order.is_first)?;
    let is_of_catalogue =
        materials::materials().any(|known| spelled_in(region, known.called_in(region)) == called);
    (!is_of_catalogue).then_some(called)
}

/// Money over area, to the cent: `$31.00` a square foot, `£240.10` a square
/// metre.
pub(super) fn price_per_area(price: &Quantity, system: System) -> Option<String> {
    let unit = match system {
        System::Imperial => &SQUARE_FOOT,
        System::Metric => &SQUARE_METRE,
    };
    let amount = price.times(Quantity::one(unit)).ok()?;
    Some(Money::round(&amount)?.to_string())
}

/// A price as a decimal, with as many decimals as it needs, two at least and
/// six at most: `38.00`, `0.0625`.
pub(super) fn price_decimal(price: &Quantity) -> Option<String> {
    let cents = price.number.times(Number::whole(100))?;
    if cents.is_exact() && cents.floor().compare(cents).is_eq() {
        return Money::round(price).map(Money::decimal);
    }
    let value = price.si();
    let text = format!("{value:.6}");
    let least = text.len().saturating_sub(4);
    let cut = text.trim_end_matches('0').len().max(least);
    value.is_finite().then(|| text.chars().take(cut).collect())
}

/// A size of paving: `600 mm by 900 mm`.
pub(super) fn size(of: &SizeFigures, system: System) -> String {
    show::sides([of.length_m, of.width_m], system).join(" by ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Currency;

    #[test]
    fn each_measure_has_its_decimals() {
        use System::{Imperial, Metric};
        for (shown, expected) in [
            (area(29.032_185_6, Imperial), "312.5 sq ft"),
            (area(39.06, Metric), "39.06 m²"),
            (area(1000.0, Metric), "1,000.00 m²"),
            (volume(0.764_554_857_984, Imperial), "1.00 cu yd"),
            (volume(0.1, Imperial), "3.5 cu ft"),
            (volume(2.121_75, Metric), "2.12 m³"),
            (volume(0.057_25, Metric), "57 L"),
            (mass(13_253.26, Imperial), "14.6 tons"),
            (mass(100.0, Imperial), "220 lb"),
            (mass(907.0, Imperial), "1.0 tons"),
            (mass(4_218.48, Metric), "4.2 t"),
            (mass(999.6, Metric), "1.0 t"),
            (run(18.6, Imperial), "61.0 ft"),
            (run(18.6, Metric), "18.60 m"),
            (water(180.0, Imperial), "48 gal"),
            (share(0.06), "6.0 %"),
            (needed(14.609_2), "14.61"),
            (area(f64::NAN, Metric), show::NO_FIGURE),
            (area(1e30, Metric), show::TOO_LARGE),
        ] {
            assert_eq!(shown, expected);
        }
    }

    #[test]
    fn sold_units_are_counted() {
        for (amount, unit, shown) in [
            (14.7, "ton", "14.7 tons"),
            (1.0, "ton", "1 ton"),
            (1.0, "bag", "1 bag"),
            (62.0, "bag", "62 bags"),
            (2.0, "box", "2 boxes"),
            (480.0, "each", "480 pieces"),
            (39.1, "m2", "39.1 m²"),
            (489.0, "sq ft", "489 sq ft"),
        ] {
            assert_eq!(sold(amount, unit), shown);
        }
    }

    #[test]
    fn what_is_needed_has_its_unit() {
        for (amount, unit, shown) in [
            (14.609_2, "ton", "14.61 tons"),
            (20.72, "m2", "20.72 m²"),
            (24.0, "ft", "24.00 ft"),
            (1.0, "bag", "1.00 bags"),
            (1.0, "each", "1 piece"),
        ] {
            assert_eq!(needed_in(amount, unit), shown);
        }
    }

    #[test]
    fn prices_keep_their_decimals() {
        let money = |n, d| Quantity::money(Number::ratio(n, d).unwrap(), Currency::Usd);
        for (of, unit, shown, decimal) in [
            (money(38, 1), "ton", "$38.00/ton", "38.00"),
            (money(1, 16), "lb", "$0.0625/lb", "0.0625"),
            (money(123_450, 100), "m3", "$1,234.50/m³", "1234.50"),
            (money(1, 3), "each", "$0.333333/piece", "0.333333"),
            (money(1, 1000), "lb", "$0.001/lb", "0.001"),
        ] {
            assert_eq!(price(&of, unit).as_deref(), Some(shown));
            assert_eq!(price_decimal(&of).as_deref(), Some(decimal));
        }
    }
}
