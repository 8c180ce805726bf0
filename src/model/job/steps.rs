//! A `steps` section.

use super::{Layer, Stated, Substance};
use crate::findings::{Place, SectionRef};
use crate::geometry::{Point, Vector};
use crate::units::Quantity;
use crate::vocabulary::{Handrail, Role};

/// What a flight begins or ends at.
#[derive(Debug, Clone, PartialEq)]
pub enum Ending {
    /// A surface, by its name.
    Surface(String),
    /// The existing ground.
    Ground,
    /// The finished floor inside.
    Floor,
    /// A level against the datum.
    Level(Quantity),
}

/// What is trodden on.
#[derive(Debug, Clone)]
pub struct Tread {
    /// What it is made of.
    pub of: Stated<Substance>,
    /// Its thickness.
    pub thickness: Option<Stated<Quantity>>,
    /// How far it stands out over the riser under it.
    pub nosing: Option<Stated<Quantity>>,
    /// Whether a nosing is stated that could not be made out.
    pub is_nosing_unread: bool,
    /// Of how many pieces each is.
    pub pieces: Option<Stated<Quantity>>,
    /// Whether a number of pieces is stated that could not be made out.
    pub is_count_unread: bool,
    /// Waste, if stated here.
    pub waste: Option<Stated<Quantity>>,
    /// Whether a waste is stated that could not be made out.
    pub is_waste_unread: bool,
    /// The whole entry.
    pub place: Place,
}

/// What treads are bedded in.
#[derive(Debug, Clone)]
pub struct TreadBed {
    /// What it is.
    pub of: Stated<Substance>,
    /// Its thickness.
    pub thickness: Option<Stated<Quantity>>,
    /// Waste, if stated here.
    pub waste: Option<Stated<Quantity>>,
    /// Whether a waste is stated that could not be made out.
    pub is_waste_unread: bool,
    /// The whole entry.
    pub place: Place,
}

/// What faces the risers.
#[derive(Debug, Clone)]
pub struct Facing {
    /// What it is made of.
    pub of: Stated<Substance>,
    /// Its thickness, if stated.
    pub thickness: Option<Stated<Quantity>>,
    /// The word by which bricks lie flat.
    pub flat: Option<Place>,
    /// The height of a course with its joint.
    pub courses: Option<Stated<Quantity>>,
    /// Waste, if stated here.
    pub waste: Option<Stated<Quantity>>,
    /// Whether a waste is stated that could not be made out.
    pub is_waste_unread: bool,
    /// The whole entry.
    pub place: Place,
}

/// How far down a core reaches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoreFoot {
    /// To the top of the steps' own base.
    Base,
    /// To the level of the foot.
    Foot,
}

/// What the flight is made of under its treads.
#[derive(Debug, Clone)]
pub struct Core {
    /// What it is made of.
    pub of: Stated<Substance>,
    /// How far down it reaches, if stated.
    pub down_to: Option<CoreFoot>,
    /// Waste, if stated here.
    pub waste: Option<Stated<Quantity>>,
    /// Whether a waste is stated that could not be made out.
    pub is_waste_unread: bool,
    /// The whole entry.
    pub place: Place,
}

/// The base under a flight.
#[derive(Debug, Clone)]
pub struct StepsBase {
    /// The layer.
    pub layer: Layer,
    /// How far its top lies below the foot, if stated.
    pub top: Option<Stated<Quantity>>,
}

/// A `steps` section.
#[derive(Debug, Clone)]
pub struct Steps {
    /// Its name.
    pub name: Stated<String>,
    /// Its section.
    pub section: SectionRef,
    /// Whether a line of it could not be made out at all.
    pub has_lost_line: bool,
    /// The heading's line.
    pub place: Place,
    /// Where it begins, at its foot.
    pub from: Option<Stated<Ending>>,
    /// Where it ends, at its top.
    pub to: Option<Stated<Ending>>,
    /// The middle of the line of the top riser, in metres.
    pub at: Option<Stated<Point>>,
    /// Which way it climbs, a unit vector of the plan.
    pub climbing: Option<Stated<Vector>>,
    /// How wide it is.
    pub width: Option<Stated<Quantity>>,
    /// From nosing to nosing.
    pub going: Option<Stated<Quantity>>,
    /// How many risers there are, if stated.
    pub risers: Option<Stated<Quantity>>,
    /// Whether a number of risers is stated that could not be made out.
    pub is_count_unread: bool,
    /// What is trodden on.
    pub tread: Option<Tread>,
    /// What the treads are bedded in.
    pub bed: Option<TreadBed>,
    /// What faces the risers.
    pub riser: Option<Facing>,
    /// What lies under the treads.
    pub core: Option<Core>,
    /// What all of it stands on.
    pub base: Option<StepsBase>,
    /// The fall of each tread to its front.
    pub fall: Option<Stated<Quantity>>,
    /// Where there is a handrail.
    pub handrail: Option<Stated<Handrail>>,
    /// Notes.
    pub notes: Vec<Stated<String>>,
}

impl Steps {
    /// What its treads, their bed, the facing of its risers, its core and its base are
    /// of, as far as they are stated, each with the role that it has.
    pub fn made_of(&self) -> impl Iterator<Item = (Role, &Substance)> {
        let tread = self.tread.as_ref();
        let bed = self.bed.as_ref();
        let riser = self.riser.as_ref();
        let core = self.core.as_ref();
        let base = self.base.as_ref();
        let all = [
            tread.map(|tread| (Role::Paving, &tread.of.value)),
            bed.map(|bed| (Role::Bed, &bed.of.value)),
            riser.map(|riser| (Role::Paving, &riser.of.value)),
            core.map(|core| (Role::Slab, &core.of.value)),
            base.map(|base| (Role::Base, &base.layer.of.value)),
        ];
        all.into_iter().flatten()
    }
}
