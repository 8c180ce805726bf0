//! What stands on a sheet by the cells in which it lies, so that what stands
//! near a place is found without a look at all the rest.

use super::display_list::Extents;
use crate::geometry::Point;

/// The side of a cell, in millimetres of paper: about as large as a label.
const SIDE: f64 = 12.0;
/// The most cells in a row: no sheet is larger.
const MOST: usize = 400;

/// Things on a part of a sheet. What lies off it is near nothing on it.
#[derive(Debug, Clone)]
pub(super) struct Cells<T> {
    low: Point,
    columns: usize,
    rows: usize,
    things: Vec<T>,
    cells: Vec<Vec<usize>>,
}

impl<T> Cells<T> {
    /// None yet, on this part of a sheet.
    pub(crate) fn over(area: &Extents) -> Cells<T> {
        let (low, high) = area.bounds();
        let count = |reach: f64| ((reach / SIDE).ceil().max(1.0) as usize).min(MOST);
        let (columns, rows) = (count(high.x - low.x), count(high.y - low.y));
        Cells {
            low,
            columns,
            rows,
            things: Vec::new(),
            cells: vec![Vec::new(); columns * rows],
        }
    }

    /// Adds a thing between two corners.
    pub(crate) fn add(&mut self, thing: T, bounds: (Point, Point)) {
        let index = self.things.len();
        self.things.push(thing);
        for at in self.touched(bounds) {
            if let Some(cell) = self.cells.get_mut(at) {
                cell.push(index);
            }
        }
    }

    /// The things whose cells lie between two corners; one that lies in several
    /// comes as often.
    pub(crate) fn near(&self, bounds: (Point, Point)) -> impl Iterator<Item = &T> {
        let cells = self.touched(bounds).filter_map(|at| self.cells.get(at));
        cells.flatten().filter_map(|index| self.things.get(*index))
    }

    /// The cells between two corners.
    fn touched(&self, (low, high): (Point, Point)) -> impl Iterator<Item = usize> + use<T> {
        let span = |least: f64, most: f64, count: usize| {
            let cell = |reach: f64| (reach / SIDE).floor().clamp(-1.0, MOST as f64);
            let (first, last) = (cell(least), cell(most).min(count as f64 - 1.0));
            match last < 0.0 {
                true => 0..0,
                false => first.max(0.0) as usize..last as usize + 1,
            }
        };
        let across = span(low.x - self.low.x, high.x - self.low.x, self.columns);
        let up = span(low.y - self.low.y, high.y - self.low.y, self.rows);
        let columns = self.columns;
        up.flat_map(move |row| across.clone().map(move |column| row * columns + column))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_near_is_found_and_what_is_far_is_not_looked_at() {
        let area = Extents::between(Point::new(10.0, 10.0), Point::new(130.0, 100.0));
        let mut cells = Cells::over(&area);
        let boxes: Vec<Extents> = (0..40)
            .map(|number| {
                let number = f64::from(number);
                let (x, y) = (number * 37.0 % 160.0, number * 23.0 % 130.0);
                Extents::about(Point::new(x, y), 1.0 + number % 9.0, 1.0 + number % 5.0)
            })
            .collect();
        for (index, own) in boxes.iter().enumerate() {
            cells.add(index, own.bounds());
        }
        for wanted in &boxes {
            let is_on = |own: &Extents| area.overlaps(own);
            let mut met: Vec<usize> = (0..)
                .zip(&boxes)
                .filter(|(_, own)| own.overlaps(wanted) && is_on(own) && is_on(wanted))
                .map(|(index, _)| index)
                .collect();
            let mut found: Vec<usize> = cells.near(wanted.bounds()).copied().collect();
            found.sort_unstable();
            found.dedup();
            assert!(found.len() < boxes.len(), "{wanted:?}");
            met.retain(|index| !found.contains(index));
            assert!(met.is_empty(), "{wanted:?} meets {met:?} as well");
        }
    }
}
