//! The footprint of each layer: the ground that it covers.
//!
//! A layer's own outline is the surface's, pushed out by `beyond` along the
//! free edges. Ground that an earlier surface's layer of the same role
//! already covers is not covered twice; neither is it dug twice.

use std::collections::BTreeMap;
use std::sync::Arc;

use rayon::prelude::*;

use super::trouble::{Trouble, TroubleKind};
use crate::geometry::{Fault, Outline, Point, difference_pieces, widened};
use crate::model::{Build, Job, Layer, Surface};
use crate::vocabulary::Role;

/// How far two outlines must overlap each way to share ground, in metres:
/// what only touches, give or take rounding, does not.
const TOUCHING: f64 = 1e-6;

/// The ground that a layer covers.
#[derive(Debug, Clone, PartialEq)]
pub struct Footprint {
    /// The surface's outline, pushed out.
    pub outline: Arc<Outline>,
    /// What earlier surfaces leave of it; the outline alone if they take
    /// nothing.
    pub pieces: Vec<Arc<Outline>>,
}

impl Footprint {
    /// The area covered, in square metres.
    pub fn area_m2(&self) -> f64 {
        self.pieces.iter().map(|piece| piece.area()).sum()
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

/// The footprints of a surface.
#[derive(Debug, Clone, Default)]
pub(super) struct SurfaceFootprints {
    /// What each layer covers, from the top down.
    pub layers: Vec<Option<Arc<Footprint>>>,
    /// What is dug: the widest outline of the layers that have a thickness
    /// and do not lie there already.
    pub dug: Option<Arc<Footprint>>,
    /// What is wrong with an outline.
    pub troubles: Vec<Trouble>,
}

/// Ground taken by an earlier surface.
#[derive(Debug)]
struct Taken {
    /// The layer's role; `None` for what is dug.
    by: Option<Role>,
    corners: (Point, Point),
    widened: bool,
    ground: Arc<Footprint>,
}

/// The footprints of the surfaces of a job, in order, and what led to them: of
/// what has not changed nothing is worked out again.
#[derive(Debug, Default)]
pub(super) struct Footprints {
    plots: Vec<Plot>,
}

/// The footprints of a surface, and what led to them.
#[derive(Debug)]
struct Plot {
    surface: Arc<Surface>,
    pushed: PushedOut,
    /// What the earlier surfaces near it have taken, once that is known.
    near: Option<Vec<Arc<Vec<Taken>>>>,
    taking: Arc<Vec<Taken>>,
    footprints: Arc<SurfaceFootprints>,
    /// Whether the footprints have troubles.
    is_in_trouble: bool,
    /// Whether it lies on the ground of another surface.
    overlaps: bool,
}

impl Footprints {
    /// Works out the footprints of every surface of a job.
    pub fn work(&mut self, job: &Job) {
        let surfaces = job.surfaces.as_slice();
        self.plots.truncate(surfaces.len());
        let is_known = |(index, surface): &(usize, &Arc<Surface>)| {
            let plot = self.plots.get(*index);
            plot.is_some_and(|plot| Arc::ptr_eq(&plot.surface, surface))
        };
        let new = surfaces.iter().enumerate().filter(|one| !is_known(one));
        let new: Vec<(usize, &Arc<Surface>)> = new.collect();
        let new_ones = new.len();
        let pushed = |(index, surface): (usize, &Arc<Surface>)| (index, PushedOut::of(surface));
        let pushed: Vec<(usize, PushedOut)> = if new.len() < MANY_SURFACES {
            new.into_iter().map(pushed).collect()
        } else {
            new.into_par_iter().map(pushed).collect()
        };
        for (index, pushed) in pushed {
            let Some(surface) = surfaces.get(index) else {
                continue;
            };
            let plot = Plot::not_worked_yet(surface, pushed);
            match self.plots.get_mut(index) {
                Some(place) => *place = plot,
                None => self.plots.push(plot),
            }
        }
        if new_ones == 0 {
            return;
        }
        let mut earlier = earlier_neighbours(&self.plots).into_iter().peekable();
        for index in 0..self.plots.len() {
            let own = earlier.next_if(|(later, _)| *later == index);
            let own = own.map_or_else(Vec::new, |(_, earlier)| earlier);
            let (before, from) = self.plots.split_at_mut(index);
            let near = own.iter().filter_map(|index| before.get(*index));
            let near: Vec<Arc<Vec<Taken>>> = near.map(|plot| Arc::clone(&plot.taking)).collect();
            if let Some(plot) = from.first_mut() {
                plot.work(near);
            }
        }
    }

    /// What is wrong with the outlines, in the order of the surfaces.
    pub fn troubles(&self) -> impl Iterator<Item = &Trouble> {
        let in_trouble = self.plots.iter().filter(|plot| plot.is_in_trouble);
        in_trouble.flat_map(|plot| &plot.footprints.troubles)
    }

    /// The footprints of every surface, in order.
    pub fn all(&self) -> impl ExactSizeIterator<Item = &Arc<SurfaceFootprints>> {
        self.plots.iter().map(|plot| &plot.footprints)
    }
}

impl Plot {
    fn not_worked_yet(surface: &Arc<Surface>, pushed: PushedOut) -> Plot {
        Plot {
            surface: Arc::clone(surface),
            pushed,
            near: None,
            taking: Arc::default(),
            footprints: Arc::default(),
            is_in_trouble: false,
            overlaps: !surface.overlaps.is_empty(),
        }
    }

    /// Works out the footprints, unless what is near is what it was.
    fn work(&mut self, near: Vec<Arc<Vec<Taken>>>) {
        let is_same = |before: &Vec<Arc<Vec<Taken>>>| {
            before.len() == near.len() && before.iter().zip(&near).all(|(a, b)| Arc::ptr_eq(a, b))
        };
        if self.near.as_ref().is_some_and(is_same) {
            return;
        }
        let taken: Vec<&Taken> = near.iter().flat_map(|taken| taken.iter()).collect();
        let (footprints, taking) = surface_footprints(&self.surface, &self.pushed.outlines, &taken);
        self.is_in_trouble = !footprints.troubles.is_empty();
        (self.footprints, self.taking) = (Arc::new(footprints), Arc::new(taking));
        self.near = Some(near);
    }
}

/// From how many surfaces on they are worked out side by side.
pub(super) const MANY_SURFACES: usize = 256;

/// An outline pushed out so far along its free edges.
#[derive(Debug)]
struct Pushed {
    beyond: f64,
    outline: Result<Arc<Outline>, Fault>,
}

/// The outline of a surface pushed out as far as each of its layers goes.
#[derive(Debug)]
struct PushedOut {
    outlines: Vec<Pushed>,
    /// The corners of the upright rectangle around all of them.
    corners: Option<(Point, Point)>,
}

impl PushedOut {
    fn of(surface: &Surface) -> PushedOut {
        let outlines = pushed_out(surface);
        PushedOut {
            corners: widest_box(&outlines),
            outlines,
        }
    }
}

/// The outline of a surface pushed out as far as each of its layers goes,
/// once for layers that go equally far.
fn pushed_out(surface: &Surface) -> Vec<Pushed> {
    let mut pushed: Vec<Pushed> = Vec::new();
    let (Some(outline), Some(build)) = (&surface.outline, &surface.build) else {
        return pushed;
    };
    for layer in &build.value.layers {
        if !is_known(surface, layer) {
            continue;
        }
        let beyond = layer.beyond_m();
        if pushed.iter().any(|known| known.beyond == beyond) {
            continue;
        }
        let outline = if beyond == 0.0 {
            Ok(outline.clone())
        } else {
            widened(outline, beyond, &|edge| surface.is_free(edge.tag))
        };
        pushed.push(Pushed {
            beyond,
            outline: outline.map(Arc::new),
        });
    }
    pushed.shrink_to_fit();
    pushed
}

/// The surfaces, by index, that have earlier ones whose widest ground may
/// share some of theirs, with those. Surfaces that lie on the same ground are
/// an error by themselves, and nothing is taken off for them.
fn earlier_neighbours(plots: &[Plot]) -> BTreeMap<usize, Vec<usize>> {
    let mut boxes: Vec<(usize, (Point, Point))> = plots
        .iter()
        .enumerate()
        .filter(|(_, plot)| !plot.overlaps)
        .filter_map(|(index, plot)| Some((index, plot.pushed.corners?)))
        .collect();
    boxes.sort_by(|a, b| a.1.0.x.total_cmp(&b.1.0.x));
    let mut earlier: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (at, (index, corners)) in boxes.iter().enumerate() {
        let near = boxes
            .iter()
            .skip(at + 1)
            .take_while(|(_, other)| other.0.x < corners.1.x)
            .filter(|(_, other)| overlap(*corners, *other));
        for (other, _) in near {
            let (first, second) = (index.min(other), index.max(other));
            earlier.entry(*second).or_default().push(*first);
        }
    }
    earlier.values_mut().for_each(|list| list.sort_unstable());
    earlier
}

fn widest_box(pushed: &[Pushed]) -> Option<(Point, Point)> {
    pushed
        .iter()
        .filter_map(|pushed| Some(pushed.outline.as_ref().ok()?.bounding_box()))
        .reduce(|(low, high), (other_low, other_high)| {
            (
                Point::new(low.x.min(other_low.x), low.y.min(other_low.y)),
                Point::new(high.x.max(other_high.x), high.y.max(other_high.y)),
            )
        })
}

fn surface_footprints(
    surface: &Surface,
    pushed: &[Pushed],
    near: &[&Taken],
) -> (SurfaceFootprints, Vec<Taken>) {
    let mut troubles = Vec::new();
    let layers_of = surface.build.as_ref().map(|build| &build.value.layers);
    let mut taking = Vec::new();
    let mut layers = Vec::new();
    for layer in layers_of.into_iter().flatten() {
        if !is_known(surface, layer) {
            layers.push(None);
            continue;
        }
        let made = remaining(pushed, layer.beyond_m(), Some(layer.role.value), near);
        layers.push(noted(made, surface, layer, &mut troubles, &mut taking));
    }
    let widest = surface
        .build
        .as_ref()
        .filter(|build| dug_layers(&build.value).all(|layer| is_known(surface, layer)))
        .and_then(|build| widest_dug(&build.value));
    let dug = widest.and_then(|layer| {
        let made = remaining(pushed, layer.beyond_m(), None, near);
        // What is wrong with the outline is said of the layer already.
        noted(made, surface, layer, &mut Vec::new(), &mut taking)
    });
    let footprints = SurfaceFootprints {
        layers,
        dug,
        troubles,
    };
    (footprints, taking)
}

/// Whether it is known how far a layer of a surface goes, and past which
/// edges.
fn is_known(surface: &Surface, layer: &Layer) -> bool {
    let hangs_on_meets = layer.beyond_m() > 0.0 && surface.meets_unread;
    !(layer.is_unread("beyond") || hangs_on_meets)
}

/// What earlier surfaces leave of an outline.
/// `None` where the surface has no outline at all, which is told elsewhere.
fn remaining(
    pushed: &[Pushed],
    beyond: f64,
    by: Option<Role>,
    near: &[&Taken],
) -> Option<Result<Taken, Fault>> {
    let own = pushed.iter().find(|known| known.beyond == beyond)?;
    Some(
        own.outline
            .clone()
            .and_then(|outline| less_what_is_taken(outline, by, beyond > 0.0, near)),
    )
}

fn less_what_is_taken(
    outline: Arc<Outline>,
    by: Option<Role>,
    is_widened: bool,
    near: &[&Taken],
) -> Result<Taken, Fault> {
    let corners = outline.bounding_box();
    let mut pieces = vec![Arc::clone(&outline)];
    for earlier in near.iter().filter(|earlier| earlier.by == by) {
        let may_share = (earlier.widened || is_widened) && overlap(earlier.corners, corners);
        if !may_share {
            continue;
        }
        for theirs in &earlier.ground.pieces {
            let mut left = Vec::new();
            for piece in &pieces {
                left.extend(difference_pieces(piece, theirs)?.into_iter().map(Arc::new));
            }
            pieces = left;
        }
    }
    Ok(Taken {
        by,
        corners,
        widened: is_widened,
        ground: Arc::new(Footprint { outline, pieces }),
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
    made: Option<Result<Taken, Fault>>,
    surface: &Surface,
    layer: &Layer,
    troubles: &mut Vec<Trouble>,
    taking: &mut Vec<Taken>,
) -> Option<Arc<Footprint>> {
    match made? {
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
