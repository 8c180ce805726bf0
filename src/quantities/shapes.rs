//! Areas and perimeters of shapes.

use super::measures::{Area, Length};
use super::trace::Trace;
use crate::model::{Origin, Shape};

/// The figures of a shape.
#[derive(Debug, Clone, PartialEq)]
pub struct ShapeFigures {
    /// Its name.
    pub name: String,
    /// Its area, holes taken off.
    pub area_m2: Option<f64>,
    /// The length of every edge, those of holes too.
    pub perimeter_m: Option<f64>,
}

/// The figures of a shape: of lines and arcs, exact but for the last digits.
pub(super) fn shape(shape: &Shape, trace: &Trace) -> ShapeFigures {
    let measured = shape.outline.as_ref().map(|outline| {
        for edge in outline.edges() {
            let label = shape.labels.get(edge.tag as usize);
            let kind = if edge.is_arc() { "arc" } else { "edge" };
            let name = label.and_then(|label| label.name.as_deref());
            let origin = label.map(|label| Origin::Line(label.place));
            trace.input(name.unwrap_or(kind), Length(edge.length()), origin);
        }
        let lengths = outline.edges().map(|edge| Length(edge.length()));
        let perimeter = trace.sum("perimeter", "the length of its one edge", lengths);
        let how = "inside the edges, arcs as arcs, less the holes";
        let area = trace.found("area", Area(outline.area()), how);
        (area.value.0, perimeter.value.0)
    });
    ShapeFigures {
        name: shape.name.value.clone(),
        area_m2: measured.map(|(area, _)| area),
        perimeter_m: measured.map(|(_, perimeter)| perimeter),
    }
}
