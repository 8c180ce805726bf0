//! An outline with named edges.

use indexmap::IndexSet;

use super::Stated;
use crate::findings::{Place, SectionRef};
use crate::geometry::{Edge, Outline, Tag};
use crate::vocabulary::compass_word;

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

    /// Whether it is called all that another, brought by a shape, is called.
    pub fn has_names_of(&self, other: &EdgeLabel) -> bool {
        let mut brought = other.names().filter(|(owner, _)| owner.is_some());
        brought.all(|theirs| self.names().any(|own| own == theirs))
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

/// The words by which edges that face one way are counted.
const ORDINALS: [&str; 6] = ["first", "second", "third", "fourth", "fifth", "sixth"];

/// The way out of a shape at the middle of an edge, and what the edge is.
fn facing(edge: &Edge) -> (&'static str, &'static str) {
    let out = edge.direction_at(0.5 * edge.length()).right();
    let what = if edge.is_arc() { "arc" } else { "side" };
    (compass_word(out.bearing()), what)
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

    /// The name of an edge as a spec writes it, if it has one.
    pub fn edge_name(&self, tag: Tag) -> Option<String> {
        self.labels.get(tag as usize)?.written().next()
    }

    /// An edge without a name by the way it faces, counted round the outline
    /// where several face that way: `north side`, `second east arc`.
    pub fn unnamed_edge(&self, tag: Tag) -> Option<String> {
        let outline = self.outline.as_ref().or(self.sketch.as_ref())?;
        let own = facing(outline.edges_tagged(tag).next()?);
        let unnamed = |edge: &&Edge| self.edge_name(edge.tag).is_none();
        let alike = outline.edges().filter(unnamed);
        let alike = alike.filter(|edge| facing(edge) == own);
        let alike: IndexSet<Tag> = alike.map(|edge| edge.tag).collect();
        let (way, what) = own;
        let place = alike.get_index_of(&tag)?;
        Some(match (alike.len(), ORDINALS.get(place)) {
            (1, _) => format!("{way} {what}"),
            (_, Some(ordinal)) => format!("{ordinal} {way} {what}"),
            (_, None) => format!("{way} {what} {}", place + 1),
        })
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::FileId;
    use crate::geometry::Point;
    use crate::syntax::SectionId;
    use crate::text::Span;

    #[test]
    fn edges_without_a_name_are_told_apart_by_the_way_they_face() {
        // An L whose re-entrant corner gives it two sides to the north and two
        // to the east; the long side to the west is the wall.
        let corners = [
            (0.0, 0.0),
            (6.0, 0.0),
            (6.0, 2.0),
            (3.0, 2.0),
            (3.0, 5.0),
            (0.0, 5.0),
        ];
        let corners: Vec<Point> = corners.iter().map(|(x, y)| Point::new(*x, *y)).collect();
        let section = SectionRef {
            file: FileId(0),
            section: SectionId(0),
        };
        let place = Place {
            section,
            span: Span::at(0),
        };
        let label = |tag: usize| EdgeLabel {
            owner: None,
            name: (tag == 5).then(|| "wall".to_owned()),
            also: Vec::new(),
            place,
        };
        let shape = Shape {
            name: Stated::new("court".to_owned(), place),
            section,
            outline: Outline::polygon(&corners, |side| side as Tag).ok(),
            sketch: None,
            labels: (0..6).map(label).collect(),
            closing: None,
            lost: Vec::new(),
        };
        let called = |tag: Tag| shape.edge_name(tag).or_else(|| shape.unnamed_edge(tag));
        let called: Vec<String> = (0..6).filter_map(called).collect();
        assert_eq!(
            called,
            [
                "south side",
                "first east side",
                "first north side",
                "second east side",
                "second north side",
                "wall",
            ]
        );
        assert_eq!(shape.unnamed_edge(9), None);
    }
}
