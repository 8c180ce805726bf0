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
    /// The line that made it.
    pub place: Place,
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
    /// The labels of its edges, by tag.
    pub labels: Vec<EdgeLabel>,
    /// For a path that ends with `close`: the place of that line, the length
    /// of the closing edge in metres and its bearing in degrees.
    pub closing: Option<(Place, f64, f64)>,
    /// Names whose edge is gone, with the line that took it.
    pub lost: Vec<(String, Place)>,
}

impl Shape {
    /// The tags of the edges that a name stands for: `wall`, `bay` (all that
    /// came by it) or, with an owner, `bay.north`. Empty if there is none.
    pub fn tags(&self, owner: Option<&str>, name: &str) -> Vec<Tag> {
        let fits = |label: &EdgeLabel| match owner {
            Some(owner) => {
                label.owner.as_deref() == Some(owner) && label.name.as_deref() == Some(name)
            }
            None if label.owner.is_none() => label.name.as_deref() == Some(name),
            None => label.owner.as_deref() == Some(name),
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
