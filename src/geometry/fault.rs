//! Why there is no outline to give.

use std::fmt;

use super::point::Point;

/// What keeps an operation from giving an outline. There is never a wrong
/// figure: an outline or a fault. Lengths are in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fault {
    /// Nothing is left, or the outline has no area.
    Empty,
    /// The path does not come back to where it should join.
    Open {
        /// Where it ends.
        at: Point,
        /// How far that is from where it should join.
        gap: f64,
    },
    /// Two sides cross or touch.
    Crossed {
        /// Where.
        at: Point,
        /// The two, by their place in the list given.
        edges: (usize, usize),
    },
    /// The result falls into separate pieces.
    Split {
        /// How many.
        pieces: usize,
    },
    /// The two shapes meet in a single point.
    Touching {
        /// The point.
        at: Point,
    },
    /// A point is off the outline that it should lie on.
    Off {
        /// The point.
        at: Point,
        /// How far it is off.
        gap: f64,
    },
    /// A length that must be positive is not.
    NotPositive,
    /// The ends of an arc are too far apart for its radius.
    TooFar {
        /// The radius.
        radius: f64,
        /// How far apart the ends are.
        span: f64,
    },
    /// A side is too short for its rounded or cut corners.
    NoRoom {
        /// How much of the side they need.
        needed: f64,
        /// How much there is.
        available: f64,
    },
    /// An arc of a line bends more sharply than what lies on its inside allows.
    Tight {
        /// Its radius.
        radius: f64,
        /// Its place in the list given.
        edge: usize,
    },
    /// The two sides run on into each other without a corner.
    NoCorner,
    /// A coordinate or a length is not an ordinary number.
    NotFinite,
    /// A coordinate or a length is beyond [`LARGEST`].
    TooLarge,
    /// There are more sides than [`MOST_EDGES`], or they meet in far too many
    /// places.
    TooManyEdges,
    /// Sides run so close together that what lies inside cannot be told.
    Unclear,
}

/// The greatest coordinate or length taken, in metres.
pub const LARGEST: f64 = 1e6;

/// The greatest number of sides taken in one outline.
pub const MOST_EDGES: usize = 1000;

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::Empty => f.write_str("it encloses no area"),
            Fault::Open { .. } => f.write_str("it is not closed"),
            Fault::Crossed { .. } => f.write_str("it crosses or touches itself"),
            Fault::Split { pieces } => write!(f, "it falls into {pieces} pieces"),
            Fault::Touching { .. } => f.write_str("the two shapes meet only in a point"),
            Fault::Off { .. } => f.write_str("the point does not lie on the outline"),
            Fault::NotPositive => f.write_str("the length must be more than zero"),
            Fault::TooFar { .. } => {
                f.write_str("the radius is too small to reach between the ends")
            }
            Fault::NoRoom { .. } => f.write_str("the side is too short for this corner"),
            Fault::Tight { .. } => f.write_str("an arc is tighter than what lies on its inside"),
            Fault::NoCorner => f.write_str("there is no corner between the sides"),
            Fault::NotFinite => f.write_str("a length is not a number"),
            Fault::TooLarge => f.write_str("it is larger than 1,000 km"),
            Fault::TooManyEdges => f.write_str("it has too many sides"),
            Fault::Unclear => f.write_str("sides run too close together to tell them apart"),
        }
    }
}

impl std::error::Error for Fault {}

/// Refuses what is not an ordinary length or coordinate.
pub(super) fn measured(value: f64) -> Result<f64, Fault> {
    if !value.is_finite() {
        Err(Fault::NotFinite)
    } else if value.abs() > LARGEST {
        Err(Fault::TooLarge)
    } else {
        Ok(value)
    }
}

/// Refuses, besides, what is not more than zero.
pub(super) fn positive(value: f64) -> Result<f64, Fault> {
    if measured(value)? > 0.0 {
        Ok(value)
    } else {
        Err(Fault::NotPositive)
    }
}
