//! A path: straight steps and arcs, with rounded and cut corners.

use super::super::job::EdgeLabel;
use super::super::reading::Entry;
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::want::Range;
use crate::findings::{FileId, Finding, Fix, Place};
use crate::geometry::{Edge, Fault, Point, Tag, Vector, chamfered, rounded};
use crate::units::{System, show};
use crate::vocabulary::{DIRECTIONS, Turn, ValueKind};

/// The closing of a path: its line, its length in metres, its bearing.
pub(crate) type Closing = (Place, f64, f64);

/// An outline's edges before they are checked.
pub(crate) struct Traced {
    /// The edges, end to end.
    pub edges: Vec<Edge>,
    /// The labels of their tags.
    pub labels: Vec<EdgeLabel>,
    /// How the path was closed, if it was by `close`.
    pub closing: Option<Closing>,
}

/// Nearer than this, in metres, two points are one.
const TOGETHER: f64 = 1e-6;

/// How a step turns into the next.
#[derive(Clone, Copy)]
enum Corner {
    Sharp,
    Rounded(f64, Place),
    Cut(f64, Place),
}

pub(crate) struct Step<'a> {
    pub start: Point,
    pub end: Point,
    /// For an arc, its bulge as if it bulged to the right of the way.
    pub bulge: f64,
    /// Whether the side that it bulges to is still to be settled: by the way
    /// round, or on an open line by the step before.
    pub outward: bool,
    /// Whether it is the arc that the step before runs on into.
    pub runs_on: bool,
    inward: bool,
    /// The turn that the text states, left or right.
    pub turning: Option<Turn>,
    corner: Corner,
    pub entry: &'a Entry,
}

impl Step<'_> {
    fn direction_at_end(&self) -> Vector {
        Edge::arc(self.start, self.end, self.bulge, 0).direction_at_end()
    }
}

impl Resolver<'_> {
    /// The edges of a path.
    pub(crate) fn path(&mut self, section: &LogicalSection, file: FileId) -> Option<Traced> {
        let (mut steps, closing) = self.steps(section, file)?;
        let start = steps.first().map_or(Point::ORIGIN, |step| step.start);
        let end = steps.last().map_or(start, |step| step.end);
        self.joined_up(section, start, end, closing.is_some())?;
        self.squareness(&steps, closing);
        settle_bulges(&mut steps);
        let (edges, labels) = self.cornered(&steps, true)?;
        Some(Traced {
            edges,
            labels,
            closing,
        })
    }

    /// The edges of an open line, with their labels by tag.
    pub(crate) fn line(
        &mut self,
        section: &LogicalSection,
        file: FileId,
    ) -> Option<(Vec<Edge>, Vec<EdgeLabel>)> {
        let (steps, _) = self.steps(section, file)?;
        if let Some(last) = steps.last() {
            self.no_corner_at_end(last.entry);
        }
        self.cornered(&steps, false)
    }

    /// The steps of a path, and how it is closed.
    fn steps<'a>(
        &mut self,
        section: &'a LogicalSection,
        file: FileId,
    ) -> Option<(Vec<Step<'a>>, Option<Closing>)> {
        let is_open = section.entry("width").is_some();
        let start = match section.entry("start") {
            Some(entry) => self.point(&entry.filled, "POINT", file)?.value,
            None => Point::ORIGIN,
        };
        let mut at = start;
        let mut steps: Vec<Step<'_>> = Vec::new();
        let mut closing = None;
        let mut whole = true;
        for entry in section.entries() {
            let Some(key) = entry.key else { continue };
            if closing.is_some() && is_step(key.word) {
                self.find(Finding::new(
                    "entry-misplaced",
                    entry.place,
                    format!("`{}` comes after the path is closed", key.word),
                ));
                whole = false;
                continue;
            }
            if key.word == "close" {
                let back = start - at;
                closing = Some((entry.place, back.length(), back.bearing()));
                if back.length() <= TOGETHER {
                    continue;
                }
            } else if !is_step(key.word) {
                continue;
            }
            let step = self.step(entry, key.word, (at, start), (is_open, file));
            let before = steps.last().map(Step::direction_at_end);
            match step.and_then(|step| match is_open {
                true => self.turned(step, before),
                false => Some(step),
            }) {
                Some(step) => {
                    at = step.end;
                    steps.push(step);
                }
                None => whole = false,
            }
        }
        whole.then_some((steps, closing))
    }

    /// A step of an open line, which bends as the step before lets it.
    fn turned<'a>(&mut self, mut step: Step<'a>, before: Option<Vector>) -> Option<Step<'a>> {
        if step.entry.key.is_some_and(|key| key.word == "curve") {
            self.settle_turn(&mut step, before)?;
        }
        Some(step)
    }

    fn step<'a>(
        &mut self,
        entry: &'a Entry,
        word: &str,
        (from, start): (Point, Point),
        (is_open, file): (bool, FileId),
    ) -> Option<Step<'a>> {
        let mut step = Step {
            start: from,
            end: from,
            bulge: 0.0,
            outward: false,
            runs_on: false,
            inward: entry.clause("inward").is_some(),
            turning: entry
                .clause("turning")
                .and_then(|clause| clause.filled.chosen("TURN"))
                .map(|stated| stated.value),
            corner: self.corner(entry, file)?,
            entry,
        };
        let compass = DIRECTIONS.iter().find(|(direction, _)| *direction == word);
        if let Some((_, bearing)) = compass {
            let length = self.wanted(
                &entry.filled,
                "LENGTH",
                ValueKind::Length,
                Range::Positive,
                file,
            )?;
            step.end = moved(from, *bearing, length.value.si());
            return Some(step);
        }
        match word {
            "bearing" => {
                let angle =
                    self.wanted(&entry.filled, "ANGLE", ValueKind::Angle, Range::Any, file)?;
                let Some(clause) = entry.values().next() else {
                    self.find(
                        Finding::new("entry-missing", entry.place, "this step has no length")
                            .help("It is written `bearing 35°, 12'`."),
                    );
                    return None;
                };
                let length = self.wanted(
                    &clause.filled,
                    "LENGTH",
                    ValueKind::Length,
                    Range::Positive,
                    file,
                )?;
                step.end = moved(from, angle.value.si() % 360.0, length.value.si());
            }
            "to" => step.end = self.point(&entry.filled, "POINT", file)?.value,
            "curve" => {
                step.end = self.point(&entry.filled, "POINT", file)?.value;
                self.arc(entry, &mut step, (is_open, file))?;
            }
            _ => step.end = start,
        }
        if step.start.distance(step.end) <= TOGETHER && word != "close" {
            self.find(Finding::new(
                "value-range",
                entry.place,
                "this step ends where it begins",
            ));
            return None;
        }
        Some(step)
    }

    /// The bulge of a curve, by whichever way it is given.
    fn arc(
        &mut self,
        entry: &Entry,
        step: &mut Step<'_>,
        (is_open, file): (bool, FileId),
    ) -> Option<()> {
        let chord = step.start.distance(step.end);
        let ways: Vec<&str> = ["radius", "height", "through"]
            .into_iter()
            .filter(|word| entry.clause(word).is_some())
            .collect();
        let way = match ways.as_slice() {
            [way] => *way,
            [] if is_open && entry.clause("turning").is_none() => {
                step.runs_on = true;
                return Some(());
            }
            [] => {
                self.find(
                    Finding::new(
                        "entry-missing",
                        entry.place,
                        "this curve has no radius, no height and no point that it passes",
                    )
                    .help("It is written `curve to (0, -12'), radius 9'`."),
                );
                return None;
            }
            _ => {
                self.find(Finding::new(
                    "entry-twice",
                    entry.place,
                    format!(
                        "this curve is given by its {}; one of them is enough",
                        ways.join(" and its ")
                    ),
                ));
                return None;
            }
        };
        let clause = entry.clause(way)?;
        if let (Some(turning), Some(_)) = (entry.clause("turning"), entry.clause("inward")) {
            self.find(Finding::new(
                "entry-twice",
                turning.place,
                "`inward` says which way this curve bends; take out one of them",
            ));
            return None;
        }
        match way {
            "radius" => {
                let radius = self.wanted(
                    &clause.filled,
                    "RADIUS",
                    ValueKind::Length,
                    Range::Positive,
                    file,
                )?;
                let ratio = chord / (2.0 * radius.value.si());
                if ratio > 1.0 + 1e-12 {
                    // Rounded up, so that it spans as it is written.
                    let step = match self.system {
                        System::Metric => 0.001,
                        System::Imperial => 0.0254 / 16.0,
                    };
                    let steps = (chord / 2.0 / step - 1e-9).ceil();
                    let least = show::length(steps * step, self.system);
                    self.find(
                        Finding::new(
                            "arc-short",
                            clause.place,
                            format!(
                                "no arc of this radius spans {}; {least} is the least",
                                show::length(chord, self.system)
                            ),
                        )
                        .fix(Fix::judged(
                            format!("Make the radius {least}"),
                            radius.place,
                            least.clone(),
                        )),
                    );
                    return None;
                }
                let half = ratio.min(1.0).asin();
                let quarter = if entry.clause("long").is_some() {
                    (std::f64::consts::PI - half) / 2.0
                } else {
                    half / 2.0
                };
                step.bulge = quarter.tan();
                step.outward = true;
            }
            "height" => {
                let height = self.wanted(
                    &clause.filled,
                    "HEIGHT",
                    ValueKind::Length,
                    Range::Positive,
                    file,
                )?;
                step.bulge = 2.0 * height.value.si() / chord;
                step.outward = true;
            }
            _ => {
                let through = self.point(&clause.filled, "POINT", file)?;
                let to_start = step.start - through.value;
                let to_end = step.end - through.value;
                let inscribed = to_end.cross(to_start).atan2(to_end.dot(to_start));
                // The inscribed angle and a quarter of the sweep make half a
                // turn between them.
                let quarter = (std::f64::consts::PI - inscribed.abs()) / 2.0;
                if inscribed.abs() < 1e-9 || quarter.abs() < 1e-9 {
                    self.find(Finding::new(
                        "value-range",
                        clause.place,
                        "this point lies on the line between the curve's ends",
                    ));
                    return None;
                }
                step.bulge = quarter.tan().copysign(inscribed);
                self.turn_agrees(entry, step.bulge)?;
            }
        }
        step.bulge.is_finite().then_some(())
    }

    fn corner(&mut self, entry: &Entry, file: FileId) -> Option<Corner> {
        let size = |resolver: &mut Self, word: &str, slot: &str| match entry.clause(word) {
            None => Some(None),
            Some(clause) => resolver
                .wanted(
                    &clause.filled,
                    slot,
                    ValueKind::Length,
                    Range::Positive,
                    file,
                )
                .map(|stated| Some((stated.value.si(), clause.place))),
        };
        let rounded = size(self, "corner", "RADIUS")?;
        let cut = size(self, "chamfer", "CUT")?;
        Some(match (rounded, cut) {
            (Some((radius, place)), _) => Corner::Rounded(radius, place),
            (None, Some((cut, place))) => Corner::Cut(cut, place),
            (None, None) => Corner::Sharp,
        })
    }

    /// A path must come back to its start.
    fn joined_up(
        &mut self,
        section: &LogicalSection,
        start: Point,
        end: Point,
        closed: bool,
    ) -> Option<()> {
        let gap = start.distance(end);
        if closed || gap <= TOGETHER {
            return Some(());
        }
        let last = section
            .entries()
            .filter(|entry| entry.key.is_some_and(|key| is_step(key.word)))
            .last();
        let place = last.map_or(section.place(), |entry| entry.place);
        self.find(
            Finding::new(
                "outline-open",
                place,
                format!(
                    "the outline ends {} from its start; close it",
                    show::length(gap, self.system)
                ),
            )
            .fix(Fix::judged(
                "Close it",
                last.map_or(place, |entry| {
                    entry
                        .clauses
                        .last()
                        .map_or(entry.place, |clause| clause.place)
                })
                .end(),
                "\n  close",
            )),
        );
        None
    }

    /// A closing edge that is out of square, or very short, where every other
    /// step is along the compass: a miscount, perhaps.
    fn squareness(&mut self, steps: &[Step<'_>], closing: Option<Closing>) {
        let Some((place, length, bearing)) = closing else {
            return;
        };
        let others = steps.iter().filter(|step| step.entry.place != place);
        let mut count = 0;
        for step in others {
            count += 1;
            if step.bulge != 0.0 || !along_compass((step.end - step.start).bearing()) {
                return;
            }
        }
        if count < 2 || length <= TOGETHER {
            return;
        }
        let shown = show::length(length, self.system);
        let message = if !along_compass(bearing) {
            format!(
                "the closing edge is {shown} on a bearing of {}, out of square with the rest. Is a step miscounted?",
                show::angle(bearing)
            )
        } else if length < 0.1524 {
            format!("the closing edge is only {shown}. Is a step miscounted?")
        } else {
            return;
        };
        self.find(Finding::new("outline-askew", place, message));
    }

    /// The edges, with corners rounded and cut; that between the last and the
    /// first only if the path is closed.
    fn cornered(
        &mut self,
        steps: &[Step<'_>],
        is_closed: bool,
    ) -> Option<(Vec<Edge>, Vec<EdgeLabel>)> {
        let mut labels = Vec::new();
        let mut edges: Vec<Edge> = Vec::new();
        for step in steps {
            let tag = tag_of(labels.len());
            labels.push(label(step.entry, true));
            edges.push(Edge {
                start: step.start,
                end: step.end,
                bulge: step.bulge,
                tag,
            });
        }
        let mut inserted: Vec<(usize, Edge)> = Vec::new();
        for (index, step) in steps.iter().enumerate() {
            let next = match is_closed {
                true => (index + 1) % steps.len(),
                false => index + 1,
            };
            let (Some(before), Some(after)) = (edges.get(index).copied(), edges.get(next).copied())
            else {
                continue;
            };
            let tag = tag_of(labels.len());
            let (made, place) = match step.corner {
                Corner::Sharp => continue,
                Corner::Rounded(radius, place) => (rounded(&before, &after, radius, tag), place),
                Corner::Cut(cut, place) => (chamfered(&before, &after, cut, tag), place),
            };
            let [first, corner, second] = match made {
                Ok(made) => made,
                Err(fault) => {
                    self.no_corner(step.corner, fault, (&before, &after), place);
                    return None;
                }
            };
            labels.push(EdgeLabel {
                place,
                ..label(step.entry, false)
            });
            for (at, edge) in [(index, first), (next, second)] {
                if let Some(slot) = edges.get_mut(at) {
                    *slot = edge;
                }
            }
            inserted.push((index, corner));
        }
        for (index, edge) in inserted.into_iter().rev() {
            edges.insert(index + 1, edge);
        }
        edges.retain(|edge| edge.length() > TOGETHER);
        Some((edges, labels))
    }

    fn no_corner(&mut self, corner: Corner, fault: Fault, sides: (&Edge, &Edge), place: Place) {
        let (before, after) = sides;
        let message = match fault {
            Fault::NoCorner => "the two sides run on without a corner here".to_owned(),
            Fault::NoRoom { .. } if !before.is_arc() && !after.is_arc() => {
                let room = before.length().min(after.length());
                let turn = before.chord().angle_to(after.chord());
                let most = match corner {
                    Corner::Rounded(..) => room / (turn.abs() / 2.0).tan(),
                    _ => room,
                };
                format!(
                    "this corner is too large for its sides; {} is the most",
                    show::length(most, self.system)
                )
            }
            Fault::NoRoom { .. } => "this corner is too large for its sides".to_owned(),
            other => format!("no corner can be made here: {other}"),
        };
        self.find(Finding::new("corner-large", place, message));
    }
}

/// A tag as an index.
pub(crate) fn tag_of(index: usize) -> Tag {
    Tag::try_from(index).unwrap_or(crate::geometry::NO_TAG)
}

/// The label of the edge that an entry makes.
pub(crate) fn label(entry: &Entry, named: bool) -> EdgeLabel {
    EdgeLabel {
        owner: None,
        also: Vec::new(),
        name: entry
            .clause("named")
            .filter(|_| named)
            .and_then(|clause| clause.filled.name("NAME"))
            .map(|(name, _)| name.to_owned()),
        place: entry.place,
    }
}

/// Whether a key is a step of a path.
pub(crate) fn is_step(word: &str) -> bool {
    matches!(
        word,
        "north" | "east" | "south" | "west" | "bearing" | "to" | "curve" | "close"
    )
}

fn moved(from: Point, bearing: f64, length: f64) -> Point {
    from + Vector::from_bearing(bearing) * length
}

fn along_compass(bearing: f64) -> bool {
    let quarter = bearing.rem_euclid(90.0);
    quarter.min(90.0 - quarter) < 1e-6
}

impl Turn {
    /// The sign of a bulge that turns this way.
    pub fn sign(self) -> f64 {
        match self {
            Turn::Left => 1.0,
            Turn::Right => -1.0,
        }
    }
}

/// Turns each curve that bulges outward to the outer side, which is known
/// only when the whole way round is.
fn settle_bulges(steps: &mut [Step<'_>]) {
    let around: f64 = steps
        .iter()
        .map(|step| (step.start - Point::ORIGIN).cross(step.end - Point::ORIGIN))
        .sum();
    let way = if around < 0.0 { -1.0 } else { 1.0 };
    for step in steps {
        if let (true, Some(turn)) = (step.outward, step.turning) {
            step.bulge *= turn.sign();
            continue;
        }
        if step.outward {
            step.bulge *= way;
        }
        if step.inward {
            step.bulge = -step.bulge;
        }
    }
}
