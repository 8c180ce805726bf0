//! A plane over the plan: a finished surface or the existing ground.

use super::edge::Edge;
use super::outline::Outline;
use super::point::{Point, Vector};

/// A plane z = level + gradient · (p − at); levels in metres, the gradient
/// in metres of rise per metre, pointing uphill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    level: f64,
    at: Point,
    gradient: Vector,
}

impl Plane {
    /// The plane at `level` in the point `at`, rising along `gradient`.
    pub const fn through(level: f64, at: Point, gradient: Vector) -> Plane {
        Plane {
            level,
            at,
            gradient,
        }
    }

    /// The plane at `level` in the point `at` that falls by `slope` toward
    /// `direction`, whose length does not matter.
    pub fn falling(level: f64, at: Point, direction: Vector, slope: f64) -> Plane {
        Plane::through(level, at, direction.unit() * -slope)
    }

    /// The level plane.
    pub const fn level(level: f64) -> Plane {
        Plane::through(level, Point::ORIGIN, Vector::new(0.0, 0.0))
    }

    /// The plane through three levels at points; none if the points lie in
    /// one line.
    pub fn from_points(points: &[(Point, f64); 3]) -> Option<Plane> {
        let [(at, level), (second, second_level), (third, third_level)] = *points;
        let (a, b) = (second - at, third - at);
        let (rise_a, rise_b) = (second_level - level, third_level - level);
        let turn = a.cross(b);
        let longest = a.length().max(b.length()).max((b - a).length());
        if !turn.is_finite() || turn.abs() <= 1e-9 * longest * longest {
            return None;
        }
        let gradient =
            Vector::new(rise_a * b.y - rise_b * a.y, rise_b * a.x - rise_a * b.x) * (1.0 / turn);
        Some(Plane::through(level, at, gradient))
    }

    /// The plane that is at one level along each of two straight edges; none
    /// if the edges are not parallel or lie in one line.
    pub fn from_parallel_edges(first: (&Edge, f64), second: (&Edge, f64)) -> Option<Plane> {
        let ((edge, level), (other, other_level)) = (first, second);
        let across = edge.inward_normal()?;
        let other_across = other.inward_normal()?;
        let apart = across.dot(other.start - edge.start);
        let size = edge.length().max(other.length());
        let parallel = across.cross(other_across).abs() <= 1e-6;
        if !parallel || !apart.is_finite() || apart.abs() <= 1e-9 * size {
            return None;
        }
        Some(Plane::through(
            level,
            edge.start,
            across * ((other_level - level) / apart),
        ))
    }

    /// The level at a point, in metres.
    pub fn level_at(&self, point: Point) -> f64 {
        self.level + self.gradient.dot(point - self.at)
    }

    /// The rise per metre east and north.
    pub fn gradient(&self) -> Vector {
        self.gradient
    }

    /// The steepest slope, in metres per metre.
    pub fn slope(&self) -> f64 {
        self.gradient.length()
    }

    /// The unit direction in which water runs; none on a level plane.
    pub fn fall_direction(&self) -> Option<Vector> {
        (self.slope() > 0.0).then(|| (-self.gradient).unit())
    }

    /// The fall, in metres per metre, toward `direction`; negative if the
    /// plane rises that way.
    pub fn fall_toward(&self, direction: Vector) -> f64 {
        -self.gradient.dot(direction.unit())
    }

    /// The same plane `height` metres higher.
    pub fn raised(&self, height: f64) -> Plane {
        Plane {
            level: self.level + height,
            ..*self
        }
    }

    /// The plane whose level everywhere is this one's less `other`'s.
    pub fn less(&self, other: &Plane) -> Plane {
        Plane::through(
            self.level - other.level_at(self.at),
            self.at,
            self.gradient - other.gradient,
        )
    }

    /// The lowest and the highest level along a side, arcs exact.
    pub fn levels_along(&self, edge: &Edge) -> (f64, f64) {
        let (least, most) = edge.extremes(self.at, self.gradient);
        (self.level + least, self.level + most)
    }

    /// The stretches of a side along which the level lies between two, each
    /// as two distances from the side's start in metres, arcs exact.
    pub fn stretches_between(&self, edge: &Edge, low: f64, high: f64) -> Vec<(f64, f64)> {
        let mut cuts = vec![0.0, edge.length()];
        for level in [low, high] {
            cuts.extend(self.reached_along(edge, level));
        }
        cuts.sort_by(f64::total_cmp);
        let lies_between = |from: f64, to: f64| {
            let level = self.level_at(edge.point_at(0.5 * (from + to)));
            from < to && low < level && level < high
        };
        cuts.iter()
            .zip(cuts.iter().skip(1))
            .map(|(from, to)| (*from, *to))
            .filter(|(from, to)| lies_between(*from, *to))
            .collect()
    }

    /// How far along a side, in metres from its start, a level is reached.
    fn reached_along(&self, edge: &Edge, level: f64) -> Vec<f64> {
        let Some(centre) = edge.centre() else {
            let start = self.level_at(edge.start);
            let share = (level - start) / (self.level_at(edge.end) - start);
            let is_within = share > 0.0 && share < 1.0;
            return is_within
                .then_some(share * edge.length())
                .into_iter()
                .collect();
        };
        let radius = edge.radius();
        let share = (level - self.level_at(centre)) / (self.slope() * radius);
        if share.is_nan() || share.abs() >= 1.0 {
            return Vec::new();
        }
        let turn = share.acos();
        [turn, -turn]
            .into_iter()
            .filter_map(|turn| edge.angle_facing(self.gradient.turned(turn)))
            .map(|angle| angle * radius)
            .collect()
    }

    /// The lowest and the highest level over an outline, arcs exact. Their
    /// difference is the drop.
    pub fn levels_over(&self, outline: &Outline) -> (f64, f64) {
        let (least, most) = outline.extremes_from(self.at, self.gradient);
        (self.level + least, self.level + most)
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::close;
    use super::*;

    #[test]
    fn three_points_make_a_plane() {
        let plane = Plane::through(1.25, Point::new(2.0, 3.0), Vector::new(0.02, -0.01));
        let points = [(0.0, 0.0), (7.0, 1.0), (2.0, 9.0)]
            .map(|(x, y)| Point::new(x, y))
            .map(|point| (point, plane.level_at(point)));
        let found = Plane::from_points(&points).unwrap();
        assert!((found.gradient() - plane.gradient()).length() < 1e-12);
        assert!(close(
            found.level_at(Point::new(5.0, 5.0)),
            plane.level_at(Point::new(5.0, 5.0))
        ));
    }

    #[test]
    fn points_in_one_line_make_none() {
        let line = [(0.0, 0.0), (1.0, 1.0), (3.0, 3.0)].map(|(x, y)| (Point::new(x, y), 0.0));
        assert_eq!(Plane::from_points(&line), None);
        assert_eq!(Plane::from_points(&[(Point::ORIGIN, 0.0); 3]), None);
    }

    #[test]
    fn two_parallel_edges_make_a_plane() {
        let north = Edge::line(Point::new(0.0, 0.0), Point::new(8.0, 0.0), 0);
        let south = Edge::line(Point::new(9.0, -4.0), Point::new(1.0, -4.0), 0);
        let plane = Plane::from_parallel_edges((&north, -0.1), (&south, -0.2)).unwrap();
        assert!(close(plane.slope(), 0.025));
        assert!(close(plane.level_at(Point::new(3.0, -2.0)), -0.15));
        assert_eq!(plane.fall_direction(), Some(Vector::new(0.0, -1.0)));
        let east = Edge::line(Point::new(8.0, 0.0), Point::new(8.0, -4.0), 0);
        assert_eq!(
            Plane::from_parallel_edges((&north, 0.0), (&east, 0.0)),
            None
        );
        assert_eq!(
            Plane::from_parallel_edges((&north, 0.0), (&north, 1.0)),
            None
        );
        let arc = Edge {
            bulge: 1.0,
            ..south
        };
        assert_eq!(Plane::from_parallel_edges((&north, 0.0), (&arc, 0.0)), None);
    }

    #[test]
    fn falls_add_as_vectors() {
        let plane = Plane::falling(0.0, Point::ORIGIN, Vector::new(0.0, -3.0), 0.03);
        let cross = Plane::through(
            0.0,
            Point::ORIGIN,
            plane.gradient() + Vector::new(-0.04, 0.0),
        );
        assert!(close(cross.slope(), 0.05));
        assert!(close(cross.fall_toward(Vector::new(2.0, 0.0)), 0.04));
        assert!(close(
            cross
                .raised(1.0)
                .less(&plane)
                .level_at(Point::new(10.0, 0.0)),
            0.6
        ));
    }

    #[test]
    fn levels_along_an_arc_are_those_of_its_points() {
        let plane = Plane::falling(-0.1, Point::new(1.0, 2.0), Vector::new(2.0, 1.0), 0.03);
        for bulge in [0.0, 0.3, -0.3, 1.0, -1.7] {
            let edge = Edge::arc(Point::new(3.0, 1.0), Point::new(-2.0, 4.0), bulge, 0);
            let (low, high) = plane.levels_along(&edge);
            let levels: Vec<f64> = (0..=1000)
                .map(|step| edge.length() * f64::from(step) / 1000.0)
                .map(|distance| plane.level_at(edge.point_at(distance)))
                .collect();
            let least = levels.iter().copied().fold(f64::INFINITY, f64::min);
            let most = levels.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            assert!(
                (low - least).abs() < 1e-5 && low <= least + 1e-12,
                "{bulge}"
            );
            assert!(
                (high - most).abs() < 1e-5 && high >= most - 1e-12,
                "{bulge}"
            );
            // The stretches between two levels are where the points say.
            let (from, to) = (low + 0.3 * (high - low), low + 0.6 * (high - low));
            let stretches = plane.stretches_between(&edge, from, to);
            let length: f64 = stretches.iter().map(|(from, to)| to - from).sum();
            let within = levels.iter().filter(|level| from < **level && **level < to);
            let counted = edge.length() * within.count() as f64 / 1001.0;
            assert!(
                (length - counted).abs() < 0.02,
                "{bulge}: {length}, {counted}"
            );
        }
        let line = Edge::line(Point::ORIGIN, Point::new(4.0, 0.0), 0);
        let level = Plane::level(0.05);
        assert_eq!(level.stretches_between(&line, 0.0, 0.1), [(0.0, 4.0)]);
        assert_eq!(level.stretches_between(&line, 0.05, 0.1), []);
    }

    #[test]
    fn the_drop_counts_the_arcs() {
        let circle = Outline::circle(Point::new(5.0, 5.0), 2.0, 0).unwrap();
        let plane = Plane::falling(1.0, Point::new(5.0, 5.0), Vector::new(1.0, 1.0), 0.02);
        let (low, high) = plane.levels_over(&circle);
        assert!(close(low, 0.96) && close(high, 1.04));
    }
}
