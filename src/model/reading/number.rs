//! Numbers with their units, as quantities.

use super::source::Source;
use crate::syntax::{Item, ItemKind, Term};
use crate::text::Span;
use crate::units::unit::{DEGREE, FOOT, INCH};
use crate::units::{
    Currency, Number, NumberFault, Quantity, Scale, find_unit, read_number, temperature_from,
};

/// The quantity of a number or ratio item, or why there is none.
pub(crate) fn number_item(source: &Source<'_>, item: &Item) -> Result<Quantity, &'static str> {
    match &item.kind {
        ItemKind::Number { terms, currency } => {
            let mut sum: Option<Quantity> = None;
            for term in terms {
                let quantity = term_quantity(source, term)?;
                sum = Some(match sum {
                    None => quantity,
                    Some(sum) => sum
                        .plus(quantity)
                        .map_err(|_| "its two units do not measure the same thing")?,
                });
            }
            let quantity = sum.ok_or("it has no digits")?;
            match currency {
                None => Ok(quantity),
                Some(sign) => {
                    let currency =
                        Currency::parse(source.slice(*sign)).ok_or("its currency is not known")?;
                    Ok(Quantity::money(quantity.number, currency))
                }
            }
        }
        ItemKind::Ratio { left, right } => {
            let left = number(source, *left)?;
            let right = number(source, *right)?;
            let number = left
                .divided_by(right)
                .ok_or("nothing can be divided by 0")?;
            Ok(Quantity::proportion(number))
        }
        _ => Err("it is not a number"),
    }
}

/// The quantity of a number item with a minus before it. A temperature's
/// number is negative and not the temperature: `-5 °C`.
pub(crate) fn negative_item(source: &Source<'_>, item: &Item) -> Option<Quantity> {
    let ItemKind::Number {
        terms,
        currency: None,
    } = &item.kind
    else {
        return None;
    };
    let [term] = &**terms else {
        return None;
    };
    let scale = scale(source.slice(term.unit?))?;
    temperature_from(number(source, term.number).ok()?.negated(), scale)
}

/// The written number and unit of an item with one term.
pub(crate) fn single<'a>(source: &Source<'a>, item: &Item) -> Option<(&'a str, Option<&'a str>)> {
    match &item.kind {
        ItemKind::Number {
            terms,
            currency: None,
        } => match &**terms {
            [term] => Some((
                source.slice(term.number),
                term.unit.map(|unit| source.slice(unit)),
            )),
            _ => None,
        },
        _ => None,
    }
}

/// Whether an item goes on in what follows: an operator, a unit that it is over.
pub(crate) fn continues(rest: &[Item]) -> bool {
    matches!(
        rest.get(1).map(|item| &item.kind),
        Some(ItemKind::Operator(_) | ItemKind::Per { .. })
    )
}

fn scale(unit: &str) -> Option<Scale> {
    match unit {
        "°F" | "°f" => Some(Scale::Fahrenheit),
        "°C" | "°c" => Some(Scale::Celsius),
        _ => None,
    }
}

const TOO_LARGE: &str = "it is too large";

fn number(source: &Source<'_>, span: Span) -> Result<Number, &'static str> {
    read_number(source.slice(span)).map_err(|fault| match fault {
        NumberFault::Unreadable => "its digits cannot be made out",
        NumberFault::TooLong => "it has more than 15 digits",
        NumberFault::Grouping => "its groups are not of three digits",
        NumberFault::OverZero => "nothing can be divided by 0",
    })
}

fn term_quantity(source: &Source<'_>, term: &Term) -> Result<Quantity, &'static str> {
    let number = number(source, term.number)?;
    let Some(unit) = term.unit else {
        return Ok(Quantity::plain(number));
    };
    let written = source.slice(unit);
    if let Some(scale) = scale(written) {
        return temperature_from(number, scale).ok_or(TOO_LARGE);
    }
    match written {
        "%" => return Quantity::percent(number).ok_or(TOO_LARGE),
        "°" => return Quantity::of(number, &DEGREE).ok_or(TOO_LARGE),
        "'" | "′" | "’" => return Quantity::of(number, &FOOT).ok_or(TOO_LARGE),
        "\"" | "″" | "”" | "''" | "’’" => {
            return Quantity::of(number, &INCH).ok_or(TOO_LARGE);
        }
        _ => {}
    }
    let unit = find_unit(written).ok_or("its unit is not known")?;
    Quantity::of(number, unit).ok_or(TOO_LARGE)
}
