//! Every name in some files, with what it means.

use std::sync::Arc;

use rustc_hash::FxHashSet;

use super::edges::{Edges, ShapeEdges, shape_of};
use super::meaning::Meaning;
use crate::analysis::Analysis;
use crate::findings::{FileId, Place};
use crate::model::{
    Argument, Entry, Expression, Filled, LogicalSection, SectionReading, Value, joined, kind_after,
    read_section,
};
use crate::syntax::{SectionId, Tree};
use crate::text::Span;
use crate::vocabulary::{Form, NameSpace, Part, ValueKind};

/// Whether a name is given or used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// It is given.
    Definition,
    /// It is used.
    Use,
}

/// One place of a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Occurrence {
    /// What it stands for.
    pub(super) meaning: Meaning,
    /// Whether it is given or used here.
    pub role: Role,
    /// The file, by its index.
    pub file: usize,
    /// Where in the file it stands.
    pub span: Span,
}

/// Every name in the files that an analysis read, in order.
pub(crate) fn of_analysis(analysis: &Analysis) -> Vec<Occurrence> {
    let files = analysis.files.iter();
    let files = files.map(|file| (&file.tree, Arc::clone(&file.sections)));
    all_of(files.collect())
}

/// Every name in one section of the checked file, in order. Its bare edges
/// belong to `shape`.
pub(crate) fn of_section(
    tree: &Tree,
    section: &SectionReading,
    edges: &Edges,
    shape: Option<String>,
) -> Vec<Occurrence> {
    let mut all = Vec::new();
    let mut reader = Reader {
        tree,
        file: 0,
        edges,
        shape,
        all: &mut all,
    };
    reader.section(section);
    all.sort_by_key(|one| (one.span.start, one.span.end));
    all
}

/// Every name in the files, in order.
pub(crate) fn occurrences<'t>(trees: impl Iterator<Item = &'t Tree>) -> Vec<Occurrence> {
    let files = trees.zip(0..);
    let files = files.map(|(tree, file)| (tree, Arc::new(read(tree, file))));
    all_of(files.collect())
}

fn all_of(files: Vec<(&Tree, Arc<Vec<LogicalSection>>)>) -> Vec<Occurrence> {
    let sections = files.iter().flat_map(|(_, sections)| sections.iter());
    let shapes: Vec<ShapeEdges> = sections.filter_map(ShapeEdges::of).collect();
    let edges: Edges = shapes.iter().collect();
    let mut all = Vec::new();
    for (file, (tree, sections)) in files.iter().enumerate() {
        for section in sections.iter() {
            let mut reader = Reader {
                tree,
                file,
                edges: &edges,
                shape: shape_of(section),
                all: &mut all,
            };
            section.parts().for_each(|part| reader.section(part));
        }
    }
    settle_built(&mut all);
    all.sort_by_key(|one| (one.file, one.span.start, one.span.end));
    all
}

/// A name that may be a surface's, a drain's or that of steps is read as the
/// first: where there is no such surface, it is one of the others.
fn settle_built(all: &mut [Occurrence]) {
    let given = all.iter().filter(|one| one.role == Role::Definition);
    let given: FxHashSet<Meaning> = given.map(|one| one.meaning.clone()).collect();
    for one in all.iter_mut().filter(|one| one.role == Role::Use) {
        let Meaning::Named(NameSpace::Surfaces, name) = &one.meaning else {
            continue;
        };
        let others = [NameSpace::Surfaces, NameSpace::Drains, NameSpace::Steps];
        let mut others = others
            .map(|space| Meaning::Named(space, name.clone()))
            .into_iter();
        if let Some(meant) = others.find(|meaning| given.contains(meaning)) {
            one.meaning = meant;
        }
    }
}

fn read(tree: &Tree, file: u16) -> Vec<LogicalSection> {
    let mut in_force = None;
    let readings = tree.sections.iter().map(|placed| {
        let text = tree.section_text(placed);
        let reading = read_section(text, placed, FileId(file), in_force);
        in_force = kind_after(text, placed, in_force);
        Arc::new(reading)
    });
    joined(readings)
}

struct Reader<'a> {
    tree: &'a Tree,
    file: usize,
    edges: &'a Edges,
    /// The shape that a bare edge belongs to.
    shape: Option<String>,
    all: &'a mut Vec<Occurrence>,
}

impl Reader<'_> {
    fn section(&mut self, section: &SectionReading) {
        let heading = section.heading.iter();
        for entry in heading.chain(&section.entries) {
            let value = entry.key.map_or_else(
                || section.kind.map_or("", |kind| kind.heading),
                |key| key.value,
            );
            let defines = section.kind.and_then(|kind| kind.defines);
            self.entry(entry, value, defines.filter(|_| entry.key.is_none()));
        }
    }

    fn entry(&mut self, entry: &Entry, form: &'static str, defines: Option<NameSpace>) {
        if let (Some(space), Some((name, place))) = (defines, entry.filled.name("NAME")) {
            let meaning = Meaning::Named(space, name.to_owned());
            self.add(meaning, Role::Definition, place);
        }
        let key = entry.key.map_or("", |key| key.word);
        if let (Some(shape), "edge", Some((name, place))) =
            (self.shape.clone(), key, entry.filled.name("NAME"))
        {
            let meaning = Meaning::Edge(shape, name.to_owned());
            self.add(meaning, Role::Definition, place);
        }
        self.filled(&entry.filled, form);
        for clause in &entry.clauses {
            if let (Some(shape), Some("named"), Some((name, place))) =
                (self.shape.clone(), clause.word, clause.filled.name("NAME"))
            {
                let meaning = Meaning::Edge(shape, name.to_owned());
                self.add(meaning, Role::Definition, place);
            }
            self.filled(&clause.filled, clause.form);
        }
    }

    fn filled(&mut self, filled: &Filled, form: &'static str) {
        for (slot, value, place) in &filled.0 {
            let kind = || kind_of(&Form::of(form).parts, slot);
            match value {
                Value::Name(name) => {
                    if let Some(space) = kind().and_then(space_of) {
                        self.add(Meaning::Named(space, name.clone()), Role::Use, *place);
                    }
                }
                Value::Edge {
                    owner: Some(owner),
                    name,
                } if kind() == Some(ValueKind::SurfaceEdge) => {
                    let edge = self.edges.meaning_on(owner, name);
                    self.owned(Some((NameSpace::Surfaces, owner)), edge, *place);
                }
                Value::Edge { owner, name } => {
                    let shape = self.shape.clone();
                    self.edge(shape.as_deref(), owner.as_deref(), name, *place);
                }
                Value::Quantity(expression) | Value::Bearing(expression) => {
                    self.expression(expression);
                }
                Value::Point(point) => {
                    self.expression(&point.0);
                    self.expression(&point.1);
                }
                Value::Parts(parts) => {
                    for part in parts {
                        self.expression(&part.amount);
                        let meaning = Meaning::Named(NameSpace::Substances, part.name.clone());
                        self.add(meaning, Role::Use, part.place);
                    }
                }
                _ => {}
            }
        }
    }

    /// The reader of lines bounds how deep expressions nest.
    fn expression(&mut self, expression: &Expression) {
        match expression {
            Expression::Literal(..) => {}
            Expression::Name(name, place) => {
                self.add(
                    Meaning::Named(NameSpace::Lets, name.clone()),
                    Role::Use,
                    *place,
                );
            }
            Expression::Negative(inner, _) => self.expression(inner),
            Expression::Sum(terms, _) | Expression::Product(terms, _) => {
                terms.iter().for_each(|(_, term)| self.expression(term));
            }
            Expression::Call {
                function,
                arguments,
                ..
            } => {
                let space = match function.to_ascii_lowercase().as_str() {
                    "area" | "perimeter" => NameSpace::Shapes,
                    "level" => NameSpace::Surfaces,
                    _ => NameSpace::Lets,
                };
                for argument in arguments {
                    self.argument(argument, space);
                }
            }
        }
    }

    fn argument(&mut self, argument: &Argument, space: NameSpace) {
        match argument {
            Argument::Name(name, place) => {
                self.add(Meaning::Named(space, name.clone()), Role::Use, *place);
            }
            Argument::Edge { owner, name, place } => {
                self.edge(Some(owner), Some(owner), name, *place);
            }
            Argument::Point(point, _) => {
                self.expression(&point.0);
                self.expression(&point.1);
            }
            Argument::Value(expression) => self.expression(expression),
        }
    }

    /// An edge, and the shape that is written before it.
    fn edge(&mut self, shape: Option<&str>, owner: Option<&str>, name: &str, place: Place) {
        let edge = shape.and_then(|shape| self.edges.meaning(shape, owner, name));
        let owner = owner.map(|owner| (NameSpace::Shapes, owner));
        self.owned(owner, edge, place);
    }

    /// What is written before the dot of an edge's name, and the edge.
    fn owned(&mut self, owner: Option<(NameSpace, &str)>, edge: Option<Meaning>, place: Place) {
        let written = self.text(place);
        let last = written.rfind([' ', '\t', '\u{a0}']).map_or(0, |blank| {
            blank
                + written
                    .get(blank..)
                    .and_then(|rest| rest.chars().next())
                    .map_or(1, char::len_utf8)
        });
        let dot = written.get(last..).and_then(|rest| rest.find('.'));
        let part = |from: usize, to: usize| Place {
            span: Span::new(from as u32, to as u32).shift(place.span.start),
            ..place
        };
        let length = written.len();
        if let (Some((space, owner)), Some(dot)) = (owner, dot) {
            let meaning = Meaning::Named(space, owner.to_owned());
            self.add(meaning, Role::Use, part(last, last + dot));
        }
        let own = part(dot.map_or(last, |dot| last + dot + 1), length);
        if let Some(edge) = edge {
            self.add(edge, Role::Use, own);
        }
    }

    fn text(&self, place: Place) -> String {
        let span = self.span(place.section.section, place.span);
        span.map_or(String::new(), |span| self.tree.text_of(span).to_owned())
    }

    fn span(&self, section: SectionId, span: Span) -> Option<Span> {
        Some(span.shift(self.tree.find(section)?.start))
    }

    fn add(&mut self, meaning: Meaning, role: Role, place: Place) {
        if let Some(span) = self.span(place.section.section, place.span) {
            let file = self.file;
            self.all.push(Occurrence {
                meaning,
                role,
                file,
                span,
            });
        }
    }
}

/// The kind of a slot of a form. The table nests no deeper than it is
/// written.
fn kind_of(parts: &[Part], slot: &str) -> Option<ValueKind> {
    parts.iter().find_map(|part| match part {
        Part::Slot { name, kind } => (*name == slot).then_some(*kind),
        Part::Optional(inner) | Part::Repeated(inner) => kind_of(inner, slot),
        Part::Either(choices) => choices.iter().find_map(|inner| kind_of(inner, slot)),
        _ => None,
    })
}

fn space_of(kind: ValueKind) -> Option<NameSpace> {
    match kind {
        ValueKind::Shape => Some(NameSpace::Shapes),
        ValueKind::Surface | ValueKind::Built => Some(NameSpace::Surfaces),
        ValueKind::Build => Some(NameSpace::Builds),
        ValueKind::Drain => Some(NameSpace::Drains),
        ValueKind::Material | ValueKind::Substance => Some(NameSpace::Substances),
        _ => None,
    }
}
