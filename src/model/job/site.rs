//! The `site` section.

use super::{Origin, Sourced, Stated};
use crate::findings::Place;
use crate::geometry::{Plane, Point};
use crate::materials::Soil;
use crate::units::Quantity;
use crate::vocabulary::Walls;

/// What may be said of the soil.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SoilCondition {
    /// It bears without giving.
    Firm,
    /// It gives underfoot.
    Soft,
    /// Water stands in it for part of the year.
    Wet,
    /// It swells and shrinks.
    Expansive,
    /// It has been dug over.
    Tilled,
    /// It is compacted before anything goes on it.
    Compacted,
}

/// The ground as it is before the work.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    /// Its plane, in metres against the datum.
    pub plane: Plane,
    /// The levels that state it, each with the place of its figure.
    pub levels: Vec<Stated<Quantity>>,
    /// The lines that state it.
    pub places: Vec<Place>,
}

/// A tree near the work.
#[derive(Debug, Clone, PartialEq)]
pub struct Tree {
    /// How wide its trunk is.
    pub trunk: Quantity,
    /// Where it stands, in metres.
    pub at: Point,
}

/// How much it rains.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rain {
    /// So deep in a time.
    Rate(Quantity),
    /// So deep in all.
    Depth(Quantity),
}

/// A `storm` entry.
#[derive(Debug, Clone, PartialEq)]
pub struct DesignStorm {
    /// How much it rains.
    pub rain: Rain,
    /// For how long, if that is stated.
    pub duration: Option<Stated<Quantity>>,
    /// How much more is reckoned with, for a changing climate.
    pub raised: Option<Stated<Quantity>>,
    /// The whole entry.
    pub place: Place,
}

/// The rain that falls hardest of the storms that are stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fiercest {
    /// How hard, in metres a second, raised as stated.
    pub rate: f64,
    /// The entry.
    pub place: Place,
}

impl DesignStorm {
    /// How hard it rains, in metres a second, raised as stated.
    pub fn rate(&self) -> Option<f64> {
        let rate = match self.rain {
            Rain::Rate(rate) => rate.si(),
            Rain::Depth(depth) => depth.si() / self.duration_s()?,
        };
        Some(rate * self.raising())
    }

    /// How much falls in all, in metres, raised as stated; `None` where its
    /// duration is not stated.
    pub fn depth_m(&self) -> Option<f64> {
        let depth = match self.rain {
            Rain::Rate(rate) => rate.si() * self.duration_s()?,
            Rain::Depth(depth) => depth.si(),
        };
        Some(depth * self.raising())
    }

    /// How long it rains, in seconds.
    pub fn duration_s(&self) -> Option<f64> {
        self.duration.as_ref().map(|stated| stated.value.si())
    }

    fn raising(&self) -> f64 {
        1.0 + self.raised.as_ref().map_or(0.0, |stated| stated.value.si())
    }
}

/// The `site` section.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Site {
    /// The heading's place, if there is a `site`.
    pub place: Option<Place>,
    /// The soil.
    pub soil: Option<Stated<&'static Soil>>,
    /// What is said of it, each with its place.
    pub conditions: Vec<Stated<SoilCondition>>,
    /// How deep the ground freezes.
    pub frost: Option<Stated<Quantity>>,
    /// How much dug ground swells, if stated.
    pub swell: Option<Stated<Quantity>>,
    /// What level 0 is.
    pub datum: Option<Stated<String>>,
    /// The level of the finished floor inside: stated, or 0 at the datum's
    /// line where the datum is the floor or sill.
    pub floor: Option<Stated<Quantity>>,
    /// The level of the damp course.
    pub damp_course: Option<Stated<Quantity>>,
    /// The level of the top of the foundation.
    pub foundation: Option<Stated<Quantity>>,
    /// The level of the lower edge of the vents of the floor.
    pub vents: Option<Stated<Quantity>>,
    /// The level of the weep holes of the walls.
    pub weep_holes: Option<Stated<Quantity>>,
    /// What the walls of the building are.
    pub walls: Option<Stated<Walls>>,
    /// The level of the lower edge of wood cladding.
    pub cladding: Option<Stated<Quantity>>,
    /// The existing ground.
    pub ground: Option<Ground>,
    /// The storms that the drains are made for.
    pub storms: Vec<DesignStorm>,
    /// How fast the ground takes water.
    pub infiltration: Option<Stated<Quantity>>,
    /// Where rain water is led into the ground, in metres.
    pub soakaways: Vec<Stated<Point>>,
    /// The trees near the work.
    pub trees: Vec<Stated<Tree>>,
    /// The bearing of true north on the plan.
    pub north: Option<Stated<Quantity>>,
    /// The narrowest place on the way in.
    pub access: Option<Stated<Quantity>>,
    /// When buried services were located, as `2027-04-02`.
    pub services_located: Option<Stated<String>>,
    /// Notes.
    pub notes: Vec<Stated<String>>,
}

impl Site {
    /// The rain that falls hardest of the storms that are stated.
    pub fn fiercest(&self) -> Option<Fiercest> {
        let storms = self.storms.iter().filter_map(|storm| {
            Some(Fiercest {
                rate: storm.rate()?,
                place: storm.place,
            })
        });
        storms.max_by(|one, other| one.rate.total_cmp(&other.rate))
    }

    /// Whether the text says so of the soil.
    pub fn is(&self, condition: SoilCondition) -> Option<Place> {
        self.conditions
            .iter()
            .find(|stated| stated.value == condition)
            .map(|stated| stated.place)
    }

    /// The swell of dug ground: as stated, else the soil's usual figure.
    pub fn swell(&self) -> Option<Sourced<f64>> {
        if let Some(stated) = &self.swell {
            return Some(Sourced {
                value: stated.value.si(),
                origin: Origin::Line(stated.place),
            });
        }
        let soil = self.soil.as_ref()?.value;
        Some(Sourced {
            value: crate::model::literal(soil.swell.text)?.si(),
            origin: Origin::Default {
                what: "swell of the soil",
                source: &soil.swell.source,
            },
        })
    }
}
