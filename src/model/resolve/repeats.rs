//! Shapes that a surface covers several times over.

use std::sync::Arc;

use super::super::job::{Repeat, Stated};
use super::super::reading::{Clause, Entry};
use super::Shared;
use super::definitions::{Definition, LogicalSection};
use super::dependencies::Subject;
use super::evaluate::{Resolver, Worked};
use super::path::is_step;
use super::want::Range;
use crate::findings::{FileId, Finding};
use crate::geometry::{Edge, Motion, Outline, Point, Vector, intersection_area};
use crate::units::show;
use crate::vocabulary::{NameSpace, ValueKind};

const OWN: FileId = FileId(0);

/// More of one shape than this are a mistake of a sort that would take long to
/// work out.
const MOST: f64 = 200.0;

/// Less than this area, in square metres, two of them do not overlap.
const SLIVER: f64 = 1e-6;

/// So much more, in metres, than a path is long may still be walked: rounding.
const ROUNDING: f64 = 1e-6;

impl LogicalSection {
    /// The shape of which this surface says that there are several.
    pub fn repeats(&self) -> Option<&str> {
        let entry = self.entry("shape").filter(|_| self.is("surface"))?;
        let (name, _) = entry.filled.name("SHAPE")?;
        (!entry.clauses.is_empty()).then_some(name)
    }
}

impl Resolver<'_> {
    /// How the shape of a surface comes again; `None` if it does not, or that
    /// could not be made out, which a finding tells.
    pub(crate) fn work_repeat(&mut self, definition: Definition) -> Shared<Repeat> {
        let section = self.section(definition)?;
        section.repeats()?;
        self.done.dependencies.take(Subject::Repeat(definition));
        match self.done.repeats.get(&definition) {
            Some(Worked::Done(repeat)) => return repeat.clone(),
            Some(Worked::Begun) => {
                self.circle(definition, section.place());
                return None;
            }
            None => {}
        }
        self.done.repeats.insert(definition, Worked::Begun);
        let repeat = self.on(Subject::Repeat(definition), |resolver| {
            resolver.deeper(section.place(), |resolver| resolver.repeat(section))
        });
        let repeat = repeat.map(Arc::new);
        self.done
            .repeats
            .insert(definition, Worked::Done(repeat.clone()));
        repeat
    }

    /// The outlines of all others that surfaces lay of a shape; `None` if they
    /// could not be made out.
    pub(crate) fn others_of(&mut self, name: &str, file: FileId) -> Option<Vec<Outline>> {
        let shape = self.seen(NameSpace::Shapes, name, file);
        let scope = Arc::clone(&self.scope);
        let mut outlines = Vec::new();
        for surface in scope.repeating() {
            let section = self.section(*surface);
            let Some(own) = section.and_then(LogicalSection::repeats) else {
                continue;
            };
            if self.seen(NameSpace::Shapes, own, OWN) == shape {
                outlines.extend(self.work_repeat(*surface)?.outlines.iter().cloned());
            }
        }
        Some(outlines)
    }

    fn repeat(&mut self, section: &LogicalSection) -> Option<Repeat> {
        let entry = section.entry("shape")?;
        let (name, place) = entry.filled.name("SHAPE")?;
        let shape = self.shape_named(name, place, OWN);
        let count = entry
            .values()
            .next()
            .map(|clause| self.how_many(clause))
            .unwrap_or_else(|| self.unsaid(entry, "how many of it there are", "8 in all"));
        let spacing = match entry.clause("every") {
            Some(clause) => {
                let (filled, kind) = (&clause.filled, ValueKind::Length);
                self.wanted(filled, "SPACING", kind, Range::Positive, OWN)
            }
            None => {
                let how = "every 700 mm between centres";
                self.unsaid(entry, "how far apart they lie", how)
            }
        };
        let way = match (entry.clause("toward"), entry.clause("along")) {
            (Some(way), Some(path)) => {
                let is_way_first = way.place.span.start < path.place.span.start;
                let (first, second) = if is_way_first {
                    (way, path)
                } else {
                    (path, way)
                };
                let message = "they follow one way or a path: keep one of the two";
                let finding = Finding::new("entry-twice", second.place, message);
                self.find(finding.related(first.place, "the way is said here"));
                return None;
            }
            (None, None) => self.unsaid(entry, "which way they follow one another", "toward east"),
            (way, path) => way.or(path),
        };
        let (shape, count, spacing, way) = (shape?, count?, spacing?, way?);
        let outline = shape.outline.as_ref()?;
        let step = spacing.value.si();
        let others = (1..count.value.si() as u32).map(|index| f64::from(index) * step);
        let motions: Vec<Motion> = match way.word {
            Some("toward") => {
                let (heading, place) = way.filled.get("HEADING")?;
                let toward = self.toward(&shape, heading, place, OWN)?;
                others.map(|far| Motion::moved(toward * far)).collect()
            }
            _ => self.along_path(outline, others.collect(), way)?,
        };
        let outlines: Vec<Outline> = motions.iter().map(|own| own.outline(outline)).collect();
        let all: Vec<&Outline> = std::iter::once(outline).chain(&outlines).collect();
        let pairs = all.iter().zip(all.iter().skip(1));
        let gap_m = pairs.map(|(one, next)| between(one, next));
        let gap_m = gap_m.fold(f64::INFINITY, f64::min);
        let overlap_m2 = overlap(&all);
        let last = entry.clauses.last().map_or(entry.place, |last| last.place);
        Some(Repeat {
            gap_m: if overlap_m2 > 0.0 { 0.0 } else { gap_m },
            overlap_m2,
            count,
            spacing,
            motions,
            outlines,
            place: entry.place.to(last),
        })
    }

    fn how_many(&mut self, clause: &Clause) -> Option<Stated<crate::units::Quantity>> {
        let (filled, kind) = (&clause.filled, ValueKind::Count);
        let count = self.wanted(filled, "COUNT", kind, Range::Whole, OWN)?;
        if (2.0..=MOST).contains(&count.value.si()) {
            return Some(count);
        }
        let message = "a shape comes again from 2 up to 200 times in all";
        self.find(Finding::new("value-range", clause.place, message));
        None
    }

    /// Tells that a clause is missing where a shape comes again.
    fn unsaid<T>(&mut self, entry: &Entry, what: &str, example: &str) -> Option<T> {
        // What is written and could not be read is told of already.
        if entry.is_sound {
            let message = format!("{what} is missing: write it after a comma, `{example}`");
            let finding = Finding::new("entry-missing", entry.place, message);
            self.find(finding.help(
                "The whole is written `shape flag, 8 in all, every 700 mm between centres, toward east`.",
            ));
        }
        None
    }

    /// How each lies that follows a path so far on.
    fn along_path(
        &mut self,
        outline: &Outline,
        far: Vec<f64>,
        clause: &Clause,
    ) -> Option<Vec<Motion>> {
        let (name, place) = clause.filled.name("PATH")?;
        let definition = self.look_up(NameSpace::Shapes, name, place, OWN)?;
        let path = self.section(definition)?;
        if path.has_lost_line() {
            return None;
        }
        let is_path = path.entries().any(|entry| {
            let word = entry.key.map(|key| key.word);
            word.is_some_and(|word| word == "start" || is_step(word))
        });
        if !is_path {
            let message =
                format!("{name} is no path: name a shape that is drawn step by step from a start");
            self.find(Finding::new("value-range", place, message));
            return None;
        }
        let line = self.work_line(definition)?;
        let walk = Walk {
            line: &line,
            begins_at: begins_at(&line, outline.centroid()),
        };
        let room = walk.length() - walk.begins_at + ROUNDING;
        let fitting = far.iter().filter(|far| **far <= room).count();
        if fitting < far.len() {
            let message = format!(
                "{name} has room for {} of {}: it ends {} on from the first",
                fitting + 1,
                far.len() + 1,
                show::length(room, self.system),
            );
            let finding = Finding::new("value-range", place, message);
            self.find(finding.related(path.place(), "the path"));
            return None;
        }
        Some(far.iter().map(|far| walk.motion(*far)).collect())
    }

    /// The line that a path draws, before anything is added to it or cut from
    /// it: of a strip the one that its width lies beside. What follows a path
    /// may itself be cut from it. What is wrong with it is told of the shape.
    fn work_line(&mut self, definition: Definition) -> Shared<Vec<Edge>> {
        let section = self.section(definition)?;
        self.done.dependencies.take(Subject::Line(definition));
        if let Some(line) = self.done.lines.get(&definition) {
            return (!line.is_empty()).then(|| Arc::clone(line));
        }
        let line = self.on(Subject::Line(definition), |resolver| {
            let file = definition.file;
            let line = match section.entry("width") {
                Some(_) => resolver.line(section, file).map(|(edges, _)| edges),
                None => resolver.path(section, file).map(|traced| traced.edges),
            };
            resolver.done.dependencies.keep_found(|_| false);
            line
        });
        let line = Arc::new(line.unwrap_or_default());
        self.done.lines.insert(definition, Arc::clone(&line));
        (!line.is_empty()).then_some(line)
    }
}

/// A path on which something is laid again and again.
struct Walk<'p> {
    line: &'p [Edge],
    /// How far along it the first lies, in metres.
    begins_at: f64,
}

impl Walk<'_> {
    fn length(&self) -> f64 {
        self.line.iter().map(Edge::length).sum()
    }

    /// A point of the path, and the way that it runs there.
    fn at(&self, along: f64) -> (Point, Vector) {
        let mut left = along;
        for edge in self.line {
            if left <= edge.length() {
                return (edge.point_at(left), edge.direction_at(left));
            }
            left -= edge.length();
        }
        let last = self.line.last();
        last.map_or((Point::ORIGIN, Vector::default()), |last| {
            (last.end, last.direction_at_end())
        })
    }

    fn motion(&self, far: f64) -> Motion {
        let (from, way) = self.at(self.begins_at);
        let (to, turned) = self.at(self.begins_at + far);
        Motion {
            about: from,
            turn: way.angle_to(turned),
            by: to - from,
        }
    }
}

/// How far along a line the point of it lies that is nearest to another.
fn begins_at(line: &[Edge], point: Point) -> f64 {
    let mut from = 0.0;
    let mut nearest = (f64::INFINITY, 0.0);
    for edge in line {
        let off = edge.distance_to(point);
        if off < nearest.0 - ROUNDING {
            let along = edge.distance_along(point).clamp(0.0, edge.length());
            nearest = (off, from + along);
        }
        from += edge.length();
    }
    nearest.1
}

/// The least way between two outlines, in metres.
fn between(one: &Outline, other: &Outline) -> f64 {
    let edges = one.edges();
    let all = edges.flat_map(|edge| other.edges().map(|own| edge.distance_to_edge(own)));
    all.fold(f64::INFINITY, f64::min)
}

/// The ground on which two of them lie.
fn overlap(all: &[&Outline]) -> f64 {
    let boxes: Vec<(Point, Point)> = all.iter().map(|own| own.bounding_box()).collect();
    let mut sum = 0.0;
    for (index, (own, around)) in all.iter().zip(&boxes).enumerate() {
        for (other, theirs) in all.iter().zip(&boxes).skip(index + 1) {
            let are_near = around.0.x < theirs.1.x
                && theirs.0.x < around.1.x
                && around.0.y < theirs.1.y
                && theirs.0.y < around.1.y;
            let common = are_near.then(|| intersection_area(own, other).unwrap_or(0.0));
            sum += common.filter(|common| *common > SLIVER).unwrap_or(0.0);
        }
    }
    sum
}
