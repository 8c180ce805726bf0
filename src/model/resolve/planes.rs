//! The finished plane of a surface, from its levels and its fall.

use super::super::job::{Fall, Level, LevelAt, Shape, Stated};
use super::super::reading::{Entry, Value};
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::want::Range;
use crate::findings::{FileId, Finding, Fix, Place};
use crate::geometry::{Edge, Outline, Plane, Point, Tag, Vector};
use crate::units::show;
use crate::vocabulary::{Sense, ValueKind};

/// How far out of level, as a slope, an edge may be and still be taken for
/// level.
const LEVEL_ENOUGH: f64 = 1e-9;

impl Resolver<'_> {
    /// The finished plane of a surface section, for a function that asks
    /// before the surface itself is worked out.
    pub fn plane_of(&mut self, section: &LogicalSection, file: FileId) -> Option<Plane> {
        let entry = section.entry("shape")?;
        let (name, place) = entry.filled.name("SHAPE")?;
        let shape = self.shape_named(name, place, file)?;
        let levels = self.levels(section, &shape, file);
        let fall = self.fall(section, &shape, file);
        let said = section.entry("fall").is_some();
        self.plane(&shape, &levels, fall.as_ref(), said)
    }

    /// The `level` entries.
    pub fn levels(&mut self, section: &LogicalSection, shape: &Shape, file: FileId) -> Vec<Level> {
        let entries = section.all("level");
        let mut levels: Vec<Level> = entries
            .filter_map(|entry| self.level(entry, shape, file))
            .collect();
        // Most surfaces state one.
        levels.shrink_to_fit();
        levels
    }

    fn level(&mut self, entry: &Entry, shape: &Shape, file: FileId) -> Option<Level> {
        let stated = self.wanted(&entry.filled, "LEVEL", ValueKind::Length, Range::Any, file)?;
        let sense = entry.filled.chosen::<Sense>("SENSE");
        let value = match sense.map(|stated| (stated.value, stated.place)) {
            Some((Sense::Below, place)) => {
                if stated.value.number.is_negative() {
                    self.find(Finding::new(
                        "level-unclear",
                        stated.place.to(place),
                        "a negative level below the datum may be above it; say one of the two",
                    ));
                    return None;
                }
                Stated::new(stated.value.negated().ok()?, stated.place)
            }
            Some((Sense::Above, _)) | None => stated,
        };
        let at = self.spot_of(entry, shape, file)?;
        Some(Level {
            value,
            at,
            place: entry.place,
        })
    }

    /// Where an entry says that something is: along an edge, at a point, or
    /// nowhere in particular.
    pub fn spot_of(&mut self, entry: &Entry, shape: &Shape, file: FileId) -> Option<LevelAt> {
        Some(match entry.filled.get("PLACE") {
            None => LevelAt::Whole,
            Some((point @ Value::Point(..), place)) => {
                LevelAt::Point(self.point_of(point, place, file)?.value)
            }
            Some((edge, place)) => {
                let (name, tags) = self.edge(shape, edge, place)?;
                LevelAt::Edge(name, tags)
            }
        })
    }

    /// The `fall` entry.
    pub fn fall(&mut self, section: &LogicalSection, shape: &Shape, file: FileId) -> Option<Fall> {
        let entry = section.entry("fall")?;
        let slope = self.wanted(
            &entry.filled,
            "SLOPE",
            ValueKind::Slope,
            Range::NotNegative,
            file,
        )?;
        let (toward, away_from) = match entry.filled.get("EDGE") {
            Some((edge, place)) => {
                let (name, tags) = self.edge(shape, edge, place)?;
                let inward = self.inward(shape, &tags, place)?;
                (inward, Some((name, tags)))
            }
            None => {
                let (heading, place) = entry.filled.get("HEADING")?;
                (self.toward(shape, heading, place, file)?, None)
            }
        };
        let cross = match entry.clause("cross") {
            None => None,
            Some(clause) => {
                let slope = self.wanted(
                    &clause.filled,
                    "SLOPE",
                    ValueKind::Slope,
                    Range::NotNegative,
                    file,
                )?;
                let (heading, place) = clause.filled.get("HEADING")?;
                Some((slope, self.toward(shape, heading, place, file)?))
            }
        };
        let last = entry
            .clauses
            .last()
            .map_or(entry.place, |clause| clause.place);
        Some(Fall {
            slope,
            toward,
            away_from,
            cross,
            place: entry.place.to(last),
        })
    }

    /// A direction of the plan, or out over an edge.
    fn toward(
        &mut self,
        shape: &Shape,
        heading: &Value,
        place: Place,
        file: FileId,
    ) -> Option<Vector> {
        match heading {
            Value::Edge { .. } => {
                let (_, tags) = self.edge(shape, heading, place)?;
                self.inward(shape, &tags, place).map(|inward| -inward)
            }
            _ => self.direction(heading, file),
        }
    }

    /// The plane: one level and a fall; or two levels at parallel edges; or
    /// three at points; or, with no fall at all, one level throughout.
    pub fn plane(
        &mut self,
        shape: &Shape,
        levels: &[Level],
        fall: Option<&Fall>,
        fall_is_said: bool,
    ) -> Option<Plane> {
        let outline = shape.outline.as_ref()?;
        if let Some(fall) = fall {
            let gradient = fall.gradient();
            for level in levels {
                self.edge_is_level(outline, level, gradient, levels.len() == 1);
            }
            let first = levels.iter().find(|level| spot(outline, level).is_some())?;
            return Some(Plane::through(
                first.value.value.si(),
                spot(outline, first)?,
                gradient,
            ));
        }
        if fall_is_said {
            return None;
        }
        if let [level] = levels {
            return Some(Plane::level(level.value.value.si()));
        }
        self.plane_of_levels(outline, levels)
    }

    fn plane_of_levels(&mut self, outline: &Outline, levels: &[Level]) -> Option<Plane> {
        let edges: Vec<(&Edge, f64)> = levels
            .iter()
            .filter_map(|level| Some((straight(outline, level)?, level.value.value.si())))
            .collect();
        if let [first, second, ..] = edges.as_slice()
            && let Some(plane) = Plane::from_parallel_edges(*first, *second)
        {
            return Some(plane);
        }
        let points: Vec<(Point, f64)> = levels
            .iter()
            .filter_map(|level| match level.at {
                LevelAt::Point(point) => Some((point, level.value.value.si())),
                _ => None,
            })
            .collect();
        // A level along an edge holds at both its ends.
        let ends = edges
            .iter()
            .flat_map(|(edge, level)| [(edge.start, *level), (edge.end, *level)]);
        let spots: Vec<(Point, f64)> = points.into_iter().chain(ends).collect();
        let [first, second, rest @ ..] = spots.as_slice() else {
            return None;
        };
        rest.iter()
            .find_map(|third| Plane::from_points(&[*first, *second, *third]))
    }

    /// A level at an edge wants that edge level; if it is not, a point is
    /// asked for, and offered where no other level could disagree with it.
    fn edge_is_level(&mut self, outline: &Outline, level: &Level, gradient: Vector, is_only: bool) {
        let LevelAt::Edge(name, tags) = &level.at else {
            return;
        };
        let Some(edge) = outline.edges().find(|edge| tags.contains(&edge.tag)) else {
            return;
        };
        let along = outline
            .edges()
            .filter(|edge| tags.contains(&edge.tag))
            .map(|edge| {
                if edge.is_arc() {
                    gradient.length()
                } else {
                    gradient.dot(edge.chord().unit()).abs()
                }
            })
            .fold(0.0, f64::max);
        if along <= LEVEL_ENOUGH {
            return;
        }
        let length = |metres: f64| show::length(metres, self.system);
        let point = format!("({}, {})", length(edge.start.x), length(edge.start.y));
        let written = show::length(level.value.value.si(), self.system);
        let finding = Finding::new(
            "levels-disagree",
            level.place,
            format!(
                "`{name}` falls along its length, so one level cannot hold all along it; say it at a point"
            ),
        );
        self.find(match is_only {
            true => finding.fix(Fix::judged(
                format!("Say it at {point}"),
                level.place,
                format!("level {written} at {point}"),
            )),
            false => finding,
        });
    }
}

/// A point at which a level holds.
fn spot(outline: &Outline, level: &Level) -> Option<Point> {
    match &level.at {
        LevelAt::Point(point) => Some(*point),
        LevelAt::Edge(_, tags) => first_edge(outline, tags).map(|edge| edge.start),
        LevelAt::Whole => None,
    }
}

fn straight<'a>(outline: &'a Outline, level: &Level) -> Option<&'a Edge> {
    match &level.at {
        LevelAt::Edge(_, tags) => first_edge(outline, tags).filter(|edge| !edge.is_arc()),
        _ => None,
    }
}

fn first_edge<'a>(outline: &'a Outline, tags: &[Tag]) -> Option<&'a Edge> {
    outline.edges().find(|edge| tags.contains(&edge.tag))
}
