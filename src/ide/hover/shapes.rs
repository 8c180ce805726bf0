//! Shapes, with their named edges.

use super::comments;
use crate::analysis::Analysis;
use crate::ide::markdown::{paragraphs, table};
use crate::model::Shape;
use crate::units::show;

/// A shape's area, perimeter and named edges.
pub fn card(analysis: &Analysis, name: &str) -> Option<String> {
    let (index, _, shape) = analysis.job.shapes.get_full(name)?;
    let system = analysis.job.heading.system();
    let figures = analysis.figures.shapes.get(index)?;
    let mut rows = Vec::new();
    let mut row = |name: &str, value: Option<String>| {
        rows.extend(value.map(|value| [name.to_owned(), value]));
    };
    row("area", figures.area_m2.map(|area| show::area(area, system)));
    row(
        "perimeter",
        figures
            .perimeter_m
            .map(|length| show::length(length, system)),
    );
    for (edge, length) in named_edges(shape) {
        row(
            &format!("edge `{edge}`"),
            Some(show::length(length, system)),
        );
    }
    Some(paragraphs([
        format!("**{name}** · a shape"),
        comments::above_place(analysis, shape.name.place).unwrap_or_default(),
        table(["", ""], &rows),
    ]))
}

/// A named edge of a shape, or all that came into it by another shape.
pub fn edge(analysis: &Analysis, shape: &Shape, owner: Option<&str>, name: &str) -> Option<String> {
    let tags = shape.tags(owner, name);
    let edges = shape
        .outline
        .as_ref()?
        .edges()
        .filter(|edge| tags.contains(&edge.tag));
    let length: f64 = edges.map(|edge| edge.length()).sum();
    let length = show::length(length, analysis.job.heading.system());
    let full = owner.map_or(name.to_owned(), |owner| format!("{owner}.{name}"));
    (!tags.is_empty()).then(|| {
        format!(
            "**{full}** · an edge of `{}`, {length} long",
            shape.name.value
        )
    })
}

/// The names of a shape's edges, each with the length that is left of it.
fn named_edges(shape: &Shape) -> Vec<(String, f64)> {
    let Some(outline) = &shape.outline else {
        return Vec::new();
    };
    let mut edges: Vec<(String, f64)> = Vec::new();
    for (tag, label) in (0..).zip(&shape.labels) {
        let pieces = outline.edges().filter(|edge| edge.tag == tag);
        let length: f64 = pieces.map(|edge| edge.length()).sum();
        for name in label.written() {
            match edges.iter_mut().find(|(own, _)| *own == name) {
                Some((_, sum)) => *sum += length,
                None => edges.push((name, length)),
            }
        }
    }
    edges.retain(|(_, length)| *length > 0.0);
    edges
}
