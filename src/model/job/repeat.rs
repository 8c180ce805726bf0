//! A shape that a surface covers several times over.

use super::Stated;
use crate::findings::Place;
use crate::geometry::{Motion, Outline};
use crate::units::Quantity;

/// So many of one outline, that which the shape draws and others like it.
#[derive(Debug, Clone, PartialEq)]
pub struct Repeat {
    /// How many there are in all.
    pub count: Stated<Quantity>,
    /// How far the centres of one and the next lie apart.
    pub spacing: Stated<Quantity>,
    /// How each of the others lies to that which the shape draws.
    pub motions: Vec<Motion>,
    /// The outlines of the others, their edges tagged as those of the shape.
    pub outlines: Vec<Outline>,
    /// The least way between one and the next, in metres; 0 where they touch
    /// or overlap.
    pub gap_m: f64,
    /// The ground on which two of them lie, in square metres.
    pub overlap_m2: f64,
    /// The entry.
    pub place: Place,
}
