//! What the edges of surfaces stand against: the building, one another, or
//! nothing.

use std::sync::Arc;

use super::super::job::{Contact, Listed, Side, Surface};
use super::draft::Draft;
use super::row::{Lie, Row};
use crate::geometry::{Outline, Stretch, Tag};

/// The drafts of a job's surfaces, and how they lie to one another.
#[derive(Debug, Default)]
pub struct Settled {
    drafts: Vec<Arc<Draft>>,
    row: Row,
    lies: Vec<Lie>,
}

impl Settled {
    /// The surfaces of these drafts with their sides, and what led to them.
    pub fn of(drafts: Vec<Arc<Draft>>) -> (Settled, Listed<Surface>) {
        let row = Row::of(&drafts);
        let lies: Vec<Lie> = (0..drafts.len()).map(|index| row.lie(index)).collect();
        let both = drafts.iter().zip(&lies).enumerate();
        let surfaces = both.map(|(index, (draft, lie))| Arc::new(draft.lying(index, lie)));
        let surfaces = Arc::new(surfaces.collect());
        (Settled { drafts, row, lies }, surfaces)
    }

    /// The drafts of which these are the surfaces.
    pub fn drafts(&self) -> &[Arc<Draft>] {
        &self.drafts
    }

    /// Settles some drafts anew, each by its index; of the surfaces those
    /// change that are other than before, or lie otherwise.
    pub fn change(&mut self, anew: Vec<(usize, Arc<Draft>)>, surfaces: &mut Listed<Surface>) {
        let changed: Vec<usize> = anew.iter().map(|(index, _)| *index).collect();
        for (index, draft) in anew {
            if let Some(place) = self.drafts.get_mut(index) {
                *place = draft;
            }
        }
        let surfaces = Arc::make_mut(surfaces);
        for index in self.row.change(&changed, &self.drafts) {
            let lie = self.row.lie(index);
            let (Some(draft), Some(before), Some(surface)) = (
                self.drafts.get(index),
                self.lies.get_mut(index),
                surfaces.get_mut(index),
            ) else {
                continue;
            };
            if *before != lie || changed.contains(&index) {
                *surface = Arc::new(draft.lying(index, &lie));
                *before = lie;
            }
        }
    }
}

impl Draft {
    /// The surface, lying so to the others.
    fn lying(&self, index: usize, lie: &Lie) -> Surface {
        let mut surface = self.surface.clone();
        surface.index = index;
        surface.overlaps = lie.overlaps;
        sides(&mut surface, &lie.stretches);
        for (edging, along) in surface.edgings.iter_mut().zip(&self.along) {
            edging.along = along.among(&surface.sides);
        }
        surface
    }
}

/// Parts the edges of a surface where what they stand against changes.
fn sides(surface: &mut Surface, stretches: &[(Stretch, usize)]) {
    let Some(outline) = &surface.outline else {
        return;
    };
    let only: Vec<Stretch> = stretches.iter().map(|(stretch, _)| *stretch).collect();
    let mut divided: Outline = outline.divided(&only);
    let mut sides: Vec<Side> = Vec::new();
    let boundaries = std::iter::once(&mut divided.outer).chain(&mut divided.holes);
    for edge in boundaries.flat_map(|boundary| &mut boundary.edges) {
        let against_building = surface
            .meets
            .iter()
            .any(|edges| edges.value.1.contains(&edge.tag));
        let neighbour = stretches
            .iter()
            .find(|(stretch, _)| stretch.covers(edge))
            .map(|(_, other)| *other);
        let contact = match (against_building, neighbour) {
            (true, _) => Contact::Building,
            (false, Some(other)) => Contact::Surface(other),
            (false, None) => Contact::Free,
        };
        sides.push(Side {
            edge: edge.tag,
            contact,
        });
        edge.tag = Tag::try_from(sides.len() - 1).unwrap_or(crate::geometry::NO_TAG);
    }
    surface.sides = sides;
    surface.outline = Some(divided);
}
