//! The `measured` sections worked out. They are small and are worked out anew
//! at each edit.

use std::sync::Arc;

use super::super::job::{Job, Measured, Measurement, ReadBy, Sight, Stated, Surface};
use super::super::reading::Entry;
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::heading::text_of;
use super::want::Range;
use crate::findings::{FileId, Finding, Place};
use crate::units::Quantity;
use crate::vocabulary::{NameSpace, Top, ValueKind};

const OWN: FileId = FileId(0);

/// The most points of one section.
const MOST_POINTS: usize = 200;

impl Resolver<'_> {
    /// Fills in what was measured.
    pub(super) fn measured(&mut self, job: &mut Job) {
        let sections = self.own("measured").into_iter();
        let measured = sections.map(|(_, section)| self.measurements(section, &job.surfaces));
        job.measured = Arc::new(measured.map(Arc::new).collect());
    }

    fn measurements(&mut self, section: &LogicalSection, surfaces: &[Arc<Surface>]) -> Measured {
        let of = section.entry("of");
        let surface = of.and_then(|entry| self.surface_of(entry, surfaces));
        let top = of.and_then(|entry| {
            let mut clauses = entry.clauses.iter();
            clauses.find_map(|clause| clause.filled.chosen::<Top>("TOP"))
        });
        if let (Some(surface), Some(top)) = (&surface, &top)
            && let Some(own) = surfaces.get(surface.value)
        {
            self.has_top(own, top);
        }
        let mut sight: Option<Sight> = None;
        let (mut points, mut is_unread) = (Vec::new(), section.has_lost_line());
        let mut is_told = is_unread;
        for entry in section.entries() {
            match entry.key.map_or("", |key| key.word) {
                "datum-reading" => {
                    sight = self.sight(entry);
                    is_unread |= sight.is_none();
                }
                "level" | "below-string" | "reading" => match self.point_measured(entry, &sight) {
                    Some(point) if points.len() < MOST_POINTS => {
                        let is_blind = matches!(point.taken, ReadBy::Staff(_, None));
                        if is_blind && !std::mem::replace(&mut is_told, true) {
                            self.lacks_sight(entry.place);
                        }
                        points.push(point);
                    }
                    Some(_) => {
                        let message = format!(
                            "more than {MOST_POINTS} points in one section: part it, and those beyond are left out"
                        );
                        if !is_unread {
                            self.find(Finding::new("value-range", entry.place, message));
                        }
                        is_unread = true;
                    }
                    None => is_unread = true,
                },
                _ => {}
            }
        }
        let what = section
            .heading()
            .and_then(|heading| text_of(Some(heading), "WHAT"));
        Measured {
            what: what.unwrap_or_else(|| Stated::new(String::new(), section.place())),
            section: section.at(),
            place: section.place(),
            surface,
            top: top.map_or(Top::Finish, |top| top.value),
            on: self.checked_date(section.entry("on")),
            points,
            is_unread,
        }
    }

    fn surface_of(&mut self, entry: &Entry, surfaces: &[Arc<Surface>]) -> Option<Stated<usize>> {
        let (name, place) = entry.filled.name("SURFACE")?;
        self.look_up(NameSpace::Surfaces, name, place, OWN)?;
        let index = surfaces.iter().position(|own| own.name.value == name)?;
        Some(Stated::new(index, place))
    }

    /// Tells where a surface's build has no such layer.
    fn has_top(&mut self, surface: &Surface, top: &Stated<Top>) {
        let Some(build) = &surface.build else { return };
        let Some(role) = top.value.role() else { return };
        if build.value.layer(role).is_none() && !build.value.has_lost_line {
            let message = format!(
                "the build of `{}` has no {}: which layer was measured?",
                surface.name.value,
                role.word()
            );
            let finding = Finding::new("name-unknown", top.place, message);
            self.find(finding.related(build.value.name.place, "the build is here"));
        }
    }

    fn sight(&mut self, entry: &Entry) -> Option<Sight> {
        let reading = self.measured_length(entry, "READING", Range::NotNegative)?;
        let mut clauses = entry.clauses.iter();
        let on = match clauses.find(|clause| clause.filled.get("LEVEL").is_some()) {
            None => None,
            Some(clause) => {
                let filled = &clause.filled;
                Some(self.wanted(filled, "LEVEL", ValueKind::Length, Range::Any, OWN)?)
            }
        };
        Some(Sight { reading, on })
    }

    fn point_measured(&mut self, entry: &Entry, sight: &Option<Sight>) -> Option<Measurement> {
        let taken = match entry.key.map_or("", |key| key.word) {
            "level" => ReadBy::Level(self.measured_length(entry, "LEVEL", Range::Any)?),
            "below-string" => {
                ReadBy::BelowString(self.measured_length(entry, "DEPTH", Range::NotNegative)?)
            }
            _ => {
                let reading = self.measured_length(entry, "READING", Range::NotNegative)?;
                ReadBy::Staff(reading, sight.clone())
            }
        };
        Some(Measurement {
            at: self.point(&entry.filled, "POINT", OWN)?,
            taken,
            place: entry.place,
        })
    }

    fn measured_length(
        &mut self,
        entry: &Entry,
        slot: &str,
        range: Range,
    ) -> Option<Stated<Quantity>> {
        self.wanted(&entry.filled, slot, ValueKind::Length, range, OWN)
    }

    fn lacks_sight(&mut self, place: Place) {
        let message = "a reading says nothing alone: write above it what the staff reads at level 0, as in `datum-reading 1.105 m`";
        self.find(Finding::new("entry-missing", place, message));
    }
}
