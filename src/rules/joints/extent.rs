//! How long and wide a surface is, whichever way it lies on the plan.

use crate::geometry::{Outline, Vector};

/// The longer and the shorter side of a rectangle round an outline, square
/// to one of its straight edges: of those the one with the shortest long
/// side. Of a round outline, its width twice. In metres.
pub(super) fn sides_m(outline: &Outline) -> Option<(f64, f64)> {
    let straight = outline.edges().filter(|edge| !edge.is_arc());
    straight
        .map(|edge| edge.chord().unit())
        .filter(|direction| direction.length() > 0.5)
        .chain([Vector { x: 1.0, y: 0.0 }])
        .map(|along| {
            let (one, other) = (outline.extent(along), outline.extent(along.left()));
            (one.max(other), one.min(other))
        })
        .filter(|(length, width)| length.is_finite() && width.is_finite())
        .reduce(|least, next| if next.0 < least.0 { next } else { least })
}

/// The longer of the two.
pub(super) fn length_m(outline: &Outline) -> Option<f64> {
    sides_m(outline).map(|(length, _)| length)
}
