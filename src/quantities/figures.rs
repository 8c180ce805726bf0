//! Every figure of a job.

use std::sync::Arc;

use super::as_built::MeasuredFigures;
use super::drains::DrainFigures;
use super::mixes::MixFigures;
use super::money::MoneyFigures;
use super::orders::Order;
use super::schedule::ScheduleFigures;
use super::shapes::ShapeFigures;
use super::steps::StepsFigures;
use super::surface::SurfaceFigures;
use super::trouble::Trouble;
use super::water::WaterFigures;
use crate::model::Listed;
use crate::units::Money;

/// Every figure of a job, in SI; `None` where it cannot be known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Figures {
    /// The shapes, in the order of [`Job::shapes`](crate::model::Job::shapes).
    pub shapes: Listed<ShapeFigures>,
    /// The surfaces, in the order of [`Job::surfaces`](crate::model::Job::surfaces).
    pub surfaces: Listed<SurfaceFigures>,
    /// The flights of steps, in the order of [`Job::steps`](crate::model::Job::steps).
    pub steps: Listed<StepsFigures>,
    /// The mixes: those of [`Job::mixes`](crate::model::Job::mixes) in order, then any that only a
    /// layer or a joint brings in.
    pub mixes: Listed<MixFigures>,
    /// The order lines, in the order of first use.
    pub orders: Listed<Order>,
    /// The sum of all lines and deliveries that have a cost; `None` if none
    /// has, or they are in more than one currency.
    pub total: Option<Money>,
    /// The drains, in the order of [`Job::drains`](crate::model::Job::drains).
    pub drains: Arc<Vec<DrainFigures>>,
    /// The schedule; `None` where a job says nothing of the work.
    pub schedule: Option<Arc<ScheduleFigures>>,
    /// What is hired, the cost by heading and the quotes; `None` where a job
    /// says nothing of them.
    pub money: Option<Arc<MoneyFigures>>,
    /// What was measured, in the order of
    /// [`Job::measured`](crate::model::Job::measured).
    pub measured: Vec<MeasuredFigures>,
    /// Where the water goes; `None` where a job states no storm.
    pub water: Option<Arc<WaterFigures>>,
    /// Why figures cannot be known, where nothing else says so.
    pub troubles: Vec<Trouble>,
}

impl Figures {
    /// The figures of a shape.
    pub fn shape(&self, name: &str) -> Option<&ShapeFigures> {
        self.shapes
            .iter()
            .find(|shape| shape.name == name)
            .map(Arc::as_ref)
    }

    /// The figures of a surface.
    pub fn surface(&self, name: &str) -> Option<&SurfaceFigures> {
        self.surfaces
            .iter()
            .find(|surface| surface.name == name)
            .map(Arc::as_ref)
    }

    /// The figures of a mix.
    pub fn mix(&self, name: &str) -> Option<&MixFigures> {
        self.mixes
            .iter()
            .find(|mix| mix.name == name)
            .map(Arc::as_ref)
    }

    /// The order line of a material.
    pub fn order(&self, material: &str) -> Option<&Order> {
        self.orders
            .iter()
            .find(|order| order.material == material)
            .map(Arc::as_ref)
    }

    /// How many order lines have no cost.
    pub fn unpriced(&self) -> usize {
        self.orders
            .iter()
            .filter(|order| order.cost.is_none() || order.is_delivery_unread)
            .count()
    }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{
        area_of, catalogued, job, job_of, layer, line, material, mix, sold, sourced, surface,
    };
    use super::super::{TroubleKind, figures};
    use super::*;
    use crate::model::{Job, Material, Stated};
    use crate::units::{Dimension, Quantity};
    use crate::vocabulary::Role;
    use proptest::prelude::*;

    proptest! {
        /// Whatever numbers a spec holds, figures come out, what is ordered is
        /// an ordinary number, and every working comes to something.
        #[test]
        fn no_number_in_a_spec_is_too_odd(
            numbers in prop::collection::vec(
                prop_oneof![
                    Just(0.0),
                    -10.0..10.0,
                    Just(1e-300),
                    Just(1e30),
                    Just(-1e30),
                    Just(f64::MAX),
                ],
                12,
            ),
            sold_by in prop::sample::select(vec![
                "by ton", "by cu yd", "by bag of 94 lb", "by sq ft", "by each", "by ft",
            ]),
        ) {
            let job = odd_job(&numbers, sold_by);
            let found = figures(&job);
            for order in found.orders.iter() {
                prop_assert!(order.ordered.is_none_or(|ordered| ordered.to_f64().is_finite()));
            }
            for working in super::super::workings(&job, &found) {
                prop_assert!(working.result().is_some());
            }
        }
    }

    /// A job with these numbers wherever a number can stand.
    fn odd_job(numbers: &[f64], sold_by: &str) -> Job {
        let of = |index: usize, dimension| {
            let value = numbers.get(index).copied().unwrap_or(1.0);
            Quantity::near(value, dimension).unwrap()
        };
        let said = |index, dimension| Some(Stated::new(of(index, dimension), line(1)));
        let own = Material {
            density: Some(crate::model::Sourced {
                value: of(0, Dimension::DENSITY),
                origin: crate::model::Origin::Line(line(1)),
            }),
            sold: sold(sold_by),
            unit: sourced("8 in").zip(sourced("4 in")),
            minimum: said(1, Dimension::MASS),
            price: Some(Stated::new(
                Quantity::money(of(2, Dimension::NONE).number, crate::units::Currency::Usd),
                line(1),
            )),
            ..material("odd")
        };
        let mut mortar = mix(
            "mortar",
            &[("1", catalogued("portland-cement")), ("3", own.clone())],
        );
        mortar.voids = said(3, Dimension::NONE);
        mortar.water = said(4, Dimension::NONE);
        mortar.batch = said(5, Dimension::VOLUME);
        let layers = [Role::Paving, Role::Bed, Role::Base].map(|role| {
            let mut entry = layer(role, own.clone(), "");
            entry.thickness = said(6, Dimension::LENGTH);
            entry.beyond = said(7, Dimension::LENGTH);
            entry.waste = said(8, Dimension::NONE);
            entry
        });
        let mut court = surface("court", area_of("24 ft", "12 ft"), layers.into())
            .falling("0 ft", "2 %")
            .jointed("1/2 in", "", Some(mortar.into()));
        court.movement_joints = said(9, Dimension::LENGTH);
        if let Some(joint) = &mut court.joint {
            joint.width.value = of(10, Dimension::LENGTH);
        }
        let mut job = job(vec![court]).on_ground("0 ft");
        job.site.swell = said(11, Dimension::NONE);
        job
    }

    fn kinds(job: &Job) -> Vec<TroubleKind> {
        figures(job)
            .troubles
            .into_iter()
            .map(|trouble| trouble.kind)
            .collect()
    }

    #[test]
    fn a_job_of_nothing_has_no_figures_and_no_trouble() {
        assert_eq!(figures(&Job::default()), Figures::default());
    }

    #[test]
    fn each_unknown_is_told_once() {
        let by_area = Material {
            sold: sold("by sq ft"),
            ..material("flag")
        };
        let each = Material {
            sold: sold("by each"),
            density: sourced("150 lb/cu ft"),
            ..material("flag")
        };
        let by_ton = Material {
            sold: sold("by ton"),
            ..material("flag")
        };
        let jointed = |own: &Material| {
            let paving = layer(Role::Paving, own.clone(), "2 in");
            let court = surface("court", area_of("10 ft", "10 ft"), vec![paving]);
            let sand = catalogued("joint-sand").into();
            job(vec![court.jointed("1/2 in", "", Some(sand))])
        };
        for (job, expected) in [
            (
                job_of(Role::Base, by_area.clone(), "100", "6 in"),
                vec![TroubleKind::NoMass],
            ),
            (
                job_of(Role::Base, by_ton, "100", "6 in"),
                vec![TroubleKind::NoDensity],
            ),
            (job_of(Role::Fabric, by_area, "100", ""), vec![]),
            (jointed(&each), vec![TroubleKind::NoUnitSize]),
            (
                jointed(&Material {
                    sold: sold("by sq ft"),
                    ..each
                }),
                vec![TroubleKind::NoJointShare],
            ),
        ] {
            assert_eq!(kinds(&job), expected);
        }
    }
}
