//! Surfaces that fall from all their edges to a drain.

use std::sync::Arc;

use super::super::job::{DrainLine, FallTo, Job, LevelAt, Stated, Surface};
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::want::Range;
use crate::findings::{FileId, Finding};
use crate::geometry::{Facet, NoFacets, facets};
use crate::vocabulary::{NameSpace, ValueKind};

const OWN: FileId = FileId(0);

impl Resolver<'_> {
    /// The `fall to` entry of a surface.
    pub(crate) fn fall_to(&mut self, section: &LogicalSection) -> Option<FallTo> {
        let entry = section.entry("fall")?;
        let drain = self.drain_named(entry, "PIT")?;
        let Some(clause) = entry.clause("at") else {
            self.find(
                Finding::new(
                    "entry-missing",
                    entry.place,
                    "how steeply it falls to the drain is missing after this",
                )
                .help("It is written `fall to centre-pit, at least 1:40`."),
            );
            return None;
        };
        let (kind, range) = (ValueKind::Slope, Range::Positive);
        let least = self.wanted(&clause.filled, "LEAST", kind, range, OWN)?;
        if let Some(cross) = entry.clause("cross") {
            let message = "a surface falls to a drain from all of its edges and has no cross fall: leave it out";
            self.find(Finding::new("entry-misplaced", cross.place, message));
        }
        Some(FallTo {
            drain,
            least,
            place: entry.place.to(clause.place),
        })
    }

    /// Notes the facets of each surface that falls to a drain: one of which
    /// they stay the same stays what it is.
    pub(crate) fn facets(&mut self, job: &mut Job) {
        for index in 0..job.surfaces.len() {
            let Some(surface) = job.surfaces.get(index).map(Arc::clone) else {
                continue;
            };
            let facets = match &surface.fall_to {
                Some(fall) => self.facets_of(job, &surface, fall).unwrap_or_default(),
                None => Vec::new(),
            };
            if facets == surface.facets {
                continue;
            }
            drop(surface);
            if let Some(surface) = Arc::make_mut(&mut job.surfaces).get_mut(index) {
                Arc::make_mut(surface).facets = facets;
            }
        }
    }

    fn facets_of(&mut self, job: &Job, surface: &Surface, fall: &FallTo) -> Option<Vec<Facet>> {
        let outline = surface.outline.as_ref()?;
        let place = fall.drain.place;
        let drain = job.drain(&fall.drain.value)?;
        let DrainLine::At(at) = drain.line.as_ref()?.value else {
            self.find(
                Finding::new(
                    "entry-misplaced",
                    place,
                    format!(
                        "a surface falls to a point, and {} is no gully: let it fall to a gully in it",
                        fall.drain.value
                    ),
                )
                .related(drain.place, "the drain"),
            );
            return None;
        };
        if let Some(repeat) = &surface.repeat {
            let message = format!(
                "{} lies in one of these {} and the others have no drain: write a surface for each with a drain in it, or state a fall",
                fall.drain.value,
                1 + repeat.outlines.len(),
            );
            let finding = Finding::new("entry-misplaced", fall.place, message);
            self.find(finding.related(repeat.place, "it comes again here"));
            return None;
        }
        if !outline.contains(at) && outline.distance_to_boundary(at) > ON_RIM {
            let (pit, name) = (&fall.drain.value, &surface.name.value);
            let message = format!(
                "{pit} lies outside {name}, which cannot fall to it: is a minus missing, or are east and north swapped?"
            );
            let there = drain.line.as_ref().map_or(drain.place, |line| line.place);
            let finding = Finding::new("value-range", there, message);
            self.find(finding.related(fall.place, "the fall to it"));
            return None;
        }
        let level = self.rim_level(surface)?;
        let reported = match facets(outline, level, at, fall.least.value.si()) {
            Ok(facets) => return Some(facets),
            Err(NoFacets::Hole) => "it has a hole".to_owned(),
            Err(NoFacets::Arc(side)) => format!("{} is curved", surface.side_name(side)),
            Err(NoFacets::Behind(side)) => {
                format!(
                    "from {} it does not fall to {}",
                    surface.side_name(side),
                    fall.drain.value
                )
            }
        };
        let message = format!(
            "a surface falls to a drain only where every edge is straight and sees it, and {reported}: part it into surfaces that do"
        );
        self.find(Finding::new("value-range", fall.place, message));
        None
    }

    /// The one level of the edges of a surface that falls to a drain.
    fn rim_level(&mut self, surface: &Surface) -> Option<f64> {
        let outline = surface.outline.as_ref()?;
        let [first, others @ ..] = surface.levels.as_slice() else {
            return None;
        };
        let on_rim = |at: &LevelAt| match at {
            LevelAt::Point(point) => outline.distance_to_boundary(*point) <= ON_RIM,
            LevelAt::Edge(..) | LevelAt::Whole => true,
        };
        let level = first.value.value.si();
        let off = surface.levels.iter().find(|own| !on_rim(&own.at));
        let other = others
            .iter()
            .find(|own| (own.value.value.si() - level).abs() > AS_HIGH);
        let Some(own) = off.or(other) else {
            return Some(level);
        };
        let message = "a surface that falls to a drain has one level, along all of its edges: how deep the drain lies comes out of the fall";
        self.find(Finding::new("levels-disagree", own.place, message));
        None
    }

    /// The name of a drain in a slot.
    fn drain_named(
        &mut self,
        entry: &super::super::reading::Entry,
        slot: &str,
    ) -> Option<Stated<String>> {
        let (name, place) = entry.filled.name(slot)?;
        self.look_up(NameSpace::Drains, name, place, OWN)?;
        Some(Stated::new(name.to_owned(), place))
    }
}

/// How far off, in metres, a point still lies on the rim.
const ON_RIM: f64 = 1e-6;

/// How far apart, in metres, levels are still one.
const AS_HIGH: f64 = 1e-5;
