//! Shapes built: a first outline, then what is added, cut and named.

use std::sync::Arc;

use rustc_hash::FxHashSet;

use super::super::job::{EdgeLabel, Job, Named, Shape, Stated};
use super::super::reading::Entry;
use super::Shared;
use super::definitions::{Definition, LogicalSection};
use super::dependencies::Subject;
use super::evaluate::{Resolver, Worked};
use super::path::{Traced, is_step, label, tag_of};
use super::want::Range;
use crate::findings::{FileId, Finding, Place};
use crate::geometry::{self, Edge, Fault, Loop, Outline, Point, Tag};
use crate::units::show;
use crate::vocabulary::{NameSpace, ValueKind};

/// The first outlines that a shape may have, besides a path.
const FIRST: &[&str] = &["rectangle", "circle", "polygon", "inset", "outset"];

impl Resolver<'_> {
    /// The shape that a name stands for.
    pub(crate) fn shape_named(&mut self, name: &str, place: Place, file: FileId) -> Shared<Shape> {
        let definition = self.look_up(NameSpace::Shapes, name, place, file)?;
        self.work_shape(definition, place)
    }

    /// Every shape of the file itself.
    pub(crate) fn all_shapes(&mut self, job: &mut Job) {
        let mut shapes = Named::default();
        let all = Arc::make_mut(&mut shapes);
        for (definition, section) in self.own("shape") {
            if let Some(shape) = self.work_shape(definition, section.place()) {
                // Of two of one name the first holds.
                all.entry(shape.name.value.as_str().into()).or_insert(shape);
            }
        }
        job.shapes = shapes;
    }

    pub(crate) fn work_shape(&mut self, definition: Definition, place: Place) -> Shared<Shape> {
        self.done.dependencies.take(Subject::Shape(definition));
        match self.done.shapes.get(&definition) {
            Some(Worked::Done(shape)) => return shape.clone(),
            Some(Worked::Begun) => {
                self.circle(definition, place);
                return None;
            }
            None => {}
        }
        let section = self.section(definition)?;
        self.done.shapes.insert(definition, Worked::Begun);
        let shape = self
            .on(Subject::Shape(definition), |resolver| {
                resolver.deeper(place, |resolver| resolver.shape(section, definition.file))
            })
            .map(Arc::new);
        let done = Worked::Done(shape.clone());
        self.done.shapes.insert(definition, done);
        shape
    }

    fn shape(&mut self, section: &LogicalSection, file: FileId) -> Option<Shape> {
        let name = section.name()?;
        let mut shape = Shape {
            name: Stated::new(name.value.to_owned(), name.place),
            section: section.at(),
            outline: None,
            sketch: None,
            labels: Vec::new(),
            closing: None,
            lost: Vec::new(),
        };
        // A line that cannot be read may be a side, a cut or the name of an
        // edge: without it the outline is another one.
        if section.has_lost_line() || !self.first_outline(section, &mut shape, file) {
            // What it would be made of is used, though nothing is made of it.
            let parts = section.all("add").chain(section.all("cut"));
            for (name, _) in parts.filter_map(|entry| entry.filled.name("SHAPE")) {
                self.done.dependencies.use_name(NameSpace::Shapes, name);
            }
            return Some(shape);
        }
        for entry in section.entries() {
            let Some(key) = entry.key else { continue };
            match key.word {
                "add" | "cut" => self.change(&mut shape, entry, key.word, file),
                "edge" => self.name_edge(&mut shape, entry, file),
                _ => {}
            }
        }
        Some(shape)
    }

    /// Builds the first outline; whether there is one.
    fn first_outline(&mut self, section: &LogicalSection, shape: &mut Shape, file: FileId) -> bool {
        let primitive = section
            .entries()
            .find(|entry| entry.key.is_some_and(|key| FIRST.contains(&key.word)));
        let step = section.entries().find(|entry| {
            entry
                .key
                .is_some_and(|key| is_step(key.word) || key.word == "start")
        });
        let others = section
            .entries()
            .filter(|entry| entry.key.is_some_and(|key| FIRST.contains(&key.word)))
            .skip(1)
            .chain(step.filter(|_| primitive.is_some()));
        let mut others = others.peekable();
        if let (Some(first), Some(other)) = (primitive, others.peek()) {
            self.find(
                Finding::new(
                    "entry-twice",
                    other.place,
                    "a shape has one first outline; `add` joins another shape to it",
                )
                .related(first.place, "the first outline is here"),
            );
            return false;
        }
        let width = section.entry("width");
        if let (Some(width), Some(other)) = (width, primitive.or(section.entry("close"))) {
            self.misplaced_width(width, other);
            return false;
        }
        match (primitive, step, width) {
            (Some(entry), ..) => self.primitive(entry, shape, file),
            (None, Some(_), Some(width)) => self.ribbon(section, width, shape, file),
            (None, Some(_), None) => match self.path(section, file) {
                Some(traced) => self.outline(traced, shape, section.place()),
                None => false,
            },
            (None, None, _) => {
                let unread = section.parts().any(|part| !part.findings.is_empty());
                if !unread {
                    self.find(
                        Finding::new("outline-empty", section.place(), "this shape has no outline")
                            .help("Give it a path, a rectangle, a circle, a polygon, or another shape moved in or out."),
                    );
                }
                false
            }
        }
    }

    fn primitive(&mut self, entry: &Entry, shape: &mut Shape, file: FileId) -> bool {
        let word = entry.key.map_or("", |key| key.word);
        let traced = match word {
            "rectangle" => self.rectangle(entry, file),
            "circle" => self.circle_shape(entry, file),
            "polygon" => self.polygon(entry, file),
            _ => return self.moved(entry, word, shape, file).is_some(),
        };
        match traced {
            Some(traced) => self.outline(traced, shape, entry.place),
            None => false,
        }
    }

    /// Another shape moved in or out.
    fn moved(&mut self, entry: &Entry, word: &str, shape: &mut Shape, file: FileId) -> Option<()> {
        let (name, place) = entry.filled.name("SHAPE")?;
        let source = self.shape_named(name, place, file)?;
        let Some(clause) = entry.values().next() else {
            self.find(
                Finding::new(
                    "entry-missing",
                    entry.place,
                    "how far is missing after this",
                )
                .help(format!("It is written `{word} {name}, 8 in`.")),
            );
            return None;
        };
        let distance = self.wanted(
            &clause.filled,
            "DISTANCE",
            ValueKind::Length,
            Range::Positive,
            file,
        )?;
        let outline = source.outline.as_ref()?;
        let result = match word {
            "inset" => geometry::inset(outline, distance.value.si()),
            _ => geometry::outset(outline, distance.value.si()),
        };
        match result {
            Ok(outline) => {
                shape.labels = source.labels.clone();
                shape.outline = Some(outline);
                Some(())
            }
            Err(fault) => {
                self.fault(fault, entry.place, &[]);
                None
            }
        }
    }

    fn outline(&mut self, traced: Traced, shape: &mut Shape, place: Place) -> bool {
        let places: Vec<Place> = traced
            .edges
            .iter()
            .map(|edge| {
                traced
                    .labels
                    .get(edge.tag as usize)
                    .map_or(place, |label| label.place)
            })
            .collect();
        match Outline::new(traced.edges) {
            Ok(outline) => {
                shape.outline = Some(outline);
                shape.labels = traced.labels;
                shape.closing = traced.closing;
                true
            }
            Err(fault) => {
                self.fault(fault, place, &places);
                false
            }
        }
    }

    /// Tells why there is no outline, at the line that causes it where it is
    /// known.
    pub(crate) fn fault(&mut self, fault: Fault, place: Place, edges: &[Place]) {
        let length = |metres: f64| show::length(metres, self.system);
        let finding = match fault {
            Fault::Empty => Finding::new(
                "outline-empty",
                place,
                "nothing is left of this outline, or it encloses no area",
            ),
            Fault::Open { gap, .. } => Finding::new(
                "outline-open",
                place,
                format!("the outline ends {} from its start", length(gap)),
            ),
            Fault::Crossed {
                at,
                edges: (one, other),
            } => {
                let first = edges.get(one.min(other)).copied();
                let second = edges.get(one.max(other)).copied();
                let finding = Finding::new(
                    "outline-crossed",
                    second.unwrap_or(place),
                    format!(
                        "the outline crosses or touches itself at ({}, {})",
                        length(at.x),
                        length(at.y)
                    ),
                );
                match first {
                    Some(first) => finding.related(first, "it meets this edge"),
                    None => finding,
                }
            }
            Fault::Split { pieces } => Finding::new(
                "outline-split",
                place,
                format!(
                    "the outline falls into {pieces} pieces here; make each a shape of its own"
                ),
            ),
            Fault::Touching { at } => Finding::new(
                "outline-split",
                place,
                format!(
                    "the two shapes meet only at ({}, {}), so they make no single outline",
                    length(at.x),
                    length(at.y)
                ),
            ),
            Fault::NoRoom { available, .. } => Finding::new(
                "corner-large",
                place,
                format!("this corner has room for {} and no more", length(available)),
            ),
            Fault::TooFar { span, .. } => Finding::new(
                "arc-short",
                place,
                format!("no arc of this radius spans {}", length(span)),
            ),
            other => Finding::new("value-range", place, format!("no outline here: {other}")),
        };
        self.find(finding);
    }

    /// `add` and `cut`.
    fn change(&mut self, shape: &mut Shape, entry: &Entry, word: &str, file: FileId) {
        let Some((name, place)) = entry.filled.name("SHAPE") else {
            return;
        };
        // Without one of them the sum is not known, and must not be shown as if
        // it were.
        let Some(other) = self.shape_named(name, place, file) else {
            shape.lose_outline();
            return;
        };
        let (Some(own), Some(theirs)) = (&shape.outline, &other.outline) else {
            shape.lose_outline();
            return;
        };
        let offset = tag_of(shape.labels.len());
        let theirs = retagged(theirs, offset);
        let result = match word {
            "add" => geometry::union(own, &theirs),
            _ => {
                // Where a surface lays several of it, all are cut.
                let Some(others) = self.others_of(name, file) else {
                    shape.lose_outline();
                    return;
                };
                let mut others = others.iter().map(|other| retagged(other, offset));
                others
                    .try_fold(geometry::difference(own, &theirs), |left, other| {
                        Ok(left.and_then(|left| geometry::difference(&left, &other)))
                    })
                    .and_then(|left| left)
            }
        };
        match result {
            Ok(outline) => {
                self.idle(own, &outline, word, entry);
                let before: Vec<Tag> = own
                    .edges()
                    .chain(theirs.edges())
                    .map(|edge| edge.tag)
                    .collect();
                let brought = other.labels.iter().map(|label| label.brought_by(name));
                shape.labels.extend(brought);
                let outline = match word {
                    "add" => named_by_both(outline, &theirs, offset, &mut shape.labels),
                    _ => outline,
                };
                lose_names(shape, &before, &outline, entry.place);
                shape.outline = Some(outline);
            }
            Err(fault) => {
                self.fault(fault, entry.place, &[]);
                shape.lose_outline();
            }
        }
    }

    /// A change that changes nothing.
    fn idle(&mut self, before: &Outline, after: &Outline, word: &str, entry: &Entry) {
        let (old, new) = (before.area(), after.area());
        if (old - new).abs() > 1e-9 * old.max(new) || self.is_misread(entry.place.section) {
            return;
        }
        let message = match word {
            "add" => "this shape lies wholly inside the other and adds nothing",
            _ => "this shape misses the other and cuts nothing",
        };
        self.find(Finding::new("cut-idle", entry.place, message));
    }

    /// `edge NAME from A to B`.
    fn name_edge(&mut self, shape: &mut Shape, entry: &Entry, file: FileId) {
        let Some((name, _)) = entry.filled.name("NAME") else {
            return;
        };
        let start = self.point(&entry.filled, "START", file);
        let end = self.point(&entry.filled, "END", file);
        let (Some(start), Some(end), Some(outline)) = (start, end, &mut shape.outline) else {
            return;
        };
        let tag = tag_of(shape.labels.len());
        if rename(outline, start.value, end.value, tag) {
            shape.labels.push(EdgeLabel {
                name: Some(name.to_owned()),
                ..label(entry, false)
            });
            return;
        }
        let corners: Vec<String> = outline
            .corners()
            .take(12)
            .map(|corner| {
                format!(
                    "({}, {})",
                    show::length(corner.x, self.system),
                    show::length(corner.y, self.system)
                )
            })
            .collect();
        self.find(
            Finding::new(
                "name-unknown",
                entry.place,
                "no one edge of the outline runs between these two points",
            )
            .help(format!("Its corners are {}.", corners.join(", "))),
        );
    }
}

/// The outline with its tags moved up.
fn retagged(outline: &Outline, offset: u32) -> Outline {
    let mut outline = outline.clone();
    for edge in edges_mut(&mut outline) {
        edge.tag = edge.tag.saturating_add(offset);
    }
    outline
}

fn edges_mut(outline: &mut Outline) -> impl Iterator<Item = &mut Edge> {
    std::iter::once(&mut outline.outer)
        .chain(&mut outline.holes)
        .flat_map(|boundary| &mut boundary.edges)
}

/// Gives the edge between two points a tag of its own; whether there is one.
/// A straight run of pieces counts as one edge.
fn rename(outline: &mut Outline, start: Point, end: Point, tag: u32) -> bool {
    let near = |a: Point, b: Point| a.distance(b) < 1e-4;
    let fits = |edge: &Edge| {
        (near(edge.start, start) && near(edge.end, end))
            || (near(edge.start, end) && near(edge.end, start))
    };
    if let Some(edge) = edges_mut(outline).find(|edge| fits(edge)) {
        edge.tag = tag;
        return true;
    }
    let whole = Edge::line(start, end, tag);
    let length = whole.length();
    let on = |edge: &Edge| {
        !edge.is_arc() && whole.distance_to(edge.start) < 1e-4 && whole.distance_to(edge.end) < 1e-4
    };
    let covered: f64 = outline
        .edges()
        .filter(|edge| on(edge))
        .map(Edge::length)
        .sum();
    if length <= 0.0 || (covered - length).abs() > 1e-4 {
        return false;
    }
    for edge in edges_mut(outline) {
        if on(edge) {
            edge.tag = tag;
        }
    }
    true
}

/// Where an edge of an added shape lies along one that was there, the piece
/// that both have answers to both names: it is parted from the rest and gets
/// a label of its own. Tags from `offset` on are the added shape's.
fn named_by_both(
    outline: Outline,
    added: &Outline,
    offset: Tag,
    labels: &mut Vec<EdgeLabel>,
) -> Outline {
    let mut outline = outline;
    // Of a shape added to its like again and again these are few.
    let there = |outline: &Outline| {
        let edges = outline.edges().filter(|edge| edge.tag < offset);
        Outline {
            outer: Loop {
                edges: edges.copied().collect(),
            },
            holes: Vec::new(),
        }
    };
    let mut own = there(&outline);
    for theirs in added.edges() {
        let alone = Outline {
            outer: Loop {
                edges: vec![*theirs],
            },
            holes: Vec::new(),
        };
        let stretches = geometry::shared(&own, &alone);
        let Some(their_label) = labels.get(theirs.tag as usize).cloned() else {
            continue;
        };
        if stretches.is_empty() {
            continue;
        }
        outline = outline.divided(&stretches);
        for edge in edges_mut(&mut outline) {
            if !stretches.iter().any(|stretch| stretch.covers(edge)) {
                continue;
            }
            // What it is called already, it need not be called again.
            let label = labels.get(edge.tag as usize);
            if let Some(label) = label.filter(|own| !own.has_names_of(&their_label)) {
                let both = label.along_with(&their_label);
                edge.tag = tag_of(labels.len());
                labels.push(both);
            }
        }
        own = there(&outline);
    }
    outline
}

/// Notes the names whose last piece a change has taken.
fn lose_names(shape: &mut Shape, before: &[Tag], after: &Outline, place: Place) {
    let left: Vec<u32> = after.edges().map(|edge| edge.tag).collect();
    let names = |tags: &[Tag]| -> Vec<String> {
        tags.iter()
            .filter_map(|tag| shape.labels.get(*tag as usize))
            .flat_map(EdgeLabel::written)
            .collect()
    };
    let kept: FxHashSet<String> = names(&left).into_iter().collect();
    let mut lost = names(before);
    lost.retain(|name| !kept.contains(name));
    lost.sort();
    lost.dedup();
    shape
        .lost
        .extend(lost.into_iter().map(|name| (name, place)));
}
