//! The finished plane of a surface, from its levels and its fall.

use super::super::job::{Fall, Level, LevelAt, Shape};
use super::super::reading::{Entry, Value};
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::want::Range;
use crate::findings::{FileId, Finding, Fix, Place};
use crate::geometry::{Edge, Outline, Plane, Point, Tag, Vector};
use crate::units::show;
use crate::vocabulary::{ALL_EDGES, ValueKind};

/// How far out of level, as a slope, an edge may be and still be taken for
/// level.
const LEVEL_ENOUGH: f64 = 1e-9;

/// How far apart in height, in metres, pieces of one edge are still as high as
/// one another: a hundredth of a millimetre, less than anybody lays to.
const AS_HIGH: f64 = 1e-5;

/// The word by which an entry says that it holds at all edges.
fn all_edges<'e>(entry: &'e Entry, shape: &Shape) -> Option<(&'e str, Place)> {
    let (Value::Edge { owner: None, name }, place) = entry.filled.get("PLACE")? else {
        return None;
    };
    let is_meant = ALL_EDGES.contains(&name.as_str()) && shape.tags(None, name).is_empty();
    is_meant.then_some((name, place))
}

impl Resolver<'_> {
    /// The finished plane of a surface section, for a function that asks
    /// before the surface itself is worked out.
    pub(crate) fn plane_of(&mut self, section: &LogicalSection, file: FileId) -> Option<Plane> {
        let entry = section.entry("shape")?;
        let (name, place) = entry.filled.name("SHAPE")?;
        let shape = self.shape_named(name, place, file)?;
        let levels = self.levels(section, &shape, file);
        let fall = self.fall(section, &shape, file);
        self.plane(section, &shape, &levels, fall.as_ref())
    }

    /// The `level` entries.
    pub(crate) fn levels(
        &mut self,
        section: &LogicalSection,
        shape: &Shape,
        file: FileId,
    ) -> Vec<Level> {
        let entries = section.all("level");
        let falls_to_drain = || {
            let fall = section.entry("fall");
            fall.is_some_and(|fall| fall.filled.get("PIT").is_some())
        };
        let mut levels: Vec<Level> = entries
            .filter_map(|entry| match all_edges(entry, shape) {
                Some(all) => self.level_along_all(entry, all, falls_to_drain()),
                None => self.level(entry, shape, file),
            })
            .collect();
        // Most surfaces state one.
        levels.shrink_to_fit();
        levels
    }

    /// A level at all edges at once: none but that of a surface that falls to
    /// a drain has one, and that one states it without a place.
    fn level_along_all(
        &mut self,
        entry: &Entry,
        (word, place): (&str, Place),
        falls_to_drain: bool,
    ) -> Option<Level> {
        let message = match falls_to_drain {
            true => format!(
                "`{word}` is no edge: a surface that falls to a drain has this level along all of its edges without a word of it"
            ),
            false => format!(
                "`{word}` is no edge: a level holds at one edge or at a point. Write which, as in at north"
            ),
        };
        // `below datum` between the two would have to stay.
        let is_next = falls_to_drain && entry.filled.get("SENSE").is_none();
        let stated = entry.filled.get("LEVEL").filter(|_| is_next);
        let mut finding = Finding::new("name-unknown", place, message);
        if let Some((_, stated)) = stated {
            let gap = stated.end().to(place);
            finding = finding.fix(Fix::judged(format!("Take out `at {word}`"), gap, ""));
        }
        self.find(finding);
        None
    }

    fn level(&mut self, entry: &Entry, shape: &Shape, file: FileId) -> Option<Level> {
        let value = self.wanted(&entry.filled, "LEVEL", ValueKind::Length, Range::Any, file)?;
        let at = self.spot_of(entry, shape, file)?;
        Some(Level {
            value,
            at,
            place: entry.place,
        })
    }

    /// Where an entry says that something is: along an edge, at a point, or
    /// nowhere in particular.
    pub(crate) fn spot_of(
        &mut self,
        entry: &Entry,
        shape: &Shape,
        file: FileId,
    ) -> Option<LevelAt> {
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
    pub(crate) fn fall(
        &mut self,
        section: &LogicalSection,
        shape: &Shape,
        file: FileId,
    ) -> Option<Fall> {
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
    pub(crate) fn toward(
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
    pub(crate) fn plane(
        &mut self,
        section: &LogicalSection,
        shape: &Shape,
        levels: &[Level],
        fall: Option<&Fall>,
    ) -> Option<Plane> {
        let outline = shape.outline.as_ref()?;
        if let Some(fall) = fall {
            let gradient = fall.gradient();
            let mut plane = None;
            for level in levels {
                // What stands behind one that cannot be read may be its place.
                let mut entries = section.all("level");
                let is_read = entries.any(|own| own.place == level.place && own.is_sound);
                let is_nowhere = matches!(level.at, LevelAt::Whole) && is_read;
                if is_nowhere && gradient.length() > LEVEL_ENOUGH {
                    self.of_what_falls(shape, outline, level, gradient);
                }
                let holds = self.holds(outline, level, gradient, levels.len() == 1);
                if let Some(at) = spot(outline, level).filter(|_| holds && plane.is_none()) {
                    plane = Some(Plane::through(level.value.value.si(), at, gradient));
                }
            }
            return plane;
        }
        if section.entry("fall").is_some() || section.has_lost_line() {
            return None;
        }
        match levels {
            [] => None,
            [level] => Some(Plane::level(level.value.value.si())),
            [.., last] => {
                let plane = plane_of_levels(outline, levels);
                let is_read = levels.len() == section.all("level").count();
                if plane.is_none() && is_read && !restates(levels) {
                    self.give_no_plane(last);
                }
                plane
            }
        }
    }

    /// A level that says nowhere of a surface that falls, and so has another at
    /// each place: the edge that it falls from may be meant.
    fn of_what_falls(&mut self, shape: &Shape, outline: &Outline, level: &Level, gradient: Vector) {
        let message = "a surface that falls has this level at one edge or point only: write which";
        let finding = Finding::new("entry-missing", level.place, message);
        let finding = finding.help("It is written `level -160 mm at wall`.");
        let is_level = |edge: &&Edge| {
            !edge.is_arc() && gradient.dot(edge.chord().unit()).abs() <= LEVEL_ENOUGH
        };
        let height = |edge: &Edge| gradient.dot(edge.midpoint() - Point::ORIGIN);
        let level_ones = outline.outer.edges.iter().filter(is_level);
        let highest = level_ones.max_by(|a, b| height(a).total_cmp(&height(b)));
        let label = highest.and_then(|edge| shape.labels.get(edge.tag as usize));
        let name = label.and_then(|label| label.written().next());
        self.find(match name {
            Some(name) => {
                let title = format!("Write `at {name}`, from where it falls");
                finding.fix(Fix::judged(title, level.place.end(), format!(" at {name}")))
            }
            None => finding,
        });
    }

    /// Levels that leave open how the surface lies between them.
    fn give_no_plane(&mut self, last: &Level) {
        self.find(
            Finding::new(
                "levels-disagree",
                last.place,
                "no plane goes through these levels alone: state the fall, or a level at one more point",
            )
            .help("A plane takes one level and a fall, levels along two parallel edges, or levels at three points that are not in line."),
        );
    }

    /// Whether a level can hold where it is stated: at an edge only if the
    /// fall leaves all pieces of the edge level, and as high as one another.
    /// If it does not, a point is asked for, and offered where no other level
    /// could disagree with it.
    fn holds(&mut self, outline: &Outline, level: &Level, gradient: Vector, is_only: bool) -> bool {
        let LevelAt::Edge(name, tags) = &level.at else {
            return true;
        };
        let pieces: Vec<&Edge> = pieces(outline, tags).collect();
        let is_level = |edge: &&Edge| match edge.is_arc() {
            true => gradient.length() <= LEVEL_ENOUGH,
            false => gradient.dot(edge.chord().unit()).abs() <= LEVEL_ENOUGH,
        };
        let ends = pieces.iter().flat_map(|edge| {
            let (up, down) = (edge.farthest(gradient), edge.farthest(-gradient));
            [edge.start, edge.end, up, down]
        });
        let rise = |point: &Point| gradient.dot(*point - Point::ORIGIN);
        // Of ends as high as one another always the same: where the outline
        // begins is nobody's choice.
        let order = |one: &Point, other: &Point| {
            let by_height = rise(one).total_cmp(&rise(other));
            by_height
                .then(one.x.total_cmp(&other.x))
                .then(one.y.total_cmp(&other.y))
        };
        let (Some(low), Some(high)) = (ends.clone().min_by(order), ends.max_by(order)) else {
            return true;
        };
        let apart = rise(&high) - rise(&low);
        let message = if !pieces.iter().all(is_level) {
            format!(
                "`{name}` falls along its length, so one level cannot hold all along it: say it at a point"
            )
        } else if apart > AS_HIGH {
            let apart = show::length(apart, self.system);
            format!(
                "the pieces of `{name}` come out {apart} apart in height, so one level cannot hold at all of them: say it at a point"
            )
        } else {
            return true;
        };
        let finding = Finding::new("levels-disagree", level.place, message);
        let system = self.system;
        let length = |metres: f64| show::length(metres, system);
        let written = length(level.value.value.si());
        let fix = |end: &str, at: Point| {
            let point = format!("({}, {})", length(at.x), length(at.y));
            Fix::judged(
                format!("Say it at its {end} end, {point}"),
                level.place,
                format!("level {written} at {point}"),
            )
        };
        self.find(match is_only {
            true => finding.fix(fix("high", high)).fix(fix("low", low)),
            false => finding,
        });
        false
    }
}

/// Whether a level is stated again for the same place, which is told of by
/// itself.
fn restates(levels: &[Level]) -> bool {
    let earlier = |index: usize| levels.get(..index).unwrap_or_default();
    let mut all = levels.iter().enumerate();
    all.any(|(index, level)| earlier(index).iter().any(|other| other.at == level.at))
}

/// The plane through levels alone: along two parallel edges, or at three
/// points.
fn plane_of_levels(outline: &Outline, levels: &[Level]) -> Option<Plane> {
    let along = |level: &Level| -> Vec<(Edge, f64)> {
        let value = level.value.value.si();
        let LevelAt::Edge(_, tags) = &level.at else {
            return Vec::new();
        };
        let straight = pieces(outline, tags).filter(|edge| !edge.is_arc());
        straight.map(|edge| (*edge, value)).collect()
    };
    let edges: Vec<Vec<(Edge, f64)>> = levels.iter().map(along).collect();
    let mut stated = edges.iter().filter(|pieces| !pieces.is_empty());
    if let (Some(first), Some(second)) = (stated.next(), stated.next()) {
        // The pieces of one edge in a line are one edge; of others, all have
        // to be as high as is stated.
        let pairs = first
            .iter()
            .flat_map(|one| second.iter().map(move |other| (one, other)));
        let plane = pairs
            .filter_map(|((edge, level), (other, other_level))| {
                Plane::from_parallel_edges((edge, *level), (other, *other_level))
            })
            .find(|plane| {
                let ends = first.iter().chain(second);
                let mut ends =
                    ends.flat_map(|(edge, level)| [(edge.start, level), (edge.end, level)]);
                ends.all(|(end, level)| (plane.level_at(end) - level).abs() <= AS_HIGH)
            });
        if plane.is_some() {
            return plane;
        }
    }
    let points = levels.iter().filter_map(|level| match level.at {
        LevelAt::Point(point) => Some((point, level.value.value.si())),
        _ => None,
    });
    // A level along an edge holds at both its ends.
    let ends = edges.iter().flatten();
    let ends = ends.flat_map(|(edge, level)| [(edge.start, *level), (edge.end, *level)]);
    let mut ends: Vec<(Point, f64)> = ends.collect();
    // Wherever the outline begins, the same three are taken.
    ends.sort_by(|(one, _), (other, _)| one.x.total_cmp(&other.x).then(one.y.total_cmp(&other.y)));
    let spots: Vec<(Point, f64)> = points.chain(ends).collect();
    let [first, second, rest @ ..] = spots.as_slice() else {
        return None;
    };
    rest.iter()
        .find_map(|third| Plane::from_points(&[*first, *second, *third]))
}

/// A point at which a level holds that holds all along its edge.
fn spot(outline: &Outline, level: &Level) -> Option<Point> {
    match &level.at {
        LevelAt::Point(point) => Some(*point),
        LevelAt::Edge(_, tags) => pieces(outline, tags)
            .map(|edge| edge.start)
            .min_by(|one, other| one.x.total_cmp(&other.x).then(one.y.total_cmp(&other.y))),
        LevelAt::Whole => None,
    }
}

/// The pieces of an edge that a name stands for.
fn pieces<'a>(outline: &'a Outline, tags: &'a [Tag]) -> impl Iterator<Item = &'a Edge> {
    outline.edges().filter(|edge| tags.contains(&edge.tag))
}
