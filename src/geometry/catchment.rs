//! Where water leaves an outline that falls one way.
//!
//! Across the fall the outline is parted into slabs at every corner and
//! wherever an arc runs straight down. Within a slab a line of fall crosses
//! the same sides in the same order: in over one, out over the next. What
//! lies between such a pair is a beam: all of it drains over the lower side.
//! Areas of beams are closed integrals, arcs exact, and add up to the whole.

use super::edge::Edge;
use super::outline::{Loop, Outline};
use super::point::{Point, Vector};

/// A strip down the fall, from a side over which nothing of the outline's own
/// water comes to the one over which it leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beam {
    /// The part of a side at its upper end.
    pub entry: Edge,
    /// The part of a side at its lower end.
    pub exit: Edge,
}

/// The beams of an outline that falls along `downhill`, whose length does not
/// matter; none where it is level.
pub fn beams(outline: &Outline, downhill: Vector) -> Vec<Beam> {
    let Some(frame) = Frame::of(outline, downhill) else {
        return Vec::new();
    };
    let parts: Vec<Part> = outline
        .edges()
        .flat_map(|edge| frame.monotone(edge))
        .collect();
    let mut cuts: Vec<f64> = parts
        .iter()
        .flat_map(|part| [part.low, part.high])
        .collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|next, before| *next - *before <= frame.thin);
    let slabs = cuts.iter().zip(cuts.iter().skip(1));
    slabs
        .flat_map(|(low, high)| frame.paired(&parts, *low, *high))
        .collect()
}

impl Beam {
    /// Its area, in square metres.
    pub fn area(&self) -> f64 {
        let (entry, exit) = (self.entry, self.exit);
        let round = Loop {
            edges: vec![
                exit,
                Edge::line(exit.end, entry.start, exit.tag),
                entry,
                Edge::line(entry.end, exit.start, exit.tag),
            ],
        };
        round.signed_area()
    }

    /// The part of the beam whose water leaves, or comes, over what lies
    /// between two points across the fall; none if that is nothing.
    pub fn between(&self, downhill: Vector, from: Point, to: Point) -> Option<Beam> {
        let frame = Frame::at(self.exit.start, downhill, 0.0)?;
        let (from, to) = (frame.across(from), frame.across(to));
        let (start, end) = (frame.across(self.exit.start), frame.across(self.exit.end));
        let (low, high) = (from.min(to).max(start), from.max(to).min(end));
        if high - low <= 1e-12 * (1.0 + end - start) {
            return None;
        }
        Some(Beam {
            entry: frame.clipped(&self.entry, low, high),
            exit: frame.clipped(&self.exit, low, high),
        })
    }

    /// The beam parted by a straight line that takes the water that comes to
    /// it: what drains to the line, which is then the way out by its tag, what
    /// lies below it, and what passes beside it. A line that lies past the
    /// beam's way out by no more than `reach` metres takes what leaves there.
    pub fn parted_by(&self, downhill: Vector, line: &Edge, reach: f64) -> Vec<Beam> {
        let Some(frame) = Frame::at(self.exit.start, downhill, 0.0) else {
            return vec![*self];
        };
        let (start, end) = (frame.across(self.exit.start), frame.across(self.exit.end));
        let (from, to) = (frame.across(line.start), frame.across(line.end));
        let (low, high) = (from.min(to).max(start), from.max(to).min(end));
        let thin = 1e-9 * (1.0 + end - start);
        if high - low <= thin || line.is_arc() {
            return vec![*self];
        }
        // As an exit is walked.
        let line = if from < to { *line } else { line.reversed() };
        let mut cuts = vec![start, low, high, end];
        for side in [&self.entry, &self.exit] {
            cuts.extend(frame.crossing(&line, side, low, high));
        }
        cuts.sort_by(f64::total_cmp);
        cuts.dedup_by(|next, before| *next - *before <= thin);
        if let Some(last) = cuts.last_mut() {
            *last = end;
        }
        let pieces = cuts.iter().zip(cuts.iter().skip(1));
        let pieces = pieces.flat_map(|(from, to)| {
            let own = Beam {
                entry: frame.clipped(&self.entry, *from, *to),
                exit: frame.clipped(&self.exit, *from, *to),
            };
            let middle = 0.5 * (from + to);
            let is_beside = middle < low || middle > high;
            let taken = frame.clipped(&line, *from, *to);
            let down = |edge: &Edge| frame.down_at(edge, middle);
            let (above, at, below) = (down(&self.entry), down(&line), down(&self.exit));
            if is_beside || at < above || at > below + reach {
                return vec![own];
            }
            if at >= below {
                let exit = Edge {
                    tag: line.tag,
                    ..own.exit
                };
                return vec![Beam { exit, ..own }];
            }
            vec![
                Beam {
                    entry: own.entry,
                    exit: taken,
                },
                Beam {
                    entry: taken.reversed(),
                    exit: own.exit,
                },
            ]
        });
        pieces.collect()
    }

    /// Where a drop that is at a point of the beam leaves it; none if the
    /// point is not in the beam.
    pub fn foot(&self, downhill: Vector, point: Point) -> Option<Point> {
        let frame = Frame::at(self.exit.start, downhill, 0.0)?;
        let across = frame.across(point);
        let (start, end) = (frame.across(self.exit.start), frame.across(self.exit.end));
        if across < start - super::ALONGSIDE || across > end + super::ALONGSIDE {
            return None;
        }
        let across = across.clamp(start, end);
        let at = |edge: &Edge| edge.point_at(frame.reached(edge, across));
        let (entry, exit) = (at(&self.entry), at(&self.exit));
        let down = frame.down(point);
        let is_in = down >= frame.down(entry) - super::ALONGSIDE
            && down <= frame.down(exit) + super::ALONGSIDE;
        is_in.then_some(exit)
    }
}

/// A part of a side that runs one way across the fall.
struct Part {
    edge: Edge,
    low: f64,
    high: f64,
}

/// The plan turned so that water runs east, seen from one of its points.
struct Frame {
    origin: Point,
    downhill: Vector,
    /// Nothing so thin is a slab.
    thin: f64,
}

impl Frame {
    fn of(outline: &Outline, downhill: Vector) -> Option<Frame> {
        let origin = outline.corners().next()?;
        Frame::at(origin, downhill, 1e-10 * outline.outer.length())
    }

    fn at(origin: Point, downhill: Vector, thin: f64) -> Option<Frame> {
        let length = downhill.length();
        (length > 0.0 && length.is_finite()).then(|| Frame {
            origin,
            downhill: downhill.unit(),
            thin,
        })
    }

    /// How far down the fall a point lies.
    fn down(&self, point: Point) -> f64 {
        self.downhill.dot(point - self.origin)
    }

    /// How far across it, to the left as water runs.
    fn across(&self, point: Point) -> f64 {
        self.downhill.left().dot(point - self.origin)
    }

    /// How far down the fall a part lies, so far across it.
    fn down_at(&self, edge: &Edge, across: f64) -> f64 {
        self.down(edge.point_at(self.reached(edge, across)))
    }

    /// How far across the fall a line crosses a part, between two lines down
    /// the fall; none if it lies on one side of it at both.
    fn crossing(&self, line: &Edge, edge: &Edge, low: f64, high: f64) -> Option<f64> {
        let apart = |across: f64| self.down_at(line, across) - self.down_at(edge, across);
        let is_below = apart(low) > 0.0;
        if is_below == (apart(high) > 0.0) {
            return None;
        }
        let (mut from, mut to) = (low, high);
        for _ in 0..53 {
            let middle = 0.5 * (from + to);
            match (apart(middle) > 0.0) == is_below {
                true => from = middle,
                false => to = middle,
            }
        }
        Some(0.5 * (from + to))
    }

    /// A side parted where it turns back across the fall.
    fn monotone(&self, edge: &Edge) -> Vec<Part> {
        let mut stops = vec![0.0];
        if edge.is_arc() {
            let turns = [self.downhill.left(), self.downhill.right()];
            let turns = turns.into_iter().filter_map(|way| edge.angle_facing(way));
            stops.extend(turns.map(|angle| angle * edge.radius()));
        }
        stops.push(edge.length());
        stops.sort_by(f64::total_cmp);
        let pairs = stops.iter().zip(stops.iter().skip(1));
        let parts = pairs.filter(|(from, to)| *to - *from > self.thin);
        let parts = parts.map(|(from, to)| {
            let part = match stops.len() {
                2 => *edge,
                _ => edge.between(*from, *to),
            };
            let (start, end) = (self.across(part.start), self.across(part.end));
            Part {
                edge: part,
                low: start.min(end),
                high: start.max(end),
            }
        });
        parts.collect()
    }

    /// The beams between two lines down the fall that no corner lies between.
    fn paired(&self, parts: &[Part], low: f64, high: f64) -> Vec<Beam> {
        let middle = 0.5 * (low + high);
        let crossed = parts
            .iter()
            .filter(|part| part.low < middle && part.high > middle);
        let mut crossed: Vec<(f64, &Edge)> = crossed
            .map(|part| {
                let at = part.edge.point_at(self.reached(&part.edge, middle));
                (self.down(at), &part.edge)
            })
            .collect();
        crossed.sort_by(|(first, _), (second, _)| first.total_cmp(second));
        let (mut beams, mut entries) = (Vec::new(), Vec::new());
        for (_, edge) in crossed {
            if self.across(edge.end) < self.across(edge.start) {
                entries.push(edge);
            } else if let Some(entry) = entries.pop() {
                beams.push(Beam {
                    entry: self.clipped(entry, low, high),
                    exit: self.clipped(edge, low, high),
                });
            }
        }
        beams
    }

    /// What of a part lies between two lines down the fall.
    fn clipped(&self, edge: &Edge, low: f64, high: f64) -> Edge {
        let (start, end) = (self.across(edge.start), self.across(edge.end));
        let slack = self.thin.max(1e-13 * (start - end).abs());
        if start.min(end) >= low - slack && start.max(end) <= high + slack {
            return *edge;
        }
        let (from, to) = (self.reached(edge, low), self.reached(edge, high));
        edge.between(from.min(to), from.max(to))
    }

    /// How far along a part it is so far across the fall.
    fn reached(&self, edge: &Edge, across: f64) -> f64 {
        let (start, end) = (self.across(edge.start), self.across(edge.end));
        let length = edge.length();
        let share = ((across - start) / (end - start)).clamp(0.0, 1.0);
        if !edge.is_arc() || !share.is_finite() {
            return if share.is_finite() {
                share * length
            } else {
                0.0
            };
        }
        let is_before = |along: f64| {
            let own = self.across(edge.point_at(along));
            if end > start {
                own < across
            } else {
                own > across
            }
        };
        let (mut from, mut to) = (0.0, length);
        // Each halving gives a bit of the answer.
        for _ in 0..53 {
            let middle = 0.5 * (from + to);
            match is_before(middle) {
                true => from = middle,
                false => to = middle,
            }
        }
        0.5 * (from + to)
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;
    use std::f64::consts::PI;

    use super::super::sample::{cases, close, polygon, rectangle, shape};
    use super::super::{Tag, difference};
    use super::*;
    use proptest::prelude::*;

    const SOUTH: Vector = Vector::new(0.0, -1.0);

    /// How much drains over the sides of each tag.
    fn shares(outline: &Outline, downhill: Vector) -> BTreeMap<Tag, f64> {
        let mut shares = BTreeMap::new();
        for beam in beams(outline, downhill) {
            *shares.entry(beam.exit.tag).or_default() += beam.area();
        }
        shares
    }

    fn toward(degrees: f64) -> Vector {
        let angle = degrees * PI / 180.0;
        Vector::new(angle.cos(), angle.sin())
    }

    #[test]
    fn water_leaves_by_the_sides_below() {
        let court = rectangle(0.0, 0.0, 6.0, 4.0);
        assert_eq!(shares(&court, SOUTH), BTreeMap::from([(0, 24.0)]));
        // Diagonally, a triangle of ½ · 4 · 4 leaves east, the rest south.
        let found = shares(&court, Vector::new(1.0, -1.0));
        assert!(close(found[&1], 8.0) && close(found[&0], 16.0) && found.len() == 2);
        assert!(beams(&court, Vector::default()).is_empty());
    }

    #[test]
    fn what_lies_below_a_notch_or_a_hole_is_not_above_it() {
        let ell = polygon(&[(0., 0.), (6., 0.), (6., 2.), (3., 2.), (3., 5.), (0., 5.)]);
        // North: over the far side of each leg.
        let north = shares(&ell, Vector::new(0.0, 2.0));
        assert!(close(north[&2], 6.0) && close(north[&4], 15.0));
        let bed = Outline::circle(Point::new(3.0, 2.0), 1.0, 7).unwrap();
        let court = difference(&rectangle(0.0, 0.0, 6.0, 4.0), &bed).unwrap();
        let found = shares(&court, SOUTH);
        // Above the bed 2 wide and 2 high less half the circle.
        assert!(close(found[&7], 4.0 - PI / 2.0));
        assert!(close(found[&0], 24.0 - PI - found[&7]));
    }

    #[test]
    fn a_part_of_a_beam_leaves_by_a_part_of_its_side() {
        let court = rectangle(0.0, 0.0, 6.0, 4.0);
        let beam = beams(&court, SOUTH)[0];
        let at = |x: f64| Point::new(x, 0.0);
        assert!(close(
            beam.between(SOUTH, at(1.0), at(2.5)).unwrap().area(),
            6.0
        ));
        assert!(close(
            beam.between(SOUTH, at(9.0), at(5.0)).unwrap().area(),
            4.0
        ));
        assert_eq!(beam.between(SOUTH, at(7.0), at(8.0)), None);
        assert_eq!(beam.foot(SOUTH, Point::new(2.0, 3.0)), Some(at(2.0)));
        assert_eq!(beam.foot(SOUTH, Point::new(7.0, 3.0)), None);
        assert_eq!(beam.foot(SOUTH, Point::new(2.0, 5.0)), None);
    }

    #[test]
    fn a_line_takes_what_comes_to_it() {
        let court = rectangle(0.0, 0.0, 6.0, 4.0);
        let beam = beams(&court, SOUTH)[0];
        let line = |x: f64, y: f64, to: f64, south: f64| {
            Edge::line(Point::new(x, y), Point::new(to, south), 9)
        };
        let taken = |line: &Edge, reach: f64| -> (f64, f64) {
            let parts = beam.parted_by(SOUTH, line, reach);
            let all: f64 = parts.iter().map(Beam::area).sum();
            let own = parts.iter().filter(|part| part.exit.tag == 9);
            (own.map(Beam::area).sum(), all)
        };
        // A metre wide and three deep above it, whichever way it is written.
        assert_eq!(taken(&line(2.0, 1.0, 3.0, 1.0), 0.0), (3.0, 24.0));
        assert_eq!(taken(&line(3.0, 1.0, 2.0, 1.0), 0.0), (3.0, 24.0));
        // Half of it past the edge; on it; past it and within reach; too far.
        assert_eq!(taken(&line(5.5, 1.0, 6.5, 1.0), 0.0), (1.5, 24.0));
        assert_eq!(taken(&line(2.0, 0.0, 3.0, 0.0), 0.0), (4.0, 24.0));
        assert_eq!(taken(&line(2.0, -0.2, 3.0, -0.2), 0.3), (4.0, 24.0));
        assert_eq!(taken(&line(2.0, -0.4, 3.0, -0.4), 0.3), (0.0, 24.0));
        assert_eq!(taken(&line(2.0, 4.4, 3.0, 4.4), 0.3), (0.0, 24.0));
        // Aslant over the edge: a triangle less, and none down the fall.
        let (own, all) = taken(&line(2.0, 1.0, 4.0, -1.0), 0.0);
        assert!(close(own, 3.5) && close(all, 24.0), "{own} {all}");
        assert_eq!(taken(&line(2.0, 3.0, 2.0, 1.0), 0.0), (0.0, 24.0));
    }

    proptest! {
        #![proptest_config(cases(96))]

        #[test]
        fn what_a_line_takes_is_taken_off_the_rest(
            outline in shape(), degrees in 0.0..360.0f64,
            line in [-6.0..6.0f64, -6.0..6.0, -6.0..6.0, -6.0..6.0],
        ) {
            let [x, y, to, south] = line;
            let line = Edge::line(Point::new(x, y), Point::new(to, south), 77);
            let downhill = toward(degrees);
            let parts = beams(&outline, downhill);
            let parts: Vec<Beam> = parts
                .iter()
                .flat_map(|beam| beam.parted_by(downhill, &line, 0.0))
                .collect();
            let sum: f64 = parts.iter().map(Beam::area).sum();
            prop_assert!((sum - outline.area()).abs() <= 1e-9 * outline.area(), "{sum}");
        }

        #[test]
        fn areas_add_up_whichever_way_it_falls(outline in shape(), degrees in 0.0..360.0f64) {
            for degrees in [degrees, 90.0 * (degrees / 90.0).floor()] {
                let sum: f64 = shares(&outline, toward(degrees)).values().sum();
                prop_assert!((sum - outline.area()).abs() <= 1e-11 * outline.area(), "{sum}");
            }
        }

        #[test]
        fn turning_and_mirroring_change_nothing(
            outline in shape(), degrees in 0.0..360.0f64, turn in 0.0..360.0f64,
        ) {
            let found = shares(&outline, toward(degrees));
            let turned = |point: Point| {
                let (east, north) = (toward(turn), toward(turn + 90.0));
                Point::ORIGIN + east * point.x + north * point.y
            };
            let moved = |edge: &Edge| Edge {
                start: turned(edge.start),
                end: turned(edge.end),
                ..*edge
            };
            let whole = |of: &dyn Fn(&Loop) -> Loop| Outline {
                outer: of(&outline.outer),
                holes: outline.holes.iter().map(of).collect(),
            };
            let other = whole(&|own| Loop { edges: own.edges.iter().map(moved).collect() });
            let after = shares(&other, toward(degrees + turn));
            let flipped = |point: Point| Point::new(-point.x, point.y);
            let mirror = |edge: &Edge| Edge {
                start: flipped(edge.end),
                end: flipped(edge.start),
                ..*edge
            };
            let mirrored = whole(&|own| Loop {
                edges: own.edges.iter().rev().map(mirror).collect(),
            });
            let across = shares(&mirrored, toward(180.0 - degrees));
            for (tag, area) in &found {
                for other in [&after, &across] {
                    let own = other.get(tag).copied().unwrap_or_default();
                    prop_assert!((own - area).abs() <= 1e-9 * outline.area(), "{tag}: {own} {area}");
                }
            }
        }
    }
}
