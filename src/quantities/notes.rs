//! Taking down how a figure is worked out, or not.

use crate::findings::Place;
use crate::model::Origin;
use crate::units::{Money, Quantity, System, show};

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
    /// So many of something: `14.7 ton`, `12 bag`.
    Counted(f64, &'a str),
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
            Amount::Counted(number, what) => format!("{} {what}", show::number(number)),
            Amount::Quantity(quantity) => show::quantity(quantity, system),
            Amount::Money(money) => money.to_string(),
        }
    }
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
    fn remark(&mut self, _: &str) {}
}
