//! The footprint of each layer: the ground that it covers.
//!
//! A layer's own outline is the surface's, pushed out by `beyond` along the
//! free edges where nothing in place holds them. Ground that layers of several surfaces reach is covered once,
//! and dug once: [`sharing`](super::sharing) says whose it is.

use std::sync::Arc;

use rayon::prelude::*;

use super::dig::dug_layers;
use super::footings::kerbs_in_base;
use super::footprint::Footprint;
use super::sharing::{Cover, overlap, own_ground};
use super::taken::{Lying, Taken, left_of};
use super::trouble::{Trouble, TroubleKind};
use crate::geometry::{Fault, Outline, Point, widened};
use crate::model::{Build, Job, Layer, Stated, Surface};
use crate::vocabulary::Role;

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

/// The footprints of the surfaces of a job, in order, and what led to them: of
/// what has not changed nothing is worked out again.
#[derive(Debug, Default)]
pub(super) struct Footprints {
    plots: Vec<Plot>,
    /// What flights of steps and drains take.
    taken: Vec<Taken>,
}

/// The footprints of a surface, and what led to them.
#[derive(Debug)]
struct Plot {
    surface: Arc<Surface>,
    /// Of each of its outlines.
    pushed: Vec<PushedOut>,
    /// What the outlines near each of them cover, once that is known.
    near: Option<Vec<Near>>,
    /// The flights of steps and drains that may stand on it.
    taken: Vec<Taken>,
    footprints: Arc<SurfaceFootprints>,
    /// Whether the footprints have troubles.
    is_in_trouble: bool,
    /// Whether it lies on the ground of another surface.
    overlaps: bool,
}

/// What the outlines near one cover.
type Near = Vec<Arc<Cover>>;

impl Footprints {
    /// Works out the footprints of every surface of a job, of which flights
    /// of steps and drains take some.
    pub(crate) fn work(&mut self, job: &Job, taken: &[Taken]) {
        let surfaces = job.surfaces.as_slice();
        let gone = self.plots.len() > surfaces.len();
        self.plots.truncate(surfaces.len());
        let is_known = |(index, surface): &(usize, &Arc<Surface>)| {
            let plot = self.plots.get(*index);
            plot.is_some_and(|plot| Arc::ptr_eq(&plot.surface, surface))
        };
        let new = surfaces.iter().enumerate().filter(|one| !is_known(one));
        let new: Vec<(usize, &Arc<Surface>)> = new.collect();
        let new_ones = new.len();
        let pushed = |(index, surface): (usize, &Arc<Surface>)| (index, PushedOut::all(surface));
        let pushed: Vec<(usize, Vec<PushedOut>)> = if new.len() < MANY_SURFACES {
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
        // What is gone may have had ground of one that is still there.
        if new_ones == 0 && !gone && self.taken == taken {
            return;
        }
        self.taken = taken.to_vec();
        let near = neighbours(&self.plots);
        let work = |(plot, near): (&mut Plot, Vec<Near>)| plot.work(near, taken);
        if new_ones < MANY_SURFACES {
            self.plots.iter_mut().zip(near).for_each(work);
        } else {
            self.plots.par_iter_mut().zip(near).for_each(work);
        }
    }

    /// What is wrong with the outlines, in the order of the surfaces.
    pub(crate) fn troubles(&self) -> impl Iterator<Item = &Trouble> {
        let in_trouble = self.plots.iter().filter(|plot| plot.is_in_trouble);
        in_trouble.flat_map(|plot| &plot.footprints.troubles)
    }

    /// The footprints of every surface, in order.
    pub(crate) fn all(&self) -> impl ExactSizeIterator<Item = &Arc<SurfaceFootprints>> {
        self.plots.iter().map(|plot| &plot.footprints)
    }
}

impl Plot {
    fn not_worked_yet(surface: &Arc<Surface>, pushed: Vec<PushedOut>) -> Plot {
        let overlaps_itself = surface.repeat.as_ref();
        let overlaps_itself = overlaps_itself.is_some_and(|own| own.overlap_m2 > 0.0);
        Plot {
            surface: Arc::clone(surface),
            pushed,
            near: None,
            taken: Vec::new(),
            footprints: Arc::default(),
            is_in_trouble: false,
            overlaps: overlaps_itself || !surface.overlaps.is_empty(),
        }
    }

    /// Works out the footprints, unless what is near is what it was.
    fn work(&mut self, near: Vec<Near>, taken: &[Taken]) {
        let corners = || self.pushed.iter().filter_map(|pushed| pushed.corners);
        let is_near = |taken: &&Taken| corners().any(|own| taken.is_near(own));
        let taken: Vec<Taken> = taken.iter().filter(is_near).cloned().collect();
        let is_same_near = |before: &Near, now: &Near| {
            before.len() == now.len() && before.iter().zip(now).all(|(a, b)| Arc::ptr_eq(a, b))
        };
        let is_same = |before: &Vec<Near>| {
            let mut pairs = before.iter().zip(&near);
            before.len() == near.len() && pairs.all(|(before, now)| is_same_near(before, now))
        };
        if self.near.as_ref().is_some_and(is_same) && self.taken == taken {
            return;
        }
        let footprints = surface_footprints(&self.surface, &self.pushed, &near, &taken);
        self.is_in_trouble = !footprints.troubles.is_empty();
        self.footprints = Arc::new(footprints);
        self.near = Some(near);
        self.taken = taken;
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

/// An outline of a surface pushed out as far as each of its layers goes.
#[derive(Debug)]
struct PushedOut {
    outlines: Vec<Pushed>,
    /// What it covers so.
    cover: Arc<Cover>,
    /// The corners of the upright rectangle around all of them.
    corners: Option<(Point, Point)>,
}

impl PushedOut {
    /// Each outline of a surface by itself; none without an outline or a
    /// build.
    fn all(surface: &Surface) -> Vec<PushedOut> {
        let Some(build) = &surface.build else {
            return Vec::new();
        };
        let beds = surface.beds().unwrap_or_default();
        let outlines = beds.into_iter().map(Arc::new);
        outlines
            .map(|paving| PushedOut::of(surface, build, paving))
            .collect()
    }

    fn of(surface: &Surface, build: &Stated<Arc<Build>>, paving: Arc<Outline>) -> PushedOut {
        let outlines = pushed_out(surface, &build.value, &paving);
        let own = Some(paving.bounding_box());
        PushedOut {
            corners: own.into_iter().chain(boxes(&outlines)).reduce(around),
            cover: Arc::new(cover(surface, &build.value, paving, &outlines)),
            outlines,
        }
    }

    /// The outline of what goes so far past the free edges.
    fn at(&self, beyond: f64) -> Option<&Result<Arc<Outline>, Fault>> {
        outline_at(&self.outlines, beyond)
    }
}

fn outline_at(pushed: &[Pushed], beyond: f64) -> Option<&Result<Arc<Outline>, Fault>> {
    let own = pushed.iter().find(|known| known.beyond == beyond)?;
    Some(&own.outline)
}

/// What a surface covers, by role, and what is dug for it.
fn cover(surface: &Surface, build: &Build, paving: Arc<Outline>, pushed: &[Pushed]) -> Cover {
    let micrometres = |metres: f64| (metres * 1e6).round() as i64;
    let mut cover = Cover {
        depth: build.depth_m().map(micrometres),
        reaches: Vec::new(),
        paving,
    };
    let widened = |layer: &Layer| {
        let beyond = Some(layer.beyond_m()).filter(|beyond| *beyond > 0.0);
        let known = beyond.filter(|_| is_known(surface, layer))?;
        outline_at(pushed, known)?.as_ref().ok()
    };
    for layer in &build.layers {
        let role = Some(layer.role.value);
        cover.reach(role, layer.existing.is_some(), widened(layer));
    }
    // What is dug for a layer of no known thickness is not known either, but
    // that it is dug for is.
    let is_dug = |layer: &&Layer| {
        let is_thick = layer.thickness_m() > 0.0;
        let is_unknown = layer.thickness.is_none() && !layer.role.value.is_sheet();
        layer.existing.is_none() && (is_thick || is_unknown)
    };
    for layer in build.layers.iter().filter(is_dug) {
        cover.reach(None, false, widened(layer));
    }
    cover
}

/// The outline of a surface pushed out as far as each of its layers goes,
/// once for layers that go equally far.
fn pushed_out(surface: &Surface, build: &Build, paving: &Arc<Outline>) -> Vec<Pushed> {
    let mut pushed: Vec<Pushed> = Vec::new();
    for layer in &build.layers {
        if !is_known(surface, layer) {
            continue;
        }
        let beyond = layer.beyond_m();
        if pushed.iter().any(|known| known.beyond == beyond) {
            continue;
        }
        let outline = if beyond == 0.0 {
            Ok(Arc::clone(paving))
        } else {
            let wider = widened(paving, beyond, &|edge| surface.is_open(edge.tag));
            wider.map(Arc::new)
        };
        pushed.push(Pushed { beyond, outline });
    }
    pushed.shrink_to_fit();
    pushed
}

/// For each outline of each surface, in order, what those cover whose widest
/// ground may share some of its own. Surfaces that lie on the same ground are
/// an error by themselves, and nothing is taken off for them.
fn neighbours(plots: &[Plot]) -> Vec<Vec<Near>> {
    let clear = plots.iter().enumerate().filter(|(_, plot)| !plot.overlaps);
    let outlines = clear.flat_map(|(index, plot)| {
        let pushed = plot.pushed.iter().enumerate();
        pushed.filter_map(move |(at, own)| Some(((index, at), own.corners?)))
    });
    let mut boxes: Vec<((usize, usize), (Point, Point))> = outlines.collect();
    boxes.sort_by(|a, b| a.1.0.x.total_cmp(&b.1.0.x));
    let mut pairs: Vec<((usize, usize), (usize, usize))> = Vec::new();
    for (at, (index, corners)) in boxes.iter().enumerate() {
        let near = boxes
            .iter()
            .skip(at + 1)
            .take_while(|(_, other)| other.0.x < corners.1.x)
            .filter(|(_, other)| overlap(*corners, *other));
        pairs.extend(near.flat_map(|(other, _)| [(*index, *other), (*other, *index)]));
    }
    pairs.sort_unstable();
    let each = plots
        .iter()
        .map(|plot| vec![Near::new(); plot.pushed.len()]);
    let mut near: Vec<Vec<Near>> = each.collect();
    for ((one, own), (other, at)) in pairs {
        let pushed = plots.get(other).and_then(|plot| plot.pushed.get(at));
        let list = near.get_mut(one).and_then(|plot| plot.get_mut(own));
        if let (Some(list), Some(pushed)) = (list, pushed) {
            list.push(Arc::clone(&pushed.cover));
        }
    }
    near
}

fn boxes(pushed: &[Pushed]) -> impl Iterator<Item = (Point, Point)> {
    let outlines = pushed.iter().filter_map(|one| one.outline.as_ref().ok());
    outlines.map(|outline| outline.bounding_box())
}

/// The upright rectangle around two.
fn around(first: (Point, Point), second: (Point, Point)) -> (Point, Point) {
    let ((low, high), (other_low, other_high)) = (first, second);
    (
        Point::new(low.x.min(other_low.x), low.y.min(other_low.y)),
        Point::new(high.x.max(other_high.x), high.y.max(other_high.y)),
    )
}

fn surface_footprints(
    surface: &Surface,
    pushed: &[PushedOut],
    near: &[Near],
    taken: &[Taken],
) -> SurfaceFootprints {
    let mut troubles = Vec::new();
    let taken: Vec<Taken> = kerbs_in_base(surface)
        .chain(taken.iter().cloned())
        .collect();
    let build = surface.build.iter().map(|build| &build.value);
    let layers = build.flat_map(|build| build.layers.iter().map(move |own| (build, own)));
    let layers = layers.map(|(build, layer)| {
        let known = Some(layer).filter(|layer| is_known(surface, layer))?;
        let role = layer.role.value;
        let made = covered(pushed, known.beyond_m(), Some(role), near)?;
        let lying = Lying::of(build, layer);
        let left = |made: Option<_>| made.map(|made| left_of(made, lying, &taken)).transpose();
        made.and_then(left).unwrap_or_else(|fault| {
            troubles.push(Trouble {
                kind: TroubleKind::Outline(fault),
                name: surface.name.value.clone(),
                place: layer.place,
                uses: vec![surface.place],
            });
            None
        })
    });
    let layers = layers.collect();
    let widest = surface
        .build
        .as_ref()
        .filter(|build| dug_layers(&build.value).all(|layer| is_known(surface, layer)))
        .and_then(|build| widest_dug(&build.value));
    // What is wrong with the outline is said of the layer already.
    let dug = widest.and_then(|layer| covered(pushed, layer.beyond_m(), None, near)?.ok()?);
    SurfaceFootprints {
        layers,
        dug,
        troubles,
    }
}

/// Whether it is known how far a layer of a surface goes, and past which
/// edges.
fn is_known(surface: &Surface, layer: &Layer) -> bool {
    let is_past_what = surface.meets_unread || surface.has_unplaced_neighbour();
    !(layer.is_unread("beyond") || layer.beyond_m() > 0.0 && is_past_what)
}

/// What a layer covers that goes so far past the free edges.
/// `None` where the surface has no outline at all, which is told elsewhere,
/// and where whose the ground is hangs on a depth that is not known.
fn covered(
    pushed: &[PushedOut],
    beyond: f64,
    of: Option<Role>,
    near: &[Near],
) -> Option<Result<Option<Arc<Footprint>>, Fault>> {
    let mut footprint = Footprint {
        outlines: Vec::with_capacity(pushed.len()),
        pieces: Vec::with_capacity(pushed.len()),
        under_steps_m2: 0.0,
        taken_m3: 0.0,
    };
    for (own, near) in pushed.iter().zip(near) {
        let ground = own.at(beyond)?.clone().and_then(|outline| {
            let pieces = own_ground(&own.cover, of, &outline, near)?;
            Ok(pieces.map(|pieces| (outline, pieces)))
        });
        match ground {
            Err(fault) => return Some(Err(fault)),
            Ok(None) => return Some(Ok(None)),
            Ok(Some((outline, pieces))) => {
                footprint.outlines.push(outline);
                footprint.pieces.extend(pieces);
            }
        }
    }
    (!footprint.outlines.is_empty()).then(|| Ok(Some(Arc::new(footprint))))
}

/// Of the layers that are dug for, the one that goes furthest beyond the
/// free edges.
fn widest_dug(build: &Build) -> Option<&Layer> {
    dug_layers(build).fold(None, |widest: Option<&Layer>, layer| match widest {
        Some(other) if other.beyond_m() >= layer.beyond_m() => Some(other),
        _ => Some(layer),
    })
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{
        catalogued, close, in_unit, job, layer, rectangle, si, stated, surface,
    };
    use super::*;
    use crate::model::Held;
    use crate::quantities::Figures;

    fn base(role: Role, beyond: &str) -> Layer {
        let mut base = layer(role, catalogued("crushed-stone"), "6 in");
        base.beyond = Some(stated(beyond));
        base
    }

    /// Two squares of 10 ft side by side with a gap, level with the ground,
    /// each on a layer that goes 6 in beyond; whichever stands first.
    fn side_by_side(gap: u32, under: [(Role, &str); 2], is_west_first: bool) -> Figures {
        let east = format!("{} in", 120 + gap);
        let layers = under.map(|(role, thickness)| Layer {
            thickness: (!thickness.is_empty()).then(|| stated(thickness)),
            ..base(role, "6 in")
        });
        let [first, second] = layers.map(|layer| vec![layer]);
        let mut both = [
            surface("west", rectangle("0 ft", "0 ft", "10 ft", "10 ft"), first),
            surface("east", rectangle(&east, "0 ft", "10 ft", "10 ft"), second),
        ];
        if !is_west_first {
            both.reverse();
        }
        let falling = both.map(|surface| surface.falling("0 in", "0 %"));
        figures(&job(falling.into()).on_ground("0 in"))
    }

    #[test]
    fn ground_that_two_layers_share_is_covered_and_dug_once() {
        use Role::{Base, Subbase};
        // Each layer reaches 11 by 11 ft. With a gap of 8 in they share a
        // strip of 4 in; with one of 4 in, one of 8 in, of which 2 in by 10 ft
        // lie under the paving of each.
        let (strip, under) = (11.0 / 3.0, 10.0 / 6.0);
        let between = 2.0 * (strip - under);
        for (gap, under, layers, digs) in [
            (8, [(Base, "6 in"); 2], [strip / 2.0; 2], [strip / 2.0; 2]),
            (
                8,
                [(Base, "6 in"), (Base, "8 in")],
                [strip, 0.0],
                [strip, 0.0],
            ),
            (
                8,
                [(Base, "8 in"), (Base, "6 in")],
                [0.0, strip],
                [0.0, strip],
            ),
            (12, [(Base, "6 in"); 2], [0.0; 2], [0.0; 2]),
            (24, [(Base, "6 in"); 2], [0.0; 2], [0.0; 2]),
            (
                8,
                [(Base, "6 in"), (Subbase, "6 in")],
                [0.0; 2],
                [strip / 2.0; 2],
            ),
            (
                4,
                [(Base, "6 in"); 2],
                [under + between / 2.0; 2],
                [under + between / 2.0; 2],
            ),
            (
                4,
                [(Base, "6 in"), (Base, "9 in")],
                [under + between, under],
                [under + between, under],
            ),
        ] {
            for is_west_first in [true, false] {
                let figures = side_by_side(gap, under, is_west_first);
                for (name, less, dug_less, (_, thickness)) in [
                    ("west", layers[0], digs[0], under[0]),
                    ("east", layers[1], digs[1], under[1]),
                ] {
                    let own = figures.surface(name).unwrap();
                    let covered = in_unit(own.layers[0].area_m2, "sq ft");
                    assert!(
                        close(covered, 121.0 - less, 1e-9),
                        "{gap} {name}: {covered}"
                    );
                    let dig = own.dig.unwrap();
                    let dug = in_unit(Some(dig.area_m2), "sq ft");
                    assert!(close(dug, 121.0 - dug_less, 1e-9), "{gap} {name}: {dug}");
                    let deep = si(thickness);
                    assert!(close(dig.bank_m3, dig.area_m2 * deep, 1e-9), "{gap} {name}");
                }
            }
        }
    }

    #[test]
    fn ground_whose_depth_is_not_known_is_nobody_s_guess() {
        for (gap, thickness, is_known) in [(8, "", false), (8, "6 in", true), (24, "", true)] {
            let under = [(Role::Base, "6 in"), (Role::Base, thickness)];
            let figures = side_by_side(gap, under, true);
            let west = figures.surface("west").unwrap();
            assert_eq!(
                west.layers[0].area_m2.is_some(),
                is_known,
                "{gap} {thickness}"
            );
            assert_eq!(west.dig.is_some(), is_known, "{gap} {thickness}");
        }
    }

    #[test]
    fn under_its_own_paving_a_surface_has_its_own_layers() {
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
        let area = |index: usize| figures.surfaces[index].layers[0].area_m2;
        assert!(close(in_unit(area(0), "sq ft"), 400.0 - 4.0, 1e-9));
        assert!(close(in_unit(area(1), "sq ft"), 4.0, 1e-9));
        assert!(figures.troubles.is_empty());
    }

    #[test]
    fn a_layer_ends_at_what_stands_there_already() {
        for (along, wanted) in [
            (vec![], 11.0 * 11.0),
            (vec![0], 11.0 * 10.5),
            (vec![0, 2], 11.0 * 10.0),
            (vec![0, 1, 2, 3], 10.0 * 10.0),
        ] {
            let outline = rectangle("0 ft", "0 ft", "10 ft", "10 ft");
            let mut court = surface("court", outline, vec![base(Role::Base, "6 in")]);
            let place = court.name.place;
            court.held = vec![Held {
                along,
                is_there: true,
                place,
            }];
            let figures = figures(&job(vec![court.falling("0 in", "0 %")]).on_ground("0 in"));
            let own = &figures.surfaces[0];
            assert!(close(in_unit(own.layers[0].area_m2, "sq ft"), wanted, 1e-9));
            let dug = own.dig.unwrap().area_m2;
            assert!(close(in_unit(Some(dug), "sq ft"), wanted, 1e-9));
        }
    }

    #[test]
    fn ground_that_very_many_reach_is_told_of() {
        let stone = |index: u32| {
            let (east, north) = (index % 9, index / 9);
            let at = |count: u32| format!("{} in", 40 * count);
            let outline = rectangle(&at(east), &at(north), "2 ft", "2 ft");
            surface(
                &format!("stone-{index}"),
                outline,
                vec![base(Role::Base, "40 ft")],
            )
        };
        let figures = figures(&job((0..81).map(stone).collect()));
        assert_eq!(figures.surfaces[40].layers[0].area_m2, None);
        let kinds = figures.troubles.iter().map(|trouble| &trouble.kind);
        let too_many = TroubleKind::Outline(Fault::TooManyEdges);
        assert!(kinds.eq(std::iter::repeat_n(&too_many, 81)));
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
