//! Areas and perimeters of shapes.

use super::notes::{Amount, Notes};
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
pub(super) fn shape(shape: &Shape, notes: &mut impl Notes) -> ShapeFigures {
    let area_m2 = shape.outline.as_ref().map(|outline| outline.area());
    let perimeter_m = shape.outline.as_ref().map(|outline| outline.perimeter());
    if let (Some(outline), Some(area), Some(perimeter)) = (&shape.outline, area_m2, perimeter_m) {
        for edge in outline.edges() {
            let label = shape.labels.get(edge.tag as usize);
            let kind = if edge.is_arc() { "arc" } else { "edge" };
            let name = label
                .and_then(|label| label.name.as_deref())
                .unwrap_or(kind);
            let origin = label.map(|label| Origin::Line(label.place));
            notes.input(name, Amount::Length(edge.length()), origin);
        }
        let one = || "the length of its one edge".to_owned();
        let lengths = outline
            .edges()
            .map(|edge| (one(), Amount::Length(edge.length())));
        notes.sum("perimeter", lengths, Amount::Length(perimeter));
        notes.step(
            "area",
            "inside the edges, arcs as arcs, less the holes",
            &[],
            Amount::Area(area),
        );
    }
    ShapeFigures {
        name: shape.name.value.clone(),
        area_m2,
        perimeter_m,
    }
}
