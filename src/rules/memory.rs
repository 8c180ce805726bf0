//! What is kept of the findings from one edit to the next.
//!
//! Each part of a job, a surface, a build, a material or a mix, is checked by
//! itself. What its checks look at is held beside what they found, and as
//! long as that is the same so are the findings.

use std::collections::{BTreeMap, BTreeSet};
use std::hash::{Hash, Hasher};
use std::sync::Arc;

use rayon::prelude::*;
use rustc_hash::{FxHashMap, FxHasher};

use super::merging::{Whereabouts, merge_same, order, without_echoes};
use super::run::{self, CHECKED};
use super::{Context, Limits, Stopwatch};
use crate::findings::{Finding, FindingList, Part, SectionRef};
use crate::model::{
    Build, Contact, DrainSeen, Ending, FileKind, Heading, Material, Mix, Site, Steps, Surface,
};
use crate::quantities::{SurfaceFigures, mixes_of};
use crate::syntax::SectionId;

/// From how many parts on they are checked side by side.
const MANY: usize = 256;

/// What is kept of the findings from one edit to the next.
#[derive(Debug, Default)]
pub struct Memory {
    /// What the checks of everything may look at.
    kind: FileKind,
    heading: Heading,
    site: Site,
    drains: Vec<DrainSeen>,
    /// What the flights of steps lead from and to: how surfaces lie to one
    /// another is judged by it.
    steps: Vec<Ends>,
    limits: Limits,
    surfaces: Checked<SurfaceSeen>,
    builds: Checked<Arc<Build>>,
    materials: Checked<Arc<Material>>,
    mixes: Checked<MixSeen>,
    sections: Sections,
    /// How many findings of each rule there are.
    counts: Counts,
    /// Of how many surfaces that holds which a rule on the whole job asks.
    holding: Counts,
}

/// So many of each rule.
type Counts = FxHashMap<&'static str, usize>;

/// What a job was found to have.
#[derive(Debug)]
pub struct JobFindings {
    /// In the file itself, section by section.
    pub own: FindingList,
    /// In the files that it uses.
    pub elsewhere: Vec<Arc<Finding>>,
}

/// What the checks of a surface look at.
#[derive(Debug)]
struct SurfaceSeen {
    surface: Arc<Surface>,
    figures: Option<Arc<SurfaceFigures>>,
    /// The surfaces beside it, by their indices.
    neighbours: Vec<usize>,
    /// Those, with their figures.
    beside: u64,
    /// All surfaces, for checks that look so far.
    all: u64,
}

/// What the checks of a mix look at.
#[derive(Debug)]
struct MixSeen {
    mix: Arc<Mix>,
    /// All that may lay it: surfaces and steps.
    users: u64,
}

/// The parts of one kind, in order, each with what was found.
#[derive(Debug)]
struct Checked<S> {
    all: Vec<CheckedPart<S>>,
}

#[derive(Debug)]
struct CheckedPart<S> {
    seen: S,
    /// Whether its checks looked at every surface.
    looked_far: bool,
    found: Outcome,
}

/// What the checks of a part found, and the rules on the whole job of which
/// something holds of it.
type Outcome = (Vec<Arc<Finding>>, Vec<&'static str>);

impl<S> Default for Checked<S> {
    fn default() -> Checked<S> {
        Checked { all: Vec::new() }
    }
}

/// The findings by the section in which they stand.
#[derive(Debug, Default)]
struct Sections {
    /// Those of the parts.
    of_parts: FxHashMap<SectionRef, Vec<Arc<Finding>>>,
    /// Those of the job as a whole.
    of_job: FxHashMap<SectionRef, Vec<Arc<Finding>>>,
    /// Both in order, what is said twice said once.
    merged: FxHashMap<SectionRef, Part>,
    /// The sections of the file itself in order, and where each stands.
    order: Vec<SectionId>,
    places: FxHashMap<SectionId, usize>,
    own: FindingList,
    elsewhere: BTreeMap<SectionRef, Part>,
}

/// What a flight of steps leads from and to.
type Ends = [Option<Ending>; 2];

fn ends_of(steps: &Arc<Steps>) -> Ends {
    [&steps.from, &steps.to].map(|end| end.as_ref().map(|end| end.value.clone()))
}

impl Memory {
    /// Everything found in a job: what the reading found and what every rule
    /// finds, each with how much it matters where the standards in force are
    /// heard. `sections` are those of the file itself, as they follow one
    /// another, and `at` tells where a place stands in the text. Each finding
    /// is handed to `finish` once, and each rule is run under its name on the
    /// stopwatch.
    pub fn run(
        &mut self,
        context: &Context<'_>,
        sections: impl Iterator<Item = SectionId> + Clone,
        at: Whereabouts<'_>,
        finish: impl Fn(&mut Arc<Finding>) + Sync,
        watch: Stopwatch<'_>,
    ) -> JobFindings {
        let finished = |mut found: Vec<Arc<Finding>>| {
            found.iter_mut().for_each(&finish);
            found
        };
        let job = context.job;
        let drains: Vec<DrainSeen> = job.drains.iter().map(|drain| drain.seen()).collect();
        let ends: Vec<Ends> = job.steps.iter().map(ends_of).collect();
        if self.kind != job.kind
            || self.heading != job.heading
            || self.site != job.site
            || self.drains != drains
            || self.steps != ends
            || self.limits != *context.limits
        {
            *self = Memory {
                kind: job.kind,
                heading: job.heading.clone(),
                site: job.site.clone(),
                drains,
                steps: ends,
                limits: context.limits.clone(),
                ..Memory::default()
            };
        }
        let mut changes = Changes::default();
        let both = surfaces_with_figures(context);
        let all = mixed(both.iter().map(address));
        self.surfaces.see(
            both.iter(),
            |before, now, looked_far| before.is_same(now, &both, looked_far.then_some(all)),
            |now| SurfaceSeen::of(now, &both, all),
            |context, seen| {
                let (found, holding) = run::of_surface(context, &seen.surface, watch);
                (finished(found), holding)
            },
            context,
            &mut changes,
        );
        self.builds.see(
            job.builds.values(),
            |before, now, _| Arc::ptr_eq(before, now),
            Arc::clone,
            |context, build| (finished(run::of_build(context, build, watch)), Vec::new()),
            context,
            &mut changes,
        );
        self.materials.see(
            job.materials.values(),
            |before, now, _| Arc::ptr_eq(before, now),
            Arc::clone,
            |context, material| {
                (
                    finished(run::of_material(context, material, watch)),
                    Vec::new(),
                )
            },
            context,
            &mut changes,
        );
        let steps = job.steps.iter().map(|own| (Arc::as_ptr(own).addr(), 0));
        let users = mixed(both.iter().map(address).chain(steps));
        let mixes = mixes_of(job);
        self.mixes.see(
            mixes.values().copied(),
            |before, now, looked_far| {
                Arc::ptr_eq(&before.mix, now) && (!looked_far || before.users == users)
            },
            |mix| MixSeen {
                mix: Arc::clone(mix),
                users,
            },
            |context, seen| (finished(run::of_mix(context, &seen.mix, watch)), Vec::new()),
            context,
            &mut changes,
        );
        self.count(&changes);
        let is_any = |counts: &Counts, rule: &str| counts.get(rule).is_some_and(|count| *count > 0);
        let has_found = |rule: &str| is_any(&self.counts, rule);
        let holds = |rule: &str| is_any(&self.holding, rule);
        let of_job = finished(run::of_job(context, has_found, holds, watch));
        let mut touched = self.sections.change(changes);
        touched.extend(self.sections.change_of_job(of_job));
        self.sections.settle(touched, sections, at)
    }

    fn count(&mut self, changes: &Changes) {
        let rules = |found: &[Arc<Finding>]| -> Vec<&'static str> {
            found.iter().map(|finding| finding.rule).collect()
        };
        recount(
            &mut self.counts,
            &rules(&changes.gone),
            &rules(&changes.come),
        );
        recount(&mut self.holding, &changes.held, &changes.holding);
    }
}

/// Counts those that are no longer and those that are new.
fn recount(counts: &mut Counts, gone: &[&'static str], come: &[&'static str]) {
    for rule in gone {
        if let Some(count) = counts.get_mut(rule) {
            *count = count.saturating_sub(1);
        }
    }
    for rule in come {
        *counts.entry(rule).or_default() += 1;
    }
}

/// Findings that are no longer, and new ones; rules that something held for,
/// and for which it does now.
#[derive(Debug, Default)]
struct Changes {
    gone: Vec<Arc<Finding>>,
    come: Vec<Arc<Finding>>,
    held: Vec<&'static str>,
    holding: Vec<&'static str>,
}

impl Changes {
    fn forget(&mut self, (found, held): Outcome) {
        self.gone.extend(found);
        self.held.extend(held);
    }

    fn note(&mut self, (found, holding): &Outcome) {
        self.come.extend(found.iter().cloned());
        self.holding.extend(holding);
    }
}

impl<S: Sync + Send> Checked<S> {
    /// Checks the parts anew of which something that their checks look at has
    /// changed.
    fn see<N>(
        &mut self,
        now: impl ExactSizeIterator<Item = N>,
        is_same: impl Fn(&S, &N, bool) -> bool,
        seen: impl Fn(N) -> S,
        check: impl Fn(&Context<'_>, &S) -> Outcome + Sync,
        context: &Context<'_>,
        changes: &mut Changes,
    ) {
        for gone in self.all.drain(now.len().min(self.all.len())..) {
            changes.forget(gone.found);
        }
        let mut anew = Vec::new();
        for (index, one) in now.enumerate() {
            let part = match self.all.get_mut(index) {
                Some(part) if is_same(&part.seen, &one, part.looked_far) => continue,
                Some(part) => part,
                None => {
                    self.all.push(CheckedPart {
                        seen: seen(one),
                        looked_far: false,
                        found: Outcome::default(),
                    });
                    anew.push(index);
                    continue;
                }
            };
            changes.forget(std::mem::take(&mut part.found));
            part.seen = seen(one);
            anew.push(index);
        }
        let check = |index: usize| {
            let of_one = context.of_one();
            let part = self.all.get(index);
            let found = part.map_or_else(Outcome::default, |part| check(&of_one, &part.seen));
            (index, found, of_one.has_looked_far())
        };
        let checked: Vec<_> = if anew.len() < MANY {
            anew.into_iter().map(check).collect()
        } else {
            anew.into_par_iter().map(check).collect()
        };
        for (index, found, looked_far) in checked {
            changes.note(&found);
            if let Some(part) = self.all.get_mut(index) {
                (part.found, part.looked_far) = (found, looked_far);
            }
        }
    }
}

/// A surface with its figures.
type WithFigures<'a> = (&'a Arc<Surface>, Option<&'a Arc<SurfaceFigures>>);

fn surfaces_with_figures<'a>(context: &Context<'a>) -> Vec<WithFigures<'a>> {
    let figures = context.figures.surfaces.iter().map(Some);
    let figures = figures.chain(std::iter::repeat(None));
    context.job.surfaces.iter().zip(figures).collect()
}

fn address((surface, figures): &WithFigures<'_>) -> (usize, usize) {
    let figures = figures.map_or(0, |own| Arc::as_ptr(own).addr());
    (Arc::as_ptr(surface).addr(), figures)
}

/// What is compared by address is held by the parts seen before, so that no
/// address comes twice.
impl SurfaceSeen {
    fn of(now: &WithFigures<'_>, all: &[WithFigures<'_>], mark_of_all: u64) -> SurfaceSeen {
        let (surface, figures) = now;
        let contacts = surface.sides.iter().filter_map(|side| match side.contact {
            Contact::Surface(index) | Contact::Unplaced(index) => Some(index),
            Contact::Building | Contact::Free => None,
        });
        let overlaps = surface.overlaps.iter().map(|(index, _)| *index);
        let neighbours: Vec<usize> = contacts.chain(overlaps).collect();
        SurfaceSeen {
            surface: Arc::clone(surface),
            figures: figures.cloned(),
            beside: beside(&neighbours, all),
            neighbours,
            all: mark_of_all,
        }
    }

    /// Whether its checks would see the same; those that look at all surfaces
    /// have the mark of all.
    fn is_same(
        &self,
        now: &WithFigures<'_>,
        all: &[WithFigures<'_>],
        mark_of_all: Option<u64>,
    ) -> bool {
        let (surface, figures) = now;
        let same_figures = match (&self.figures, figures) {
            (Some(before), Some(now)) => Arc::ptr_eq(before, now),
            (before, now) => before.is_none() && now.is_none(),
        };
        Arc::ptr_eq(&self.surface, surface)
            && same_figures
            && (self.neighbours.is_empty() || self.beside == beside(&self.neighbours, all))
            && mark_of_all.is_none_or(|mark| mark == self.all)
    }
}

fn beside(neighbours: &[usize], all: &[WithFigures<'_>]) -> u64 {
    mixed(
        neighbours
            .iter()
            .filter_map(|index| all.get(*index))
            .map(address),
    )
}

/// One number for many.
fn mixed(all: impl Iterator<Item = (usize, usize)>) -> u64 {
    let mut hasher = FxHasher::default();
    all.for_each(|one| one.hash(&mut hasher));
    hasher.finish()
}

impl Sections {
    /// Takes in what the parts were found to have; gives the sections in which
    /// something has changed.
    fn change(&mut self, changes: Changes) -> BTreeSet<SectionRef> {
        let mut touched = BTreeSet::new();
        for gone in changes.gone {
            let section = gone.place.section;
            touched.insert(section);
            if let Some(found) = self.of_parts.get_mut(&section) {
                found.retain(|finding| !Arc::ptr_eq(finding, &gone));
            }
        }
        for come in changes.come {
            let section = come.place.section;
            touched.insert(section);
            self.of_parts.entry(section).or_default().push(come);
        }
        touched
    }

    /// The same for what the job as a whole was found to have: what is found
    /// again stays the finding that it was.
    fn change_of_job(&mut self, of_job: Vec<Arc<Finding>>) -> BTreeSet<SectionRef> {
        let mut now: FxHashMap<SectionRef, Vec<Arc<Finding>>> = FxHashMap::default();
        for finding in of_job {
            now.entry(finding.place.section).or_default().push(finding);
        }
        let mut before = std::mem::take(&mut self.of_job);
        let mut touched = BTreeSet::new();
        for (section, found) in &mut now {
            match before.remove(section) {
                Some(before) if before == *found => *found = before,
                _ => drop(touched.insert(*section)),
            }
        }
        touched.extend(before.into_keys());
        self.of_job = now;
        touched
    }

    /// Puts the findings of the touched sections in order, and all sections
    /// as they follow one another.
    fn settle(
        &mut self,
        touched: BTreeSet<SectionRef>,
        sections: impl Iterator<Item = SectionId> + Clone,
        at: Whereabouts<'_>,
    ) -> JobFindings {
        let is_same_order = self.order.iter().copied().eq(sections.clone());
        for section in touched {
            let both = [&self.of_parts, &self.of_job].into_iter();
            let found = both.filter_map(|found| found.get(&section)).flatten();
            let mut found: Vec<Arc<Finding>> = found.cloned().collect();
            without_echoes(&mut found);
            order(&mut found);
            let merged: Part = merge_same(found, at).into();
            if section.file != CHECKED {
                self.elsewhere.insert(section, merged);
                continue;
            }
            if let Some(place) = self.places.get(&section.section).filter(|_| is_same_order) {
                self.own.put(*place, Arc::clone(&merged));
            }
            match merged.is_empty() {
                true => drop(self.merged.remove(&section)),
                false => drop(self.merged.insert(section, merged)),
            }
        }
        if !is_same_order {
            self.line_up(sections);
        }
        let elsewhere = self.elsewhere.values().flat_map(|part| part.iter());
        JobFindings {
            own: self.own.clone(),
            elsewhere: elsewhere.cloned().collect(),
        }
    }

    fn line_up(&mut self, sections: impl Iterator<Item = SectionId>) {
        self.order = sections.collect();
        let places = self.order.iter().enumerate();
        self.places = places.map(|(place, section)| (*section, place)).collect();
        let parts = self.order.iter().map(|section| {
            let (file, section) = (CHECKED, *section);
            let found = self.merged.get(&SectionRef { file, section });
            found.cloned().unwrap_or_default()
        });
        self.own = FindingList::of(parts.collect());
    }
}
