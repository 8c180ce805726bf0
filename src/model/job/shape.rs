//! An outline with named edges.

use super::Stated;
use crate::findings::{Place, SectionRef};
use crate::geometry::{Outline, Tag};

/// What is known of one source edge of an outline; an edge's tag is its
/// index in [`Shape::labels`].
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeLabel {
    /// The shape that brought it by `add` or `cut`; `None` for the shape's
    /// own first outline.
    pub owner: Option<String>,
    /// Its name, if it has one.
    pub name: Option<String>,
    /// What else it is called: the side of a path's width that it is part of,
    /// or, where a shape was added whose edge lies along this one, that shape
    /// and the edge's name.
    pub also: Vec<(Option<String>, Option<String>)>,
    /// The line that made it.
    pub place: Place,
}

impl EdgeLabel {
    /// All that it is called: the shape that brought it, if another did, and
    /// its name, if it has one.
    pub fn names(&self) -> impl Iterator<Item = (Option<&str>, Option<&str>)> {
        let own = (self.owner.as_deref(), self.name.as_deref());
        let also = self.also.iter();
        std::iter::once(own).chain(also.map(|(owner, name)| (owner.as_deref(), name.as_deref())))
    }

    /// The names as a spec writes them: `wall`, `bay.north`; none for a name
    /// that was not given.
    pub fn written(&self) -> impl Iterator<Item = String> {
        self.names()
            .filter_map(|(owner, name)| match (owner, name) {
                (Some(owner), Some(name)) => Some(format!("{owner}.{name}")),
                (None, Some(name)) => Some(name.to_owned()),
                (_, None) => None,
            })
    }

    /// The same edge as part of a shape that it was added to or cut from.
    pub fn brought_by(&self, owner: &str) -> EdgeLabel {
        EdgeLabel {
            owner: Some(owner.to_owned()),
            also: self
                .also
                .iter()
                .map(|(_, name)| (Some(owner.to_owned()), name.clone()))
                .collect(),
            ..self.clone()
        }
    }

    /// The same edge where another, brought by a shape, lies along it.
    pub fn along_with(&self, other: &EdgeLabel) -> EdgeLabel {
        let mut both = self.clone();
        both.also.extend(
            other.names().filter_map(|(owner, name)| {
                Some((Some(owner?.to_owned()), name.map(str::to_owned)))
            }),
        );
        both
    }
}

/// A `shape` section.
#[derive(Debug, Clone)]
pub struct Shape {
    /// Its name.
    pub name: Stated<String>,
    /// Its section.
    pub section: SectionRef,
    /// Its outline; `None` if there is none, and a finding says why.
    pub outline: Option<Outline>,
    /// Where a line cannot be followed, the outline before it: enough to say
    /// what may stand beside the shape, and for no figure.
    pub sketch: Option<Outline>,
    /// The labels of its edges, by tag.
    pub labels: Vec<EdgeLabel>,
    /// For a path that ends with `close`: the place of that line, the length
    /// of the closing edge in metres and its bearing in degrees.
    pub closing: Option<(Place, f64, f64)>,
    /// Names whose edge is gone, with the line that took it.
    pub lost: Vec<(String, Place)>,
}

impl Shape {
    /// Takes back the outline: what was made out before stays as a sketch.
    pub fn lose_outline(&mut self) {
        self.sketch = self.sketch.take().or(self.outline.take());
        self.outline = None;
    }

    /// The tags of the edges that a name stands for: `wall`, `bay` (all that
    /// came by it) or, with an owner, `bay.north`. Empty if there is none.
    pub fn tags(&self, owner: Option<&str>, name: &str) -> Vec<Tag> {
        let fits = |label: &EdgeLabel| {
            label.names().any(|called| match (owner, called) {
                (Some(owner), (by, own)) => by == Some(owner) && own == Some(name),
                (None, (None, own)) => own == Some(name),
                (None, (Some(by), _)) => by == name,
            })
        };
        let there: Vec<Tag> = match &self.outline {
            Some(outline) => outline.edges().map(|edge| edge.tag).collect(),
            None => return Vec::new(),
        };
        (0..)
            .zip(&self.labels)
            .filter(|(tag, label)| fits(label) && there.contains(tag))
            .map(|(tag, _)| tag)
            .collect()
    }
}
