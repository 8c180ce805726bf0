//! Surfaces by themselves.

use super::super::job::{Contact, Side, Surface};
use super::adjacency::Corners;
use crate::geometry::Tag;

/// A surface as its own section says it, on its way into the job: it is not
/// known yet how it lies to the others.
#[derive(Debug)]
pub(crate) struct Draft {
    pub surface: Surface,
    /// Where each of its edgings is to run, after them what is held by
    /// something that stands already, and after that each border.
    pub along: Vec<Along>,
    /// The corners of the upright rectangle around it.
    pub corners: Option<Corners>,
    /// Whether a shape is written and nothing of it could be made out.
    pub is_unplaced: bool,
}

/// Where an edging is to run.
#[derive(Debug)]
pub(crate) enum Along {
    /// On the free sides, but not on stretches of these edges.
    Free { except: Vec<Tag> },
    /// On all stretches of these edges.
    Edges(Vec<Tag>),
    /// It cannot be read.
    Unknown,
}

impl Along {
    /// Whether the sides that are meant can be told: free is no side that may
    /// stand against a surface of which nobody knows where it lies.
    pub(crate) fn is_sure(&self, sides: &[Side]) -> bool {
        match self {
            Along::Free { except } => sides.iter().all(|side| {
                !matches!(side.contact, Contact::Unplaced(_)) || except.contains(&side.edge)
            }),
            Along::Edges(_) => true,
            Along::Unknown => false,
        }
    }

    /// The sides that are meant, by their tags.
    pub(crate) fn among(&self, sides: &[Side]) -> Vec<Tag> {
        let fits = |side: &Side| match self {
            Along::Free { except } => side.contact == Contact::Free && !except.contains(&side.edge),
            Along::Edges(edges) => edges.contains(&side.edge),
            Along::Unknown => false,
        };
        let sides = (0..).zip(sides).filter(|(_, side)| fits(side));
        sides.map(|(tag, _)| tag).collect()
    }
}
