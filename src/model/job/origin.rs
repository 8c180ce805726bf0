//! Values that know where they come from.

use crate::findings::Place;
use crate::sources::Source;

/// A value and the place in the text that states it.
#[derive(Debug, Clone, PartialEq)]
pub struct Stated<T> {
    /// The value.
    pub value: T,
    /// Where it is stated.
    pub place: Place,
}

impl<T> Stated<T> {
    /// A value stated at a place.
    pub fn new(value: T, place: Place) -> Stated<T> {
        Stated { value, place }
    }
}

/// Where a value comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Origin {
    /// A line of the spec or of a file that it uses.
    Line(Place),
    /// The built-in catalogue.
    Catalogue {
        /// The material's name there.
        material: &'static str,
        /// Where the catalogue has it from.
        source: &'static Source,
    },
    /// A default, stated nowhere in the spec.
    Default {
        /// What it is the default of, in words.
        what: &'static str,
        /// Where it comes from.
        source: &'static Source,
    },
}

impl Origin {
    /// The line that states it, if one does.
    pub fn place(self) -> Option<Place> {
        match self {
            Origin::Line(place) => Some(place),
            _ => None,
        }
    }
}

/// A value and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// Where it comes from.
    pub origin: Origin,
}
