//! The parts into which all sides are cut, coincident ones made one.

use rustc_hash::FxHashMap;

use super::super::bounds::Bounds;
use super::super::edge::{Edge, NO_TAG, bulge_of_chord};
use super::super::point::Point;
use super::weld::Weld;
use super::{Strand, Windings, meet, monotone};

/// The greatest number of places in which sides may meet.
const MOST_CROSSINGS: usize = 100_000;

/// A part that meets no other but at its ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seam {
    pub from: usize,
    pub to: usize,
    pub bulge: f64,
    /// The strand it is a part of, the first one if several coincide.
    pub source: usize,
    /// How many strands of each layer run along it, those that run the other
    /// way taken off.
    pub strands: Windings,
}

/// A seam walked with the region on the left.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step {
    pub from: usize,
    pub to: usize,
    pub bulge: f64,
    pub source: usize,
    /// Whether it is walked the way its strand runs.
    pub forward: bool,
}

impl Seam {
    pub fn forward(&self) -> Step {
        Step {
            from: self.from,
            to: self.to,
            bulge: self.bulge,
            source: self.source,
            forward: true,
        }
    }

    pub fn backward(&self) -> Step {
        Step {
            from: self.to,
            to: self.from,
            bulge: 0.0 - self.bulge,
            source: self.source,
            forward: false,
        }
    }

    /// The seam as a side.
    pub fn edge(&self, weld: &Weld) -> Edge {
        Edge::arc(
            weld.point(self.from),
            weld.point(self.to),
            self.bulge,
            NO_TAG,
        )
    }
}

/// A line or at most a quarter of a circle, on its way to being cut.
struct Part {
    edge: Edge,
    bounds: Bounds,
    source: usize,
    from: usize,
    to: usize,
}

/// Cuts all strands where they meet. None if they meet in more places than
/// [`MOST_CROSSINGS`].
pub(super) fn seams(strands: &[Strand], reach: f64) -> Option<(Vec<Seam>, Weld)> {
    let mut weld = Weld::new(reach);
    for strand in strands {
        weld.number(strand.edge.start);
        weld.number(strand.edge.end);
    }
    let parts = parts(strands, &mut weld);
    weld_crossings(&parts, &mut weld)?;
    let mut found = Found::default();
    for (part, stops) in parts.iter().zip(cuts(&parts, &weld)) {
        let layer = strands.get(part.source).map_or(0, |strand| strand.layer);
        for (&from, &to) in stops.iter().zip(stops.iter().skip(1)) {
            let bulge = part.bulge_between(from, to, &weld);
            let seam = Seam {
                from,
                to,
                bulge,
                source: part.source,
                strands: [0, 0],
            };
            found.add(seam, layer, &weld);
        }
    }
    Some((found.seams, weld))
}

/// The seams so far, and which of them run between the same two places.
#[derive(Default)]
struct Found {
    seams: Vec<Seam>,
    between: FxHashMap<(usize, usize), Vec<usize>>,
}

impl Found {
    /// Counts a strand of a layer along a seam, known or new.
    fn add(&mut self, seam: Seam, layer: usize, weld: &Weld) {
        let chord = weld.point(seam.from).distance(weld.point(seam.to));
        let known = self
            .between
            .entry((seam.from.min(seam.to), seam.from.max(seam.to)))
            .or_default();
        let coincides = |&number: &usize| {
            self.seams.get(number).is_some_and(|other| {
                let bulge = if other.from == seam.from {
                    other.bulge
                } else {
                    -other.bulge
                };
                (bulge - seam.bulge).abs() * chord <= 8.0 * weld.reach()
            })
        };
        let number = known
            .iter()
            .copied()
            .find(coincides)
            .unwrap_or(self.seams.len());
        if number == self.seams.len() {
            known.push(number);
            self.seams.push(seam);
        }
        if let Some(twin) = self.seams.get_mut(number)
            && let Some(count) = twin.strands.get_mut(layer)
        {
            *count += if twin.from == seam.from { 1 } else { -1 };
        }
    }
}

fn parts(strands: &[Strand], weld: &mut Weld) -> Vec<Part> {
    let mut parts = Vec::with_capacity(strands.len());
    for (source, strand) in strands.iter().enumerate() {
        for edge in monotone::parts(&strand.edge) {
            let bounds = Bounds::of_points(edge.start, edge.end).grown(weld.reach());
            let (from, to) = (weld.number(edge.start), weld.number(edge.end));
            parts.push(Part {
                edge,
                bounds,
                source,
                from,
                to,
            });
        }
    }
    parts
}

/// Welds the points in which parts cross or touch.
fn weld_crossings(parts: &[Part], weld: &mut Weld) -> Option<()> {
    let reach = weld.reach();
    let mut order: Vec<&Part> = parts.iter().collect();
    order.sort_by(|a, b| a.bounds.low.x.total_cmp(&b.bounds.low.x));
    for (place, part) in order.iter().enumerate() {
        let reachable = order
            .iter()
            .skip(place + 1)
            .take_while(|other| other.bounds.low.x <= part.bounds.high.x);
        for other in reachable.filter(|other| part.bounds.overlaps(&other.bounds)) {
            for point in meet::crossings(&part.edge, &other.edge, reach) {
                weld.number(point);
            }
        }
        if weld.points().len() > MOST_CROSSINGS {
            return None;
        }
    }
    Some(())
}

/// For each part the places on it, in order along it.
fn cuts(parts: &[Part], weld: &Weld) -> Vec<Vec<usize>> {
    let sorted = |of: &dyn Fn(Point) -> f64| -> Vec<(f64, usize)> {
        let mut places: Vec<(f64, usize)> = weld
            .points()
            .iter()
            .enumerate()
            .map(|(number, &point)| (of(point), number))
            .collect();
        places.sort_by(|a, b| a.0.total_cmp(&b.0));
        places
    };
    let (eastward, northward) = (sorted(&|point| point.x), sorted(&|point| point.y));
    parts
        .iter()
        .map(|part| {
            let (low, high) = (part.bounds.low, part.bounds.high);
            // Of the places beside the part and those above and below it, the
            // fewer are looked at.
            let (beside, level) = (
                between(&eastward, low.x, high.x),
                between(&northward, low.y, high.y),
            );
            let near = if beside.len() <= level.len() {
                beside
            } else {
                level
            };
            part.cut(near.iter().map(|&(_, number)| number), weld)
        })
        .collect()
}

/// The places whose value lies between two bounds.
fn between(places: &[(f64, usize)], low: f64, high: f64) -> &[(f64, usize)] {
    let first = places.partition_point(|&(value, _)| value < low);
    let last = places.partition_point(|&(value, _)| value <= high);
    places.get(first..last).unwrap_or_default()
}

impl Part {
    /// The places on the part among those given, in order along it, its ends
    /// included; none if the part has no length.
    fn cut(&self, near: impl Iterator<Item = usize>, weld: &Weld) -> Vec<usize> {
        let mut stops: Vec<(f64, usize)> = near
            .filter(|&number| number != self.from && number != self.to)
            .map(|number| (number, weld.point(number)))
            .filter(|&(_, point)| {
                self.bounds.contains(point) && meet::touches(&self.edge, point, weld.reach())
            })
            .map(|(number, point)| ((point - self.edge.start).dot(self.edge.chord()), number))
            .collect();
        stops.sort_by(|a, b| a.0.total_cmp(&b.0));
        if self.from == self.to && stops.is_empty() {
            return Vec::new();
        }
        let between = stops.into_iter().map(|(_, number)| number);
        std::iter::once(self.from)
            .chain(between)
            .chain(std::iter::once(self.to))
            .collect()
    }

    /// The bulge of the piece between two places on the part.
    fn bulge_between(&self, from: usize, to: usize, weld: &Weld) -> f64 {
        if !self.edge.is_arc() || (from == self.from && to == self.to) {
            return self.edge.bulge;
        }
        let chord = weld.point(from).distance(weld.point(to));
        bulge_of_chord(chord, self.edge.radius()).copysign(self.edge.bulge)
    }
}
