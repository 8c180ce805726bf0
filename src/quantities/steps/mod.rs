//! Flights of steps: how high and how deep each step is, where the flight
//! stands, what it is built of and what is dug for it.
//!
//! A rise is measured from nosing to nosing. There is one tread fewer than
//! there are risers: the top riser leads to the surface above.

mod counting;
mod dig;
mod flight;
mod parts;

#[cfg(test)]
mod tests;

use std::sync::Arc;

use super::dig::DigFigures;
use super::surface::SurfaceFigures;
use super::taken::{Taken, What};
use super::trace::Trace;
use crate::findings::Place;
use crate::model::{Job, Steps};

pub use counting::{HIGHEST_RISER, HIGHEST_RISER_AU, HIGHEST_RISER_UK, HighestRiser};
pub use flight::{Flight, fewest_risers};
pub use parts::StepsPart;

/// The figures of a flight of steps.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StepsFigures {
    /// Its name.
    pub name: String,
    /// The flight as a whole, if it is known.
    pub flight: Option<Flight>,
    /// Why it is not known.
    pub unknown: Option<&'static str>,
    /// How far its foot lies above its top, where it climbs nothing.
    pub down_m: Option<f64>,
    /// What it covers of each surface, by its index, in square metres.
    pub stands_on: Vec<(usize, f64)>,
    /// Its treads.
    pub treads: Option<StepsPart>,
    /// What the treads are bedded in.
    pub bed: Option<StepsPart>,
    /// The facing of its risers.
    pub facing: Option<StepsPart>,
    /// Its core.
    pub core: Option<StepsPart>,
    /// Its base.
    pub base: Option<StepsPart>,
    /// What is dug for it beside what is dug for the surfaces.
    pub dig: Option<DigFigures>,
}

impl StepsFigures {
    /// How thick a tread is with its bed, in metres, where that leaves nothing
    /// of a riser to be faced.
    pub fn unfaced_m(&self, own: &Steps) -> Option<f64> {
        let facing = self.facing.as_ref()?;
        let tread = own.tread.as_ref()?.thickness.as_ref()?.value.si();
        let bed = match &own.bed {
            Some(bed) => bed.thickness.as_ref()?.value.si(),
            None => 0.0,
        };
        let is_known = self.flight.is_some() && facing.area_m2.is_none();
        is_known.then_some(tread + bed)
    }

    /// What it is built of, from the top down, each with its word.
    pub fn parts(&self) -> impl Iterator<Item = (&'static str, &StepsPart)> {
        let all = [
            ("treads", &self.treads),
            ("bed", &self.bed),
            ("risers", &self.facing),
            ("core", &self.core),
            ("base", &self.base),
        ];
        all.into_iter()
            .filter_map(|(word, part)| Some((word, part.as_ref()?)))
    }
}

/// Which figures of a flight are meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum StepsFigure {
    /// Rise, risers, run and pitch.
    Flight,
    /// The treads.
    Treads,
    /// The bed of the treads.
    Bed,
    /// The facing of the risers.
    Facing,
    /// The core.
    Core,
    /// The base.
    Base,
    /// The dig.
    Dig,
}

impl StepsFigure {
    /// All of them, in the order of the take-off.
    pub const ALL: [StepsFigure; 7] = [
        StepsFigure::Flight,
        StepsFigure::Treads,
        StepsFigure::Bed,
        StepsFigure::Facing,
        StepsFigure::Core,
        StepsFigure::Base,
        StepsFigure::Dig,
    ];

    /// What it is called in the title of a working.
    pub const fn title(self) -> &'static str {
        match self {
            StepsFigure::Flight => "flight of",
            StepsFigure::Treads => "treads of",
            StepsFigure::Bed => "bed of",
            StepsFigure::Facing => "risers of",
            StepsFigure::Core => "core of",
            StepsFigure::Base => "base of",
            StepsFigure::Dig => "dig for",
        }
    }

    /// The entry or heading that it belongs to.
    pub fn place(self, own: &Steps) -> Place {
        let entry = match self {
            StepsFigure::Flight | StepsFigure::Dig => None,
            StepsFigure::Treads => own.tread.as_ref().map(|tread| tread.place),
            StepsFigure::Bed => own.bed.as_ref().map(|bed| bed.place),
            StepsFigure::Facing => own.riser.as_ref().map(|riser| riser.place),
            StepsFigure::Core => own.core.as_ref().map(|core| core.place),
            StepsFigure::Base => own.base.as_ref().map(|base| base.layer.place),
        };
        entry.unwrap_or(own.place)
    }
}

/// The figures of a flight but for its dig, which hangs on those of the
/// surfaces.
pub(super) fn steps(job: &Job, own: &Steps) -> StepsFigures {
    let silent = Trace::silent();
    let name = own.name.value.clone();
    let flight = match flight::flight(job, own, &silent) {
        Ok(flight) => flight,
        Err(unknown) => {
            let base = own.base.as_ref().map(|base| &base.layer);
            return StepsFigures {
                name,
                unknown: Some(unknown.in_words()),
                down_m: unknown.down_m(),
                treads: own.tread.as_ref().map(StepsPart::of_tread),
                bed: own.bed.as_ref().map(StepsPart::of_bed),
                facing: own.riser.as_ref().map(StepsPart::of_facing),
                core: own.core.as_ref().map(StepsPart::of_core),
                base: base.map(StepsPart::of_base),
                ..StepsFigures::default()
            };
        }
    };
    let facing = parts::facing(own, &flight, job.heading.region(), &silent);
    StepsFigures {
        name,
        unknown: None,
        down_m: None,
        stands_on: flight::stands_on(job, &flight),
        treads: parts::treads(own, &flight, &silent),
        bed: parts::bed(own, &flight, &silent),
        core: parts::core(own, &flight, facing.as_ref(), &silent),
        base: parts::base(own, &flight, &silent),
        facing,
        flight: Some(flight),
        dig: None,
    }
}

/// The dig for a flight.
pub(super) fn dig(
    job: &Job,
    own: &Steps,
    figures: &StepsFigures,
    surfaces: &[Arc<SurfaceFigures>],
) -> Option<DigFigures> {
    dig::dig(
        job,
        own,
        figures.flight.as_ref()?,
        surfaces,
        &Trace::silent(),
    )
}

/// Takes down how one of the figures of a flight comes about; `None` if it
/// has no such figure.
pub(super) fn traced(
    job: &Job,
    (own, figures): (&Steps, &StepsFigures),
    surfaces: &[Arc<SurfaceFigures>],
    of: StepsFigure,
    trace: &Trace,
) -> Option<()> {
    let flight = figures.flight.as_ref()?;
    match of {
        StepsFigure::Flight => drop(flight::flight(job, own, trace).ok()?),
        StepsFigure::Treads => drop(parts::treads(own, flight, trace)?),
        StepsFigure::Bed => drop(parts::bed(own, flight, trace)?),
        StepsFigure::Facing => drop(parts::facing(own, flight, job.heading.region(), trace)?),
        StepsFigure::Core => drop(parts::core(own, flight, figures.facing.as_ref(), trace)?),
        StepsFigure::Base => drop(parts::base(own, flight, trace)?),
        StepsFigure::Dig => drop(dig::dig(job, own, flight, surfaces, trace)?),
    }
    Some(())
}

/// The ground that the flights of a job take from the surfaces.
pub(super) fn taken(job: &Job, figures: &[StepsFigures]) -> Vec<Taken> {
    let both = job.steps.iter().zip(figures);
    let of = |(own, figures): (&Arc<Steps>, &StepsFigures)| {
        Some(Taken {
            plan: Arc::clone(figures.flight.as_ref()?.plan.as_ref()?),
            what: match own.base {
                Some(_) => What::All,
                None => What::OverBase,
            },
        })
    };
    both.filter_map(of).collect()
}
