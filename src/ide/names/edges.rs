//! Which shape an edge has its name from.

use indexmap::{IndexMap, IndexSet};

use super::meaning::Meaning;
use crate::model::LogicalSection;
use crate::vocabulary::NameSpace;

/// How many shapes an edge is followed through: one may be moved in or out of
/// another, and that of a third.
const MOST_SHAPES: usize = 64;

/// What the shapes of some files say of their edges.
#[derive(Debug, Default)]
pub(crate) struct Edges {
    shapes: IndexMap<String, Shape>,
    /// The shape that each surface covers.
    covered: IndexMap<String, String>,
}

#[derive(Debug, Default)]
struct Shape {
    /// The edges that it names.
    named: IndexSet<String>,
    /// The shape that it is moved in or out of.
    from: Option<String>,
    /// The shapes that are added or cut.
    parts: IndexSet<String>,
}

/// What one section says of the edges of a shape: of the one that it is, or of
/// the one that it covers.
#[derive(Debug, PartialEq, Eq, Default)]
pub(crate) struct ShapeEdges {
    shape: String,
    /// The surface that covers it, if the section is one.
    covered_by: Option<String>,
    named: IndexSet<String>,
    /// The shape that it is moved from by the last line that says so, if that
    /// names one.
    from: Option<Option<String>>,
    parts: IndexSet<String>,
}

impl ShapeEdges {
    /// What a section says, if it is a shape or a surface.
    pub(crate) fn of(section: &LogicalSection) -> Option<ShapeEdges> {
        let mut own = ShapeEdges {
            shape: shape_of(section)?,
            ..ShapeEdges::default()
        };
        if !section.is("shape") {
            own.covered_by = Some(section.name()?.value.to_owned());
            return Some(own);
        }
        for entry in section.parts().flat_map(|part| &part.entries) {
            let named = entry.clause("named").map(|clause| &clause.filled);
            let named = named.and_then(|filled| filled.name("NAME"));
            own.named.extend(named.map(|(name, _)| name.to_owned()));
            let other = entry.filled.name("SHAPE").map(|(name, _)| name.to_owned());
            match entry.key.map_or("", |key| key.word) {
                "edge" => {
                    let name = entry.filled.name("NAME");
                    own.named.extend(name.map(|(name, _)| name.to_owned()));
                }
                "inset" | "outset" => own.from = Some(other),
                "add" | "cut" => own.parts.extend(other),
                _ => {}
            }
        }
        Some(own)
    }
}

/// The shape that a bare edge belongs to in a section: the one that it is, or
/// that a surface covers.
pub(crate) fn shape_of(section: &LogicalSection) -> Option<String> {
    if section.is("shape") {
        let heading = section.first.heading.as_ref()?;
        return Some(heading.filled.name("NAME")?.0.to_owned());
    }
    if !section.is("surface") {
        return None;
    }
    let mut entries = section.parts().flat_map(|part| &part.entries);
    let covered = entries.find(|entry| entry.key.is_some_and(|key| key.word == "shape"))?;
    Some(covered.filled.name("SHAPE")?.0.to_owned())
}

impl<'a> FromIterator<&'a ShapeEdges> for Edges {
    /// What all of them say; of one shape several sections may.
    fn from_iter<I: IntoIterator<Item = &'a ShapeEdges>>(all: I) -> Edges {
        let mut edges = Edges::default();
        for own in all {
            if let Some(surface) = &own.covered_by {
                let covered = edges.covered.entry(surface.clone());
                covered.or_insert_with(|| own.shape.clone());
                continue;
            }
            let shape = edges.shapes.entry(own.shape.clone()).or_default();
            shape.named.extend(own.named.iter().cloned());
            shape.parts.extend(own.parts.iter().cloned());
            if let Some(from) = &own.from {
                shape.from.clone_from(from);
            }
        }
        edges
    }
}

impl Edges {
    /// What an edge stands for, seen from a shape: the edge of the shape that
    /// names it, or all that came by another shape.
    pub(crate) fn meaning(&self, shape: &str, owner: Option<&str>, name: &str) -> Option<Meaning> {
        let owner = owner.filter(|owner| *owner != shape);
        let Some(owner) = owner else {
            if let Some(from) = self.follow(shape, |own| own.named.contains(name)) {
                return Some(Meaning::Edge(from.to_owned(), name.to_owned()));
            }
            if self.follow(shape, |own| own.parts.contains(name)).is_some() {
                return Some(Meaning::Named(NameSpace::Shapes, name.to_owned()));
            }
            let first = self.first(shape);
            return Some(Meaning::Edge(first.to_owned(), name.to_owned()));
        };
        self.meaning(owner, None, name)
    }

    /// What an edge of a surface stands for.
    pub(crate) fn meaning_on(&self, surface: &str, name: &str) -> Option<Meaning> {
        self.meaning(self.covered.get(surface)?, None, name)
    }

    /// The first shape, from one to the one that it is moved from and on, of
    /// which something holds.
    fn follow<'a>(&'a self, shape: &'a str, holds: impl Fn(&Shape) -> bool) -> Option<&'a str> {
        let mut name = shape;
        for _ in 0..MOST_SHAPES {
            let shape = self.shapes.get(name)?;
            if holds(shape) {
                return Some(name);
            }
            name = shape.from.as_deref()?;
        }
        None
    }

    /// The shape at the end of the way.
    fn first<'a>(&'a self, shape: &'a str) -> &'a str {
        let mut name = shape;
        for _ in 0..MOST_SHAPES {
            match self
                .shapes
                .get(name)
                .and_then(|shape| shape.from.as_deref())
            {
                Some(from) => name = from,
                None => break,
            }
        }
        name
    }
}
