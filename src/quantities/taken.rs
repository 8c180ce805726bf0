//! Ground that a flight of steps or a drain channel takes from the surfaces on
//! which it stands.

use std::sync::Arc;

use super::footprint::Footprint;
use super::sharing::{overlap, without};
use crate::geometry::{Fault, Outline, Point};
use crate::vocabulary::Role;

/// The ground that a flight of steps or a drain channel stands on.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Taken {
    /// Its outline.
    pub plan: Arc<Outline>,
    /// Whether it has a base of its own there.
    pub has_base: bool,
}

impl Taken {
    /// Whether a layer of a surface ends where it stands: what lies over the
    /// base always, the base and what is under it where it has its own.
    const fn takes(&self, role: Role) -> bool {
        match role {
            Role::Paving
            | Role::Surfacing
            | Role::Bond
            | Role::Bed
            | Role::Slurry
            | Role::Membrane => true,
            Role::Slab | Role::Base | Role::Subbase | Role::Mesh | Role::Fabric => self.has_base,
        }
    }

    /// Whether it may lie in an upright rectangle.
    pub(crate) fn is_near(&self, corners: (Point, Point)) -> bool {
        overlap(self.plan.bounding_box(), corners)
    }
}

/// What a layer covers, less what flights of steps and channels take of it.
pub(super) fn left_of(
    footprint: Arc<Footprint>,
    role: Role,
    taken: &[Taken],
) -> Result<Arc<Footprint>, Fault> {
    let mut takers = taken.iter().filter(|taken| taken.takes(role)).peekable();
    if takers.peek().is_none() {
        return Ok(footprint);
    }
    let mut pieces = footprint.pieces.clone();
    for taken in takers {
        pieces = without(pieces, &taken.plan)?;
    }
    let mut left = Footprint {
        outlines: footprint.outlines.clone(),
        pieces,
        under_steps_m2: 0.0,
    };
    left.under_steps_m2 = (footprint.area_m2() - left.area_m2()).max(0.0);
    Ok(Arc::new(left))
}
