//! The ground that each layer covers.
//!
//! A layer's own outline is the surface's, pushed out by `beyond` along the
//! free edges. Ground that an earlier surface's layer of the same role
//! already covers is not covered twice; neither is it dug twice.

use std::sync::Arc;

use super::trouble::{Trouble, TroubleKind};
use crate::geometry::{Fault, Outline, Point, difference_pieces, widened};
use crate::model::{Build, Job, Layer, Surface};
use crate::vocabulary::Role;

/// How far two outlines must overlap each way to share ground, in metres:
/// what only touches, give or take rounding, does not.
const TOUCHING: f64 = 1e-6;

/// The ground that a layer covers.
#[derive(Debug, Clone, PartialEq)]
pub struct Covered {
    /// The surface's outline, pushed out.
    pub outline: Outline,
    /// What earlier surfaces leave of it; the outline alone if they take
    /// nothing.
    pub pieces: Vec<Outline>,
}

impl Covered {
    /// The area covered, in square metres.
    pub fn area_m2(&self) -> f64 {
        self.pieces.iter().map(Outline::area).sum()
    }

    /// The middle of what is covered: its centre of gravity.
    pub fn middle(&self) -> Point {
        let sums = self
            .pieces
            .iter()
            .fold((0.0, 0.0, 0.0), |(area, x, y), piece| {
                let (own, at) = (piece.area(), piece.centroid());
                (area + own, x + own * at.x, y + own * at.y)
            });
        match sums {
            (area, x, y) if area > 0.0 => Point::new(x / area, y / area),
            _ => self.outline.centroid(),
        }
    }

    /// The area that earlier surfaces have covered already.
    pub fn shared_m2(&self) -> f64 {
        (self.outline.area() - self.area_m2()).max(0.0)
    }
}

/// The grounds of a surface.
#[derive(Debug, Clone, Default)]
pub(super) struct SurfaceGrounds {
    /// What each layer covers, from the top down.
    pub layers: Vec<Option<Arc<Covered>>>,
    /// What is dug: the widest outline of the layers that have a thickness
    /// and do not lie there already.
    pub dug: Option<Arc<Covered>>,
}

/// Ground taken by an earlier surface.
struct Taken {
    /// The layer's role; `None` for what is dug.
    by: Option<Role>,
    corners: (Point, Point),
    widened: bool,
    ground: Arc<Covered>,
}

/// The grounds of every surface of a job, in order.
pub(super) fn grounds(job: &Job, troubles: &mut Vec<Trouble>) -> Vec<SurfaceGrounds> {
    let mut taken = Vec::new();
    job.surfaces
        .iter()
        .map(|surface| {
            // Surfaces that lie on the same ground are an error by
            // themselves, and nothing is taken off for them.
            let alone = surface.overlaps.is_some();
            let earlier = if alone { &[] } else { taken.as_slice() };
            let (own, taking) = surface_grounds(surface, earlier, troubles);
            if !alone {
                taken.extend(taking);
            }
            own
        })
        .collect()
}

fn surface_grounds(
    surface: &Surface,
    taken: &[Taken],
    troubles: &mut Vec<Trouble>,
) -> (SurfaceGrounds, Vec<Taken>) {
    let (Some(outline), Some(build)) = (&surface.outline, &surface.build) else {
        let count = surface
            .build
            .as_ref()
            .map_or(0, |build| build.value.layers.len());
        let unknown = SurfaceGrounds {
            layers: vec![None; count],
            dug: None,
        };
        return (unknown, Vec::new());
    };
    let mut taking = Vec::new();
    let mut layers = Vec::new();
    let mut pushed: Vec<(f64, Result<Outline, Fault>)> = Vec::new();
    for layer in &build.value.layers {
        let beyond = layer.beyond_m();
        let made = pushed_out(surface, outline, beyond, &mut pushed)
            .and_then(|own| remaining(own, Some(layer.role.value), beyond > 0.0, taken));
        layers.push(noted(made, surface, layer, troubles, &mut taking));
    }
    let dug = widest_dug(&build.value).and_then(|layer| {
        let beyond = layer.beyond_m();
        let made = pushed_out(surface, outline, beyond, &mut pushed)
            .and_then(|own| remaining(own, None, beyond > 0.0, taken));
        // What is wrong with the outline is said of the layer already.
        noted(made, surface, layer, &mut Vec::new(), &mut taking)
    });
    (SurfaceGrounds { layers, dug }, taking)
}

/// The outline of a surface, pushed out along its free edges. Layers often
/// go equally far, so what was made of an outline is kept in `pushed`.
fn pushed_out(
    surface: &Surface,
    outline: &Outline,
    beyond: f64,
    pushed: &mut Vec<(f64, Result<Outline, Fault>)>,
) -> Result<Outline, Fault> {
    if beyond == 0.0 {
        return Ok(outline.clone());
    }
    if let Some((_, made)) = pushed.iter().find(|(far, _)| *far == beyond) {
        return made.clone();
    }
    let made = widened(outline, beyond, &|edge| surface.is_free(edge.tag));
    pushed.push((beyond, made.clone()));
    made
}

/// What earlier surfaces leave of an outline.
fn remaining(
    outline: Outline,
    by: Option<Role>,
    is_widened: bool,
    taken: &[Taken],
) -> Result<Taken, Fault> {
    let corners = outline.bounding_box();
    let mut pieces = vec![outline.clone()];
    for earlier in taken.iter().filter(|earlier| earlier.by == by) {
        let may_share = (earlier.widened || is_widened) && overlap(earlier.corners, corners);
        if !may_share {
            continue;
        }
        for theirs in &earlier.ground.pieces {
            let mut left = Vec::new();
            for piece in &pieces {
                left.extend(difference_pieces(piece, theirs)?);
            }
            pieces = left;
        }
    }
    Ok(Taken {
        by,
        corners,
        widened: is_widened,
        ground: Arc::new(Covered { outline, pieces }),
    })
}

/// Whether two upright rectangles share more than a border.
fn overlap(first: (Point, Point), second: (Point, Point)) -> bool {
    first.0.x + TOUCHING < second.1.x
        && second.0.x + TOUCHING < first.1.x
        && first.0.y + TOUCHING < second.1.y
        && second.0.y + TOUCHING < first.1.y
}

fn noted(
    made: Result<Taken, Fault>,
    surface: &Surface,
    layer: &Layer,
    troubles: &mut Vec<Trouble>,
    taking: &mut Vec<Taken>,
) -> Option<Arc<Covered>> {
    match made {
        Ok(taken) => {
            let ground = Arc::clone(&taken.ground);
            taking.push(taken);
            Some(ground)
        }
        Err(fault) => {
            troubles.push(Trouble {
                kind: TroubleKind::Outline(fault),
                name: surface.name.value.clone(),
                place: layer.place,
                uses: vec![surface.place],
            });
            None
        }
    }
}

/// Of the layers that are dug for, the one that goes furthest beyond the
/// free edges.
fn widest_dug(build: &Build) -> Option<&Layer> {
    dug_layers(build).fold(None, |widest: Option<&Layer>, layer| match widest {
        Some(other) if other.beyond_m() >= layer.beyond_m() => Some(other),
        _ => Some(layer),
    })
}

/// The layers that are dug for: those with a thickness that do not lie there
/// already.
pub(super) fn dug_layers(build: &Build) -> impl Iterator<Item = &Layer> {
    build
        .layers
        .iter()
        .filter(|layer| layer.existing.is_none() && layer.thickness_m() > 0.0)
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{
        catalogued, close, in_unit, job, layer, rectangle, stated, surface,
    };
    use super::*;
    use crate::quantities::Figures;

    fn base(role: Role, beyond: &str) -> Layer {
        let mut base = layer(role, catalogued("crushed-stone"), "6 in");
        base.beyond = Some(stated(beyond));
        base
    }

    /// Two squares of 10 ft side by side with a gap, level with the ground.
    fn side_by_side(gap: &str, roles: [Role; 2]) -> Figures {
        let east = format!("{} in", 120 + gap.parse::<u32>().unwrap());
        let [first, second] = roles;
        let west = surface(
            "west",
            rectangle("0 ft", "0 ft", "10 ft", "10 ft"),
            vec![base(first, "6 in")],
        );
        let east = surface(
            "east",
            rectangle(&east, "0 ft", "10 ft", "10 ft"),
            vec![base(second, "6 in")],
        );
        let falling = [west, east].map(|surface| surface.falling("0 in", "0 %"));
        figures(&job(falling.into()).on_ground("0 in"))
    }

    #[test]
    fn ground_that_two_layers_share_is_covered_and_dug_once() {
        // Each base covers 11 by 11 ft; they share a strip of 12 in less the gap.
        for (gap, roles, east_layer, east_dig) in [
            (
                "8",
                [Role::Base, Role::Base],
                121.0 - 11.0 / 3.0,
                121.0 - 11.0 / 3.0,
            ),
            ("12", [Role::Base, Role::Base], 121.0, 121.0),
            ("24", [Role::Base, Role::Base], 121.0, 121.0),
            ("8", [Role::Base, Role::Subbase], 121.0, 121.0 - 11.0 / 3.0),
        ] {
            let figures = side_by_side(gap, roles);
            let [west, east] = figures.surfaces.as_slice() else {
                panic!()
            };
            assert!(
                close(in_unit(west.layers[0].area_m2, "sq ft"), 121.0, 1e-9),
                "{gap}"
            );
            assert!(
                close(in_unit(east.layers[0].area_m2, "sq ft"), east_layer, 1e-9),
                "{gap}"
            );
            let dig = east.dig.unwrap();
            assert!(
                close(in_unit(Some(dig.area_m2), "sq ft"), east_dig, 1e-9),
                "{gap}"
            );
            assert!(
                close(in_unit(Some(dig.bank_m3), "cu ft"), east_dig / 2.0, 1e-9),
                "{gap}"
            );
        }
    }

    #[test]
    fn ground_can_be_covered_whole_already() {
        let wide = surface(
            "wide",
            rectangle("0 ft", "0 ft", "10 ft", "10 ft"),
            vec![base(Role::Base, "5 ft")],
        );
        let near = surface(
            "near",
            rectangle("11 ft", "1 ft", "2 ft", "2 ft"),
            vec![base(Role::Base, "0 in")],
        );
        let figures = figures(&job(vec![wide, near]));
        assert_eq!(figures.surfaces[1].layers[0].area_m2, Some(0.0));
        assert!(figures.troubles.is_empty());
    }

    #[test]
    fn an_outline_that_cannot_be_pushed_out_is_told_of() {
        let court = surface(
            "court",
            rectangle("0 ft", "0 ft", "10 ft", "10 ft"),
            vec![base(Role::Base, "-6 in")],
        );
        let figures = figures(&job(vec![court]));
        assert_eq!(figures.surfaces[0].layers[0].area_m2, None);
        let kinds: Vec<_> = figures
            .troubles
            .iter()
            .map(|trouble| &trouble.kind)
            .collect();
        assert_eq!(kinds, [&TroubleKind::Outline(Fault::NotPositive)]);
    }
}
