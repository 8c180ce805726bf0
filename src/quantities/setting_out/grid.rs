//! A grid of levels over a surface, counted from the first mark: along the line
//! of the marks, and square out of it.

use super::marks::Marks;
use crate::geometry::{Point, Vector};
use crate::model::{Job, Surface};

/// The most levels along one side of a grid; a finding tells of more.
const MOST: i64 = 2_000;

/// A level of the grid. Lengths are in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GridLevel {
    /// How far along the line of the marks from A.
    pub along_m: f64,
    /// How far square out of it; to the right of A to B negative.
    pub out_m: f64,
    /// Where that is.
    pub at: Point,
    /// The finished level there.
    pub level_m: f64,
}

/// The levels over a surface, row by row; none where no grid is asked for or
/// levels and fall give no plane. Without marks it is counted from (0, 0), along
/// the plan's east.
pub(super) fn grid(job: &Job, surface: &Surface, marks: Option<Marks>) -> Vec<GridLevel> {
    let every = job.setting_out.as_ref().and_then(|own| own.levels.as_ref());
    let (Some(every), true) = (every, surface.outline.is_some()) else {
        return Vec::new();
    };
    let step = every.value.si();
    let (origin, along) = marks.map_or((Point::ORIGIN, Vector::new(1.0, 0.0)), |marks| {
        (marks.first, (marks.second - marks.first).unit())
    });
    let range = |way: Vector| {
        let ends = surface.outlines().map(|outline| outline.extremes(way));
        let ends = ends.reduce(|all, one| (all.0.min(one.0), all.1.max(one.1)));
        let (least, most) = ends.unwrap_or_default();
        let shift = way.dot(origin - Point::ORIGIN);
        let first = ((least - shift) / step - 1e-9).ceil() as i64;
        let last = ((most - shift) / step + 1e-9).floor() as i64;
        first..=last.min(first.saturating_add(MOST))
    };
    let mut levels = Vec::new();
    for row in range(along.left()).rev() {
        for column in range(along) {
            let (along_m, out_m) = (column as f64 * step, row as f64 * step);
            let at = origin + along * along_m + along.left() * out_m;
            if !surface.contains(at) {
                continue;
            }
            if let Some(level_m) = surface.level_at(at) {
                levels.push(GridLevel {
                    along_m,
                    out_m,
                    at,
                    level_m,
                });
            }
        }
    }
    levels
}
