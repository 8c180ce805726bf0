//! The plane that lies nearest to some levels.

use crate::geometry::{Plane, Point, Vector};

/// Points that spread less than this across their line, as a share of their
/// spread along it, lie in line.
const IN_LINE: f64 = 1e-6;

/// The plane with the least sum of squares of what the levels are off it;
/// `None` of fewer than three points, or of points in line.
pub(super) fn nearest_plane(levels: &[(Point, f64)]) -> Option<Plane> {
    if levels.len() < 3 {
        return None;
    }
    let count = levels.len() as f64;
    let mean = |of: &dyn Fn(&(Point, f64)) -> f64| levels.iter().map(of).sum::<f64>() / count;
    let middle = Point::new(mean(&|(at, _)| at.x), mean(&|(at, _)| at.y));
    let level = mean(&|(_, level)| *level);
    // Sums over the points, counted from their middle.
    let (mut xx, mut xy, mut yy, mut xz, mut yz) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (at, own) in levels {
        let (x, y, z) = (at.x - middle.x, at.y - middle.y, own - level);
        xx += x * x;
        xy += x * y;
        yy += y * y;
        xz += x * z;
        yz += y * z;
    }
    let spread = xx * yy - xy * xy;
    let is_in_line = spread <= IN_LINE * (xx + yy) * (xx + yy);
    let gradient = Vector::new(xz * yy - yz * xy, yz * xx - xz * xy) * (1.0 / spread);
    (!is_in_line).then(|| Plane::through(level, middle, gradient))
}
