//! The facets of a surface that falls to a drain, as JSON: in SI, the unit in
//! the key.

use serde::Serialize;

use crate::geometry::Facet;
use crate::model::Surface;

/// The part of a surface that falls from one edge to a drain.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct FacetLine {
    edge: String,
    area_m2: f64,
    /// A ratio: 0.02 is 1:50.
    fall: f64,
    /// The way it falls, in degrees from north, clockwise.
    toward_deg: f64,
}

/// The facets in the order of the edges; none of a surface with one plane.
pub(super) fn facets(own: &Surface) -> Vec<FacetLine> {
    let line = |facet: &Facet| FacetLine {
        edge: own.side_name(facet.tag),
        area_m2: facet.outline.area(),
        fall: facet.plane.slope(),
        toward_deg: facet.downhill().bearing(),
    };
    own.facets.iter().map(line).collect()
}
