//! How long a surface is, whichever way it lies on the plan.

use crate::geometry::Outline;

/// The longer side of the smallest rectangle, square to one of the straight
/// edges, that holds an outline; of a round outline its width. In metres.
pub(super) fn length_m(outline: &Outline) -> Option<f64> {
    let straight = outline.edges().filter(|edge| !edge.is_arc());
    let upright = crate::geometry::Vector { x: 1.0, y: 0.0 };
    straight
        .map(|edge| edge.chord().unit())
        .filter(|direction| direction.length() > 0.5)
        .chain([upright])
        .map(|along| {
            let across = along.left();
            extent(outline, along).max(extent(outline, across))
        })
        .reduce(f64::min)
        .filter(|length| length.is_finite())
}

fn extent(outline: &Outline, direction: crate::geometry::Vector) -> f64 {
    let (least, greatest) = outline.extremes(direction);
    greatest - least
}
