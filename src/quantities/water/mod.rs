//! Where the water goes: by which edges it leaves each surface, what it runs
//! onto, and how much of it.

mod drained;
mod gutters;
mod mouths;
mod rim;
mod running;
mod runoff;
mod words;

use std::cell::Cell;

use super::measures::{Area, Rate, Share};
use super::trace::Trace;
use crate::geometry::Tag;
use crate::model::{Fiercest, Job, Sourced, Surface};

pub use drained::{ComesFrom, DrainWater, Inflow, share_led};
pub use gutters::End;
pub use mouths::BESIDE;
pub use rim::{Fate, Shut};
pub use running::Amount;
pub use runoff::runoff;
pub use words::told_together;

pub(super) use drained::traced as traced_to_drain;

use mouths::Mouth;
use rim::{Part, Rim};
use running::Ground;

/// Where the water of a job goes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WaterFigures {
    /// The fiercest rain that is stated, in m/s.
    pub rate: Option<f64>,
    /// Of each surface, in the order of [`Job::surfaces`].
    pub surfaces: Vec<SurfaceWater>,
    /// What comes to each drain, in the order of [`Job::drains`].
    pub drains: Vec<DrainWater>,
}

/// Where the water of a surface goes.
#[derive(Debug, Clone, PartialEq)]
pub struct SurfaceWater {
    /// The share of the rain that runs off it.
    pub runoff: Option<Sourced<f64>>,
    /// Its area times that, in m².
    pub weighted_m2: Option<f64>,
    /// The ways by which water leaves it; `None` if it is not known.
    pub ways: Option<Vec<Way>>,
}

/// A way by which water leaves a surface: an edge, and what becomes of the
/// water there.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// The edge of the surface's shape, by its tag; none where a drain inside
    /// the surface takes it.
    pub edge: Option<Tag>,
    /// What becomes of the water there.
    pub fate: Fate,
    /// Where it gets to, if it runs along the edge.
    pub end: Option<End>,
    /// The surface's own area that drains to it, in m².
    pub area_m2: f64,
    /// As a share of the surface.
    pub share: f64,
    /// That area times its runoff, in m².
    pub weighted_m2: Option<f64>,
    /// All that comes there, other surfaces' water too.
    pub all: Amount,
    /// The flow of it in the fiercest rain, in m³/s.
    pub flow: Option<f64>,
}

/// Where the water goes in a job that states a storm; `None` in one that does
/// not.
pub(super) fn water(job: &Job) -> Option<WaterFigures> {
    (!job.site.storms.is_empty()).then(|| catchments(job))
}

/// Where the water goes in a job, whether or not it states how much of it
/// there is.
pub fn catchments(job: &Job) -> WaterFigures {
    let rate = job.site.fiercest();
    let shares: Vec<Option<Sourced<f64>>> = job.surfaces.iter().map(|own| runoff(own)).collect();
    let mouths = Mouth::all(job);
    let rims = job.surfaces.iter();
    let ground = Ground {
        rims: rims.map(|own| Rim::of(job, own, &mouths)).collect(),
        runoff: shares
            .iter()
            .map(|share| share.as_ref().map(|share| share.value))
            .collect(),
        is_dry: job
            .surfaces
            .iter()
            .map(|own| own.covered.is_some() || !own.facets.is_empty())
            .collect(),
        mouths,
        steps: Cell::new(0),
    };
    let surfaces = job.surfaces.iter().zip(shares).enumerate();
    let mut surfaces: Vec<SurfaceWater> = surfaces
        .map(|(index, (own, runoff))| SurfaceWater {
            weighted_m2: weighted(own, &Trace::silent()),
            runoff,
            ways: ground
                .rim(index)
                .map(|rim| ways(&ground, index, own, rim, rate.as_ref())),
        })
        .collect();
    for (index, own) in job.surfaces.iter().enumerate() {
        let way = to_drain(job, (index, own), &surfaces, rate.as_ref());
        if let (Some(way), Some(water)) = (way, surfaces.get_mut(index)) {
            water.ways = Some(vec![way]);
        }
    }
    WaterFigures {
        rate: rate.map(|rate| rate.rate),
        drains: drained::drained(job, &surfaces, rate.as_ref()),
        surfaces,
    }
}

impl WaterFigures {
    /// The same where only the drains are others than they were, and lie where
    /// they lay; `None` if as much comes to them.
    pub(super) fn drained_anew(&self, job: &Job) -> Option<WaterFigures> {
        let rate = job.site.fiercest();
        let drains = drained::drained(job, &self.surfaces, rate.as_ref());
        (drains != self.drains).then(|| WaterFigures {
            drains,
            ..self.clone()
        })
    }
}

/// The one way out of a surface that falls from all its edges to a drain.
fn to_drain(
    job: &Job,
    (index, own): (usize, &Surface),
    surfaces: &[SurfaceWater],
    rate: Option<&Fiercest>,
) -> Option<Way> {
    // A border's water is its surface's.
    own.facets.first().filter(|_| !own.is_border())?;
    let drain = job.drains.named(&own.fall_to.as_ref()?.drain.value)?;
    let area_m2 = own.area_m2()?;
    let way = Way {
        edge: None,
        fate: Fate::Drained(Some(drain)),
        end: None,
        area_m2,
        share: 1.0,
        weighted_m2: surfaces.get(index)?.weighted_m2,
        all: drained::onto(job, surfaces, index),
        flow: None,
    };
    let flow = rate.and_then(|rate| flow(own, &way, rate, &Trace::silent()));
    Some(Way { flow, ..way })
}

/// The area of a surface times its runoff, in m².
pub(super) fn weighted(own: &Surface, trace: &Trace) -> Option<f64> {
    let area = own.area_m2()?;
    let runoff = runoff(own)?;
    let area = trace.term("area", Area(area));
    let share = trace.sourced("runoff", &runoff, Share);
    Some(trace.gives("weighted by runoff", area * share).value.0)
}

/// The ways out of a surface, an edge after the other.
fn ways(
    ground: &Ground,
    index: usize,
    own: &Surface,
    rim: &Rim,
    rate: Option<&Fiercest>,
) -> Vec<Way> {
    let whole = own.area_m2().unwrap_or_default();
    let mut ways: Vec<Way> = Vec::new();
    for part in &rim.parts {
        let area_m2 = drained(rim, part);
        let side = part.side.and_then(|side| own.sides.get(side as usize));
        if area_m2 <= 0.0 {
            continue;
        }
        let end = matches!(part.fate, Fate::Shut(_)).then(|| gutters::end(ground, index, part));
        let way = Way {
            edge: side.map(|side| side.edge),
            fate: part.fate,
            end,
            area_m2,
            share: area_m2 / whole,
            weighted_m2: ground.own(index, area_m2).weighted_m2,
            all: ground.through(index, part),
            flow: None,
        };
        let same =
            |known: &&mut Way| (known.edge, known.fate, known.end) == (way.edge, way.fate, way.end);
        match ways.iter_mut().find(same) {
            Some(known) => known.add(&way),
            None => ways.push(way),
        }
    }
    for way in &mut ways {
        way.flow = rate.and_then(|rate| flow(own, way, rate, &Trace::silent()));
    }
    ways
}

/// The flow of all that comes to a way out, in m³/s: the rational method,
/// what comes times its runoff times how hard it rains.
fn flow(own: &Surface, way: &Way, rate: &Fiercest, trace: &Trace) -> Option<f64> {
    let edge = words::place_name(own, way.edge);
    let weighted = format!("all that comes to {edge}, weighted");
    let weighted = trace.term(weighted, Area(way.all.weighted_m2?));
    let rate = trace.stated("rain", Rate(rate.rate), rate.place);
    let flow = trace.gives(format!("flow at {edge}"), weighted * rate);
    Some(flow.value.0)
}

/// How the figures of a surface's water came about.
pub(super) fn traced(job: &Job, own: &Surface, water: &SurfaceWater, trace: &Trace) {
    weighted(own, trace);
    let rate = job.site.fiercest();
    for way in water.ways.iter().flatten() {
        let edge = words::place_name(own, way.edge);
        let how = "the strips of the surface that fall to it";
        trace.found(
            format!("area that drains to {edge}"),
            Area(way.area_m2),
            how,
        );
        if let Some(rate) = &rate {
            flow(own, way, rate, trace);
        }
    }
}

impl Way {
    fn add(&mut self, other: &Way) {
        self.area_m2 += other.area_m2;
        self.share += other.share;
        self.weighted_m2 = self.weighted_m2.zip(other.weighted_m2).map(|(a, b)| a + b);
        self.all = self.all + other.all;
    }
}

/// The surface's own area that drains to a part of its rim.
fn drained(rim: &Rim, part: &Part) -> f64 {
    let beams = rim.beams.iter();
    let own = beams.filter(|beam| beam.exit.tag == part.edge.tag);
    own.map(|beam| beam.area()).sum()
}
