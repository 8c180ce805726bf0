//! Sides divided where something begins or ends on them.

use super::edge::{Edge, Tag};
use super::fault::Fault;
use super::outline::{Loop, Outline};
use super::point::Point;
use super::shared::{ALONGSIDE, Stretch};

/// A point is on the outline if it is no farther off than this, in metres: a
/// millimetre, about what can be set out.
pub const ON_OUTLINE: f64 = 1e-3;

impl Outline {
    /// The same outline with its sides divided at the ends of the stretches,
    /// so that a stretch is a side, or several, of its own. Every part keeps
    /// its side's tag.
    pub fn divided(&self, stretches: &[Stretch]) -> Outline {
        let cuts = |edge: &Edge| {
            let on_edge = stretches.iter().filter(|stretch| stretch.edge == *edge);
            on_edge
                .flat_map(|stretch| [stretch.from, stretch.to])
                .collect()
        };
        let divided = |boundary: &Loop| Loop {
            edges: boundary
                .edges
                .iter()
                .flat_map(|edge| parts(edge, cuts(edge)))
                .collect(),
        };
        Outline {
            outer: divided(&self.outer),
            holes: self.holes.iter().map(divided).collect(),
        }
    }

    /// The same outline with `tag` on what lies between two points of one of
    /// its loops, the shorter way round (anticlockwise from the first if both
    /// are as long). Sides are divided at the points.
    ///
    /// # Errors
    /// [`Fault::Off`] if a point is farther than [`ON_OUTLINE`] from the loop
    /// on which the other lies, [`Fault::Empty`] if they are the same.
    pub fn tagged_between(&self, from: Point, to: Point, tag: Tag) -> Result<Outline, Fault> {
        let off = |boundary: &Loop, point: Point| {
            boundary
                .edges
                .iter()
                .map(|edge| edge.distance_to(point))
                .fold(f64::INFINITY, f64::min)
        };
        let farther = |boundary: &Loop| {
            let (first, second) = (off(boundary, from), off(boundary, to));
            if first > second {
                (first, from)
            } else {
                (second, to)
            }
        };
        let nearest = self
            .loops()
            .map(farther)
            .enumerate()
            .min_by(|(_, (a, _)), (_, (b, _))| a.total_cmp(b));
        let Some((place, (gap, at))) = nearest else {
            return Err(Fault::Empty);
        };
        if gap > ON_OUTLINE {
            return Err(Fault::Off { at, gap });
        }
        let mut tagged = self.clone();
        let boundary = match place.checked_sub(1) {
            None => Some(&mut tagged.outer),
            Some(hole) => tagged.holes.get_mut(hole),
        };
        if let Some(boundary) = boundary {
            *boundary = boundary.tagged_between(from, to, tag)?;
        }
        Ok(tagged)
    }
}

impl Loop {
    fn tagged_between(&self, from: Point, to: Point, tag: Tag) -> Result<Loop, Fault> {
        let whole = self.length();
        let (first, second) = (self.distance_round(from), self.distance_round(to));
        let onward = (second - first).rem_euclid(whole);
        if onward.min(whole - onward) <= ON_OUTLINE {
            return Err(Fault::Empty);
        }
        let (begin, reach) = if onward <= 0.5 * whole + ALONGSIDE {
            (first, onward)
        } else {
            (second, whole - onward)
        };
        let mut walked = 0.0;
        let mut edges = Vec::with_capacity(self.edges.len() + 2);
        for edge in &self.edges {
            let cuts = vec![first - walked, second - walked];
            for part in parts(edge, cuts) {
                let middle = walked + 0.5 * part.length();
                walked += part.length();
                let within = (middle - begin).rem_euclid(whole) < reach;
                edges.push(if within { Edge { tag, ..part } } else { part });
            }
        }
        Ok(Loop { edges })
    }

    /// How far round the loop, from its first corner, the point of it nearest
    /// to `point` lies.
    fn distance_round(&self, point: Point) -> f64 {
        let mut walked = 0.0;
        let mut nearest = (f64::INFINITY, 0.0);
        for edge in &self.edges {
            let (off, length) = (edge.distance_to(point), edge.length());
            if off < nearest.0 {
                nearest = (off, walked + edge.distance_along(point).clamp(0.0, length));
            }
            walked += length;
        }
        nearest.1
    }
}

/// A side divided at distances from its start; those at its ends or outside
/// it divide nothing.
fn parts(edge: &Edge, mut cuts: Vec<f64>) -> Vec<Edge> {
    let length = edge.length();
    cuts.retain(|&cut| cut > ALONGSIDE && cut < length - ALONGSIDE);
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| *a - *b <= ALONGSIDE);
    cuts.push(length);
    let (mut parts, mut from): (Vec<Edge>, f64) = (Vec::new(), 0.0);
    for to in cuts {
        let mut part = edge.between(from, to);
        part.start = parts.last().map_or(edge.start, |last| last.end);
        parts.push(part);
        from = to;
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::super::difference;
    use super::super::sample::{close, polygon, rectangle};
    use super::*;

    fn tagged_length(outline: &Outline, tag: Tag) -> f64 {
        outline.edges_tagged(tag).map(Edge::length).sum()
    }

    #[test]
    fn the_sides_between_two_points_are_tagged() {
        let patio = rectangle(0.0, 0.0, 6.0, 4.0);
        let cases = [
            ("a whole side", (0.0, 4.0), (6.0, 4.0), 6.0),
            ("the other way", (6.0, 4.0), (0.0, 4.0), 6.0),
            ("part of a side", (1.0, 4.0), (3.0, 4.0), 2.0),
            ("round a corner", (5.0, 4.0), (6.0, 3.0), 2.0),
            ("past the first corner", (1.0, 0.0), (0.0, 1.0), 2.0),
            ("nearly on it", (1.0, 4.0005), (3.0, 3.9995), 2.0),
            ("as long both ways", (0.0, 0.0), (6.0, 4.0), 10.0),
        ];
        for (name, from, to, length) in cases {
            let tagged = patio
                .tagged_between(Point::new(from.0, from.1), Point::new(to.0, to.1), 9)
                .unwrap();
            assert!(
                close(tagged_length(&tagged, 9), length),
                "{name}: {}",
                tagged_length(&tagged, 9)
            );
            assert!(
                close(tagged.area(), 24.0) && close(tagged.perimeter(), 20.0),
                "{name}"
            );
        }
        let off = patio.tagged_between(Point::new(1.0, 4.2), Point::new(3.0, 4.0), 9);
        assert!(matches!(off, Err(Fault::Off { gap, .. }) if close(gap, 0.2)));
        let same = patio.tagged_between(Point::new(1.0, 4.0), Point::new(1.0, 4.0), 9);
        assert_eq!(same, Err(Fault::Empty));
    }

    #[test]
    fn a_part_of_a_rim_or_of_a_hole_is_tagged() {
        let pit = Outline::circle(Point::new(3.0, 2.0), 1.0, 7).unwrap();
        let court = difference(&rectangle(0.0, 0.0, 6.0, 4.0), &pit).unwrap();
        let (east, north) = (Point::new(4.0, 2.0), Point::new(3.0, 3.0));
        for outline in [pit, court] {
            let tagged = outline.tagged_between(east, north, 9).unwrap();
            let quarter = std::f64::consts::FRAC_PI_2;
            assert!(close(tagged_length(&tagged, 9), quarter));
            assert!(close(tagged_length(&tagged, 7), 3.0 * quarter));
        }
        // Points on two different loops.
        let ell = polygon(&[(0., 0.), (6., 0.), (6., 4.), (0., 4.)]);
        let court = difference(&ell, &rectangle(2.0, 1.0, 1.0, 1.0)).unwrap();
        let mixed = court.tagged_between(Point::new(2.0, 1.0), Point::new(6.0, 4.0), 9);
        assert!(matches!(mixed, Err(Fault::Off { .. })));
    }
}
