//! What the edges of surfaces stand against: the building, one another, or
//! nothing.

use super::super::job::{Contact, Side, Surface};
use crate::geometry::{Outline, Point, Stretch, Tag, intersection_area, shared};

/// Less than this area, in square metres, two surfaces do not overlap.
const SLIVER: f64 = 1e-6;

/// Boxes nearer than this, in metres, may have a common edge.
const NEAR: f64 = 1e-3;

/// Settles the sides of all surfaces.
pub fn settle(surfaces: &mut [Surface]) {
    let mut stretches: Vec<Vec<(Stretch, usize)>> = vec![Vec::new(); surfaces.len()];
    let boxes = boxes(surfaces);
    for (at, (one, low, high)) in boxes.iter().enumerate() {
        for (other, other_low, other_high) in boxes.iter().skip(at + 1) {
            // The boxes are sorted by their west side: none further on meets
            // this one. Surfaces on the same ground are an error by
            // themselves; nothing more is worked out of how they lie to
            // others, so that many of them cost no more than a few.
            let done = surfaces
                .get(*one)
                .is_none_or(|surface| surface.overlaps.is_some());
            if done || other_low.x > high.x + NEAR {
                break;
            }
            if other_low.y <= high.y + NEAR && other_high.y >= low.y - NEAR {
                meet(surfaces, *one, *other, &mut stretches);
            }
        }
    }
    for (surface, stretches) in surfaces.iter_mut().zip(stretches) {
        sides(surface, &stretches);
    }
}

/// Settles how two surfaces lie to each other.
fn meet(
    surfaces: &mut [Surface],
    one: usize,
    other: usize,
    stretches: &mut [Vec<(Stretch, usize)>],
) {
    let (Some(first), Some(second)) = (surfaces.get(one), surfaces.get(other)) else {
        return;
    };
    let (Some(a), Some(b)) = (&first.outline, &second.outline) else {
        return;
    };
    if second.overlaps.is_some() {
        return;
    }
    let common = intersection_area(a, b).unwrap_or(0.0);
    if common > SLIVER {
        if let Some(surface) = surfaces.get_mut(one) {
            surface.overlaps = Some((other, common));
        }
        return;
    }
    let of_first = shared(a, b);
    let of_second = shared(b, a);
    for (index, against, found) in [(one, other, of_first), (other, one, of_second)] {
        if let Some(list) = stretches.get_mut(index) {
            list.extend(found.into_iter().map(|stretch| (stretch, against)));
        }
    }
}

/// The bounding boxes of the surfaces that have an outline, by index, from
/// west to east.
fn boxes(surfaces: &[Surface]) -> Vec<(usize, Point, Point)> {
    let mut boxes: Vec<(usize, Point, Point)> = surfaces
        .iter()
        .enumerate()
        .filter_map(|(index, surface)| {
            let (low, high) = surface.outline.as_ref()?.bounding_box();
            Some((index, low, high))
        })
        .collect();
    boxes.sort_by(|a, b| a.1.x.total_cmp(&b.1.x).then(a.0.cmp(&b.0)));
    boxes
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
