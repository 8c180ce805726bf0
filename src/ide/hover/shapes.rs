//! Shapes, with their named edges.

use super::comments;
use crate::analysis::Analysis;
use crate::geometry::{Edge, Tag};
use crate::ide::cursor::Cursor;
use crate::ide::markdown::{direction, paragraphs, table, table_of_three};
use crate::model::{EdgeLabel, Shape};
use crate::units::{System, show};

/// A shape's area, perimeter and named edges.
pub(crate) fn card(analysis: &Analysis, name: &str) -> Option<String> {
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

/// How many edges of one name are told of one by one.
const MOST: usize = 4;

/// A named edge of a shape, or all that came into it by another shape.
pub(crate) fn edge(
    analysis: &Analysis,
    shape: &Shape,
    owner: Option<&str>,
    name: &str,
) -> Option<String> {
    let tags = shape.tags(owner, name);
    let full = owner.map_or(name.to_owned(), |owner| format!("{owner}.{name}"));
    card_of(analysis, shape, &tags, &full)
}

/// The edges of its shape that the line under the pointer makes.
pub(crate) fn edges_of_line(analysis: &Analysis, cursor: &Cursor<'_>) -> Vec<String> {
    let mut shapes = analysis.job.shapes.values();
    let Some(shape) = shapes.find(|shape| shape.section == cursor.section) else {
        return Vec::new();
    };
    let line = cursor.line_in_section();
    let is_here = |label: &&EdgeLabel| {
        label.owner.is_none()
            && label.place.section == cursor.section
            && line.overlaps(label.place.span)
    };
    let labels = (0..).zip(&shape.labels).filter(|(_, label)| is_here(label));
    let cards = labels.take(MOST).filter_map(|(tag, label)| {
        let name = label.name.as_deref().unwrap_or(cursor.word());
        card_of(analysis, shape, &[tag], name)
    });
    cards.collect()
}

/// What is told of the edges with some tags: their length together, and of each
/// its direction and the levels at its ends.
fn card_of(analysis: &Analysis, shape: &Shape, tags: &[Tag], name: &str) -> Option<String> {
    let system = analysis.job.heading.system();
    let edges = shape.outline.as_ref()?.edges();
    let edges: Vec<&Edge> = edges.filter(|edge| tags.contains(&edge.tag)).collect();
    let length: f64 = edges.iter().map(|edge| edge.length()).sum();
    if edges.is_empty() {
        return None;
    }
    let rows: Vec<[String; 3]> = edges
        .iter()
        .take(MOST)
        .flat_map(|edge| rows(analysis, shape, edge))
        .collect();
    let head = match edges.len() {
        1 => ["going clockwise", "start", "end"],
        _ => ["going clockwise, edge by edge", "start", "end"],
    };
    Some(paragraphs([
        format!(
            "**{name}** · an edge of `{}`, {} long",
            shape.name.value,
            show::length(length, system)
        ),
        table_of_three(head, &rows),
    ]))
}

/// The direction of an edge at both ends, and the level there of each surface
/// that covers its shape. An outline runs anticlockwise; people go round
/// clockwise.
fn rows(analysis: &Analysis, shape: &Shape, edge: &Edge) -> Vec<[String; 3]> {
    let system = analysis.job.heading.system();
    let edge = edge.reversed();
    let ways = [edge.direction_at_start(), edge.direction_at_end()];
    let [from, to] = ways.map(|way| direction(way.bearing()));
    let mut rows = vec![[
        format!(
            "{} {}",
            show::length(edge.length(), system),
            arc(&edge, system)
        ),
        from,
        to,
    ]];
    for surface in analysis.job.surfaces.iter() {
        let covers = surface.shape.as_ref();
        let covers = covers.is_some_and(|own| own.value.name.place == shape.name.place);
        if let Some(plane) = surface.plane.filter(|_| covers) {
            let [start, end] =
                [edge.start, edge.end].map(|at| show::length(plane.level_at(at), system));
            rows.push([format!("level of `{}`", surface.name.value), start, end]);
        }
    }
    rows
}

/// The radius of an arc, in words; nothing of a straight edge.
fn arc(edge: &Edge, system: System) -> String {
    match edge.is_arc() {
        true => format!("of arc, radius {}", show::length(edge.radius(), system)),
        false => "straight".to_owned(),
    }
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
