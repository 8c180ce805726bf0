//! What is kept of the figures from one edit to the next: what goes into a
//! figure is held beside it, and as long as that is the same so is the figure.

use std::collections::BTreeSet;
use std::sync::Arc;

use rayon::prelude::*;

use super::figures::Figures;
use super::gauging::gauging;
use super::grounds::{Grounds, MANY_SURFACES, SurfaceGrounds};
use super::mixes::{MixFigures, mix, mixes_of, uses};
use super::needs::{Need, Wants, gathered, wants};
use super::notes::Silent;
use super::orders::{Order, order, total};
use super::shapes::{ShapeFigures, shape};
use super::surface::{SurfaceFigures, surface, unsaid};
use super::trouble::{Trouble, add_unless_said};
use crate::model::{Heading, Job, Material, Mix, Named, Shape, Site, Surface};

/// What is kept of the figures from one edit to the next.
#[derive(Debug, Default)]
pub struct Memory {
    /// What the figures of everything may hang on.
    heading: Heading,
    site: Site,
    shapes: Named<Shape>,
    shape_figures: Vec<Arc<ShapeFigures>>,
    grounds: Grounds,
    surfaces: Vec<Worked>,
    mixes: Vec<(Arc<Mix>, Arc<MixFigures>)>,
    orders: Vec<Ordered>,
    /// For each need of the surfaces, one after the other, its material's
    /// place among the orders and its own among that material's needs.
    places: Vec<(usize, usize)>,
}

/// A surface with its figures.
#[derive(Debug)]
struct Worked {
    surface: Arc<Surface>,
    grounds: Arc<SurfaceGrounds>,
    figures: Arc<SurfaceFigures>,
    wants: Wants,
    /// Why figures of it are not known.
    unsaid: Vec<Trouble>,
}

/// A material with its order.
#[derive(Debug)]
struct Ordered {
    material: Arc<Material>,
    needs: Vec<Arc<Need>>,
    order: Arc<Order>,
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
        self.grounds.work(job);
        let changed = self.work_surfaces(job);
        let surfaces: Vec<Arc<SurfaceFigures>> = self
            .surfaces
            .iter()
            .map(|worked| Arc::clone(&worked.figures))
            .collect();
        let grounds = self.grounds.all();
        let mut troubles: Vec<Trouble> = grounds
            .flat_map(|own| own.troubles.iter().cloned())
            .collect();
        let mixed = self.work_mixes(job, &surfaces, &mut troubles);
        let mixes: Vec<Arc<MixFigures>> = self
            .mixes
            .iter()
            .map(|(_, figures)| Arc::clone(figures))
            .collect();
        if mixed || !self.renew_orders(job, &changed) {
            self.work_orders(job, &mixes);
        }
        let ordered = self.orders.iter();
        troubles.extend(ordered.flat_map(|ordered| ordered.troubles.iter().cloned()));
        for worked in &self.surfaces {
            for trouble in &worked.unsaid {
                add_unless_said(&mut troubles, trouble);
            }
        }
        let orders = self.orders.iter().map(|ordered| Arc::clone(&ordered.order));
        let orders: Vec<Arc<Order>> = orders.collect();
        Figures {
            total: total(&orders),
            shapes: self.shape_figures.clone(),
            surfaces,
            mixes,
            orders,
            troubles,
        }
    }

    fn work_shapes(&mut self, job: &Job) {
        if Arc::ptr_eq(&self.shapes, &job.shapes) {
            return;
        }
        let before = std::mem::replace(&mut self.shapes, Arc::clone(&job.shapes));
        self.shape_figures.truncate(job.shapes.len());
        for (index, own) in job.shapes.values().enumerate() {
            let known = before.get_index(index);
            if known.is_some_and(|(_, known)| Arc::ptr_eq(known, own)) {
                continue;
            }
            let figures = Arc::new(shape(own, &mut Silent));
            match self.shape_figures.get_mut(index) {
                Some(place) => *place = figures,
                None => self.shape_figures.push(figures),
            }
        }
    }

    /// Works out the surfaces that have changed; gives them, by index, with
    /// what they wanted before.
    fn work_surfaces(&mut self, job: &Job) -> Vec<(usize, Option<Wants>)> {
        let gone = self.surfaces.len() > job.surfaces.len();
        self.surfaces.truncate(job.surfaces.len());
        let is_known =
            |(index, (own, grounds)): &(usize, (&Arc<Surface>, &Arc<SurfaceGrounds>))| {
                self.surfaces.get(*index).is_some_and(|known| {
                    Arc::ptr_eq(&known.surface, own) && Arc::ptr_eq(&known.grounds, grounds)
                })
            };
        let all = job.surfaces.iter().zip(self.grounds.all()).enumerate();
        let new: Vec<_> = all.filter(|one| !is_known(one)).collect();
        let worked = |(index, (own, grounds)): (usize, (&Arc<Surface>, &Arc<SurfaceGrounds>))| {
            (index, Worked::of(job, own, grounds))
        };
        let worked: Vec<(usize, Worked)> = if new.len() < MANY_SURFACES {
            new.into_iter().map(worked).collect()
        } else {
            new.into_par_iter().map(worked).collect()
        };
        // One that is gone has changed too.
        let mut changed: Vec<_> = gone
            .then_some((job.surfaces.len(), None))
            .into_iter()
            .collect();
        for (index, worked) in worked {
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

    /// Works out the mixes; whether one of them, or what it makes, has changed.
    fn work_mixes(
        &mut self,
        job: &Job,
        surfaces: &[Arc<SurfaceFigures>],
        troubles: &mut Vec<Trouble>,
    ) -> bool {
        let system = job.heading.system();
        let before = std::mem::take(&mut self.mixes);
        for own in mixes_of(job).values() {
            let used = uses(surfaces, own);
            let gauging = gauging(own, system, &mut Silent);
            if let Err(Some(trouble)) = &gauging {
                troubles.push(Trouble::clone(trouble));
            }
            let figures = mix(own, &used, gauging.as_ref().ok(), &mut Silent);
            self.mixes.push((Arc::clone(own), Arc::new(figures)));
        }
        let mut both = before.iter().zip(&self.mixes);
        let is_same = |(before, now): (&(Arc<Mix>, _), &(Arc<Mix>, _))| {
            Arc::ptr_eq(&before.0, &now.0) && before.1 == now.1
        };
        before.len() != self.mixes.len() || !both.all(is_same)
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
        let mut touched = BTreeSet::new();
        for (order, place, need) in renewed {
            let ordered = self.orders.get_mut(order);
            if let Some(known) = ordered.and_then(|ordered| ordered.needs.get_mut(place)) {
                *known = need;
                touched.insert(order);
            }
        }
        for index in touched {
            if let Some(ordered) = self.orders.get_mut(index) {
                let needs = std::mem::take(&mut ordered.needs);
                *ordered = Ordered::of(job, Arc::clone(&ordered.material), needs);
            }
        }
        true
    }

    fn work_orders(&mut self, job: &Job, mixes: &[Arc<MixFigures>]) {
        let of_surfaces = self.surfaces.iter().flat_map(|worked| &worked.wants);
        let (needs, places) = gathered(of_surfaces, job, mixes);
        self.places = places;
        let mut kept = std::mem::take(&mut self.orders).into_iter();
        for (_, (material, needs)) in needs {
            let known = kept
                .next()
                .filter(|known| Arc::ptr_eq(&known.material, &material) && known.needs == needs);
            let ordered = known.unwrap_or_else(|| Ordered::of(job, material, needs));
            self.orders.push(ordered);
        }
    }
}

impl Ordered {
    fn of(job: &Job, material: Arc<Material>, needs: Vec<Arc<Need>>) -> Ordered {
        let mut troubles = Vec::new();
        let order = order(job, &material, &needs, &mut Silent, &mut troubles);
        Ordered {
            material,
            needs,
            order: Arc::new(order),
            troubles,
        }
    }
}

impl Worked {
    fn of(job: &Job, own: &Arc<Surface>, grounds: &Arc<SurfaceGrounds>) -> Worked {
        let figures = surface(job, own, grounds);
        Worked {
            surface: Arc::clone(own),
            grounds: Arc::clone(grounds),
            wants: wants(own, &figures),
            unsaid: unsaid(own, &figures),
            figures: Arc::new(figures),
        }
    }
}
