//! A border: courses along edges of a surface, inside its outline.

use std::sync::Arc;

use super::{Build, Sourced, Stated, Substance};
use crate::findings::Place;
use crate::geometry::{Outline, Tag};
use crate::units::Quantity;
use crate::vocabulary::BorderSide;

/// A `border` entry.
#[derive(Debug, Clone)]
pub struct Border {
    /// What it is made of.
    pub material: Stated<Substance>,
    /// Whether the long side of a unit lies across the edge.
    pub is_soldier: bool,
    /// Where it says that its corners are mitred, if it does.
    pub mitred: Option<Place>,
    /// How many courses lie side by side.
    pub courses: u32,
    /// Length and width of a unit, as stated or else the material's.
    pub units: Option<(Sourced<Quantity>, Sourced<Quantity>)>,
    /// The build that it stands on, if that is one of its own.
    pub on: Option<Stated<Arc<Build>>>,
    /// What it covers of the surface, in pieces, if it stands on a build of its
    /// own; `None` if that cannot be made out.
    pub strips: Option<Vec<Outline>>,
    /// The joint between its units; that of the surface if it states none.
    pub joint: Option<Stated<Quantity>>,
    /// At which side of a course on a curve the joint is as stated.
    pub joint_at: Option<BorderSide>,
    /// The sides of the surface that it runs along, by index in
    /// `Surface::sides`.
    pub along: Vec<Tag>,
    /// Whether all that says how wide it is could be made out.
    pub is_known: bool,
    /// Whether it is known along which edges it runs.
    pub is_placed: bool,
    /// What is left of the surface inside it, in pieces; `None` if that cannot
    /// be made out.
    pub left: Option<Vec<Outline>>,
    /// The whole entry.
    pub place: Place,
}

impl Border {
    /// The sides of a unit along the edge and across it, in metres.
    pub fn unit_m(&self) -> Option<(f64, f64)> {
        let (one, other) = self.units.as_ref()?;
        let (one, other) = (one.value.si(), other.value.si());
        let (long, short) = (one.max(other), one.min(other));
        let sides = if self.is_soldier {
            (short, long)
        } else {
            (long, short)
        };
        (short > 0.0).then_some(sides)
    }

    /// The width of its joints, in metres; 0 if none is stated.
    pub fn joint_m(&self) -> f64 {
        self.joint.as_ref().map_or(0.0, |joint| joint.value.si())
    }

    /// How far it reaches into the surface, in metres: its units and as many
    /// joints, that towards the field counted.
    pub fn width_m(&self) -> Option<f64> {
        let (_, across) = self.unit_m()?;
        Some(f64::from(self.courses) * (across + self.joint_m()))
    }
}
