//! Surfaces worked out.

use std::sync::Arc;

use super::super::job::{
    Door, Edging, Guard, Held, Joint, Laid, Repeat, Shape, Stated, Stones, Substance, Surface, Use,
};
use super::super::reading::{Clause, Entry, Value};
use super::adjacency::Corners;
use super::definitions::{Definition, LogicalSection};
use super::dependencies::Subject;
use super::draft::{Along, Draft};
use super::evaluate::Resolver;
use super::heading::text_of;
use super::want::Range;
use crate::findings::{FileId, Finding, Place};
use crate::geometry::{Outline, Point, Tag};
use crate::units::Quantity;
use crate::vocabulary::{Pattern, Swing, ValueKind};

const OWN: FileId = FileId(0);

impl Resolver<'_> {
    /// Every surface of the file itself, in order, as far as its own section
    /// says it; each is given once.
    pub(crate) fn all_surfaces(&mut self) -> Vec<Draft> {
        let own = self.own("surface").into_iter();
        own.filter_map(|(definition, _)| self.take_surface(definition))
            .collect()
    }

    /// A surface as far as its own section says it; it is given once.
    pub(crate) fn take_surface(&mut self, definition: Definition) -> Option<Draft> {
        self.work_surface(definition);
        let draft = self.done.surfaces.get_mut(&definition)?.take();
        draft.map(|draft| *draft)
    }

    /// Works a surface out, unless that is done.
    pub(crate) fn work_surface(&mut self, definition: Definition) {
        if self.done.surfaces.contains_key(&definition) {
            return;
        }
        let Some(section) = self.section(definition) else {
            return;
        };
        let draft = self
            .on(Subject::Surface(definition), |resolver| {
                resolver.surface(definition, section)
            })
            .map(Box::new);
        self.done.surfaces.insert(definition, draft);
    }

    fn surface(&mut self, definition: Definition, section: &LogicalSection) -> Option<Draft> {
        let name = section.name()?;
        let repeat = self.work_repeat(definition);
        let repeat_unread = repeat.is_none() && section.repeats().is_some();
        let shape = section.entry("shape").and_then(|entry| {
            let (name, place) = entry.filled.name("SHAPE")?;
            let shape = self.shape_named(name, place, OWN)?;
            Some(Stated::new(shape, entry.place))
        });
        let length = |resolver: &mut Self, key: &str, slot: &str, range: Range| {
            let entry = section.entry(key)?;
            let stated = resolver.wanted(&entry.filled, slot, ValueKind::Length, range, OWN)?;
            Some(stated)
        };
        let isolation_joint = length(self, "isolation-joint", "WIDTH", Range::Positive);
        let movement_joints = length(self, "movement-joints", "SPACING", Range::Positive);
        let weeps = length(self, "weeps", "SPACING", Range::Positive);
        let runoff = section.entry("runoff").and_then(|entry| {
            let (filled, kind) = (&entry.filled, ValueKind::Share);
            self.wanted(filled, "SHARE", kind, Range::Share, OWN)
        });
        let build = section.entry("build").and_then(|entry| {
            let (name, place) = entry.filled.name("BUILD")?;
            let build = self.build_named(name, place, OWN)?;
            Some(Stated::new(build, entry.place))
        });
        let used_for = section.entry("for");
        let said = |word: &str| used_for?.clause(word).map(|clause| clause.place);
        let mut surface = Surface {
            name: Stated::new(name.value.to_owned(), name.place),
            index: 0,
            has_lost_line: section.has_lost_line(),
            meets_unread: false,
            laid_unread: false,
            section: section.at(),
            place: section.place(),
            written: section
                .entries()
                .filter_map(|entry| Some((entry.key?.word, entry.place)))
                .collect(),
            outline: shape
                .as_ref()
                .filter(|_| !repeat_unread)
                .and_then(|shape| shape.value.outline.clone()),
            shape: shape.clone(),
            sides: Vec::new(),
            overlaps: Vec::new(),
            used_for: used_for
                .and_then(|entry| entry.filled.chosen("USE"))
                .map_or(Use::Foot, |stated| stated.value),
            used_for_place: used_for.map(|entry| entry.place),
            seating: said("seating"),
            accessible: said("accessible"),
            front: said("front"),
            exit: said("exit"),
            covered: said("covered"),
            meets: Vec::new(),
            channels: Vec::new(),
            drained: Vec::new(),
            doors: Vec::new(),
            guards: Vec::new(),
            handrail: section.entry("handrail").and_then(|entry| {
                let side = entry.filled.chosen("SIDE")?;
                Some(Stated::new(side.value, entry.place))
            }),
            levels: Vec::new(),
            fall: None,
            fall_to: None,
            facets: Vec::new(),
            border_of: None,
            repeat: repeat.map(|own| Repeat::clone(&own)),
            repeat_unread,
            others: Vec::new(),
            plane: None,
            build,
            laid: None,
            joint: self.joint(section),
            borders: Vec::new(),
            edgings: Vec::new(),
            held: Vec::new(),
            isolation_joint,
            movement_joints,
            weeps,
            runoff,
            water: section.entry("water").and_then(|entry| self.outlet(entry)),
            notes: section
                .all("note")
                .filter_map(|entry| text_of(Some(entry), "NOTE"))
                .collect(),
        };
        let outline_of: Option<Arc<Shape>> = shape.map(|shape| shape.value);
        if let Some(shape) = &outline_of {
            surface.meets = self.edges_named("meets", section, shape);
            let written = section
                .all("meets")
                .flat_map(|entry| entry.filled.all("EDGE"));
            let may_meet = section.entry("meets").is_none() && surface.has_lost_line;
            surface.meets_unread = may_meet || surface.meets.len() < written.count();
            surface.channels = self.edges_named("channel", section, shape);
            surface.doors = self.doors(section, shape);
            surface.guards = self.guards(section, shape);
            surface.levels = self.levels(section, shape, OWN);
            surface.fall = self.fall(section, shape, OWN);
            surface.fall_to = self.fall_to(section);
            surface.plane = self.plane(section, shape, &surface.levels, surface.fall.as_ref());
        }
        surface.laid = self.laid(section, outline_of.as_deref());
        let states_size = section.entry("laid").is_some_and(|entry| {
            entry.clause("units").is_some() || entry.clause("stones").is_some()
        });
        surface.laid_unread = states_size && !surface.laid.as_ref().is_some_and(Laid::has_size);
        let edgings = self.edgings(section, outline_of.as_deref(), surface.meets_unread);
        let (edgings, mut along): (Vec<_>, Vec<_>) = edgings.into_iter().unzip();
        surface.edgings = edgings;
        for (held, runs) in self.held(section, outline_of.as_deref(), surface.meets_unread) {
            surface.held.push(held);
            along.push(runs);
        }
        for (border, runs) in self.borders(section, outline_of.as_deref(), surface.meets_unread) {
            surface.borders.push(border);
            along.push(runs);
        }
        let corners = surface.shape.as_ref().filter(|_| !repeat_unread);
        let corners = corners.and_then(|shape| {
            let shape = &shape.value;
            let drawn = shape.outline.as_ref().or(shape.sketch.as_ref());
            let others = surface.repeat.iter().flat_map(|own| &own.outlines);
            around(drawn.into_iter().chain(others))
        });
        Some(Draft {
            corners,
            is_unplaced: corners.is_none() && section.entry("shape").is_some(),
            surface,
            along,
        })
    }

    /// The edges that the entries of a key name.
    fn edges_named(
        &mut self,
        key: &str,
        section: &LogicalSection,
        shape: &Shape,
    ) -> Vec<Stated<(String, Vec<Tag>)>> {
        section
            .all(key)
            .flat_map(|entry| entry.filled.all("EDGE"))
            .filter_map(|(edge, place)| Some(Stated::new(self.edge(shape, edge, place)?, place)))
            .collect()
    }

    /// The doors that open on a surface.
    fn doors(&mut self, section: &LogicalSection, shape: &Shape) -> Vec<Door> {
        let entries = section.all("door");
        entries
            .filter_map(|entry| {
                let at = self.spot_of(entry, shape, OWN)?;
                let swings = entry.clause("swings");
                let way = swings.and_then(|clause| clause.filled.chosen::<Swing>("WAY"));
                let swings_in = way.is_some_and(|way| way.value == Swing::In);
                Some(Door {
                    at,
                    is_clear: swings_in || entry.clause("slides").is_some(),
                    place: whole(entry),
                })
            })
            .collect()
    }

    /// The guards against a fall.
    fn guards(&mut self, section: &LogicalSection, shape: &Shape) -> Vec<Stated<Guard>> {
        let mut guards = Vec::new();
        for entry in section.all("guard") {
            let edges: Vec<_> = entry.filled.all("EDGE").collect();
            let guard = match edges.is_empty() {
                true => Guard::Free,
                false => {
                    let tags = edges
                        .into_iter()
                        .filter_map(|(edge, place)| self.edge(shape, edge, place));
                    Guard::Along(tags.flat_map(|(_, tags)| tags).collect())
                }
            };
            guards.push(Stated::new(guard, entry.place));
        }
        guards
    }

    fn laid(&mut self, section: &LogicalSection, shape: Option<&Shape>) -> Option<Laid> {
        let entry = section.entry("laid")?;
        let pattern = entry.filled.chosen("PATTERN")?;
        let length = |resolver: &mut Self, clause: &Clause, slot: &str| {
            resolver.wanted(
                &clause.filled,
                slot,
                ValueKind::Length,
                Range::Positive,
                OWN,
            )
        };
        let stones = match entry.clause("stones") {
            None => None,
            Some(clause) if clause.filled.get("SIZE").is_some() => {
                length(self, clause, "SIZE").map(Stones::About)
            }
            Some(clause) => {
                let least = length(self, clause, "LEAST");
                let most = length(self, clause, "MOST");
                match (least, most) {
                    (Some(least), Some(most)) => {
                        if Self::is_less(most.value, least.value) {
                            self.find(Finding::new(
                                "value-range",
                                clause.place,
                                "the greatest stone is smaller than the least",
                            ));
                        }
                        Some(Stones::Between(least, most))
                    }
                    _ => None,
                }
            }
        };
        let of_units = self.units_laid(entry, &pattern);
        let angle = entry.clause("angle").and_then(|clause| {
            self.wanted(&clause.filled, "ANGLE", ValueKind::Angle, Range::Any, OWN)
        });
        let along = entry
            .clause("along")
            .zip(shape)
            .and_then(|(clause, shape)| {
                let (edge, place) = clause.filled.get("EDGE")?;
                let (name, tags) = self.edge(shape, edge, place)?;
                Some((Stated::new(name, place), tags))
            });
        let offset = self.row_offset(entry, &pattern);
        let from = entry
            .clause("from")
            .and_then(|clause| self.point(&clause.filled, "START", OWN));
        Some(Laid {
            offset,
            from,
            pattern,
            stones,
            units: of_units.units,
            sizes: of_units.sizes,
            wide: of_units.wide,
            centre: of_units.centre,
            angle,
            along,
            place: whole(entry),
        })
    }

    /// How far each row is moved on from the one before.
    fn row_offset(&mut self, entry: &Entry, pattern: &Stated<Pattern>) -> Option<Stated<Quantity>> {
        let clause = entry.clause("offset")?;
        if pattern.value != Pattern::RunningBond {
            let message = format!(
                "only running bond has an offset, not {}",
                pattern.value.word()
            );
            self.find(Finding::new("entry-misplaced", clause.place, message));
            return None;
        }
        let (filled, kind) = (&clause.filled, ValueKind::Number);
        let offset = self.wanted(filled, "SHARE", kind, Range::Positive, OWN)?;
        if offset.value.si() < 1.0 {
            return Some(offset);
        }
        let message = "an offset is a part of a unit, such as 1/3";
        self.find(Finding::new("value-range", offset.place, message));
        None
    }

    fn joint(&mut self, section: &LogicalSection) -> Option<Joint> {
        let entry = section.entry("joint")?;
        let width = self.wanted(
            &entry.filled,
            "WIDTH",
            ValueKind::Length,
            Range::NotNegative,
            OWN,
        )?;
        let depth = entry.clause("depth").and_then(|clause| {
            self.wanted(
                &clause.filled,
                "DEPTH",
                ValueKind::Length,
                Range::Positive,
                OWN,
            )
        });
        let filling = entry.clause("filled").and_then(|clause| {
            let (name, place) = clause.filled.name("FILLING")?;
            Some(Stated::new(self.substance_named(name, place, OWN), place))
        });
        Some(Joint {
            width,
            depth,
            filling,
            place: whole(entry),
        })
    }

    /// The edgings, each with the sides that it is to run along.
    fn edgings(
        &mut self,
        section: &LogicalSection,
        shape: Option<&Shape>,
        meets_unread: bool,
    ) -> Vec<(Edging, Along)> {
        let mut edgings = Vec::new();
        for entry in section.all("edging") {
            let Some((name, place)) = entry.filled.name("MATERIAL") else {
                continue;
            };
            let material: Substance = self.substance_named(name, place, OWN);
            let along = shape.map_or(Along::Unknown, |shape| self.along(entry, shape));
            let along = match along {
                Along::Free { .. } if meets_unread => Along::Unknown,
                along => along,
            };
            let above = entry.values().next().and_then(|clause| {
                let filled = &clause.filled;
                self.wanted(filled, "HEIGHT", ValueKind::Length, Range::NotNegative, OWN)
            });
            if let (Some(flush), Some(_)) = (entry.clause("flush"), &above) {
                let message = "an edging is flush or stands above the paving: which?";
                self.find(Finding::new("entry-twice", flush.place, message));
            }
            let (waste, is_waste_unread) = self.waste_of(entry);
            let stands = above.as_ref().map(|above| self.stands(above, &material));
            let mut footing = self.footing(entry, &material);
            if let (Some(footing), Some(None)) = (&mut footing, stands) {
                footing.is_read = false;
            }
            let edging = Edging {
                waste,
                is_waste_unread,
                footing,
                above,
                material: Stated::new(material, place),
                along: Vec::new(),
                is_known: false,
                place: whole(entry),
            };
            edgings.push((edging, along));
        }
        edgings
    }

    /// What stands already and holds edges, each with the sides that it holds.
    fn held(
        &mut self,
        section: &LogicalSection,
        shape: Option<&Shape>,
        meets_unread: bool,
    ) -> Vec<(Held, Along)> {
        let in_place = |entry: &&Entry| entry.complete && entry.filled.name("MATERIAL").is_none();
        let mut all = Vec::new();
        for entry in section.all("edging").filter(in_place) {
            self.no_footing_in_place(entry);
            let along = shape.map_or(Along::Unknown, |shape| self.along(entry, shape));
            let along = match along {
                Along::Free { .. } if meets_unread => Along::Unknown,
                along => along,
            };
            let held = Held {
                is_there: true,
                along: Vec::new(),
                place: whole(entry),
            };
            all.push((held, along));
        }
        all
    }

    /// The sides that an edging runs along: the free ones if it does not say.
    pub(super) fn along(&mut self, entry: &Entry, shape: &Shape) -> Along {
        let named = |resolver: &mut Self, slot: &str| -> Vec<Tag> {
            let Some(clause) = entry.clause("along") else {
                return Vec::new();
            };
            clause
                .filled
                .all(slot)
                .filter_map(|(edge, place)| resolver.edge(shape, edge, place))
                .flat_map(|(_, tags)| tags)
                .collect()
        };
        let is_free_clause = entry
            .clause("along")
            .is_none_or(|clause| !clause.filled.0.iter().any(|(slot, ..)| *slot == "EDGE"));
        let unreadable = entry.clause("along").is_some_and(|clause| {
            clause
                .filled
                .0
                .iter()
                .any(|(_, value, _)| *value == Value::Unreadable)
        });
        let except = named(self, "EXCEPT");
        let edges = named(self, "EDGE");
        match (unreadable, is_free_clause) {
            (true, _) => Along::Unknown,
            (false, true) => Along::Free { except },
            (false, false) => Along::Edges(edges),
        }
    }
}

/// The corners of the upright rectangle around outlines.
fn around<'a>(outlines: impl Iterator<Item = &'a Outline>) -> Option<Corners> {
    let boxes = outlines.map(Outline::bounding_box);
    boxes.reduce(|(low, high), (other_low, other_high)| {
        (
            Point::new(low.x.min(other_low.x), low.y.min(other_low.y)),
            Point::new(high.x.max(other_high.x), high.y.max(other_high.y)),
        )
    })
}

/// An entry with its clauses.
fn whole(entry: &Entry) -> Place {
    let last = entry
        .clauses
        .last()
        .map_or(entry.place, |clause| clause.place);
    entry.place.to(last)
}
