//! The names of edges.

use super::{Completion, CompletionKind};
use crate::analysis::Analysis;
use crate::ide::writing::Writing;
use crate::model::Shape;

/// The edges of the shape that the surface being written covers.
pub(crate) fn of_own_shape(analysis: &Analysis, writing: &Writing) -> Vec<Completion> {
    let surfaces = analysis.job.surfaces.iter();
    let shape = surfaces
        .filter(|surface| Some(surface.section) == writing.section)
        .find_map(|surface| surface.shape.as_ref());
    shape.map_or(Vec::new(), |shape| {
        let names = names(&shape.value, true).into_iter();
        let detail = format!("an edge of {}", shape.value.name.value);
        names
            .map(|name| Completion::new(name, CompletionKind::Edge, detail.clone()))
            .collect()
    })
}

/// The edges of every shape, each with its shape: `court.wall`.
pub(crate) fn of_all_shapes(analysis: &Analysis) -> Vec<Completion> {
    let shapes = analysis.job.shapes.iter();
    shapes
        .flat_map(|(own, shape)| {
            names(shape, false)
                .into_iter()
                .map(move |name| format!("{own}.{name}"))
        })
        .map(|name| Completion::new(name, CompletionKind::Edge, "an edge"))
        .collect()
}

/// The edges of every surface, each with its surface: `court.wall`.
pub(crate) fn of_all_surfaces(analysis: &Analysis) -> Vec<Completion> {
    let surfaces = analysis.job.surfaces.iter();
    let edges = surfaces.flat_map(|own| {
        let names_of = |shape: &Shape| names(shape, false);
        let names = own.shape.as_ref().map(|shape| names_of(&shape.value));
        let names = names.into_iter().flatten();
        names.map(|name| format!("{}.{name}", own.name.value))
    });
    edges
        .map(|name| Completion::new(name, CompletionKind::Edge, "an edge"))
        .collect()
}

/// The names of a shape's edges in order; with those of shapes that were
/// added or cut, if they are wanted.
pub(crate) fn names(shape: &Shape, with_others: bool) -> Vec<String> {
    let mut names = Vec::new();
    for label in &shape.labels {
        for (owner, name) in label.names() {
            let called = match (owner, name) {
                (None, Some(name)) => vec![name.to_owned()],
                (Some(owner), Some(name)) if with_others => {
                    vec![owner.to_owned(), format!("{owner}.{name}")]
                }
                (Some(owner), None) if with_others => vec![owner.to_owned()],
                _ => Vec::new(),
            };
            for name in called {
                if !names.contains(&name) {
                    names.push(name);
                }
            }
        }
    }
    names
}
