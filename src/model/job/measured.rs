//! A `measured` section.

use super::Stated;
use crate::findings::{Place, SectionRef};
use crate::geometry::Point;
use crate::units::Quantity;
use crate::vocabulary::Top;

/// What the staff read where the level is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Sight {
    /// What it read.
    pub reading: Stated<Quantity>,
    /// The level that it stood on; `None` for level 0.
    pub on: Option<Stated<Quantity>>,
}

/// How a point was measured.
#[derive(Debug, Clone, PartialEq)]
pub enum ReadBy {
    /// Its level against the datum.
    Level(Stated<Quantity>),
    /// How far it lies below the string line.
    BelowString(Stated<Quantity>),
    /// What the staff read on it, and the last reading on a known level before
    /// it; `None` if there is none.
    Staff(Stated<Quantity>, Option<Sight>),
}

/// A point that was measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Measurement {
    /// Where it is, in metres.
    pub at: Stated<Point>,
    /// How it was measured.
    pub taken: ReadBy,
    /// The entry.
    pub place: Place,
}

/// A `measured` section.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// What was measured, in words.
    pub what: Stated<String>,
    /// Its section.
    pub section: SectionRef,
    /// The heading's line.
    pub place: Place,
    /// The surface, by its index in the job; `None` if it could not be made
    /// out.
    pub surface: Option<Stated<usize>>,
    /// The top that was measured.
    pub top: Top,
    /// The day, as `2027-05-06`.
    pub on: Option<Stated<String>>,
    /// The points, in order.
    pub points: Vec<Measurement>,
    /// Whether a point could not be made out.
    pub is_unread: bool,
}
