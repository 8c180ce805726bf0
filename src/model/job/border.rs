//! A border: courses along edges of a surface, inside its outline.

use std::sync::Arc;

use super::{Build, Sourced, Stated, Substance, Surface};
use crate::findings::Place;
use crate::geometry::{Outline, Tag};
use crate::units::Quantity;
use crate::vocabulary::{BorderSide, Role};

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
    /// The share of its units that is wasted, if it states one.
    pub waste: Option<Stated<Quantity>>,
    /// Whether it states one that could not be made out.
    pub is_waste_unread: bool,
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
    /// What is left of the surface inside it, in pieces, of a shape that comes
    /// again of the one that is drawn; `None` if that cannot be made out.
    pub left: Option<Vec<Outline>>,
    /// The same of each of the others of such a shape; none where all are
    /// bordered alike, on what their surface stands on.
    pub others_left: Vec<Vec<Outline>>,
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

    /// What is left inside it of all outlines that its surface is counted by.
    pub fn all_left(&self) -> Option<impl Iterator<Item = &Outline>> {
        let left = self.left.as_ref()?;
        Some(left.iter().chain(self.others_left.iter().flatten()))
    }

    /// What it is built of: the build that it stands on, or else that of its
    /// surface, paved with its own material.
    pub fn build(&self, surface: &Surface) -> Option<Stated<Arc<Build>>> {
        let on = self.on.as_ref().or(surface.build.as_ref())?;
        let mut build = Build::clone(&on.value);
        for layer in &mut build.layers {
            if layer.role.value == Role::Paving {
                layer.of = self.material.clone();
                layer.waste = self.waste.clone().or(layer.waste.take());
                layer.unread.extend(self.is_waste_unread.then_some("waste"));
            }
        }
        Some(Stated::new(Arc::new(build), on.place))
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
