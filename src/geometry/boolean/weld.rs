//! Points that are the same place within the reach, made one.

use rustc_hash::FxHashMap;

use super::super::point::{Point, Vector};

/// The places met so far. A point within the reach of a known place is that
/// place, so those that must stay exact go in first.
pub(super) struct Weld {
    reach: f64,
    points: Vec<Point>,
    cells: FxHashMap<(i64, i64), Vec<usize>>,
}

impl Weld {
    pub(crate) fn new(reach: f64) -> Weld {
        Weld {
            reach,
            points: Vec::new(),
            cells: FxHashMap::default(),
        }
    }

    pub(crate) fn reach(&self) -> f64 {
        self.reach
    }

    /// The places with their numbers.
    pub(crate) fn points(&self) -> &[Point] {
        &self.points
    }

    /// The place with this number.
    pub(crate) fn point(&self, number: usize) -> Point {
        self.points.get(number).copied().unwrap_or_default()
    }

    /// The number of the known place that `point` is.
    pub(crate) fn known(&self, point: Point) -> Option<usize> {
        let corner = Vector::new(self.reach, self.reach);
        let (first, last) = (self.cell(point + -corner), self.cell(point + corner));
        (first.0..=last.0)
            .flat_map(|column| (first.1..=last.1).map(move |row| (column, row)))
            .filter_map(|cell| self.cells.get(&cell))
            .flatten()
            .copied()
            .map(|number| (self.point(number).distance(point), number))
            .filter(|&(distance, _)| distance <= self.reach)
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, number)| number)
    }

    /// The number of the place that `point` is, known or new.
    pub(crate) fn number(&mut self, point: Point) -> usize {
        if let Some(number) = self.known(point) {
            return number;
        }
        self.points.push(point);
        let number = self.points.len() - 1;
        self.cells.entry(self.cell(point)).or_default().push(number);
        number
    }

    fn cell(&self, point: Point) -> (i64, i64) {
        // Wide beside the reach, so that most look into one cell only.
        let cell = |value: f64| (value / (64.0 * self.reach)).floor() as i64;
        (cell(point.x), cell(point.y))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_points_are_one_and_the_first_stays() {
        let mut weld = Weld::new(1e-3);
        let first = weld.number(Point::new(1.0, 1.0));
        assert_eq!(weld.number(Point::new(1.0005, 0.9995)), first);
        assert_eq!(weld.number(Point::new(1.0, 1.001)), first);
        assert_ne!(weld.number(Point::new(1.0, 1.0011)), first);
        assert_eq!(weld.point(first), Point::new(1.0, 1.0));
        assert_eq!(weld.points().len(), 2);
    }
}
