//! What is kept of the figures from one edit to the next: what goes into a
//! figure is held beside it, and as long as that is the same so is the figure.

use std::collections::BTreeSet;
use std::sync::Arc;

use rayon::prelude::*;

use super::as_built::all_measured;
use super::counts::Counts;
use super::drains;
use super::figures::Figures;
use super::footings::{has_beds_of_borders, kerbs_in_base};
use super::footprints::{Footprints, MANY_SURFACES, SurfaceFootprints};
use super::gauging::gauging;
use super::mixes::{brought_in, mix, of_steps, uses, with_others};
use super::money::money;
use super::needs::{Need, Wants, gathered, wants, wants_of_steps};
use super::orders::{Order, orders, total};
use super::schedule::{PlannedTask, UsualRate, digging_rate, planned_with_others, schedule};
use super::shapes::shape;
use super::steps::{self, StepsFigures};
use super::surface::{SurfaceFigures, surface, unsaid};
use super::trace::Trace;
use super::trouble::{Trouble, TroubleKind, add_unless_said};
use super::water::water;
use crate::model::{DrainSeen, Heading, Job, Material, Mix, Shape, Site, Surface, Work};
use crate::units::System;

/// What is kept of the figures from one edit to the next.
#[derive(Debug, Default)]
pub struct Memory {
    /// What the figures of everything may hang on.
    heading: Heading,
    site: Site,
    shapes: Vec<Arc<Shape>>,
    footprints: Footprints,
    surfaces: Vec<Worked>,
    /// What the flights of steps need.
    wants_of_steps: Wants,
    mixes: Vec<Arc<Mix>>,
    orders: Vec<Ordered>,
    /// What the drains need.
    of_drains: Wants,
    scheduled: Option<Scheduled>,
    /// The surfaces of which it is known where their water goes.
    watered: Vec<Arc<Surface>>,
    /// The drains of that, as the surfaces see them.
    drained: Vec<DrainSeen>,
    /// The figures of all these.
    known: Figures,
    /// For each need of the surfaces, one after the other, its material's
    /// place among the orders and its own among that material's needs.
    places: Vec<(usize, usize)>,
}

/// What led to the figures of a surface, and what follows from them.
#[derive(Debug)]
struct Worked {
    surface: Arc<Surface>,
    footprints: Arc<SurfaceFootprints>,
    wants: Wants,
    /// The mixes that it is laid with.
    mixes: Vec<Arc<Mix>>,
    /// Why figures of it are not known.
    unsaid: Vec<Trouble>,
}

/// What led to the schedule.
#[derive(Debug)]
struct Scheduled {
    work: Arc<Work>,
    surfaces: Vec<(Arc<Surface>, Arc<SurfaceFigures>)>,
    digging: Option<&'static UsualRate>,
    /// Its tasks, where drains and flights of steps have a part in it.
    others: Vec<PlannedTask>,
}

/// What led to the order of a material, and what follows from it.
#[derive(Debug)]
struct Ordered {
    material: Arc<Material>,
    needs: Vec<Arc<Need>>,
    counts: Counts,
    lines: Vec<Arc<Order>>,
    troubles: Vec<Trouble>,
}

/// Works out every figure of a job, once.
pub fn figures(job: &Job) -> Figures {
    Memory::default().figures(job)
}

impl Memory {
    /// Works out every figure of a job.
    pub fn figures(&mut self, job: &Job) -> Figures {
        if self.heading != job.heading || self.site != job.site {
            *self = Memory {
                heading: job.heading.clone(),
                site: job.site.clone(),
                ..Memory::default()
            };
        }
        self.work_shapes(job);
        let flights = work_steps(job);
        let mut taken = steps::taken(job, &flights);
        taken.extend(drains::taken(job));
        let bordered = job.surfaces.iter().filter(|own| has_beds_of_borders(own));
        taken.extend(bordered.flat_map(|own| kerbs_in_base(own)));
        self.footprints.work(job, &taken);
        let changed = self.work_surfaces(job);
        let steps_stay = self.work_digs(job, flights);
        let mut troubles: Vec<Trouble> = self.footprints.troubles().cloned().collect();
        let drains_changed = self.work_drains(job);
        let mixes_changed = self.work_mixes(job, &mut troubles);
        let has_changed = drains_changed || mixes_changed || !steps_stay;
        if has_changed || !self.renew_orders(job, &changed) {
            self.work_orders(job);
        }
        let ordered = self.orders.iter();
        troubles.extend(ordered.flat_map(|ordered| ordered.troubles.iter().cloned()));
        for worked in &self.surfaces {
            for trouble in &worked.unsaid {
                add_unless_said(&mut troubles, trouble);
            }
        }
        // What is in two currencies has no sum.
        let is_foreign = |trouble: &Trouble| matches!(trouble.kind, TroubleKind::Currency { .. });
        self.known.total = match troubles.iter().any(is_foreign) {
            true => None,
            false => total(self.known.orders.iter().map(|order| order.costs())),
        };
        self.work_schedule(job);
        self.known.money = money(job, &self.known).map(Arc::new);
        self.known.measured = all_measured(job, &self.known.surfaces);
        self.work_water(job);
        self.known.troubles = troubles;
        self.known.clone()
    }

    fn work_shapes(&mut self, job: &Job) {
        let figures = Arc::make_mut(&mut self.known.shapes);
        figures.truncate(job.shapes.len());
        self.shapes.truncate(job.shapes.len());
        for (index, own) in job.shapes.values().enumerate() {
            match self.shapes.get_mut(index) {
                Some(known) if Arc::ptr_eq(known, own) => continue,
                Some(known) => known.clone_from(own),
                None => self.shapes.push(Arc::clone(own)),
            }
            put(figures, index, Arc::new(shape(own, &Trace::silent())));
        }
    }

    /// Works out where the water goes, unless the surfaces are what they were
    /// and the drains lie where they lay: it runs from one to the next, so that
    /// all hang together. What comes to each drain is a sum of that.
    fn work_water(&mut self, job: &Job) {
        if job.site.storms.is_empty() {
            self.known.water = None;
            return;
        }
        let mut pairs = self.watered.iter().zip(job.surfaces.iter());
        let drained: Vec<DrainSeen> = job.drains.iter().map(|drain| drain.seen()).collect();
        let is_same = self.watered.len() == job.surfaces.len()
            && pairs.all(|(known, own)| Arc::ptr_eq(known, own))
            && self.drained == drained;
        match &mut self.known.water {
            Some(known) if is_same => {
                if let Some(anew) = known.drained_anew(job) {
                    *known = Arc::new(anew);
                }
            }
            known => {
                *known = water(job).map(Arc::new);
                self.watered = job.surfaces.iter().cloned().collect();
                self.drained = drained;
            }
        }
    }

    /// Works out the schedule, unless the work and all that is built are what
    /// they were.
    fn work_schedule(&mut self, job: &Job) {
        let Some(work) = &job.work else {
            (self.scheduled, self.known.schedule) = (None, None);
            return;
        };
        let others = planned_with_others(job, work, &self.known);
        let digging = digging_rate(job);
        let is_same = self.scheduled.as_ref().is_some_and(|known| {
            known.work == *work
                && known.digging == digging
                && known.others == others
                && known.surfaces.len() == self.surfaces.len()
                && known
                    .surfaces
                    .iter()
                    .zip(&self.surfaces)
                    .zip(self.known.surfaces.iter())
                    .all(|(((surface, figures), own), now)| {
                        Arc::ptr_eq(surface, &own.surface) && Arc::ptr_eq(figures, now)
                    })
        });
        if is_same {
            return;
        }
        self.known.schedule = schedule(job, &self.known).map(Arc::new);
        let surfaces = self.surfaces.iter().zip(self.known.surfaces.iter());
        let surfaces =
            surfaces.map(|(own, figures)| (Arc::clone(&own.surface), Arc::clone(figures)));
        self.scheduled = Some(Scheduled {
            work: Arc::clone(work),
            surfaces: surfaces.collect(),
            digging,
            others,
        });
    }

    /// Works out the surfaces that have changed; gives them, by index, with
    /// what they wanted before.
    fn work_surfaces(&mut self, job: &Job) -> Vec<(usize, Option<Wants>)> {
        let gone = self.surfaces.len() > job.surfaces.len();
        self.surfaces.truncate(job.surfaces.len());
        let figures = Arc::make_mut(&mut self.known.surfaces);
        figures.truncate(job.surfaces.len());
        let is_known =
            |(index, (own, footprints)): &(usize, (&Arc<Surface>, &Arc<SurfaceFootprints>))| {
                self.surfaces.get(*index).is_some_and(|known| {
                    Arc::ptr_eq(&known.surface, own) && Arc::ptr_eq(&known.footprints, footprints)
                })
            };
        let all = job.surfaces.iter().zip(self.footprints.all()).enumerate();
        let new: Vec<_> = all.filter(|one| !is_known(one)).collect();
        let worked =
            |(index, (own, footprints)): (usize, (&Arc<Surface>, &Arc<SurfaceFootprints>))| {
                (index, Worked::of(job, own, footprints))
            };
        let worked: Vec<(usize, (Worked, SurfaceFigures))> = if new.len() < MANY_SURFACES {
            new.into_iter().map(worked).collect()
        } else {
            new.into_par_iter().map(worked).collect()
        };
        // One that is gone has changed too.
        let mut changed: Vec<_> = gone
            .then_some((job.surfaces.len(), None))
            .into_iter()
            .collect();
        for (index, (worked, own)) in worked {
            put(figures, index, Arc::new(own));
            match self.surfaces.get_mut(index) {
                Some(place) => {
                    let before = std::mem::replace(place, worked);
                    changed.push((index, Some(before.wants)));
                }
                None => {
                    self.surfaces.push(worked);
                    changed.push((index, None));
                }
            }
        }
        changed
    }

    /// Works out the drains, which hang on the surfaces over them; whether what
    /// they need has changed.
    fn work_drains(&mut self, job: &Job) -> bool {
        let figures = drains::drains(job);
        let wants = drains::wants(job, &figures);
        let mut both = wants.iter().zip(&self.of_drains);
        let is_same = wants.len() == self.of_drains.len()
            && both
                .all(|((now, need), (before, needed))| Arc::ptr_eq(now, before) && need == needed);
        self.of_drains = wants;
        self.known.drains = Arc::new(figures);
        !is_same
    }

    /// Works out the digs of the flights of steps; whether they need what they
    /// needed before.
    fn work_digs(&mut self, job: &Job, mut flights: Vec<StepsFigures>) -> bool {
        for (own, flight) in job.steps.iter().zip(&mut flights) {
            flight.dig = steps::dig(job, own, flight, &self.known.surfaces);
        }
        let flights: Vec<Arc<StepsFigures>> = flights.into_iter().map(Arc::new).collect();
        let wants = wants_of_steps(job, &flights);
        let mut both = wants.iter().zip(&self.wants_of_steps);
        let is_same = wants.len() == self.wants_of_steps.len()
            && both.all(|(now, before)| Arc::ptr_eq(&now.0, &before.0) && now.1 == before.1);
        self.wants_of_steps = wants;
        if *self.known.steps != flights {
            self.known.steps = Arc::new(flights);
        }
        is_same
    }

    /// Works out the mixes; whether one of them, or what it makes, has changed.
    fn work_mixes(&mut self, job: &Job, troubles: &mut Vec<Trouble>) -> bool {
        let system = job.heading.system();
        let others = self.surfaces.iter().flat_map(|worked| &worked.mixes);
        let others = others.chain(drains::brought_in(job));
        let (mut mixes, mut figures) = (Vec::new(), Vec::new());
        for own in with_others(job, others.chain(of_steps(job))).into_values() {
            let used = uses(&self.known, own);
            let gauging = gauging(own, system);
            if let Err(Some(trouble)) = &gauging {
                troubles.push(Trouble::clone(trouble));
            }
            let made = mix(own, &used, gauging.as_ref().ok(), &Trace::silent());
            mixes.push(Arc::clone(own));
            figures.push(Arc::new(made));
        }
        let mut both = mixes.iter().zip(&self.mixes);
        let is_same = mixes.len() == self.mixes.len()
            && both.all(|(now, before)| Arc::ptr_eq(now, before))
            && figures == *self.known.mixes;
        self.mixes = mixes;
        self.known.mixes = Arc::new(figures);
        !is_same
    }

    /// Orders anew what the changed surfaces want, where they want the same
    /// materials as before; whether that was so.
    fn renew_orders(&mut self, job: &Job, changed: &[(usize, Option<Wants>)]) -> bool {
        // All is looked at before anything is renewed: what is left as it was
        // must not pass for what is wanted now.
        let mut renewed: Vec<(usize, usize, Arc<Need>)> = Vec::new();
        for (index, before) in changed {
            let (Some(before), Some(worked)) = (before, self.surfaces.get(*index)) else {
                return false;
            };
            let mut both = before.iter().zip(&worked.wants);
            let same_materials = before.len() == worked.wants.len()
                && both.all(|((before, _), (now, _))| Arc::ptr_eq(before, now));
            if !same_materials {
                return false;
            }
            let first: usize = self
                .surfaces
                .iter()
                .take(*index)
                .map(|worked| worked.wants.len())
                .sum();
            let places = self.places.get(first..).unwrap_or_default();
            for ((_, need), (order, place)) in worked.wants.iter().zip(places) {
                let needs = self.orders.get(*order).map(|ordered| &ordered.needs);
                let Some(known) = needs.and_then(|needs| needs.get(*place)) else {
                    return false;
                };
                if known != need {
                    renewed.push((*order, *place, Arc::clone(need)));
                }
            }
        }
        let system = job.heading.system();
        let mut touched = BTreeSet::new();
        for (order, place, need) in renewed {
            if let Some(ordered) = self.orders.get_mut(order) {
                ordered.renew(place, need, system);
                touched.insert(order);
            }
        }
        for index in &touched {
            if let Some(ordered) = self.orders.get_mut(*index) {
                ordered.work(job);
            }
        }
        if !touched.is_empty() {
            self.list_orders();
        }
        true
    }

    fn work_orders(&mut self, job: &Job) {
        let of_surfaces = self.surfaces.iter().flat_map(|worked| &worked.wants);
        let mixes = self.mixes.iter().zip(self.known.mixes.iter());
        let others = self.wants_of_steps.iter().chain(&self.of_drains);
        let (needs, places) = gathered(of_surfaces.chain(others), mixes);
        self.places = places;
        let mut kept = std::mem::take(&mut self.orders).into_iter();
        for (_, (material, needs)) in needs {
            let known = kept
                .next()
                .filter(|known| Arc::ptr_eq(&known.material, &material) && known.needs == needs);
            let ordered = known.unwrap_or_else(|| Ordered::of(job, material, needs));
            self.orders.push(ordered);
        }
        self.list_orders();
    }

    /// The lines of all orders, one after the other.
    fn list_orders(&mut self) {
        let lines = self.orders.iter().flat_map(|ordered| &ordered.lines);
        match Arc::get_mut(&mut self.known.orders) {
            Some(known) => {
                known.clear();
                known.extend(lines.cloned());
            }
            None => self.known.orders = Arc::new(lines.cloned().collect()),
        }
    }
}

/// The flights of a job, their digs left out.
fn work_steps(job: &Job) -> Vec<StepsFigures> {
    let own = job.steps.iter();
    own.map(|own| steps::steps(job, own)).collect()
}

/// Puts a thing at its place in a list, which may be the first free one.
fn put<T>(list: &mut Vec<T>, index: usize, thing: T) {
    match list.get_mut(index) {
        Some(place) => *place = thing,
        None => list.push(thing),
    }
}

impl Ordered {
    fn of(job: &Job, material: Arc<Material>, needs: Vec<Arc<Need>>) -> Ordered {
        let mut ordered = Ordered {
            counts: Counts::of(&material, &needs, job.heading.system()),
            material,
            needs,
            lines: Vec::new(),
            troubles: Vec::new(),
        };
        ordered.work(job);
        ordered
    }

    /// Puts another need at a place among the needs.
    fn renew(&mut self, place: usize, need: Arc<Need>, system: System) {
        if let Some(known) = self.needs.get_mut(place) {
            let before = std::mem::replace(known, need);
            let changed = (place, before.as_ref());
            self.counts
                .renew(&self.material, &self.needs, changed, system);
        }
    }

    /// Works out the order lines of what is needed.
    fn work(&mut self, job: &Job) {
        self.troubles.clear();
        let needs = (self.needs.as_slice(), &self.counts);
        let troubles = &mut self.troubles;
        let lines = orders(job, &self.material, needs, (&Trace::silent(), 0), troubles);
        self.lines = lines.into_iter().map(Arc::new).collect();
    }
}

impl Worked {
    fn of(
        job: &Job,
        own: &Arc<Surface>,
        footprints: &Arc<SurfaceFootprints>,
    ) -> (Worked, SurfaceFigures) {
        let figures = surface(job, own, footprints);
        let worked = Worked {
            surface: Arc::clone(own),
            footprints: Arc::clone(footprints),
            wants: wants(own, &figures),
            mixes: brought_in(own).cloned().collect(),
            unsaid: unsaid(own, &figures),
        };
        (worked, figures)
    }
}
