//! Loops cut into lines and quarter circles, and these where they meet.

use super::super::bounds::Bounds;
use super::super::edge::{Edge, bulge_of_chord};
use super::super::fault::MOST_EDGES;
use super::super::outline::Loop;
use super::super::point::Point;
use super::super::{meet, monotone};
use super::seam::{Seam, Shared};
use super::weld::Weld;

/// The greatest number of places in which the sides of two loops may meet,
/// besides their corners. Each becomes a corner of what comes of them, and
/// that may have [`MOST_EDGES`].
const MOST_CROSSINGS: usize = 2 * MOST_EDGES;

/// A line or at most a quarter of a circle, on its way to being divided.
struct Part {
    edge: Edge,
    bounds: Bounds,
    side: usize,
    from: usize,
    to: usize,
}

/// The seams of each loop, in order. The sides are counted through both
/// loops. None if these meet in more than [`MOST_CROSSINGS`] places.
pub(super) fn divided(a: &Loop, b: &Loop, weld: &mut Weld) -> Option<[Vec<Seam>; 2]> {
    // Corners first, so that they stay exact.
    for side in a.edges.iter().chain(&b.edges) {
        weld.number(side.start);
    }
    let both = [parts(a, 0, weld), parts(b, a.edges.len(), weld)];
    weld_crossings(&both, weld)?;
    let order = Order::of(weld.points());
    let seams = |part: &Part| part.seams(&order, weld);
    Some(both.map(|parts| parts.iter().flat_map(seams).collect()))
}

fn parts(boundary: &Loop, first: usize, weld: &mut Weld) -> Vec<Part> {
    let mut parts = Vec::with_capacity(boundary.edges.len());
    for (place, side) in boundary.edges.iter().enumerate() {
        for edge in monotone::parts(side) {
            parts.push(Part {
                bounds: Bounds::of_points(edge.start, edge.end).grown(weld.reach()),
                side: first + place,
                from: weld.number(edge.start),
                to: weld.number(edge.end),
                edge,
            });
        }
    }
    parts
}

/// Welds the points in which parts of one loop cross or touch parts of the
/// other.
fn weld_crossings([first, second]: &[Vec<Part>; 2], weld: &mut Weld) -> Option<()> {
    let mut order: Vec<&Part> = first.iter().collect();
    order.sort_by(|a, b| a.bounds.low.x.total_cmp(&b.bounds.low.x));
    let most = weld.points().len() + MOST_CROSSINGS;
    for part in second {
        let within = order.partition_point(|other| other.bounds.low.x <= part.bounds.high.x);
        for other in order.iter().take(within) {
            if part.bounds.overlaps(&other.bounds) {
                for point in meet::crossings(&other.edge, &part.edge, weld.reach()) {
                    weld.number(point);
                }
            }
        }
        if weld.points().len() > most {
            return None;
        }
    }
    Some(())
}

/// Places from west to east.
struct Order(Vec<(f64, usize)>);

impl Order {
    fn of(points: &[Point]) -> Order {
        let numbered = points.iter().enumerate();
        let mut places: Vec<(f64, usize)> =
            numbered.map(|(number, point)| (point.x, number)).collect();
        places.sort_by(|a, b| a.0.total_cmp(&b.0));
        Order(places)
    }

    /// The places no farther west or east than the bounds.
    fn beside(&self, bounds: &Bounds) -> impl Iterator<Item = usize> {
        let first = self.0.partition_point(|&(x, _)| x < bounds.low.x);
        let last = self.0.partition_point(|&(x, _)| x <= bounds.high.x);
        let places = self.0.get(first..last).unwrap_or_default();
        places.iter().map(|&(_, number)| number)
    }
}

impl Part {
    /// The part divided at the places on it; nothing if it has no length.
    fn seams(&self, order: &Order, weld: &Weld) -> Vec<Seam> {
        let on_it = |&point: &Point| {
            self.bounds.contains(point) && meet::touches(&self.edge, point, weld.reach())
        };
        let along = |point: Point| (point - self.edge.start).dot(self.edge.chord());
        let mut stops: Vec<(f64, usize)> = order
            .beside(&self.bounds)
            .filter(|&number| number != self.from && number != self.to)
            .map(|number| (number, weld.point(number)))
            .filter(|(_, point)| on_it(point))
            .map(|(number, point)| (along(point), number))
            .collect();
        stops.sort_by(|a, b| a.0.total_cmp(&b.0));
        if self.from == self.to && stops.is_empty() {
            return Vec::new();
        }
        let ends = stops.iter().map(|&(_, number)| number).chain([self.to]);
        let starts = std::iter::once(self.from).chain(stops.iter().map(|&(_, number)| number));
        starts
            .zip(ends)
            .map(|(from, to)| Seam {
                from,
                to,
                bulge: self.bulge_between(from, to, weld),
                side: self.side,
                forward: true,
                shared: Shared::No,
            })
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
