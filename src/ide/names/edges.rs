//! Which shape an edge has its name from.

use indexmap::{IndexMap, IndexSet};

use super::occurrences::Meaning;
use crate::model::LogicalSection;
use crate::vocabulary::NameSpace;

/// How many shapes an edge is followed through: one may be moved in or out of
/// another, and that of a third.
const MOST_SHAPES: usize = 64;

/// What the shapes of some files say of their edges.
#[derive(Default)]
pub struct Edges {
    shapes: IndexMap<String, Shape>,
}

#[derive(Default)]
struct Shape {
    /// The edges that it names.
    named: IndexSet<String>,
    /// The shape that it is moved in or out of.
    from: Option<String>,
    /// The shapes that are added or cut.
    parts: IndexSet<String>,
}

impl Edges {
    /// Takes in what a section says, if it is a shape.
    pub fn learn(&mut self, section: &LogicalSection) {
        if !section.is("shape") {
            return;
        }
        let Some(name) = self.shape_of(section) else {
            return;
        };
        let shape = self.shapes.entry(name).or_default();
        for entry in section.parts().flat_map(|part| &part.entries) {
            let named = entry.clause("named").map(|clause| &clause.filled);
            let named = named.and_then(|filled| filled.name("NAME"));
            shape.named.extend(named.map(|(name, _)| name.to_owned()));
            let other = entry.filled.name("SHAPE").map(|(name, _)| name.to_owned());
            match entry.key.map_or("", |key| key.word) {
                "edge" => {
                    let name = entry.filled.name("NAME");
                    shape.named.extend(name.map(|(name, _)| name.to_owned()));
                }
                "inset" | "outset" => shape.from = other,
                "add" | "cut" => shape.parts.extend(other),
                _ => {}
            }
        }
    }

    /// The shape that a bare edge belongs to in a section: the one that it
    /// is, or that a surface covers.
    pub fn shape_of(&self, section: &LogicalSection) -> Option<String> {
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

    /// What an edge stands for, seen from a shape: the edge of the shape that
    /// names it, or all that came by another shape.
    pub fn meaning(&self, shape: &str, owner: Option<&str>, name: &str) -> Option<Meaning> {
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
