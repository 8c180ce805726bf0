//! A path with a width: an open line, and the strip that lies beside it.

use super::super::job::{EdgeLabel, Shape, Stated};
use super::super::reading::Entry;
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::path::{Step, label, tag_of};
use super::want::Range;
use crate::findings::{FileId, Finding, Fix, Place};
use crate::geometry::{Fault, Ribbon, Vector, ribbon};
use crate::units::show;
use crate::vocabulary::{Turn, ValueKind};

/// What the edges of a strip are called, but for the steps' own names.
const SIDES: [&str; 4] = ["left", "right", "first", "last"];

/// Ways nearer than this, in radians, are one.
const SAME_WAY: f64 = 1e-9;

impl Resolver<'_> {
    /// A `width` in a shape that is no open line; whether there is one.
    pub(crate) fn misplaced_width(&mut self, width: &Entry, other: &Entry) {
        let word = other.key.map_or("", |key| key.word);
        let message = match word {
            "close" => "a closed path has no width: take out `close`, or `width`".to_owned(),
            _ => format!("a width belongs to a path; `{word}` gives the whole outline"),
        };
        self.find(
            Finding::new("entry-misplaced", width.place, message)
                .related(other.place, "the outline is given here"),
        );
    }

    /// Builds the strip beside the path of a section; whether there is one.
    pub(crate) fn ribbon(
        &mut self,
        section: &LogicalSection,
        width: &Entry,
        shape: &mut Shape,
        file: FileId,
    ) -> bool {
        self.ribbon_of(section, width, shape, file).is_some()
    }

    fn ribbon_of(
        &mut self,
        section: &LogicalSection,
        width: &Entry,
        shape: &mut Shape,
        file: FileId,
    ) -> Option<()> {
        let stated = self.wanted(
            &width.filled,
            "WIDTH",
            ValueKind::Length,
            Range::Positive,
            file,
        )?;
        let across = stated.value.si();
        let (left, right) = match (width.clause("left"), width.clause("right")) {
            (None, None) => (0.5 * across, 0.5 * across),
            (Some(_), None) => (across, 0.0),
            (None, Some(_)) => (0.0, across),
            (Some(first), Some(second)) => {
                self.find(
                    Finding::new(
                        "entry-twice",
                        second.place,
                        "the width lies to the left or to the right; for both leave the side out",
                    )
                    .related(first.place, "the other side is here"),
                );
                return None;
            }
        };
        let (edges, mut labels) = self.line(section, file)?;
        for label in &mut labels {
            if label.name.is_some() {
                label.also.push((None, Some("left".to_owned())));
            } else {
                label.name = Some("left".to_owned());
            }
        }
        self.reserved_sides(section);
        let mut side = |name: &str| {
            let tag = tag_of(labels.len());
            labels.push(EdgeLabel {
                name: Some(name.to_owned()),
                ..label(width, false)
            });
            tag
        };
        let right_tag = side("right");
        let sides = Ribbon {
            left,
            right,
            right_tag,
            end_tags: [side("first"), side("last")],
        };
        let place_of = |index: usize| {
            let tag = edges.get(index).map(|edge| edge.tag as usize);
            let label = tag.and_then(|tag| labels.get(tag));
            label.map_or(width.place, |label| label.place)
        };
        match ribbon(&edges, sides) {
            Ok(outline) => {
                shape.outline = Some(outline);
                shape.labels = labels;
                Some(())
            }
            Err(Fault::Tight { radius, edge }) => {
                let bends_left = edges.get(edge).is_some_and(|edge| edge.bulge > 0.0);
                let inside = if bends_left { left } else { right };
                self.too_tight((radius, inside), place_of(edge), width.place);
                None
            }
            Err(Fault::Crossed {
                at,
                edges: (one, other),
            }) => {
                let (first, second) = (place_of(one.min(other)), place_of(one.max(other)));
                let length = |metres: f64| show::length(metres, self.system);
                let finding = Finding::new(
                    "outline-crossed",
                    second,
                    format!(
                        "too near itself at ({}, {}) for a width of {}: move the line apart, or make it narrower",
                        length(at.x),
                        length(at.y),
                        show::quantity(&stated.value, self.system),
                    ),
                );
                self.find(match first == second {
                    true => finding,
                    false => finding.related(first, "it meets what lies along this step"),
                });
                None
            }
            Err(fault) => {
                self.fault(fault, width.place, &[]);
                None
            }
        }
    }

    fn too_tight(&mut self, (radius, inside): (f64, f64), step: Place, width: Place) {
        let length = |metres: f64| show::length(metres, self.system);
        self.find(
            Finding::new(
                "corner-large",
                step,
                format!(
                    "this bend has a radius of {}, and {} of the width lies on its inside: bend it less, or make it narrower",
                    length(radius),
                    length(inside),
                ),
            )
            .related(width, "the width is here"),
        );
    }

    /// A step called by the name that a side of the strip has anyway.
    fn reserved_sides(&mut self, section: &LogicalSection) {
        for entry in section.entries() {
            let named = entry.clause("named");
            let Some((name, place)) = named.and_then(|clause| clause.filled.name("NAME")) else {
                continue;
            };
            if SIDES.contains(&name) {
                self.find(Finding::new(
                    "name-twice",
                    place,
                    format!(
                        "a path with a width has an edge `{name}` already: name this step otherwise"
                    ),
                ));
            }
        }
    }

    /// Which way a curve of an open line bends: as it says, else so that it
    /// runs on from the step before as smoothly as it can.
    pub(crate) fn settle_turn(
        &mut self,
        step: &mut Step<'_>,
        before: Option<Vector>,
    ) -> Option<()> {
        let entry = step.entry;
        if let Some(inward) = entry.clause("inward") {
            let finding = Finding::new(
                "entry-misplaced",
                inward.place,
                "an open line has no inside: say which way the curve turns",
            );
            self.find(turns(finding, inward.place, ""));
            return None;
        }
        let chord = step.end - step.start;
        let turn = before.map_or(0.0, |before| before.angle_to(chord));
        if step.runs_on {
            return self.run_on(step, before.is_some(), turn);
        }
        if !step.outward {
            return Some(());
        }
        let turning = match step.turning {
            Some(turning) => turning,
            None if turn.abs() > SAME_WAY && turn > 0.0 => Turn::Left,
            None if turn.abs() > SAME_WAY => Turn::Right,
            None => {
                let last = entry.clauses.last();
                let end = last.map_or(entry.place, |clause| clause.place).end();
                let finding = Finding::new(
                    "entry-missing",
                    entry.place,
                    "this curve may turn either way: say which",
                );
                self.find(turns(finding, end, ", "));
                return None;
            }
        };
        step.bulge *= turning.sign();
        Some(())
    }

    /// The arc that the step before runs on into without a corner, whose chord
    /// turns by `turn` off that step.
    fn run_on(&mut self, step: &mut Step<'_>, has_before: bool, turn: f64) -> Option<()> {
        // A tangent of a circle and a chord from its foot are apart by half
        // the sweep.
        step.bulge = (0.5 * turn).tan();
        if has_before && step.bulge.abs() < 1e6 {
            return Some(());
        }
        self.find(
            Finding::new(
                "entry-missing",
                step.entry.place,
                "this curve has no radius, and no step before it that it could run on from",
            )
            .help("It is written `curve to (6 m, 2 m), radius 2 m, turning left`."),
        );
        None
    }

    /// A curve through a point, told at the same time which way it turns.
    pub(crate) fn turn_agrees(&mut self, entry: &Entry, bulge: f64) -> Option<()> {
        let Some(clause) = entry.clause("turning") else {
            return Some(());
        };
        let said: Stated<Turn> = clause.filled.chosen("TURN")?;
        let turns = if bulge > 0.0 { Turn::Left } else { Turn::Right };
        if said.value == turns {
            return Some(());
        }
        self.find(
            Finding::new(
                "value-range",
                clause.place,
                format!("through this point the curve turns {}", turns.word()),
            )
            .fix(Fix::judged(
                format!("Write `turning {}`", turns.word()),
                said.place,
                turns.word(),
            )),
        );
        None
    }

    /// A rounded or cut corner at the end of an open line.
    pub(crate) fn no_corner_at_end(&mut self, entry: &Entry) {
        let clause = entry.clause("corner").or_else(|| entry.clause("chamfer"));
        if let Some(clause) = clause {
            self.find(Finding::new(
                "entry-misplaced",
                clause.place,
                "the line ends here and turns no corner",
            ));
        }
    }
}

/// A finding with a fix for each way that a curve may turn.
fn turns(finding: Finding, place: Place, before: &str) -> Finding {
    Turn::ALL.iter().fold(finding, |finding, turn| {
        let text = format!("turning {}", turn.word());
        finding.fix(Fix::judged(
            format!("Write `{text}`"),
            place,
            format!("{before}{text}"),
        ))
    })
}
