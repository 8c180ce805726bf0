//! The finished levels at the named edges of a surface, and which way it
//! falls.

use crate::geometry::{Plane, Vector};
use crate::model::Surface;

/// The finished levels at the two ends of an edge that has a name: so those
/// at each corner where named edges meet.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeLevels {
    /// The edge as a spec writes it: `wall`, `bay.north`.
    pub edge: String,
    /// The level at its start against the datum.
    pub start_m: f64,
    /// The level at its end.
    pub end_m: f64,
    /// The lowest level along it: of a curve perhaps between its ends.
    pub lowest_m: f64,
    /// The highest level along it.
    pub highest_m: f64,
}

/// The levels at each named edge, piece by piece, in the order of the outline.
/// Empty if the plane is not known, or level.
pub(super) fn edge_levels(own: &Surface) -> Vec<EdgeLevels> {
    let Some(shape) = &own.shape else {
        return Vec::new();
    };
    let is_level = own.plane.is_none_or(|plane| plane.slope() == 0.0);
    if is_level && own.facets.is_empty() {
        return Vec::new();
    }
    let Some(outline) = &shape.value.outline else {
        return Vec::new();
    };
    let named = (0u32..).zip(&shape.value.labels);
    let named = named.filter_map(|(tag, label)| Some((tag, label.written().next()?)));
    named
        .flat_map(|(tag, edge)| {
            outline.edges_tagged(tag).filter_map(move |piece| {
                let plane = own.plane_along(piece)?;
                let (lowest_m, highest_m) = plane.levels_along(piece);
                Some(EdgeLevels {
                    edge: edge.clone(),
                    start_m: plane.level_at(piece.start),
                    end_m: plane.level_at(piece.end),
                    lowest_m,
                    highest_m,
                })
            })
        })
        .collect()
}

/// Which way a surface falls, a unit vector of the plan: with a cross fall, or
/// a plane through levels, a way between those of its edges. `None` if it is
/// not known, or if the surface is level.
pub(super) fn toward(own: &Surface) -> Option<Vector> {
    let of_plane = own.plane.as_ref().and_then(Plane::fall_direction);
    of_plane.or_else(|| {
        let gradient = own.fall.as_ref()?.gradient();
        let down = Vector::new(-gradient.x, -gradient.y);
        (down.length() > 0.0).then(|| down.unit())
    })
}
