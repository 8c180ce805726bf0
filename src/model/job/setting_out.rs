//! The `setting-out` section.

use super::Stated;
use crate::findings::{Place, SectionRef};
use crate::geometry::{Point, Tag};
use crate::units::Quantity;

/// More pegs along the edges of a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct PegsAlong {
    /// The surface, by its index in the job.
    pub surface: usize,
    /// The tags of its shape's edges.
    pub edges: Vec<Tag>,
    /// The greatest distance between two pegs.
    pub spacing: Stated<Quantity>,
}

impl PegsAlong {
    /// In how many equal parts pegs part an edge of this length in metres.
    pub fn parts_of(&self, length: f64) -> u32 {
        (length / self.spacing.value.si() - 1e-9).ceil().max(1.0) as u32
    }
}

/// A `setting-out` section.
#[derive(Debug, Clone, PartialEq)]
pub struct SettingOut {
    /// Its section.
    pub section: SectionRef,
    /// The heading's line.
    pub place: Place,
    /// The two marks that every peg is taped from, in metres.
    pub marks: Option<Stated<(Point, Point)>>,
    /// The pegs along edges.
    pub pegs: Vec<PegsAlong>,
    /// How far beyond the dig the pegs stand.
    pub clear: Option<Stated<Quantity>>,
    /// How far the string lines run above the finished surface.
    pub string: Option<Stated<Quantity>>,
    /// The length of the board under the level.
    pub board: Option<Stated<Quantity>>,
    /// How far apart the levels of the grid are.
    pub levels: Option<Stated<Quantity>>,
    /// Notes.
    pub notes: Vec<Stated<String>>,
    /// The keys of entries that could not be made out: what hangs on one of
    /// them is not known.
    pub unread: Vec<&'static str>,
}

impl SettingOut {
    /// Whether an entry with this key is or may be there and could not be made
    /// out.
    pub fn is_unread(&self, key: &str) -> bool {
        self.unread.contains(&key)
    }
}
