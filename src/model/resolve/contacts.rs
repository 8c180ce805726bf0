//! What the edges of surfaces stand against: the building, one another, or
//! nothing.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::super::job::{Contact, Listed, Side, Surface};
use super::adjacency::{Adjacency, Neighbours, outlines};
use super::borders::lay_borders;
use super::draft::{Along, Draft};
use crate::geometry::{Outline, Stretch, Tag};

/// How the surfaces of a job lie to one another, and what is to be known of
/// each to say so anew.
#[derive(Debug, Default)]
pub(crate) struct Settled {
    /// Where the edgings of each are to run.
    along: Vec<Vec<Along>>,
    adjacency: Adjacency,
    lies: Vec<Neighbours>,
    /// Those of which nobody knows where they lie.
    unplaced: BTreeSet<usize>,
}

impl Settled {
    /// The surfaces of these drafts with their sides, and how they lie.
    pub(crate) fn of(drafts: Vec<Draft>) -> (Settled, Listed<Surface>) {
        let mut settled = Settled::default();
        let (mut surfaces, mut boxes) = (Vec::new(), Vec::new());
        for (index, draft) in drafts.into_iter().enumerate() {
            settled.unplaced.extend(draft.is_unplaced.then_some(index));
            surfaces.push(Arc::new(draft.surface));
            boxes.push(draft.corners);
            settled.along.push(draft.along);
        }
        settled.adjacency = Adjacency::of(boxes, &surfaces);
        for (index, surface) in surfaces.iter_mut().enumerate() {
            let lie = settled.lie(index);
            settled.lay(Arc::make_mut(surface), index, &lie);
            settled.lies.push(lie);
        }
        (settled, Arc::new(surfaces))
    }

    /// How many surfaces there are.
    pub(crate) fn count(&self) -> usize {
        self.lies.len()
    }

    /// Puts drafts in the place of some surfaces, each by its index; those
    /// change that are other than before, or lie otherwise.
    pub(crate) fn change(&mut self, anew: Vec<(usize, Draft)>, surfaces: &mut Listed<Surface>) {
        let surfaces = Arc::make_mut(surfaces);
        let mut changed = Vec::new();
        let unplaced_before = self.unplaced.clone();
        for (index, draft) in anew {
            match draft.is_unplaced {
                true => self.unplaced.insert(index),
                false => self.unplaced.remove(&index),
            };
            if let (Some(surface), Some(along)) =
                (surfaces.get_mut(index), self.along.get_mut(index))
            {
                *surface = Arc::new(draft.surface);
                *along = draft.along;
                changed.push((index, draft.corners));
            }
        }
        let is_changed = |index: usize| changed.iter().any(|(changed, _)| *changed == index);
        let mut touched = self.adjacency.change(&changed, surfaces);
        if self.unplaced != unplaced_before {
            touched = (0..surfaces.len()).collect();
        }
        for index in touched {
            let lie = self.lie(index);
            let is_same = self.lies.get(index) == Some(&lie) && !is_changed(index);
            let Some(place) = surfaces.get_mut(index).filter(|_| !is_same) else {
                continue;
            };
            // What is known by its address is not changed where it is.
            let mut surface = Surface::clone(place);
            self.lay(&mut surface, index, &lie);
            *place = Arc::new(surface);
            if let Some(own) = self.lies.get_mut(index) {
                *own = lie;
            }
        }
    }

    /// How one of them lies to the others.
    fn lie(&self, index: usize) -> Neighbours {
        let mut unplaced = self.unplaced.iter().copied();
        Neighbours {
            unplaced: unplaced.find(|other| *other != index),
            ..self.adjacency.lie(index)
        }
    }

    /// Has a surface lie so to the others.
    fn lay(&self, surface: &mut Surface, index: usize, lie: &Neighbours) {
        surface.index = index;
        surface.overlaps.clone_from(&lie.overlaps);
        sides(surface, lie);
        let along = self.along.get(index).into_iter().flatten();
        let edgings = surface.edgings.iter_mut();
        let edgings = edgings.map(|edging| (&mut edging.along, Some(&mut edging.is_known)));
        let held = surface.held.iter_mut().map(|held| (&mut held.along, None));
        let borders = surface.borders.iter_mut();
        let borders = borders.map(|border| (&mut border.along, Some(&mut border.is_placed)));
        for ((own, is_sure), along) in edgings.chain(held).chain(borders).zip(along) {
            *own = along.among(&surface.sides);
            if let Some(is_sure) = is_sure {
                *is_sure = along.is_sure(&surface.sides);
            }
        }
        lay_borders(surface);
    }
}

/// Parts the edges of a surface where what they stand against changes.
fn sides(surface: &mut Surface, lie: &Neighbours) {
    let only: Vec<Stretch> = lie.stretches.iter().map(|(stretch, _)| *stretch).collect();
    let divided = outlines(surface).into_iter().map(|own| own.divided(&only));
    let mut divided: Vec<Outline> = divided.collect();
    let mut sides: Vec<Side> = Vec::new();
    for outline in &mut divided {
        tag_sides(outline, surface, lie, &mut sides);
    }
    let mut divided = divided.into_iter();
    let Some(first) = divided.next() else {
        return;
    };
    surface.sides = sides;
    surface.outline = Some(first);
    surface.others = divided.collect();
}

/// Notes what each edge of an outline stands against, and tags it by that.
fn tag_sides(outline: &mut Outline, surface: &Surface, lie: &Neighbours, sides: &mut Vec<Side>) {
    let stretches = &lie.stretches;
    let boundaries = std::iter::once(&mut outline.outer).chain(&mut outline.holes);
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
            (false, None) => lie.unplaced.map_or(Contact::Free, Contact::Unplaced),
        };
        sides.push(Side {
            edge: edge.tag,
            contact,
        });
        edge.tag = Tag::try_from(sides.len() - 1).unwrap_or(crate::geometry::NO_TAG);
    }
}
