//! Builds worked out.

use std::sync::Arc;

use super::super::job::{Build, Job, Layer, Named, Origin, State, Stated, Substance};
use super::super::reading::{Clause, Entry};
use super::Shared;
use super::definitions::{Definition, LogicalSection};
use super::dependencies::Subject;
use super::evaluate::{Resolver, Worked};
use super::want::Range;
use crate::findings::{FileId, Finding, Place};
use crate::units::{Dimension, Quantity};
use crate::vocabulary::{NameSpace, Role, ValueKind};

impl Resolver<'_> {
    /// The build that a name stands for.
    pub(crate) fn build_named(&mut self, name: &str, place: Place, file: FileId) -> Shared<Build> {
        let definition = self.look_up(NameSpace::Builds, name, place, file)?;
        self.work_build(definition)
    }

    /// Every build of the file itself.
    pub(crate) fn all_builds(&mut self, job: &mut Job) {
        let mut builds = Named::default();
        let all = Arc::make_mut(&mut builds);
        for (definition, _) in self.own("build") {
            if let Some(build) = self.work_build(definition) {
                // Of two of one name the first holds.
                all.entry(build.name.value.as_str().into()).or_insert(build);
            }
        }
        job.builds = builds;
    }

    pub(crate) fn work_build(&mut self, definition: Definition) -> Shared<Build> {
        self.done.dependencies.take(Subject::Build(definition));
        if let Some(Worked::Done(build)) = self.done.builds.get(&definition) {
            return build.clone();
        }
        let section = self.section(definition)?;
        let build = self
            .on(Subject::Build(definition), |resolver| {
                resolver.build(section, definition.file)
            })
            .map(Arc::new);
        let done = Worked::Done(build.clone());
        self.done.builds.insert(definition, done);
        build
    }

    fn build(&mut self, section: &LogicalSection, file: FileId) -> Option<Build> {
        let name = section.name()?;
        let mut layers = Vec::new();
        let mut has_lost_layer = false;
        for entry in section.entries() {
            let role = entry.key.and_then(|key| Role::from_word(key.word));
            if let Some(role) = role {
                let layer = self.layer(entry, role, file);
                has_lost_layer |= layer.is_none();
                layers.extend(layer);
            }
        }
        let permeable = section.entry("permeable");
        let voids = permeable
            .and_then(|entry| entry.clause("voids"))
            .and_then(|clause| {
                self.wanted(
                    &clause.filled,
                    "SHARE",
                    ValueKind::Share,
                    Range::Share,
                    file,
                )
            });
        Some(Build {
            name: Stated::new(name.value.to_owned(), name.place),
            section: section.at(),
            layers,
            has_lost_line: section.has_lost_line() || has_lost_layer,
            permeable: permeable.map(|entry| entry.place),
            voids,
        })
    }

    /// The layer that an entry states.
    pub(super) fn layer(&mut self, entry: &Entry, role: Role, file: FileId) -> Option<Layer> {
        let (of, of_place) = entry.filled.name("MATERIAL")?;
        let substance = self.substance_named(of, of_place, file);
        let measured = entry.values().next();
        let thickness = measured.and_then(|clause| {
            self.wanted(
                &clause.filled,
                "THICKNESS",
                ValueKind::Length,
                Range::Positive,
                file,
            )
        });
        let range = self.range(measured, thickness.as_ref(), role, file);
        let middle = |(least, most): &(Stated<Quantity>, Stated<Quantity>)| {
            let sum = least.value.plus(most.value).ok()?;
            let middle = sum.divided_by(Quantity::near(2.0, Dimension::NONE)?).ok()?;
            Some(Stated::new(middle, least.place.to(most.place)))
        };
        let thickness = range.as_ref().and_then(middle).or(thickness);
        let thickness = match measured {
            None if role == Role::Paving => thickness_of_unit(&substance),
            _ => thickness,
        };
        let is_of_its_unit = measured.is_none() && thickness.is_some();
        if !is_of_its_unit {
            self.sheet_or_layer(entry, role, measured);
        }
        let length = |resolver: &mut Self, word: &str, slot: &str| {
            let clause = entry.clause(word)?;
            resolver.wanted(
                &clause.filled,
                slot,
                ValueKind::Length,
                Range::NotNegative,
                file,
            )
        };
        let last = entry
            .clauses
            .last()
            .map_or(entry.place, |clause| clause.place);
        let beyond = length(self, "beyond", "MARGIN");
        let waste = entry.clause("waste").and_then(|clause| {
            self.wanted(
                &clause.filled,
                "SHARE",
                ValueKind::Share,
                Range::NotNegative,
                file,
            )
        });
        let unread = [("beyond", beyond.is_some()), ("waste", waste.is_some())];
        let unread = unread
            .into_iter()
            .filter(|(word, is_read)| !is_read && entry.clause(word).is_some());
        Some(Layer {
            unread: unread.map(|(word, _)| word).collect(),
            is_misread: !entry.is_sound,
            role: Stated::new(role, entry.word),
            of: Stated::new(substance, of_place),
            thickness,
            range,
            state: measured
                .and_then(|clause| clause.filled.chosen("STATE"))
                .or_else(|| alone(entry, "compacted", State::Compacted))
                .or_else(|| alone(entry, "loose", State::Loose)),
            lifts: self.counted(entry, "lifts", "COUNT", file),
            joints: self.joints(entry, role, file),
            corners_jointed: self
                .of_slab(entry, "corners", role)
                .map(|clause| clause.place),
            beyond,
            waste,
            existing: entry.clause("existing").map(|clause| clause.place),
            lap: length(self, "lap", "LENGTH"),
            turned_up: length(self, "turned-up", "HEIGHT"),
            place: entry.place.to(last),
        })
    }

    /// The least and the greatest thickness of stone of uneven thickness.
    fn range(
        &mut self,
        measured: Option<&Clause>,
        least: Option<&Stated<Quantity>>,
        role: Role,
        file: FileId,
    ) -> Option<(Stated<Quantity>, Stated<Quantity>)> {
        let filled = &measured?.filled;
        let (_, place) = filled.get("MOST")?;
        if role != Role::Paving {
            let message = format!(
                "a {} has one thickness; only paving runs from one to another",
                role.word()
            );
            self.find(Finding::new("word-stray", place, message));
            return None;
        }
        let most = self.wanted(filled, "MOST", ValueKind::Length, Range::Positive, file)?;
        let least = least?;
        if Self::is_less(most.value, least.value) {
            let message = "the thickest stone is thinner than the thinnest: swap the two";
            self.find(Finding::new(
                "value-range",
                least.place.to(most.place),
                message,
            ));
            return None;
        }
        Some((least.clone(), most))
    }

    fn counted(
        &mut self,
        entry: &Entry,
        word: &str,
        slot: &str,
        file: FileId,
    ) -> Option<Stated<Quantity>> {
        let clause = entry.clause(word)?;
        self.wanted(&clause.filled, slot, ValueKind::Count, Range::Whole, file)
    }

    /// The spacing of a slab's joints; no other layer has any.
    fn joints(&mut self, entry: &Entry, role: Role, file: FileId) -> Option<Stated<Quantity>> {
        let clause = self.of_slab(entry, "joints", role)?;
        self.wanted(
            &clause.filled,
            "SPACING",
            ValueKind::Length,
            Range::Positive,
            file,
        )
    }

    /// A clause on joints that only a slab has.
    fn of_slab<'e>(&mut self, entry: &'e Entry, word: &str, role: Role) -> Option<&'e Clause> {
        let clause = entry.clause(word)?;
        if role == Role::Slab {
            return Some(clause);
        }
        let message = format!("a {} has no joints of its own; a slab has", role.word());
        self.find(Finding::new("word-stray", clause.place, message));
        None
    }

    /// A sheet has no thickness, any other layer has one.
    fn sheet_or_layer(&mut self, entry: &Entry, role: Role, measured: Option<&Clause>) {
        match measured {
            Some(clause) if role.is_sheet() => self.find(Finding::new(
                "word-stray",
                clause.place,
                format!("a {} is laid by area and has no thickness", role.word()),
            )),
            None if !role.is_sheet() && entry.complete => self.find(
                Finding::new(
                    "entry-missing",
                    entry.place,
                    format!("this {} has no thickness", role.word()),
                )
                .help(format!(
                    "It is written `{} MATERIAL, THICKNESS`.",
                    role.word()
                )),
            ),
            _ => {}
        }
    }
}

/// The thickness of what is laid flat in units whose three sides are stated:
/// the least of them.
pub(super) fn thickness_of_unit(substance: &Substance) -> Option<Stated<Quantity>> {
    let least = substance.material()?.least_side.as_ref()?;
    match least.origin {
        Origin::Line(place) => Some(Stated::new(least.value, place)),
        _ => None,
    }
}

fn alone(entry: &Entry, word: &str, state: State) -> Option<Stated<State>> {
    Some(Stated::new(state, entry.clause(word)?.place))
}
