//! The `setting-out` section worked out. It is small and is worked out anew at
//! each edit.

use std::sync::Arc;

use super::super::job::{Job, PegsAlong, SettingOut, Stated};
use super::super::reading::Entry;
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::heading::text_of;
use super::want::Range;
use crate::findings::{FileId, Finding};
use crate::geometry::{Outline, Point};
use crate::units::Quantity;
use crate::vocabulary::ValueKind;

const OWN: FileId = FileId(0);

/// The most pegs along edges in all.
const MOST_PEGS: f64 = 1_000.0;

/// The most levels of a grid over one surface.
const MOST_LEVELS: f64 = 1_000.0;

impl Resolver<'_> {
    /// Fills in how the job is set out.
    pub(super) fn setting_out(&mut self, job: &mut Job) {
        let section = self.own("setting-out").into_iter().next();
        job.setting_out = section.map(|(_, section)| Arc::new(self.set_out(section, job)));
    }

    fn set_out(&mut self, section: &LogicalSection, job: &Job) -> SettingOut {
        let mut unread = Vec::new();
        let mut length = |resolver: &mut Self, key: &'static str, slot: &str, range: Range| {
            let Some(entry) = section.entry(key) else {
                // It may be the line that could not be read.
                unread.extend(section.has_lost_line().then_some(key));
                return None;
            };
            let read = resolver.wanted(&entry.filled, slot, ValueKind::Length, range, OWN);
            if read.is_none() {
                unread.push(key);
            }
            read
        };
        let clear = length(self, "clear", "CLEAR", Range::NotNegative);
        let string = length(self, "string", "HEIGHT", Range::NotNegative);
        let board = length(self, "board", "LENGTH", Range::Positive);
        let levels = length(self, "levels", "SPACING", Range::Positive);
        let from = section.entry("from");
        let marks = from.and_then(|entry| self.marks(entry));
        if from.is_some() && marks.is_none() {
            unread.push("from");
        }
        let pegs = section.all("pegs");
        let mut count = 0.0;
        SettingOut {
            section: section.at(),
            place: section.place(),
            marks,
            pegs: pegs
                .flat_map(|entry| self.pegs(entry, job, &mut count))
                .collect(),
            clear,
            string,
            board,
            levels: levels.filter(|every| self.is_grid(every, job)),
            notes: section
                .all("note")
                .filter_map(|entry| text_of(Some(entry), "NOTE"))
                .collect(),
            unread,
        }
    }

    /// The two marks, which lie apart.
    fn marks(&mut self, entry: &Entry) -> Option<Stated<(Point, Point)>> {
        let first = self.point(&entry.filled, "FIRST", OWN)?;
        let second = self.point(&entry.filled, "SECOND", OWN)?;
        if first.value.distance(second.value) > 0.0 {
            let marks = (first.value, second.value);
            return Some(Stated::new(marks, first.place.to(second.place)));
        }
        let message = "both marks are the same point: two tapes need two marks, well apart";
        self.find(Finding::new("value-range", second.place, message));
        None
    }

    /// The pegs of an entry, edge by edge; `count` is how many there are so far.
    fn pegs(&mut self, entry: &Entry, job: &Job, count: &mut f64) -> Vec<PegsAlong> {
        let spacing = self.wanted(
            &entry.filled,
            "SPACING",
            ValueKind::Length,
            Range::Positive,
            OWN,
        );
        let edges: Vec<_> = entry.filled.all("EDGE").collect();
        let edges = edges.into_iter().filter_map(|(edge, place)| {
            let (surface, tags) = self.edge_of_surface(&job.surfaces, edge, place)?;
            let spacing = spacing.clone()?;
            let own = job.surfaces.get(surface)?;
            let outline = own.shape.as_ref()?.value.outline.as_ref()?;
            let edges = tags.iter().flat_map(|tag| outline.edges_tagged(*tag));
            let length: f64 = edges.map(|edge| edge.length()).sum();
            let pegs = length / spacing.value.si();
            if *count + pegs > MOST_PEGS {
                let message = "more than 1,000 pegs along edges: space them wider";
                self.find(Finding::new("value-range", spacing.place, message));
                return None;
            }
            *count += pegs;
            Some(PegsAlong {
                surface,
                edges: tags,
                spacing,
            })
        });
        edges.collect()
    }

    /// Whether levels so far apart are no more than anybody can read.
    fn is_grid(&mut self, every: &Stated<Quantity>, job: &Job) -> bool {
        let outlines = job.surfaces.iter().filter_map(|own| own.outline.as_ref());
        let cells = outlines.map(|outline| {
            let (low, high) = Outline::bounding_box(outline);
            let spacing = every.value.si();
            ((high.x - low.x) / spacing + 1.0) * ((high.y - low.y) / spacing + 1.0)
        });
        let is_fine = cells.fold(0.0, f64::max) <= MOST_LEVELS;
        if !is_fine {
            let message = "more than 1,000 levels over one surface: space them wider";
            self.find(Finding::new("value-range", every.place, message));
        }
        is_fine
    }
}
