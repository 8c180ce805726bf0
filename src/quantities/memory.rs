//! What is kept of the figures from one edit to the next: what goes into a
//! figure is held beside it, and as long as that is the same so is the figure.

use std::sync::Arc;

use rayon::prelude::*;

use super::costs::total;
use super::figures::{Figures, SurfaceFigures, surface, unsaid};
use super::gauging::gauging;
use super::grounds::{Grounds, MANY_SURFACES, SurfaceGrounds};
use super::mixes::{MixFigures, mix, mixes_of, uses};
use super::needs::{Need, Wants, gathered, wants};
use super::notes::Silent;
use super::orders::{Order, order};
use super::shapes::{ShapeFigures, shape};
use super::trouble::Trouble;
use crate::model::{Heading, Job, Material, Shape, Site, Surface};

/// What is kept of the figures from one edit to the next.
#[derive(Debug, Default)]
pub struct Memory {
    /// What the figures of everything may hang on.
    heading: Heading,
    site: Site,
    shapes: Vec<(Arc<Shape>, Arc<ShapeFigures>)>,
    grounds: Grounds,
    surfaces: Vec<Worked>,
    orders: Vec<Ordered>,
}

/// A surface with its figures.
#[derive(Debug, Clone)]
struct Worked {
    surface: Arc<Surface>,
    grounds: Arc<SurfaceGrounds>,
    figures: Arc<SurfaceFigures>,
    wants: Arc<Wants>,
}

/// A material with its order.
#[derive(Debug)]
struct Ordered {
    material: Arc<Material>,
    needs: Vec<Need>,
    order: Arc<Order>,
    troubles: Vec<Trouble>,
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
        let shapes = self.shapes(job);
        let grounds = self.grounds.of(job);
        let mut troubles: Vec<Trouble> = grounds
            .iter()
            .flat_map(|own| own.troubles.iter().cloned())
            .collect();
        self.work(job, grounds);
        let surfaces: Vec<Arc<SurfaceFigures>> = self
            .surfaces
            .iter()
            .map(|worked| Arc::clone(&worked.figures))
            .collect();
        let mixes = mixes(job, &surfaces, &mut troubles);
        let orders = self.orders(job, &mixes, &mut troubles);
        unsaid(job, &surfaces, &mut troubles);
        Figures {
            total: total(&orders),
            shapes,
            surfaces,
            mixes,
            orders,
            troubles,
        }
    }

    fn shapes(&mut self, job: &Job) -> Vec<Arc<ShapeFigures>> {
        let kept = std::mem::take(&mut self.shapes);
        let all = job.shapes.values().enumerate();
        self.shapes = all
            .map(|(index, own)| match kept.get(index) {
                Some((known, figures)) if Arc::ptr_eq(known, own) => {
                    (Arc::clone(own), Arc::clone(figures))
                }
                _ => (Arc::clone(own), Arc::new(shape(own, &mut Silent))),
            })
            .collect();
        let figures = self.shapes.iter().map(|(_, figures)| Arc::clone(figures));
        figures.collect()
    }

    fn work(&mut self, job: &Job, grounds: Vec<Arc<SurfaceGrounds>>) {
        let kept = std::mem::take(&mut self.surfaces);
        let worked = |(index, (own, grounds)): (usize, (&Arc<Surface>, Arc<SurfaceGrounds>))| {
            let known = kept.get(index).filter(|known| {
                Arc::ptr_eq(&known.surface, own) && Arc::ptr_eq(&known.grounds, &grounds)
            });
            match known {
                Some(known) => known.clone(),
                None => {
                    let figures = surface(job, own, &grounds);
                    Worked {
                        surface: Arc::clone(own),
                        wants: Arc::new(wants(own, &figures)),
                        figures: Arc::new(figures),
                        grounds,
                    }
                }
            }
        };
        self.surfaces = if job.surfaces.len() < MANY_SURFACES {
            let all = job.surfaces.iter().zip(grounds).enumerate();
            all.map(worked).collect()
        } else {
            let all = job.surfaces.par_iter().zip(grounds).enumerate();
            all.map(worked).collect()
        };
    }

    fn orders(
        &mut self,
        job: &Job,
        mixes: &[Arc<MixFigures>],
        troubles: &mut Vec<Trouble>,
    ) -> Vec<Arc<Order>> {
        let kept = std::mem::take(&mut self.orders);
        let of_surfaces = self.surfaces.iter().flat_map(|worked| worked.wants.iter());
        let needs = gathered(of_surfaces, job, mixes);
        let mut kept = kept.into_iter();
        for (_, (material, needs)) in needs {
            let known = kept
                .next()
                .filter(|known| Arc::ptr_eq(&known.material, &material) && known.needs == needs);
            let ordered = known.unwrap_or_else(|| {
                let mut troubles = Vec::new();
                let order = order(job, &material, &needs, &mut Silent, &mut troubles);
                Ordered {
                    material,
                    needs,
                    order: Arc::new(order),
                    troubles,
                }
            });
            self.orders.push(ordered);
        }
        let all = self.orders.iter();
        troubles.extend(all.flat_map(|ordered| ordered.troubles.iter().cloned()));
        let orders = self.orders.iter().map(|ordered| Arc::clone(&ordered.order));
        orders.collect()
    }
}

fn mixes(
    job: &Job,
    surfaces: &[Arc<SurfaceFigures>],
    troubles: &mut Vec<Trouble>,
) -> Vec<Arc<MixFigures>> {
    let system = job.heading.system();
    mixes_of(job)
        .values()
        .map(|own| {
            let used = uses(surfaces, own);
            let gauging = gauging(own, system, &mut Silent);
            if let Err(Some(trouble)) = &gauging {
                troubles.push(Trouble::clone(trouble));
            }
            Arc::new(mix(own, &used, gauging.as_ref().ok(), &mut Silent))
        })
        .collect()
}
