//! A level rim that falls to one point inside: a facet to each side.

use super::combine::intersection;
use super::edge::{Edge, Tag};
use super::fault::Fault;
use super::outline::Outline;
use super::plane::Plane;
use super::point::{Point, Vector};

/// The part of an outline that falls from one of its sides to a point.
#[derive(Debug, Clone, PartialEq)]
pub struct Facet {
    /// The side, by its tag.
    pub tag: Tag,
    /// The triangle between the side and the point.
    pub outline: Outline,
    /// Its plane.
    pub plane: Plane,
    /// How far the point lies from the side.
    pub run: f64,
    side: Edge,
    foot: Point,
}

/// Why an outline cannot fall to a point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoFacets {
    /// It has a hole.
    Hole,
    /// A side is an arc: its tag.
    Arc(Tag),
    /// A side from which the point lies behind or beside: its tag.
    Behind(Tag),
}

/// The facets of an outline whose rim lies level, one to each side, falling
/// to a point; from the side that lies farthest at the slope that is given,
/// from nearer ones more steeply.
///
/// # Errors
/// What keeps it from being so.
pub fn facets(
    outline: &Outline,
    level: f64,
    to: Point,
    least: f64,
) -> Result<Vec<Facet>, NoFacets> {
    if !outline.holes.is_empty() {
        return Err(NoFacets::Hole);
    }
    let mut runs = Vec::with_capacity(outline.outer.edges.len());
    if let Some(arc) = outline.outer.edges.iter().find(|side| side.is_arc()) {
        return Err(NoFacets::Arc(arc.tag));
    }
    for side in whole_sides(&outline.outer.edges) {
        let run = side.chord().unit().left().dot(to - side.start);
        if run.is_nan() || run <= super::ALONGSIDE {
            return Err(NoFacets::Behind(side.tag));
        }
        runs.push((side, run));
    }
    let farthest = runs.iter().map(|(_, run)| *run).fold(0.0, f64::max);
    let drop = least * farthest;
    let own = runs.into_iter().map(|(side, run)| {
        let inward = side.chord().unit().left();
        let gradient = Vector::new(-inward.x * drop / run, -inward.y * drop / run);
        let outline = triangle(&side, to, 1.0).map_err(|_| NoFacets::Behind(side.tag))?;
        Ok(Facet {
            tag: side.tag,
            outline,
            plane: Plane::through(level, side.start, gradient),
            run,
            side,
            foot: to,
        })
    });
    own.collect()
}

/// The straight sides of an outline, those that go on in one line as one, by
/// the tag of the first: where neighbours part a side, it falls as a whole.
fn whole_sides(edges: &[Edge]) -> Vec<Edge> {
    let goes_on = |one: &Edge, next: &Edge| {
        let (along, way) = (one.chord().unit(), next.chord());
        along.dot(way) > 0.0 && along.left().dot(way).abs() <= super::ALONGSIDE
    };
    let before = edges.iter().cycle().skip(edges.len().saturating_sub(1));
    let corner = before
        .zip(edges)
        .position(|(one, next)| !goes_on(one, next));
    let first = corner.unwrap_or(0);
    let mut sides: Vec<Edge> = Vec::with_capacity(edges.len());
    for edge in edges.iter().cycle().skip(first).take(edges.len()) {
        match sides.last_mut() {
            Some(last) if goes_on(last, edge) => {
                *last = Edge::line(last.start, edge.end, last.tag);
            }
            _ => sides.push(*edge),
        }
    }
    sides
}

/// The triangle between a side and a point, made so many times as large from
/// that point.
fn triangle(side: &Edge, foot: Point, times: f64) -> Result<Outline, Fault> {
    let [start, end] = [side.start, side.end].map(|at| foot + (at - foot) * times);
    Outline::new(vec![
        Edge::line(start, end, side.tag),
        Edge::line(end, foot, side.tag),
        Edge::line(foot, start, side.tag),
    ])
}

impl Facet {
    /// The facet carried on past its side, as far as `reach` from the point to
    /// which it falls: its valleys go on straight.
    ///
    /// # Errors
    /// Where it comes out too large.
    pub fn carried_on(&self, reach: f64) -> Result<Outline, Fault> {
        triangle(&self.side, self.foot, 1.0 + reach / self.run)
    }

    /// What of an outline lies on it, or past its side between its valleys
    /// carried on.
    ///
    /// # Errors
    /// Where it comes out too large.
    pub fn part_of(&self, outline: &Outline) -> Result<Vec<Outline>, Fault> {
        let (low, high) = outline.bounding_box();
        let corners = [
            low,
            high,
            Point::new(low.x, high.y),
            Point::new(high.x, low.y),
        ];
        let away = corners.map(|corner| corner.distance(self.foot));
        intersection(
            outline,
            &self.carried_on(away.into_iter().fold(0.0, f64::max))?,
        )
    }

    /// The valley between it and the facet before it, from the point to the
    /// start of its side.
    pub fn valley(&self) -> Edge {
        Edge::line(self.foot, self.side.start, self.tag)
    }

    /// The point to which it falls.
    pub fn foot(&self) -> Point {
        self.foot
    }

    /// Whether its side runs along another edge.
    pub fn is_along(&self, edge: &Edge) -> bool {
        self.side.distance_to(edge.midpoint()) <= 2.0 * super::ALONGSIDE
    }

    /// Whether a point lies on it, or past its side between its valleys
    /// carried on.
    pub fn is_toward(&self, at: Point) -> bool {
        let (start, end) = (self.side.start - self.foot, self.side.end - self.foot);
        let way = at - self.foot;
        let slack = -1e-9 * (1.0 + way.length()) * (1.0 + start.length() + end.length());
        start.left().dot(way) >= slack && way.left().dot(end) >= slack
    }

    /// The way that water runs on it.
    pub fn downhill(&self) -> Vector {
        -self.plane.gradient()
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{cases, close, polygon, rectangle};
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn each_side_falls_to_the_point() {
        let court = rectangle(0.0, 0.0, 6.0, 4.0);
        let to = Point::new(2.0, 1.0);
        let found = facets(&court, 0.5, to, 0.025).unwrap();
        let sum: f64 = found.iter().map(|own| own.outline.area()).sum();
        assert!(found.len() == 4 && close(sum, 24.0));
        // The east side lies farthest: 4 m at 2.5 %.
        for own in &found {
            assert!(close(own.plane.level_at(to), 0.4));
            assert!(close(own.plane.slope(), 0.1 / own.run));
            assert!(own.plane.slope() >= 0.025 - 1e-12);
            let side = own.outline.edges_tagged(own.tag).next().unwrap();
            assert!(close(own.plane.level_at(side.start), 0.5));
            assert!(close(own.plane.level_at(side.end), 0.5));
        }
    }

    #[test]
    fn what_does_not_see_the_point_is_told() {
        let ell = polygon(&[(0., 0.), (6., 0.), (6., 2.), (3., 2.), (3., 5.), (0., 5.)]);
        let least = |outline: &Outline, x: f64, y: f64| {
            facets(outline, 0.0, Point::new(x, y), 0.02).map(|own| own.len())
        };
        assert_eq!(least(&ell, 2.0, 1.0), Ok(6));
        assert_eq!(least(&ell, 5.0, 1.0), Err(NoFacets::Behind(3)));
        let court = rectangle(0.0, 0.0, 6.0, 4.0);
        assert_eq!(least(&court, 7.0, 1.0), Err(NoFacets::Behind(1)));
        assert_eq!(least(&court, 3.0, 0.0), Err(NoFacets::Behind(0)));
        let round = Outline::circle(Point::ORIGIN, 2.0, 5).unwrap();
        assert_eq!(least(&round, 0.0, 0.0), Err(NoFacets::Arc(5)));
    }

    proptest! {
        #![proptest_config(cases(48))]

        #[test]
        fn facets_are_the_whole_and_lie_on_one_another(
            x in 0.1..5.9f64, y in 0.1..3.9f64, least in 0.005..0.1f64,
        ) {
            let court = rectangle(0.0, 0.0, 6.0, 4.0);
            let found = facets(&court, 0.0, Point::new(x, y), least).unwrap();
            let sum: f64 = found.iter().map(|own| own.outline.area()).sum();
            prop_assert!(close(sum, 24.0));
            let steepest = found.iter().map(|own| own.plane.slope());
            let flattest = steepest.fold(f64::INFINITY, f64::min);
            prop_assert!(close(flattest, least));
            // Carried on, they are a wider court.
            let wide: f64 = found
                .iter()
                .map(|own| own.carried_on(3.0).unwrap().area())
                .sum();
            prop_assert!(wide > 24.0);
            // Every point lies toward one, and where it does toward two both
            // are as high there.
            for at in [Point::new(x + 3.0, y + 1.0), Point::new(6.5, -0.5), Point::new(0.1, 0.1)] {
                let levels = found.iter().filter(|own| own.is_toward(at));
                let levels: Vec<f64> = levels.map(|own| own.plane.level_at(at)).collect();
                prop_assert!(!levels.is_empty());
                prop_assert!(levels.iter().all(|own| (own - levels[0]).abs() < 1e-6));
            }
        }
    }
}
