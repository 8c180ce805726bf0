//! Units of one pattern laid over outlines: which lie whole, which are cut,
//! and what is left of each. Exact, arcs too: what an outline covers of a unit
//! is summed round the outline (Green's theorem), so that nothing is ever
//! joined or cut, and sides that run along a joint take no special case.

mod side;

use self::side::{Rect, Side};
use super::edge::Edge;
use super::fault::{Fault, measured};
use super::monotone;
use super::outline::Outline;
use super::point::{Point, Vector};

/// Most places at which a unit may lie; beyond, no lay-out is worked out.
pub const MOST_UNITS: usize = 2_000_000;

/// A unit with less than this share of it missing is whole, and one of which
/// no more is there does not lie on the outline at all.
const NOTHING: f64 = 1e-6;

/// What runs along the side of a unit within this, in metres, does not cut it.
const ALONG: f64 = 1e-6;

/// A pattern: a few units that come again and again at equal steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Tiling {
    /// A corner of a unit.
    pub origin: Point,
    /// The way along the units, of length one; across is to its left.
    pub along: Vector,
    /// The units that come again.
    pub units: Vec<Unit>,
    /// The two steps by which they do, along and across.
    pub steps: [Vector; 2],
}

/// A unit of a pattern, without its joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Its corner that lies least along and across, seen from the origin.
    pub corner: Vector,
    /// Its extent along and across, in metres.
    pub size: Vector,
    /// Whether its long side lies across.
    pub is_turned: bool,
}

/// What is laid of a pattern over outlines.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tiled {
    /// How many units lie whole.
    pub whole: usize,
    /// The area of the whole units, in square metres.
    pub whole_m2: f64,
    /// The units that are cut, row by row.
    pub cuts: Vec<Cut>,
    /// How many units lie whole on the outlines and over a fold: each is cut
    /// along it, and all its pieces are laid.
    pub folded: usize,
    /// The area of those, in square metres.
    pub folded_m2: f64,
    /// The length of the cuts along folds through them, in metres.
    pub folded_cut_m: f64,
}

/// A unit that is cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cut {
    /// The middle of the whole unit.
    pub middle: Point,
    /// Its corners, against the clock.
    pub corners: [Point; 4],
    /// The area that is left of it, in square metres.
    pub area_m2: f64,
    /// The area of the whole unit, in square metres.
    pub whole_m2: f64,
    /// How far what is left reaches along the unit's own length, in metres.
    pub length_m: f64,
    /// How far it reaches across the unit's own length, in metres.
    pub width_m: f64,
    /// The length of the cut through it, along folds too, in metres.
    pub cut_m: f64,
}

impl Tiling {
    /// The greatest number of places at which units may lie over outlines.
    pub fn most_units(&self, over: &[Outline]) -> f64 {
        let Some(field) = self.field(over) else {
            return 0.0;
        };
        let [first, second] = self.steps;
        let reach = |way: fn(&Vector) -> f64| {
            let sizes = self.units.iter().map(|unit| way(&unit.size));
            2.0 * sizes.fold(0.0, f64::max)
        };
        let (along, across) = (reach(|size| size.x), reach(|size| size.y));
        let area = (field.right - field.left + along) * (field.high - field.low + across);
        area / first.cross(second).abs() * self.units.len() as f64
    }

    /// The units over outlines that have no ground in common, and the folds in
    /// them along which the ground bends.
    ///
    /// # Errors
    /// [`Fault::TooManyEdges`] for more than [`MOST_UNITS`] places,
    /// [`Fault::NotFinite`], [`Fault::NotPositive`] for steps that lead
    /// nowhere.
    pub fn over(&self, outlines: &[Outline], folds: &[Edge]) -> Result<Tiled, Fault> {
        let [first, second] = self.steps;
        for length in [first.x, first.y, second.x, second.y] {
            measured(length)?;
        }
        let most = self.most_units(outlines);
        if !most.is_finite() {
            return Err(Fault::NotPositive);
        }
        if most > MOST_UNITS as f64 {
            return Err(Fault::TooManyEdges);
        }
        let Some(field) = self.field(outlines) else {
            return Ok(Tiled::default());
        };
        let sides = outlines.iter().flat_map(Outline::edges);
        let slabs = Slabs::of(self, sides, &field);
        let folds = (!folds.is_empty()).then(|| Slabs::of(self, folds.iter(), &field));
        let mut tiled = Tiled::default();
        for unit in &self.units {
            for corner in self.places(unit, &field) {
                tiled.add(self, unit, corner, (&slabs, folds.as_ref()));
            }
        }
        let row = |cut: &Cut| {
            let seen = self.seen(cut.middle);
            (seen.y, seen.x)
        };
        tiled.cuts.sort_by(|a, b| {
            let ((a_up, a_along), (b_up, b_along)) = (row(a), row(b));
            a_up.total_cmp(&b_up).then(a_along.total_cmp(&b_along))
        });
        Ok(tiled)
    }

    /// The corners of each whole or cut place of the units, for drawing: each
    /// unit as its rectangle on the plan, whether or not the outlines reach it.
    pub fn rectangles(&self, outlines: &[Outline]) -> Vec<[Point; 4]> {
        let Some(field) = self.field(outlines) else {
            return Vec::new();
        };
        let placed = self.units.iter().flat_map(|unit| {
            let corners = self.places(unit, &field);
            corners.map(|corner| rect_at(unit, corner).corners().map(|at| self.on_plan(at)))
        });
        placed.collect()
    }

    /// A point of the plan in the axes of the pattern.
    fn seen(&self, point: Point) -> Point {
        let from = point - self.origin;
        Point::new(self.along.dot(from), self.along.left().dot(from))
    }

    fn on_plan(&self, seen: Point) -> Point {
        self.origin + self.along * seen.x + self.along.left() * seen.y
    }

    /// The rectangle around outlines, in the axes of the pattern.
    fn field(&self, outlines: &[Outline]) -> Option<Rect> {
        let boxes = outlines.iter().map(|outline| {
            let way = |direction: Vector| {
                let (least, most) = outline.extremes(direction);
                let start = direction.dot(self.origin - Point::ORIGIN);
                (least - start, most - start)
            };
            let ((left, right), (low, high)) = (way(self.along), way(self.along.left()));
            Rect {
                left,
                low,
                right,
                high,
            }
        });
        boxes.reduce(|all, one| Rect {
            left: all.left.min(one.left),
            low: all.low.min(one.low),
            right: all.right.max(one.right),
            high: all.high.max(one.high),
        })
    }

    /// The corners of a unit at every place at which it may meet a rectangle.
    fn places(&self, unit: &Unit, field: &Rect) -> impl Iterator<Item = Vector> {
        let [first, second] = self.steps;
        let corner = unit.corner;
        // What is left for a multiple of each step, in both ways.
        let room = Rect {
            left: field.left - unit.size.x - corner.x,
            low: field.low - unit.size.y - corner.y,
            right: field.right - corner.x,
            high: field.high - corner.y,
        };
        let turned = first.cross(second);
        let rows = room
            .corners()
            .map(|at| first.cross(at - Point::ORIGIN) / turned);
        let (least, most) = range(rows);
        (least..=most).flat_map(move |row| {
            let moved = second * row as f64;
            let along = steps_within(first.x, room.left - moved.x, room.right - moved.x);
            let across = steps_within(first.y, room.low - moved.y, room.high - moved.y);
            let (from, to) = (along.0.max(across.0), along.1.min(across.1));
            (from.ceil() as i64..=to.floor() as i64)
                .map(move |column| corner + moved + first * column as f64)
        })
    }
}

/// The whole numbers around some values.
fn range(values: [f64; 4]) -> (i64, i64) {
    let least = values.into_iter().fold(f64::INFINITY, f64::min);
    let most = values.into_iter().fold(f64::NEG_INFINITY, f64::max);
    (least.floor() as i64, most.ceil() as i64)
}

/// Between which multiples of a step a way lies; all, if the step leads
/// nowhere and the way goes past where it is.
fn steps_within(step: f64, from: f64, to: f64) -> (f64, f64) {
    let most = MOST_UNITS as f64;
    if step == 0.0 {
        return if from <= 0.0 && to >= 0.0 {
            (-most, most)
        } else {
            (1.0, 0.0)
        };
    }
    let (one, other) = (from / step, to / step);
    (one.min(other).max(-most), one.max(other).min(most))
}

fn rect_at(unit: &Unit, corner: Vector) -> Rect {
    Rect {
        left: corner.x,
        low: corner.y,
        right: corner.x + unit.size.x,
        high: corner.y + unit.size.y,
    }
}

impl Tiled {
    fn add(
        &mut self,
        tiling: &Tiling,
        unit: &Unit,
        corner: Vector,
        (slabs, folds): (&Slabs, Option<&Slabs>),
    ) {
        let rect = rect_at(unit, corner);
        let (area, whole) = (slabs.covered(&rect), rect.area());
        if area <= NOTHING * whole {
            return;
        }
        let fold_m = folds.map_or(0.0, |folds| folds.run_within(&rect));
        if area >= (1.0 - NOTHING) * whole {
            if fold_m > 0.0 {
                self.folded += 1;
                self.folded_m2 += whole;
                self.folded_cut_m += fold_m;
            } else {
                self.whole += 1;
                self.whole_m2 += whole;
            }
            return;
        }
        let extent = slabs.extent(&rect).grown_to(&rect, ALONG);
        let (along, across) = (extent.right - extent.left, extent.high - extent.low);
        let (length_m, width_m) = match unit.is_turned {
            true => (across, along),
            false => (along, across),
        };
        let middle = Point::new(0.5 * (rect.left + rect.right), 0.5 * (rect.low + rect.high));
        self.cuts.push(Cut {
            middle: tiling.on_plan(middle),
            corners: rect.corners().map(|at| tiling.on_plan(at)),
            area_m2: area,
            whole_m2: whole,
            length_m,
            width_m,
            cut_m: slabs.run_within(&rect) + fold_m,
        });
    }

    /// The area of the cut pieces, in square metres.
    pub fn cuts_m2(&self) -> f64 {
        self.cuts.iter().map(|cut| cut.area_m2).sum()
    }
}

/// The sides of outlines, cut at the slabs of equal height that they lie in.
struct Slabs {
    low: f64,
    height: f64,
    slabs: Vec<Slab>,
}

/// The sides in a slab, and how far east and west they reach.
struct Slab {
    low: f64,
    high: f64,
    left: f64,
    right: f64,
    sides: Vec<Side>,
}

impl Slab {
    fn take(&mut self, side: Side) {
        self.left = self.left.min(side.left);
        self.right = self.right.max(side.right);
        self.sides.push(side);
    }
}

impl Slabs {
    fn of<'e>(tiling: &Tiling, sides: impl Iterator<Item = &'e Edge>, field: &Rect) -> Slabs {
        let thinnest = tiling
            .units
            .iter()
            .map(|unit| unit.size.y)
            .fold(f64::INFINITY, f64::min);
        let tall = (field.high - field.low).max(f64::MIN_POSITIVE);
        let count = (tall / thinnest).ceil().clamp(1.0, 4096.0) as usize;
        let height = tall / count as f64;
        // The outer ones go on without end.
        let line = |index: usize| match index {
            0 => f64::NEG_INFINITY,
            last if last == count => f64::INFINITY,
            index => field.low + height * index as f64,
        };
        let slab = |index| Slab {
            low: line(index),
            high: line(index + 1),
            left: f64::INFINITY,
            right: f64::NEG_INFINITY,
            sides: Vec::new(),
        };
        let mut slabs = Slabs {
            low: field.low,
            height,
            slabs: (0..count).map(slab).collect(),
        };
        for edge in sides {
            let seen = Edge {
                start: tiling.seen(edge.start),
                end: tiling.seen(edge.end),
                ..*edge
            };
            for part in monotone::parts(&seen) {
                slabs.put(Side::of(&part));
            }
        }
        slabs
    }

    fn put(&mut self, side: Side) {
        let (from, to) = self.between(side.low.y, side.high.y);
        if side.is_level() {
            // On the line between two slabs rounding would give it to neither.
            if let Some(slab) = self.slabs.get_mut(from) {
                slab.take(side);
            }
            return;
        }
        for slab in self.slabs.iter_mut().skip(from).take(to - from + 1) {
            if let Some(part) = side.between(slab.low, slab.high) {
                slab.take(part);
            }
        }
    }

    /// The first and the last slab in which two heights lie.
    fn between(&self, low: f64, high: f64) -> (usize, usize) {
        let last = self.slabs.len() - 1;
        let at = |height: f64| (((height - self.low) / self.height).max(0.0) as usize).min(last);
        (at(low), at(high).max(at(low)))
    }

    /// The slabs that a rectangle meets.
    fn meeting(&self, rect: &Rect) -> impl Iterator<Item = &Slab> {
        let (from, to) = self.between(rect.low, rect.high);
        self.slabs.iter().skip(from).take(to - from + 1)
    }

    /// What the outlines cover of a rectangle.
    fn covered(&self, rect: &Rect) -> f64 {
        let mut area = 0.0;
        for slab in self.meeting(rect) {
            if slab.right > rect.left && slab.left < rect.right {
                let sides = slab.sides.iter();
                area += sides.map(|side| side.area_left_of(rect)).sum::<f64>();
            }
        }
        area
    }

    /// How far what the outlines cover of a unit reaches; what runs along its
    /// rim is nothing of it.
    fn extent(&self, whole: &Rect) -> Rect {
        let rect = &whole.shrunk(ALONG);
        let mut extent = Rect {
            left: f64::INFINITY,
            low: f64::INFINITY,
            right: f64::NEG_INFINITY,
            high: f64::NEG_INFINITY,
        };
        let mut reach = |point: Point| {
            extent.left = extent.left.min(point.x);
            extent.low = extent.low.min(point.y);
            extent.right = extent.right.max(point.x);
            extent.high = extent.high.max(point.y);
        };
        for side in self.meeting(rect).flat_map(|slab| &slab.sides) {
            if let Some((start, end, _)) = side.within(rect) {
                reach(start);
                reach(end);
            }
        }
        for corner in rect.corners() {
            if self.contain(corner) {
                reach(corner);
            }
        }
        let is_known = extent.right >= extent.left;
        if is_known { extent } else { *rect }
    }

    /// The length of the sides in a unit; what runs along its rim does not cut
    /// it.
    fn run_within(&self, whole: &Rect) -> f64 {
        let inner = whole.shrunk(ALONG);
        let sides = self.meeting(&inner).flat_map(|slab| &slab.sides);
        let cutting = sides.filter(|side| side.within(&inner).is_some());
        let lengths = cutting.filter_map(|side| side.within(whole));
        lengths.map(|(.., length)| length).sum()
    }

    /// Whether a point lies in the outlines, by a ray to its right.
    fn contain(&self, point: Point) -> bool {
        let (slab, _) = self.between(point.y, point.y);
        let sides = self
            .slabs
            .get(slab)
            .into_iter()
            .flat_map(|slab| &slab.sides);
        let passes = |side: &&Side| {
            side.low.y <= point.y && point.y < side.high.y && side.x_at(point.y) > point.x
        };
        let winding: f64 = sides.filter(passes).map(|side| side.sense).sum();
        winding > 0.5
    }
}

#[cfg(test)]
mod tests;
