//! How much runs over each part of a rim, what comes from other surfaces
//! included.
//!
//! It is asked backwards: what leaves over a stretch is the water of the
//! beams above it and what comes in over their upper ends, which leaves the
//! surfaces beside over so much of their rims. Levels drop along every beam,
//! so the question ends.

use std::cell::Cell;
use std::iter::Sum;
use std::ops::Add;

use super::mouths::Mouth;
use super::rim::{Fate, Part, Rim, along};
use crate::geometry::{Beam, Edge, Point};

/// So many steps are followed at most, against texts that are made to be
/// hard.
const MOST_STEPS: u32 = 200_000;
const MOST_SURFACES: u32 = 64;

/// Water by the area that it comes from; `None` where that is not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    /// The area that it comes from, in m².
    pub area_m2: Option<f64>,
    /// Each area times its runoff, in m².
    pub weighted_m2: Option<f64>,
}

impl Amount {
    pub(super) const NONE: Amount = Amount {
        area_m2: Some(0.0),
        weighted_m2: Some(0.0),
    };
    pub(super) const UNKNOWN: Amount = Amount {
        area_m2: None,
        weighted_m2: None,
    };
}

impl Add for Amount {
    type Output = Amount;

    fn add(self, other: Amount) -> Amount {
        let sum = |one: Option<f64>, other: Option<f64>| Some(one? + other?);
        Amount {
            area_m2: sum(self.area_m2, other.area_m2),
            weighted_m2: sum(self.weighted_m2, other.weighted_m2),
        }
    }
}

impl Sum for Amount {
    fn sum<I: Iterator<Item = Amount>>(amounts: I) -> Amount {
        amounts.fold(Amount::NONE, Add::add)
    }
}

/// The surfaces of a job as water sees them, in the order of the job.
#[derive(Debug)]
pub(super) struct Ground {
    /// Their rims, where they are known.
    pub rims: Vec<Option<Rim>>,
    /// How much of the rain runs off each.
    pub runoff: Vec<Option<f64>>,
    /// Whether it is known that no water leaves a surface without a rim.
    pub is_dry: Vec<bool>,
    /// Where drains take water inside surfaces and at the ends of gutters.
    pub mouths: Vec<Mouth>,
    pub steps: Cell<u32>,
}

impl Ground {
    pub(crate) fn rim(&self, surface: usize) -> Option<&Rim> {
        self.rims.get(surface)?.as_ref()
    }

    /// The drain that takes what comes to a point at which a gutter ends, the
    /// nearest of several, and how far it lies off.
    pub(crate) fn mouth_at(&self, point: Point) -> Option<(usize, f64)> {
        let mouths = self.mouths.iter();
        let near = mouths.filter_map(|mouth| Some((mouth.drain, mouth.off(point)?)));
        near.min_by(|(_, one), (_, other)| one.total_cmp(other))
    }

    /// So much of a surface's own area, as water.
    pub(crate) fn own(&self, surface: usize, area_m2: f64) -> Amount {
        let runoff = self.runoff.get(surface).copied().flatten();
        Amount {
            area_m2: Some(area_m2),
            weighted_m2: runoff.map(|runoff| area_m2 * runoff),
        }
    }

    /// What comes from other surfaces over a stretch of a surface's rim.
    fn into(&self, surface: usize, entry: &Edge, passed: u32) -> Amount {
        let Some(rim) = self.rim(surface) else {
            return Amount::NONE;
        };
        let steps = self.steps.get();
        self.steps.set(steps + 1);
        if steps > MOST_STEPS || passed > MOST_SURFACES {
            return Amount::UNKNOWN;
        }
        let part = rim.part(entry.tag);
        let fate = part.map(|part| part.fate);
        let other = match fate {
            Some(Fate::Onto(other) | Fate::Unknown(other)) => other,
            // It stands higher, or level and falls this way.
            Some(Fate::Shut(super::Shut::Higher(other) | super::Shut::Facing(other))) => other,
            _ => return Amount::NONE,
        };
        let Some(theirs) = self.rim(other) else {
            let is_dry = self.is_dry.get(other).copied().unwrap_or(true);
            return if is_dry {
                Amount::NONE
            } else {
                Amount::UNKNOWN
            };
        };
        let over = |own: &Part| match own.fate {
            Fate::Onto(onto) if onto == surface => {
                let stretch = along(entry, &own.edge)?;
                Some(self.over(other, own, &stretch, passed + 1))
            }
            Fate::Unknown(onto) if onto == surface => {
                along(entry, &own.edge)?;
                let leaves = theirs
                    .beams
                    .iter()
                    .any(|beam| beam.exit.tag == own.edge.tag);
                leaves.then_some(Amount::UNKNOWN)
            }
            _ => None,
        };
        theirs.parts.iter().filter_map(over).sum()
    }

    /// What leaves a surface over a stretch of a part of its rim.
    pub(crate) fn over(&self, surface: usize, part: &Part, stretch: &Edge, passed: u32) -> Amount {
        let Some(rim) = self.rim(surface) else {
            return Amount::UNKNOWN;
        };
        self.leaving(surface, rim, part, Some(stretch), passed)
    }

    /// All that comes to a part of a rim down the surface.
    pub(crate) fn through(&self, surface: usize, part: &Part) -> Amount {
        let Some(rim) = self.rim(surface) else {
            return Amount::UNKNOWN;
        };
        self.leaving(surface, rim, part, None, 0)
    }

    fn leaving(
        &self,
        surface: usize,
        rim: &Rim,
        part: &Part,
        stretch: Option<&Edge>,
        passed: u32,
    ) -> Amount {
        let leaving = rim.leaving(part.edge.tag, stretch).into_iter();
        let down = |(beam, beside): (Beam, Vec<&Edge>)| {
            let comes = beside.into_iter().chain([&beam.entry]);
            let comes: Amount = comes.map(|edge| self.into(surface, edge, passed)).sum();
            self.own(surface, beam.area()) + comes
        };
        leaving.map(down).sum()
    }
}
