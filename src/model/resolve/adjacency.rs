//! Surfaces in a row from west to east, and how those near one another lie.

use std::collections::BTreeSet;
use std::sync::Arc;

use rayon::prelude::*;

use super::super::job::Surface;
use crate::geometry::{Outline, Point, Stretch, intersection_area, shared};

/// Less than this area, in square metres, two surfaces do not overlap.
const SLIVER: f64 = 1e-6;

/// Boxes nearer than this, in metres, may have a common edge.
const NEAR: f64 = 1e-3;

/// From how many surfaces on their meetings are worked out side by side.
const MANY_SURFACES: usize = 256;

/// After so many others on its ground a surface looks no farther.
const MANY_OVERLAPS: usize = 32;

/// Where more have changed than this, all look round anew.
const MANY_CHANGED: usize = 64;

/// The corners of an upright rectangle.
pub(crate) type Corners = (Point, Point);

/// The surfaces of a job, each by its index, and which of them meet.
/// Those that meet are noted at the one that comes first in the row.
#[derive(Debug, Default)]
pub(crate) struct Adjacency {
    boxes: Vec<Option<Corners>>,
    /// From west to east: all that have a box.
    order: Vec<usize>,
    /// The place of each in that order.
    places: Vec<usize>,
    met: Vec<Vec<Met>>,
    /// Those that have met it, and come before it in the row.
    met_by: Vec<BTreeSet<usize>>,
    /// Where its look round ended before the row did: at so many overlaps
    /// that more of them would say no more.
    ends: Vec<Option<usize>>,
}

/// How a surface lies to the others.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Neighbours {
    /// Those after it in the row that lie on its ground, and how much of it.
    pub overlaps: Vec<(usize, f64)>,
    /// The stretches along which it stands against others.
    pub stretches: Vec<(Stretch, usize)>,
    /// Another of which nobody knows where it lies.
    pub unplaced: Option<usize>,
}

/// One that is met, and how.
#[derive(Debug, Clone)]
struct Met {
    other: usize,
    meeting: Meeting,
}

impl Met {
    /// The other and the area of both, if they lie on the same ground.
    fn overlap(&self) -> Option<(usize, f64)> {
        match self.meeting {
            Meeting::Overlap(common) => Some((self.other, common)),
            Meeting::Beside(..) => None,
        }
    }
}

/// How two outlines lie to each other.
#[derive(Debug, Clone)]
enum Meeting {
    /// On the same ground, so many square metres of it.
    Overlap(f64),
    /// Side by side: stretches of the first's edges and of the second's.
    Beside(Arc<[Stretch]>, Arc<[Stretch]>),
}

impl Adjacency {
    /// Surfaces in a row, each with its box.
    pub(crate) fn of(boxes: Vec<Option<Corners>>, surfaces: &[Arc<Surface>]) -> Adjacency {
        let count = boxes.len();
        let mut row = Adjacency {
            boxes,
            met: vec![Vec::new(); count],
            met_by: vec![BTreeSet::new(); count],
            ends: vec![None; count],
            ..Adjacency::default()
        };
        row.order = (0..count)
            .filter(|index| row.corners(*index).is_some())
            .collect();
        row.line_up();
        let met = |index: &usize| (*index, row.look(*index, surfaces, |_| None));
        let met: Vec<(usize, Vec<Met>)> = match count < MANY_SURFACES {
            true => row.order.iter().map(met).collect(),
            false => row.order.par_iter().map(met).collect(),
        };
        for (index, met) in met {
            row.note(index, met);
        }
        row
    }

    /// Takes in that some of the surfaces are others now, each with its box;
    /// gives all that may lie otherwise.
    pub(crate) fn change(
        &mut self,
        changed: &[(usize, Option<Corners>)],
        surfaces: &[Arc<Surface>],
    ) -> BTreeSet<usize> {
        for (index, corners) in changed {
            if let Some(place) = self.boxes.get_mut(*index) {
                *place = *corners;
            }
        }
        if changed.len() > MANY_CHANGED {
            *self = Adjacency::of(std::mem::take(&mut self.boxes), surfaces);
            return (0..surfaces.len()).collect();
        }
        let changed: Vec<usize> = changed.iter().map(|(index, _)| *index).collect();
        self.order.retain(|index| !changed.contains(index));
        let boxed = |index: &&usize| self.corners(**index).is_some();
        let back: Vec<usize> = changed.iter().filter(boxed).copied().collect();
        self.order.extend(back);
        self.line_up();
        let mut touched = BTreeSet::new();
        for index in self.looking_anew(&changed) {
            let is_new = |other: usize| changed.contains(&index) || changed.contains(&other);
            let before = self.met.get(index).map_or(&[][..], Vec::as_slice);
            let known = |other: usize| {
                let mut before = before.iter().filter(|_| !is_new(other));
                let met = before.find(|met| met.other == other)?;
                Some(met.meeting.clone())
            };
            let met = match self.corners(index) {
                Some(_) => self.look(index, surfaces, known),
                None => Vec::new(),
            };
            touched.insert(index);
            touched.extend(before.iter().chain(&met).map(|met| met.other));
            self.note(index, met);
        }
        touched
    }

    /// How one of them lies to the others.
    pub(crate) fn lie(&self, index: usize) -> Neighbours {
        let before = self.met_by.get(index).into_iter().flatten();
        let mut before: Vec<usize> = before.copied().collect();
        before.sort_by_key(|one| self.places.get(*one));
        let met = |one: usize| self.met.get(one).into_iter().flatten();
        let mut stretches: Vec<(Stretch, usize)> = Vec::new();
        for one in before {
            for found in met(one).filter(|met| met.other == index) {
                if let Meeting::Beside(_, of_second) = &found.meeting {
                    stretches.extend(of_second.iter().map(|stretch| (*stretch, one)));
                }
            }
        }
        for found in met(index) {
            if let Meeting::Beside(of_first, _) = &found.meeting {
                stretches.extend(of_first.iter().map(|stretch| (*stretch, found.other)));
            }
        }
        Neighbours {
            overlaps: met(index).filter_map(Met::overlap).collect(),
            stretches,
            unplaced: None,
        }
    }

    fn corners(&self, index: usize) -> Option<Corners> {
        self.boxes.get(index).copied().flatten()
    }

    /// Puts those that have a box in their order.
    fn line_up(&mut self) {
        let boxes = &self.boxes;
        let west = |index: usize| match boxes.get(index) {
            Some(Some((low, _))) => low.x,
            _ => f64::INFINITY,
        };
        self.order
            .sort_by(|one, other| west(*one).total_cmp(&west(*other)).then(one.cmp(other)));
        self.places = vec![usize::MAX; self.boxes.len()];
        for (place, index) in self.order.iter().enumerate() {
            if let Some(own) = self.places.get_mut(*index) {
                *own = place;
            }
        }
    }

    /// Those that have to look round anew: the changed ones, whoever has met
    /// one of them, and whoever meets one of them now.
    fn looking_anew(&self, changed: &[usize]) -> BTreeSet<usize> {
        let mut anew: BTreeSet<usize> = changed.iter().copied().collect();
        for index in changed {
            anew.extend(self.met_by.get(*index).into_iter().flatten());
            let (Some(corners), Some(place)) = (self.corners(*index), self.places.get(*index))
            else {
                continue;
            };
            let before = self.order.iter().take(*place);
            anew.extend(before.filter(|one| {
                let end = self.ends.get(**one).copied().flatten();
                let last = end.and_then(|other| self.places.get(other));
                last.is_none_or(|last| last > place)
                    && self
                        .corners(**one)
                        .is_some_and(|own| are_near(own, corners))
            }));
        }
        anew
    }

    /// Those after one in the row that it meets. Surfaces on the same ground
    /// are an error by themselves; after [`MANY_OVERLAPS`] nothing more is
    /// worked out of how one lies to others, so that a heap of thousands costs
    /// no more than it has to.
    fn look(
        &self,
        index: usize,
        surfaces: &[Arc<Surface>],
        known: impl Fn(usize) -> Option<Meeting>,
    ) -> Vec<Met> {
        let mut met: Vec<Met> = Vec::new();
        let mut overlaps = 0;
        let (Some(own), Some(corners), Some(place)) = (
            surfaces.get(index),
            self.corners(index),
            self.places.get(index),
        ) else {
            return met;
        };
        for other in self.order.iter().skip(place + 1) {
            let (Some(surface), Some(theirs)) = (surfaces.get(*other), self.corners(*other)) else {
                continue;
            };
            // None further on comes as far west as this one's east side.
            if theirs.0.x > corners.1.x + NEAR {
                break;
            }
            if !are_near(corners, theirs) {
                continue;
            }
            let meeting = known(*other).unwrap_or_else(|| meeting(own, surface));
            overlaps += usize::from(matches!(meeting, Meeting::Overlap(_)));
            met.push(Met {
                other: *other,
                meeting,
            });
            if overlaps >= MANY_OVERLAPS {
                break;
            }
        }
        met
    }

    /// Notes what one meets, in place of what it met before.
    fn note(&mut self, index: usize, mut met: Vec<Met>) {
        met.shrink_to_fit();
        let mut overlaps = met.iter().filter_map(Met::overlap);
        if let Some(end) = self.ends.get_mut(index) {
            *end = overlaps.nth(MANY_OVERLAPS - 1).map(|(other, _)| other);
        }
        for met in &met {
            if let Some(by) = self.met_by.get_mut(met.other) {
                by.insert(index);
            }
        }
        let Some(own) = self.met.get_mut(index) else {
            return;
        };
        let before = std::mem::replace(own, met);
        for gone in before {
            if own.iter().all(|met| met.other != gone.other)
                && let Some(by) = self.met_by.get_mut(gone.other)
            {
                by.remove(&index);
            }
        }
    }
}

/// Whether two boxes are so near that what lies in them may touch.
fn are_near((low, high): Corners, (other_low, other_high): Corners) -> bool {
    other_low.x <= high.x + NEAR
        && other_high.x >= low.x - NEAR
        && other_low.y <= high.y + NEAR
        && other_high.y >= low.y - NEAR
}

/// How two surfaces lie to each other.
fn meeting(first: &Surface, second: &Surface) -> Meeting {
    match (outlines(first).is_empty(), outlines(second).is_empty()) {
        (false, false) => meeting_of(&outlines(first), &outlines(second)),
        (false, true) => Meeting::Beside(beside_sketches(first, second), Arc::default()),
        (true, false) => Meeting::Beside(Arc::default(), beside_sketches(second, first)),
        (true, true) => Meeting::Beside(Arc::default(), Arc::default()),
    }
}

/// How surfaces with these outlines lie to each other.
fn meeting_of(first: &[&Outline], second: &[&Outline]) -> Meeting {
    let mut common = 0.0;
    let (mut of_first, mut of_second) = (Vec::new(), Vec::new());
    for a in first {
        let around = a.bounding_box();
        for b in second {
            // What comes again lies far from most.
            let is_one = first.len() == 1 && second.len() == 1;
            if !is_one && !are_near(around, b.bounding_box()) {
                continue;
            }
            let both = intersection_area(a, b).unwrap_or(0.0);
            if both > SLIVER {
                common += both;
                continue;
            }
            of_first.extend(shared(a, b));
            of_second.extend(shared(b, a));
        }
    }
    match common > 0.0 {
        true => Meeting::Overlap(common),
        false => Meeting::Beside(of_first.into(), of_second.into()),
    }
}

/// The stretches of a surface's outlines that stand against another, or may do
/// so, whose own outline could not be made out.
fn beside_sketches(own: &Surface, other: &Surface) -> Arc<[Stretch]> {
    let outlines = outlines(own).into_iter();
    let stretches = outlines.flat_map(|outline| beside_sketch(outline, other));
    stretches.collect()
}

/// The stretches of an outline that stand against a surface whose own outline
/// could not be made out in full, or may do so: those that lie in its sketch.
/// They are not free, whatever the line says that could not be followed.
fn beside_sketch(own: &Outline, other: &Surface) -> Vec<Stretch> {
    let Some(sketch) = other
        .shape
        .as_ref()
        .and_then(|shape| shape.value.sketch.as_ref())
    else {
        return Vec::new();
    };
    let within = own.edges().filter(|edge| sketch.contains(edge.midpoint()));
    let within: Vec<Stretch> = within
        .map(|edge| Stretch {
            edge: *edge,
            from: 0.0,
            to: edge.length(),
        })
        .collect();
    let is_within = |stretch: &Stretch| within.iter().any(|other| other.edge == stretch.edge);
    let along = shared(own, sketch).into_iter();
    let along: Vec<Stretch> = along.filter(|stretch| !is_within(stretch)).collect();
    within.into_iter().chain(along).collect()
}

/// The outlines of a surface, their edges not parted.
pub(super) fn outlines(surface: &Surface) -> Vec<&Outline> {
    let shape = surface.shape.as_ref().filter(|_| !surface.repeat_unread);
    let drawn = shape.and_then(|shape| shape.value.outline.as_ref());
    let others = surface.repeat.iter().flat_map(|own| &own.outlines);
    drawn.into_iter().chain(others).collect()
}
