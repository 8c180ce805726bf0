//! A figure of a take-off by what it measures, and how it is shown.

use super::bearing::bearing;
use super::trade;
use crate::geometry::Vector;
use crate::quantities::shown_hours;
use crate::units::unit::{
    CUBIC_METRE, CUBIC_YARD, FOOT, KILOGRAM, METRE, POUND, SQUARE_FOOT, SQUARE_METRE, Unit,
};
use crate::units::{Money, Quantity, System, show};

/// A figure by what it measures; `None` if it is not known.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    /// Metres.
    Length(Option<f64>),
    /// Metres from a datum, from the ground or from what is designed: of what
    /// they are no share means anything.
    Level(Option<f64>),
    /// Square metres.
    Area(Option<f64>),
    /// Cubic metres.
    Volume(Option<f64>),
    /// Kilograms.
    Mass(Option<f64>),
    /// Degrees.
    Angle(Option<f64>),
    /// A fall, as a fraction of one.
    Slope(Option<f64>),
    /// A way of the plan, in degrees from north, clockwise.
    Bearing(Option<f64>),
    /// Cubic metres a second.
    Flow(Option<f64>),
    /// A share, as a fraction of one.
    Share(Option<f64>),
    /// So many of something: `bag`, or nothing in particular.
    Count(Option<f64>, String),
    /// The price of one of something.
    Price(Option<Quantity>, String),
    /// Hours worked.
    Hours(Option<f64>),
    /// What is told in words: a moment of the calendar, who supplies something.
    Words(Option<String>),
    /// An amount.
    Cost(Option<Money>),
    /// Money over area.
    PerArea(Option<Quantity>),
}

impl Value {
    /// The units in which it is given: in SI, and in a job in feet and pounds.
    pub(crate) fn units(&self) -> Option<(&'static Unit, &'static Unit)> {
        Some(match self {
            Value::Length(_) | Value::Level(_) => (&METRE, &FOOT),
            Value::Area(_) => (&SQUARE_METRE, &SQUARE_FOOT),
            Value::Volume(_) => (&CUBIC_METRE, &CUBIC_YARD),
            Value::Mass(_) => (&KILOGRAM, &POUND),
            _ => return None,
        })
    }

    /// The bare number, in SI where it measures something.
    pub(crate) fn number(&self) -> Option<f64> {
        match self {
            Value::Length(value)
            | Value::Level(value)
            | Value::Area(value)
            | Value::Volume(value)
            | Value::Mass(value)
            | Value::Angle(value)
            | Value::Slope(value)
            | Value::Flow(value)
            | Value::Share(value)
            | Value::Bearing(value)
            | Value::Hours(value)
            | Value::Count(value, _) => *value,
            Value::Words(_) => None,
            Value::Price(price, _) | Value::PerArea(price) => price.as_ref().map(Quantity::si),
            Value::Cost(money) => money.and_then(Money::quantity).map(|money| money.si()),
        }
    }

    /// The figure beside another of its kind, both in one unit.
    pub(crate) fn shown_beside(&self, other: Option<&Value>, system: System) -> String {
        match (self, other) {
            (Value::Volume(Some(own)), Some(Value::Volume(Some(other)))) => {
                trade::volume_beside(*own, *other, system)
            }
            (Value::Mass(Some(own)), Some(Value::Mass(Some(other)))) => {
                trade::mass_beside(*own, *other, system)
            }
            _ => self.shown(system),
        }
    }

    /// The figure as a sheet shows it; a dash if it is not known.
    pub(crate) fn shown(&self, system: System) -> String {
        let known = match self {
            Value::Length(value) | Value::Level(value) => {
                value.map(|value| trade::length(value, system))
            }
            Value::Area(value) => value.map(|value| trade::area(value, system)),
            Value::Volume(value) => value.map(|value| trade::volume(value, system)),
            Value::Mass(value) => value.map(|value| trade::mass(value, system)),
            Value::Angle(value) => value.map(show::angle),
            Value::Slope(value) => value.map(show::slope),
            Value::Flow(value) => value.map(|value| show::flow(value, system)),
            Value::Share(value) => value.map(trade::share),
            Value::Bearing(value) => value.map(|degrees| bearing(Vector::from_bearing(degrees))),
            Value::Hours(value) => value.map(shown_hours),
            Value::Words(words) => words.clone(),
            Value::Count(value, unit) if unit.is_empty() => value.map(show::number),
            Value::Count(value, unit) => value.map(|value| trade::sold(to_hundredths(value), unit)),
            Value::Price(price, unit) => price.as_ref().and_then(|price| trade::price(price, unit)),
            Value::Cost(money) => money.map(|money| money.to_string()),
            Value::PerArea(price) => price.and_then(|price| show::price(&price, system)),
        };
        known.unwrap_or_else(|| trade::UNKNOWN.to_owned())
    }
}

/// A count to two decimals.
fn to_hundredths(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}
