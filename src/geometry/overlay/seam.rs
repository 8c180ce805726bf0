//! The parts into which all sides are cut, coincident ones made one.

use rustc_hash::FxHashMap;

use super::super::bounds::Bounds;
use super::super::edge::{Edge, NO_TAG, bulge_of_chord};
use super::weld::Weld;
use super::{Strand, Windings, meet, monotone};

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

/// Cuts all strands where they meet.
pub(super) fn seams(strands: &[Strand], reach: f64) -> (Vec<Seam>, Weld) {
    let mut weld = Weld::new(reach);
    for strand in strands {
        weld.number(strand.edge.start);
        weld.number(strand.edge.end);
    }
    let parts = parts(strands, &mut weld);
    weld_crossings(&parts, &mut weld);
    let cuts = cuts(&parts, &weld);

    let mut seams: Vec<Seam> = Vec::new();
    let mut between: FxHashMap<(usize, usize), Vec<usize>> = FxHashMap::default();
    for (part, stops) in parts.iter().zip(cuts) {
        let layer = strands.get(part.source).map_or(0, |strand| strand.layer);
        for (from, to) in stops.iter().copied().zip(stops.iter().copied().skip(1)) {
            let bulge = part.bulge_between(from, to, &weld);
            let chord = weld.point(from).distance(weld.point(to));
            let known = between.entry((from.min(to), from.max(to))).or_default();
            let twin = known.iter().copied().find(|&number| {
                seams.get(number).is_some_and(|seam| {
                    let other = if seam.from == from {
                        seam.bulge
                    } else {
                        -seam.bulge
                    };
                    (other - bulge).abs() * chord <= 8.0 * reach
                })
            });
            let number = twin.unwrap_or_else(|| {
                seams.push(Seam {
                    from,
                    to,
                    bulge,
                    source: part.source,
                    strands: [0, 0],
                });
                known.push(seams.len() - 1);
                seams.len() - 1
            });
            if let Some(seam) = seams.get_mut(number) {
                let way = if seam.from == from { 1 } else { -1 };
                if let Some(count) = seam.strands.get_mut(layer) {
                    *count += way;
                }
            }
        }
    }
    (seams, weld)
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
fn weld_crossings(parts: &[Part], weld: &mut Weld) {
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
    }
}

/// For each part the places on it, in order along it.
fn cuts(parts: &[Part], weld: &Weld) -> Vec<Vec<usize>> {
    let mut places: Vec<(f64, usize)> = weld
        .points()
        .iter()
        .enumerate()
        .map(|(number, point)| (point.x, number))
        .collect();
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    parts
        .iter()
        .map(|part| {
            let (low, high) = (part.bounds.low, part.bounds.high);
            let first = places.partition_point(|&(x, _)| x < low.x);
            let mut stops: Vec<(f64, usize)> = places
                .iter()
                .skip(first)
                .take_while(|&&(x, _)| x <= high.x)
                .map(|&(_, number)| (number, weld.point(number)))
                .filter(|&(number, point)| {
                    number != part.from
                        && number != part.to
                        && low.y <= point.y
                        && point.y <= high.y
                        && meet::touches(&part.edge, point, weld.reach())
                })
                .map(|(number, point)| ((point - part.edge.start).dot(part.edge.chord()), number))
                .collect();
            stops.sort_by(|a, b| a.0.total_cmp(&b.0));
            let ends_apart = part.from != part.to;
            let mut cut: Vec<usize> = Vec::with_capacity(stops.len() + 2);
            if ends_apart || !stops.is_empty() {
                cut.push(part.from);
                cut.extend(stops.into_iter().map(|(_, number)| number));
                cut.push(part.to);
            }
            cut
        })
        .collect()
}

impl Part {
    /// The bulge of the piece between two places on the part.
    fn bulge_between(&self, from: usize, to: usize, weld: &Weld) -> f64 {
        if !self.edge.is_arc() || (from == self.from && to == self.to) {
            return self.edge.bulge;
        }
        let chord = weld.point(from).distance(weld.point(to));
        bulge_of_chord(chord, self.edge.radius()).copysign(self.edge.bulge)
    }
}
