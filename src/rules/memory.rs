//! What is kept of the findings from one edit to the next.
//!
//! Each part of a job, a surface, a build, a material or a mix, is checked by
//! itself. What its checks look at is held beside what they found, and as
//! long as that is the same so are the findings.

use std::hash::{Hash, Hasher};
use std::sync::Arc;

use rayon::prelude::*;
use rustc_hash::{FxHashMap, FxHashSet, FxHasher};

use super::run::{self, CHECKED, merge_same, order};
use super::{Context, Limits, Stopwatch};
use crate::findings::{Finding, SectionRef};
use crate::model::{Build, Contact, Heading, Material, Mix, Site, Surface};
use crate::quantities::SurfaceFigures;
use crate::syntax::SectionId;

/// From how many parts on they are checked side by side.
const MANY: usize = 32;

/// What is kept of the findings from one edit to the next.
#[derive(Debug, Default)]
pub struct Memory {
    /// What the checks of everything may look at.
    heading: Heading,
    site: Site,
    limits: Limits,
    surfaces: Parts<SurfaceSeen>,
    builds: Parts<Arc<Build>>,
    materials: Parts<Arc<Material>>,
    mixes: Parts<Arc<Mix>>,
    sections: Sections,
    /// How many findings of each rule there are.
    counts: FxHashMap<&'static str, usize>,
}

/// What the checks of a surface look at.
#[derive(Debug, Clone)]
struct SurfaceSeen {
    surface: Arc<Surface>,
    figures: Option<Arc<SurfaceFigures>>,
    /// The surfaces beside it, with their figures.
    beside: u64,
    /// All surfaces, for checks that look so far.
    all: u64,
}

/// The parts of one kind, in order, each with what was found.
#[derive(Debug)]
struct Parts<S> {
    all: Vec<Part<S>>,
}

#[derive(Debug)]
struct Part<S> {
    seen: S,
    /// Whether its checks looked at every surface.
    looked_far: bool,
    found: Vec<Arc<Finding>>,
}

impl<S> Default for Parts<S> {
    fn default() -> Parts<S> {
        Parts { all: Vec::new() }
    }
}

/// The findings of all parts by the section in which they stand.
#[derive(Debug, Default)]
struct Sections {
    found: FxHashMap<SectionRef, Vec<Arc<Finding>>>,
    /// The same in order, what is said twice said once.
    merged: FxHashMap<SectionRef, Vec<Arc<Finding>>>,
}

impl Memory {
    /// Everything found in a job: what the reading found and what every rule
    /// finds, each with how much it matters where the standards in force are
    /// heard. `order` names the sections of the file itself, as they follow
    /// one another; the findings of other files come last. Each rule is run
    /// under its name on the stopwatch.
    pub fn run(
        &mut self,
        context: &Context<'_>,
        sections: impl Iterator<Item = SectionId>,
        watch: Stopwatch<'_>,
    ) -> Vec<Arc<Finding>> {
        let job = context.job;
        if self.heading != job.heading || self.site != job.site || self.limits != *context.limits {
            *self = Memory {
                heading: job.heading.clone(),
                site: job.site.clone(),
                limits: context.limits.clone(),
                ..Memory::default()
            };
        }
        let mut changes = Changes::default();
        self.surfaces.see(
            surfaces_seen(context),
            |before, now, looked_far| before.is_same(now, looked_far),
            |context, seen| run::of_surface(context, &seen.surface, watch),
            context,
            &mut changes,
        );
        self.builds.see(
            job.builds.values().cloned().collect(),
            |before, now, _| Arc::ptr_eq(before, now),
            |context, build| run::of_build(context, build, watch),
            context,
            &mut changes,
        );
        self.materials.see(
            job.materials.values().cloned().collect(),
            |before, now, _| Arc::ptr_eq(before, now),
            |context, material| run::of_material(context, material, watch),
            context,
            &mut changes,
        );
        self.mixes.see(
            job.mixes.values().cloned().collect(),
            |before, now, _| Arc::ptr_eq(before, now),
            |context, mix| run::of_mix(context, mix, watch),
            context,
            &mut changes,
        );
        self.count(&changes);
        self.sections.change(changes);
        let has_found = |rule: &str| self.counts.get(rule).is_some_and(|count| *count > 0);
        let of_job = run::of_job(context, has_found, watch);
        self.sections.with(of_job, sections)
    }

    fn count(&mut self, changes: &Changes) {
        for finding in &changes.gone {
            if let Some(count) = self.counts.get_mut(finding.rule) {
                *count = count.saturating_sub(1);
            }
        }
        for finding in &changes.come {
            *self.counts.entry(finding.rule).or_default() += 1;
        }
    }
}

/// Findings that are no longer, and new ones.
#[derive(Debug, Default)]
struct Changes {
    gone: Vec<Arc<Finding>>,
    come: Vec<Arc<Finding>>,
}

impl<S: Sync + Send> Parts<S> {
    /// Checks the parts anew of which something that their checks look at has
    /// changed.
    fn see(
        &mut self,
        now: Vec<S>,
        is_same: impl Fn(&S, &S, bool) -> bool,
        check: impl Fn(&Context<'_>, &S) -> Vec<Arc<Finding>> + Sync,
        context: &Context<'_>,
        changes: &mut Changes,
    ) {
        let mut kept = std::mem::take(&mut self.all).into_iter();
        let mut anew = Vec::new();
        for (index, seen) in now.into_iter().enumerate() {
            let before = kept.next();
            let part = match before {
                Some(before) if is_same(&before.seen, &seen, before.looked_far) => {
                    Part { seen, ..before }
                }
                before => {
                    changes
                        .gone
                        .extend(before.into_iter().flat_map(|part| part.found));
                    anew.push(index);
                    Part {
                        seen,
                        looked_far: false,
                        found: Vec::new(),
                    }
                }
            };
            self.all.push(part);
        }
        changes.gone.extend(kept.flat_map(|part| part.found));
        let check = |index: usize| {
            let of_one = context.of_one();
            let part = self.all.get(index);
            let found = part.map_or_else(Vec::new, |part| check(&of_one, &part.seen));
            (index, found, of_one.has_looked_far())
        };
        let checked: Vec<_> = if anew.len() < MANY {
            anew.into_iter().map(check).collect()
        } else {
            anew.into_par_iter().map(check).collect()
        };
        for (index, found, looked_far) in checked {
            changes.come.extend(found.iter().cloned());
            if let Some(part) = self.all.get_mut(index) {
                (part.found, part.looked_far) = (found, looked_far);
            }
        }
    }
}

impl SurfaceSeen {
    fn is_same(&self, now: &SurfaceSeen, looked_far: bool) -> bool {
        let figures = match (&self.figures, &now.figures) {
            (Some(before), Some(now)) => Arc::ptr_eq(before, now),
            (before, now) => before.is_none() && now.is_none(),
        };
        Arc::ptr_eq(&self.surface, &now.surface)
            && figures
            && self.beside == now.beside
            && (!looked_far || self.all == now.all)
    }
}

/// What the checks of each surface look at. What is compared by address is
/// held by the parts seen before, so that no address comes twice.
fn surfaces_seen(context: &Context<'_>) -> Vec<SurfaceSeen> {
    let surfaces = context.job.surfaces.iter();
    let figures = context.figures.surfaces.iter().map(Some);
    let figures = figures.chain(std::iter::repeat(None));
    let both: Vec<_> = surfaces.zip(figures).collect();
    let address = |(surface, figures): &(&Arc<Surface>, Option<&Arc<SurfaceFigures>>)| {
        (
            Arc::as_ptr(surface).addr(),
            figures.map_or(0, |own| Arc::as_ptr(own).addr()),
        )
    };
    let all = mixed(both.iter().map(address));
    both.iter()
        .map(|(surface, figures)| {
            let contacts = surface.sides.iter().filter_map(|side| match side.contact {
                Contact::Surface(index) => Some(index),
                Contact::Building | Contact::Free => None,
            });
            let beside = contacts.chain(surface.overlaps.map(|(index, _)| index));
            SurfaceSeen {
                surface: Arc::clone(surface),
                figures: figures.cloned(),
                beside: mixed(beside.filter_map(|index| both.get(index)).map(address)),
                all,
            }
        })
        .collect()
}

/// One number for many.
fn mixed(all: impl Iterator<Item = (usize, usize)>) -> u64 {
    let mut hasher = FxHasher::default();
    all.for_each(|one| one.hash(&mut hasher));
    hasher.finish()
}

impl Sections {
    fn change(&mut self, changes: Changes) {
        let mut touched: FxHashSet<SectionRef> = FxHashSet::default();
        for gone in changes.gone {
            let section = gone.place.section;
            touched.insert(section);
            if let Some(found) = self.found.get_mut(&section) {
                found.retain(|finding| !Arc::ptr_eq(finding, &gone));
            }
        }
        for come in changes.come {
            let section = come.place.section;
            touched.insert(section);
            self.found.entry(section).or_default().push(come);
        }
        for section in touched {
            match self.found.get_mut(&section) {
                Some(found) if !found.is_empty() => {
                    order(found);
                    let merged = merge_same(found.iter().cloned());
                    self.merged.insert(section, merged);
                }
                _ => {
                    self.found.remove(&section);
                    self.merged.remove(&section);
                }
            }
        }
    }

    /// All findings, those of the job as a whole among them.
    fn with(
        &self,
        of_job: Vec<Arc<Finding>>,
        sections: impl Iterator<Item = SectionId>,
    ) -> Vec<Arc<Finding>> {
        let mut more: FxHashMap<SectionRef, Vec<Arc<Finding>>> = FxHashMap::default();
        for finding in of_job {
            more.entry(finding.place.section).or_default().push(finding);
        }
        let mut all = Vec::new();
        let mut add = |section: SectionRef, more: Option<Vec<Arc<Finding>>>| {
            let own = self.merged.get(&section).into_iter().flatten().cloned();
            match more {
                None => all.extend(own),
                Some(mut more) => {
                    more.extend(own);
                    order(&mut more);
                    all.extend(merge_same(more));
                }
            }
        };
        for section in sections {
            let file = CHECKED;
            let section = SectionRef { file, section };
            add(section, more.remove(&section));
        }
        let elsewhere = |section: &&SectionRef| section.file != CHECKED;
        let mut others: Vec<SectionRef> = self.merged.keys().filter(elsewhere).copied().collect();
        others.extend(more.keys().filter(|section| section.file != CHECKED));
        others.sort_unstable();
        others.dedup();
        for section in others {
            add(section, more.remove(&section));
        }
        all
    }
}
