//! Taking down how a figure is worked out, or not.

use crate::findings::Place;
use crate::model::Origin;
use crate::units::{Dimension, Money, Quantity, System, find_unit, show};

/// A value that takes part in a working, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount<'a> {
    /// Metres.
    Length(f64),
    /// Square metres.
    Area(f64),
    /// Cubic metres.
    Volume(f64),
    /// Kilograms.
    Mass(f64),
    /// Kilograms in a cubic metre.
    Density(f64),
    /// A slope, as a fraction of one.
    Slope(f64),
    /// A share, as a fraction of one.
    Share(f64),
    /// A plain number.
    Number(f64),
    /// So many of a unit or a pack: `14.7 tons`, `12 bags`.
    Counted(f64, &'a str),
    /// So much of a dimension, in base units.
    Measured(f64, Dimension),
    /// Any other quantity.
    Quantity(&'a Quantity),
    /// An amount of money.
    Money(Money),
}

impl Amount<'_> {
    /// The value as text, in the units of a system.
    pub fn shown(self, system: System) -> String {
        match self {
            Amount::Length(metres) => show::length(metres, system),
            Amount::Area(square_metres) => show::area(square_metres, system),
            Amount::Volume(cubic_metres) => show::volume(cubic_metres, system),
            Amount::Mass(kilograms) => show::mass(kilograms, system),
            Amount::Density(density) => show::density(density, system),
            Amount::Slope(slope) => show::slope(slope),
            Amount::Share(share) => show::share(share),
            Amount::Number(number) => show::number(number),
            Amount::Counted(number, what) => counted(number, what),
            Amount::Measured(value, dimension) => Quantity::near(value, dimension)
                .map_or_else(|| show::number(value), |own| show::quantity(&own, system)),
            Amount::Quantity(quantity) => show::quantity(quantity, system),
            Amount::Money(money) => money.to_string(),
        }
    }
}

/// So many of a unit or a pack, by its word.
fn counted(number: f64, what: &str) -> String {
    let digits = show::number(number);
    let name = match (what, find_unit(what)) {
        ("m2", _) => "m²".to_owned(),
        ("m3", _) => "m³".to_owned(),
        _ if digits == "1" => what.to_owned(),
        ("ton", _) => "tons".to_owned(),
        ("each", _) | (_, Some(_)) => what.to_owned(),
        (pack, None) if pack.ends_with(['s', 'x', 'h']) => format!("{pack}es"),
        (pack, None) => format!("{pack}s"),
    };
    format!("{digits} {name}")
}

/// Where the functions of this room say what they do. [`Silent`] lets it
/// pass at no cost; a [`Working`](super::Working) takes it down.
pub trait Notes {
    /// A value that goes in, and where it comes from; `None` for one that
    /// was itself worked out, which its name says.
    fn input(&mut self, name: &str, value: Amount<'_>, origin: Option<Origin>);

    /// A step: what it gives, its formula with each term in braces, such as
    /// `{area} × {thickness}`, the terms in that order, and the result.
    fn step(&mut self, gives: &str, formula: &str, terms: &[Amount<'_>], result: Amount<'_>);

    /// A step that adds up terms, each with what it is: where there is only
    /// one, that is said.
    fn sum<'a>(
        &mut self,
        gives: &str,
        terms: impl IntoIterator<Item = (String, Amount<'a>)>,
        result: Amount<'_>,
    );

    /// Something that a reader of the working should know.
    fn remark(&mut self, text: &str);

    /// A value that a line of the spec states.
    fn stated(&mut self, name: &str, value: Amount<'_>, place: Place) {
        self.input(name, value, Some(Origin::Line(place)));
    }
}

/// Takes nothing down.
#[derive(Debug, Clone, Copy, Default)]
pub struct Silent;

impl Notes for Silent {
    #[inline]
    fn input(&mut self, _: &str, _: Amount<'_>, _: Option<Origin>) {}

    #[inline]
    fn step(&mut self, _: &str, _: &str, _: &[Amount<'_>], _: Amount<'_>) {}

    #[inline]
    fn sum<'a>(
        &mut self,
        _: &str,
        _: impl IntoIterator<Item = (String, Amount<'a>)>,
        _: Amount<'_>,
    ) {
    }

    #[inline]
    fn remark(&mut self, _: &str) {}
}
