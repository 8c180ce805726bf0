//! The `drain` sections worked out.

use std::sync::Arc;

use super::super::job::{
    Bedding, Drain, DrainBody, DrainKind, DrainLine, Drains, Filling, Invert, Job, Pipe, Pit,
    Stated, Substance, Surface, Taken, Takes,
};
use super::super::reading::{Clause, Entry, Filled, Value};
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::heading::text_of;
use super::want::Range;
use crate::findings::{FileId, Finding, Place};
use crate::geometry::{Edge, Tag};
use crate::text::with_article;
use crate::units::{Quantity, show};
use crate::vocabulary::{NameSpace, ValueKind};

const OWN: FileId = FileId(0);

/// The keys that say what a drain is, of which it has one; a trench may hold
/// a pipe.
const BODIES: [&str; 5] = ["trench", "channel", "gully", "pipe", "soakaway"];

impl Resolver<'_> {
    /// Fills in the drains, in order. They are few, and worked out anew at
    /// each edit.
    pub(crate) fn drains(&mut self, job: &mut Job) {
        let mut drains = Vec::new();
        for (_, section) in self.own("drain") {
            let Some(name) = section.name() else { continue };
            let name = Stated::new(name.value.to_owned(), name.place);
            drains.push(Arc::new(
                DrainReading::of(self, &job.surfaces, section).drain(name),
            ));
        }
        job.drains = Arc::new(Drains::new(drains));
        job.note_drained();
        self.facets(job);
    }
}

impl Job {
    /// Notes at each surface along which of its edges a drain channel lies;
    /// a surface of which that stays the same stays what it is.
    fn note_drained(&mut self) {
        for index in 0..self.surfaces.len() {
            let Some(surface) = self.surfaces.get(index) else {
                continue;
            };
            let drained: Vec<Stated<Vec<Tag>>> = self
                .drains
                .iter()
                .filter_map(|drain| {
                    let line = drain.line.as_ref()?;
                    let DrainLine::Along {
                        surface: own, tags, ..
                    } = &line.value
                    else {
                        return None;
                    };
                    let is_here = *own == surface.name.value;
                    let is_inside = drain.kind() == Some(DrainKind::Channel);
                    (is_here && is_inside).then(|| Stated::new(tags.clone(), line.place))
                })
                .collect();
            if drained == surface.drained {
                continue;
            }
            if let Some(surface) = Arc::make_mut(&mut self.surfaces).get_mut(index) {
                Arc::make_mut(surface).drained = drained;
            }
        }
    }
}

/// A drain section as it is being read.
struct DrainReading<'r, 'a, 's> {
    resolver: &'r mut Resolver<'a>,
    surfaces: &'s [Arc<Surface>],
    section: &'s LogicalSection,
    /// Whether something that is written could not be made out.
    is_unread: bool,
}

impl<'r, 'a, 's> DrainReading<'r, 'a, 's> {
    fn of(
        resolver: &'r mut Resolver<'a>,
        surfaces: &'s [Arc<Surface>],
        section: &'s LogicalSection,
    ) -> Self {
        DrainReading {
            resolver,
            surfaces,
            section,
            is_unread: section.has_lost_line() || section.entries().any(|entry| !entry.is_sound),
        }
    }

    fn drain(mut self, name: Stated<String>) -> Drain {
        let section = self.section;
        let body = self.body();
        let line = self.line();
        let kind = body.as_ref().map(|body| body.value.kind());
        let fall = self.fitting(kind, "fall");
        let slope = fall.and_then(|entry| {
            self.quantity(&entry.filled, "SLOPE", ValueKind::Slope, Range::NotNegative)
        });
        let toward = fall.and_then(|entry| {
            let (heading, _) = entry.filled.get("HEADING")?;
            self.resolver.direction(heading, OWN)
        });
        let inverts = section.all("invert");
        let inverts = inverts.filter_map(|entry| self.invert(entry)).collect();
        let to = section.entry("to");
        let to = to.and_then(|entry| self.noted(|resolver| resolver.outlet(entry)));
        let overflow = section.entry("overflow");
        let overflow = overflow.and_then(|entry| self.noted(|resolver| resolver.outlet(entry)));
        let takes = section.all("takes");
        let takes = takes.map(|entry| self.takes(entry)).collect();
        let wrapped = self.fitting(kind, "wrapped");
        let bedded = self.fitting(kind, "bedded");
        let filled = self.fitting(kind, "filled");
        Drain {
            name,
            section: section.at(),
            place: section.place(),
            written: section
                .entries()
                .filter_map(|entry| Some((entry.key?.word, entry.place)))
                .collect(),
            body,
            existing: section.entry("existing").map(|entry| entry.place),
            line,
            bedded: bedded.and_then(|entry| self.bedding(entry)),
            fall: slope,
            toward,
            inverts,
            filled: filled.and_then(|entry| self.filling(entry)),
            wrapped: wrapped.and_then(|entry| self.substance(&entry.filled, "FABRIC")),
            to,
            overflow,
            takes,
            notes: section
                .all("note")
                .filter_map(|entry| text_of(Some(entry), "NOTE"))
                .collect(),
            is_unread: self.is_unread,
        }
    }

    /// The entry with a key, unless a drain of this kind has none such, which
    /// is told of.
    fn fitting(&mut self, kind: Option<DrainKind>, key: &str) -> Option<&'s Entry> {
        let entry = self.section.entry(key)?;
        let Some(why) = kind.and_then(|kind| why_not(kind, key)) else {
            return Some(entry);
        };
        let kind = kind.map_or("drain", |kind| kind.called_in(self.resolver.region));
        let message = format!("{} {why}", with_article(kind));
        self.resolver
            .find(Finding::new("entry-misplaced", entry.place, message));
        None
    }

    /// What is written and gives nothing is noted as unread.
    fn noted<T>(&mut self, read: impl FnOnce(&mut Resolver<'a>) -> Option<T>) -> Option<T> {
        let found = read(self.resolver);
        self.is_unread |= found.is_none();
        found
    }

    fn quantity(
        &mut self,
        filled: &Filled,
        slot: &str,
        kind: ValueKind,
        range: Range,
    ) -> Option<Stated<Quantity>> {
        self.noted(|resolver| resolver.wanted(filled, slot, kind, range, OWN))
    }

    fn length(&mut self, filled: &Filled, slot: &str) -> Option<Stated<Quantity>> {
        self.quantity(filled, slot, ValueKind::Length, Range::Positive)
    }

    /// A length that a clause gives, if the entry has the clause.
    fn length_of(&mut self, clause: Option<&Clause>, slot: &str) -> Option<Stated<Quantity>> {
        clause.and_then(|clause| self.length(&clause.filled, slot))
    }

    fn substance(&mut self, filled: &Filled, slot: &str) -> Option<Stated<Substance>> {
        let (name, place) = filled.name(slot)?;
        Some(Stated::new(
            self.resolver.substance_named(name, place, OWN),
            place,
        ))
    }

    /// The entry that says what the drain is. Of several the first of the
    /// section counts, but for a pipe in a trench.
    fn body_entry(&mut self) -> Option<&'s Entry> {
        let is_body = |entry: &&Entry| entry.key.is_some_and(|key| BODIES.contains(&key.word));
        let word = |entry: &Entry| entry.key.map_or("", |key| key.word);
        let section = self.section;
        let all: Vec<&'s Entry> = section.entries().filter(is_body).collect();
        let trench = all.iter().find(|entry| word(entry) == "trench");
        let first = trench.or(all.first()).copied();
        let Some(first) = first else {
            // A line that cannot be read may be it.
            let is_told = section.parts().any(|part| !part.findings.is_empty());
            if !is_told {
                self.no_body();
            }
            return None;
        };
        for other in &all {
            let is_same = word(other) == word(first);
            let is_in_trench = word(first) == "trench" && word(other) == "pipe";
            if is_same || is_in_trench {
                continue;
            }
            let message = format!(
                "one drain is one thing, and this one is a {}: make a drain of its own for the {}",
                word(first),
                word(other)
            );
            self.resolver.find(
                Finding::new("entry-misplaced", other.place, message)
                    .related(first.place, "what this drain is"),
            );
        }
        Some(first)
    }

    fn no_body(&mut self) {
        let message =
            "this drain does not say what it is: a channel, gully, pipe, trench or soakaway";
        self.resolver.find(
            Finding::new("entry-missing", self.section.place(), message).help(
                "It is written `pipe plastic-pipe, 110 mm, from (3 m, -2 m) to (9 m, -4 m)`.",
            ),
        );
    }

    fn body(&mut self) -> Option<Stated<DrainBody>> {
        let entry = self.body_entry()?;
        let filled = &entry.filled;
        let body = match entry.key.map_or("", |key| key.word) {
            "channel" => {
                let clear = ending(entry, "clear");
                let width = self.length_of(clear, "CLEAR_WIDTH");
                let depth = self.length_of(clear, "CLEAR_DEPTH");
                let over_all = self.length_of(ending(entry, "over all"), "OVER_ALL");
                let message = "the channel is wider inside than over all: are the two swapped?";
                self.is_within(&width, &over_all, message);
                DrainBody::Channel {
                    of: self.substance(filled, "BODY")?,
                    clear: width.zip(depth),
                    over_all,
                    at_door: ending(entry, "door").map(|clause| clause.place),
                }
            }
            "gully" => DrainBody::Gully {
                of: self.substance(filled, "BODY"),
                wide: self.length_of(ending(entry, "wide"), "WIDE"),
            },
            "pipe" => DrainBody::Pipe(self.pipe(entry)?),
            "trench" => {
                let pipe = self.section.entry("pipe");
                let wide = self.length(filled, "WIDE")?;
                let deep = self.length_of(ending(entry, "deep"), "DEEP");
                let pipe = pipe.and_then(|entry| self.pipe(entry));
                let size = pipe.as_ref().and_then(|pipe| pipe.size.clone());
                self.holds(&wide, &size, "wide");
                if let Some(deep) = &deep {
                    self.holds(deep, &size, "deep");
                }
                DrainBody::Trench { wide, deep, pipe }
            }
            _ => {
                let deep = match filled.get("DEEP") {
                    Some(_) => self.length(filled, "DEEP"),
                    None => self.length_of(ending(entry, "deep"), "DEEP"),
                };
                let pit = match filled.get("ACROSS") {
                    Some(_) => Pit::Round(self.length(filled, "ACROSS")?),
                    None => {
                        let long = self.length(filled, "LONG");
                        Pit::Box(long?, self.length(filled, "WIDE")?)
                    }
                };
                DrainBody::Soakaway {
                    pit,
                    deep,
                    base_counted: ending(entry, "counted").map(|clause| clause.place),
                }
            }
        };
        Some(Stated::new(body, whole(entry)))
    }

    fn pipe(&mut self, entry: &Entry) -> Option<Pipe> {
        let size = self.length_of(ending(entry, "SIZE:length"), "SIZE");
        let bore = self.length_of(entry.clause("bore"), "BORE");
        let message = "the bore is wider than the pipe: the outside stands first, then bore";
        self.is_within(&bore, &size, message);
        Some(Pipe {
            of: self.substance(&entry.filled, "BODY")?,
            size,
            bore,
        })
    }

    /// Tells of a trench that the pipe in it does not go into.
    fn holds(
        &mut self,
        trench: &Stated<Quantity>,
        pipe: &Option<Stated<Quantity>>,
        how: &'static str,
    ) {
        let Some(pipe) = pipe else { return };
        if Resolver::is_less(trench.value, pipe.value) {
            let size = show::quantity(&pipe.value, self.resolver.system);
            let message = format!(
                "a pipe of {size} does not go into a trench that is less than {size} {how}: which of the two is right?"
            );
            let finding = Finding::new("value-range", trench.place, message);
            self.resolver.find(finding.related(pipe.place, "the pipe"));
            self.is_unread = true;
        }
    }

    /// Tells of an inside that is wider than its outside.
    fn is_within(
        &mut self,
        inside: &Option<Stated<Quantity>>,
        outside: &Option<Stated<Quantity>>,
        message: &'static str,
    ) {
        let (Some(inside), Some(outside)) = (inside, outside) else {
            return;
        };
        if Resolver::is_less(outside.value, inside.value) {
            let finding = Finding::new("value-range", inside.place, message);
            self.resolver
                .find(finding.related(outside.place, "the outside"));
            self.is_unread = true;
        }
    }

    /// Where the drain runs or stands.
    fn line(&mut self) -> Option<Stated<DrainLine>> {
        let section = self.section;
        let mut entries = BODIES.iter().filter_map(|key| section.entry(key));
        let entry = entries.find(|entry| {
            let has = |word: &str| entry.clause(word).is_some();
            has("along")
                || has("from")
                || has("at")
                || has("centre")
                || entry.filled.get("AT").is_some()
        })?;
        if let Some(clause) = entry.clause("along") {
            let line = self.along(clause)?;
            return Some(Stated::new(line, clause.place));
        }
        if let Some(clause) = entry.clause("from") {
            let line = self.noted(|resolver| {
                let from = resolver.point(&clause.filled, "FROM", OWN);
                let to = resolver.point(&clause.filled, "TO", OWN);
                Some((from?.value, to?.value))
            });
            let (from, to) = line?;
            if from.distance(to) <= 0.0 {
                let message = "it ends where it begins, so it has no length";
                self.resolver
                    .find(Finding::new("value-range", clause.place, message));
                self.is_unread = true;
                return None;
            }
            let line = DrainLine::Straight(Edge::line(from, to, 0));
            return Some(Stated::new(line, clause.place));
        }
        let clause = entry
            .clause("at")
            .filter(|clause| clause.filled.get("AT").is_some());
        let filled = match entry.filled.get("AT") {
            Some(_) => &entry.filled,
            None => &clause.or(entry.clause("centre"))?.filled,
        };
        let at = self.noted(|resolver| resolver.point(filled, "AT", OWN))?;
        Some(Stated::new(DrainLine::At(at.value), at.place))
    }

    /// The edges of a clause, all of one surface, one after the other.
    fn along(&mut self, clause: &Clause) -> Option<DrainLine> {
        let mut found: Option<(usize, Vec<Tag>)> = None;
        let surfaces = self.surfaces;
        for (value, place) in clause.filled.all("EDGE") {
            let edge = self.noted(|resolver| resolver.edge_of_surface(surfaces, value, place));
            let Some((surface, tags)) = edge else {
                continue;
            };
            match &mut found {
                None => found = Some((surface, tags)),
                Some((first, all)) if *first == surface => all.extend(tags),
                Some(_) => {
                    let message =
                        "a drain runs along the edges of one surface: make a drain of its own here";
                    self.resolver
                        .find(Finding::new("entry-misplaced", place, message));
                    self.is_unread = true;
                }
            }
        }
        let (index, tags) = found?;
        let surface = surfaces.get(index)?;
        let shape = &surface.shape.as_ref()?.value;
        let outline = shape.outline.as_ref()?;
        let edges = outline.edges().filter(|edge| tags.contains(&edge.tag));
        Some(DrainLine::Along {
            surface: surface.name.value.clone(),
            edges: in_a_row(edges.copied().collect()),
            tags,
        })
    }

    fn invert(&mut self, entry: &Entry) -> Option<Invert> {
        let value = self.quantity(&entry.filled, "LEVEL", ValueKind::Length, Range::Any)?;
        let at = match entry.filled.get("PLACE") {
            None => None,
            Some(_) => Some(self.noted(|resolver| resolver.point(&entry.filled, "PLACE", OWN))?),
        };
        Some(Invert {
            level_place: value.place,
            value: Stated::new(value.value, whole(entry)),
            at: at.map(|at| at.value),
        })
    }

    fn bedding(&mut self, entry: &Entry) -> Option<Bedding> {
        Some(Bedding {
            of: self.substance(&entry.filled, "BEDDING")?,
            round: self.length_of(ending(entry, "round"), "ROUND"),
            place: whole(entry),
        })
    }

    fn filling(&mut self, entry: &Entry) -> Option<Filling> {
        let voids = entry.clause("voids");
        let voids = voids.and_then(|clause| {
            self.quantity(&clause.filled, "SHARE", ValueKind::Share, Range::Share)
        });
        Some(Filling {
            of: self.substance(&entry.filled, "FILLING")?,
            voids,
            place: whole(entry),
        })
    }

    fn takes(&mut self, entry: &Entry) -> Takes {
        let mut what = Vec::new();
        let mut text: Option<Stated<String>> = None;
        for (slot, value, place) in &entry.filled.0 {
            match (*slot, value) {
                ("SURFACE", Value::Name(name)) => {
                    let surface = self
                        .noted(|resolver| resolver.look_up(NameSpace::Surfaces, name, *place, OWN));
                    what.extend(surface.map(|_| Taken::Surface(Stated::new(name.clone(), *place))));
                }
                ("WHAT", Value::Text(own)) => text = Some(Stated::new(own.clone(), *place)),
                ("AREA", Value::Quantity(expression)) => {
                    let area = self.noted(|resolver| {
                        resolver.want(expression, ValueKind::Area, Range::Positive, OWN)
                    });
                    what.extend(
                        text.take()
                            .zip(area)
                            .map(|(text, area)| Taken::Other(text, area)),
                    );
                }
                _ => {}
            }
        }
        let runoff = entry.clause("runoff");
        let runoff = runoff.and_then(|clause| {
            self.quantity(
                &clause.filled,
                "SHARE",
                ValueKind::Share,
                Range::NotNegative,
            )
        });
        Takes {
            what,
            runoff,
            place: whole(entry),
        }
    }
}

/// Why a kind of drain has no entry with a key; nothing if it has.
fn why_not(kind: DrainKind, key: &str) -> Option<&'static str> {
    Some(match (kind, key) {
        (DrainKind::Pipe, "filled") => {
            "is not filled: say what it is laid in with bedded, or make this drain a trench"
        }
        (DrainKind::Channel | DrainKind::Gully, "filled") => {
            "is not filled: say what it is set in with bedded"
        }
        (DrainKind::Trench | DrainKind::Soakaway, "bedded") => {
            "is not bedded: say what lies in it with filled"
        }
        (DrainKind::Channel | DrainKind::Gully, "wrapped") => {
            "is not wrapped: fabric goes round a trench, a pit or a pipe. Take the line out"
        }
        (DrainKind::Gully | DrainKind::Soakaway, "fall") => {
            "stands in one place and has no fall: state that of its pipe, and take this line out"
        }
        _ => return None,
    })
}

/// The clause whose form ends in some words.
fn ending<'e>(entry: &'e Entry, words: &str) -> Option<&'e Clause> {
    let mut clauses = entry.clauses.iter();
    clauses.find(|clause| clause.form.ends_with(words))
}

/// Edges of one outline so that each leads on to the next, where they do: the
/// outline may begin in their midst.
fn in_a_row(mut edges: Vec<Edge>) -> Vec<Edge> {
    let follows = |one: &Edge, other: &Edge| other.end.distance(one.start) <= 1e-6;
    let begins = edges.iter().position(|edge| {
        let mut others = edges.iter();
        !others.any(|other| follows(edge, other))
    });
    edges.rotate_left(begins.unwrap_or(0));
    edges
}

/// An entry with its clauses.
fn whole(entry: &Entry) -> Place {
    let last = entry.clauses.last();
    entry
        .place
        .to(last.map_or(entry.place, |clause| clause.place))
}
