//! Drains: where each runs and how deep it lies, what is dug for it, and what
//! goes into it.

mod amounts;
mod capacity;
mod course;
mod gully;
mod levels;
mod needs;
mod section;
mod soaking;
mod taken;

pub(super) use needs::{brought_in, mix_uses, wants};

use super::trace::Trace;
use crate::findings::Place;
use crate::geometry::Point;
use crate::model::{Drain, DrainBody, DrainKind, Job, Sourced};

pub use course::{Course, CoursePiece};
pub(super) use course::{grating, lies_under};
pub use soaking::{Soaking, SoakingGap};

pub(super) use soaking::soaking;
pub(super) use taken::{dug, lies_beside, taken};

/// A stuff that a drain is laid in or filled with.
#[derive(Debug, Clone, PartialEq)]
pub struct StuffFigures {
    /// The name of its material or mix.
    pub material: String,
    /// Whether it is a mix.
    pub is_mix: bool,
    /// Its volume in place.
    pub volume_m3: Option<f64>,
    /// Its mass.
    pub mass_kg: Option<f64>,
    /// The volume as it is delivered, if it lies in grains.
    pub loose_volume_m3: Option<f64>,
    /// Its entry.
    pub place: Place,
}

/// What is dug for a drain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrainDig {
    /// How wide the trench is; `None` of a pit.
    pub width_m: Option<f64>,
    /// How deep it is where it is deepest, below where the digging begins.
    pub deepest_m: f64,
    /// How far its bottom lies below the ground or the paving at the deepest,
    /// by which a trench is unsafe to stand in.
    pub below_top_m: f64,
    /// What is dug, as it lies in the ground.
    pub bank_m3: f64,
    /// How much of that is filled in again over what lies in it, as it lay.
    pub filled_in_m3: f64,
    /// What is carted away, loose: all but what is filled in again; `None` if
    /// the swell is not known.
    pub loose_m3: Option<f64>,
}

/// How much lies over a pipe along a stretch of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cover {
    /// The least of it.
    pub least_m: f64,
    /// What there is at the upper end of the stretch.
    pub head_m: f64,
    /// The surface that it lies under, by its index in the job.
    pub under: Option<usize>,
}

/// The figures of a drain, in SI; `None` where they cannot be known.
#[derive(Debug, Clone, PartialEq)]
pub struct DrainFigures {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: Option<DrainKind>,
    /// Whether it is there already.
    pub is_existing: bool,
    /// Its length on the plan.
    pub length_m: Option<f64>,
    /// The pipe or channel that is bought for it: of a pipe, to the face of
    /// the gullies and pits at its ends.
    pub bought_m: Option<f64>,
    /// Where it begins.
    pub head_at: Option<Point>,
    /// Where it ends.
    pub outlet_at: Option<Point>,
    /// Whether nothing says at which end it begins: the order in which its
    /// edges are written is taken for it.
    pub is_way_assumed: bool,
    /// The invert where it begins; of a gully or soakaway its one.
    pub head_m: Option<f64>,
    /// The invert where it ends.
    pub outlet_m: Option<f64>,
    /// The fall of its bottom.
    pub fall: Option<f64>,
    /// How far what is stated of its levels disagrees, and where.
    pub misfit: Option<(f64, Place)>,
    /// How far the bottom of a channel or a trench lies below the finish, at
    /// its head and at its outlet; less than nothing where it lies above.
    pub depths_m: Option<(f64, f64)>,
    /// The cover over a pipe, under each thing that it passes.
    pub covers: Vec<Cover>,
    /// What is dug.
    pub dig: Option<DrainDig>,
    /// Whether it is a gully of no stated width: the pipe that leads from it
    /// is dug up to its middle.
    pub is_dug_with_pipe: bool,
    /// What it is laid in.
    pub bedding: Option<StuffFigures>,
    /// What it is filled with.
    pub fill: Option<StuffFigures>,
    /// The share of the fill that water can take.
    pub voids: Option<Sourced<f64>>,
    /// The fabric round it.
    pub fabric_m2: Option<f64>,
    /// How much water it holds below its inlet.
    pub storage_m3: Option<f64>,
    /// What a pipe or a channel carries, in m³/s.
    pub carries_m3s: Option<f64>,
    /// Manning's n by which that is reckoned.
    pub roughness: Option<Sourced<f64>>,
    /// The heading's line.
    pub place: Place,
}

impl DrainFigures {
    /// The least cover over a pipe.
    pub fn cover_m(&self) -> Option<f64> {
        self.covers
            .iter()
            .map(|cover| cover.least_m)
            .reduce(f64::min)
    }

    /// Whether ground is dug for it by itself.
    pub fn is_dug(&self) -> bool {
        self.kind.is_some() && !self.is_existing && !self.is_dug_with_pipe
    }
}

/// The figures of every drain, in the order of [`Job::drains`].
pub(super) fn drains(job: &Job) -> Vec<DrainFigures> {
    let own = job.drains.iter();
    own.map(|own| drain(job, own, &Trace::silent())).collect()
}

/// How the levels of a drain come about.
pub(super) fn levels_of(job: &Job, own: &Drain, trace: &Trace) {
    let course = Course::of(job, own);
    let levels = levels::levels(job, own, course.as_ref(), trace);
    ground(job, own, course.as_ref(), &levels).covers(trace);
    capacity::capacity(job, own, course.as_ref(), &levels, trace);
}

/// How what is dug and what goes into a drain come about.
pub(super) fn works_of(job: &Job, own: &Drain, trace: &Trace) {
    let course = Course::of(job, own);
    let silent = Trace::silent();
    let levels = levels::levels(job, own, course.as_ref(), &silent);
    let known = levels.taken_up(trace);
    ground(job, own, course.as_ref(), &known).works(trace);
}

fn ground<'a, 't>(
    job: &'a Job,
    drain: &'a Drain,
    course: Option<&'a Course>,
    levels: &'a levels::Levels<'t>,
) -> amounts::Ground<'a, 't> {
    amounts::Ground {
        job,
        drain,
        course,
        levels,
    }
}

/// The figures of a drain.
fn drain(job: &Job, own: &Drain, trace: &Trace) -> DrainFigures {
    let course = Course::of(job, own);
    let levels = levels::levels(job, own, course.as_ref(), trace);
    let ground = ground(job, own, course.as_ref(), &levels);
    let (dig, bedding, fill, fabric, storage) = ground.works(trace);
    let covers = ground.covers(trace);
    let depths = course.as_ref();
    let depths = depths.and_then(|course| taken::depths(job, own, course, &levels));
    let length = own
        .line
        .as_ref()
        .filter(|_| own.kind().is_some_and(DrainKind::is_run));
    let length = length.map(|line| line.value.length());
    DrainFigures {
        name: own.name.value.clone(),
        kind: own.kind(),
        is_existing: own.existing.is_some(),
        length_m: length,
        bought_m: length.map(|length| length - ground.in_pits()),
        head_at: course.as_ref().map(|course| course.head),
        outlet_at: course.as_ref().map(|course| course.outlet),
        is_way_assumed: course.as_ref().is_some_and(|course| course.is_way_assumed),
        head_m: levels.head.map(|head| head.value.0),
        outlet_m: levels.outlet.map(|outlet| outlet.value.0),
        fall: levels.fall.map(|fall| fall.value.0),
        misfit: levels.misfit,
        depths_m: depths,
        covers,
        dig,
        is_dug_with_pipe: is_dug_with_pipe(job, own),
        bedding,
        fill,
        voids: amounts::voids(job, own),
        fabric_m2: fabric,
        storage_m3: storage,
        carries_m3s: capacity::capacity(job, own, course.as_ref(), &levels, trace),
        roughness: capacity::roughness(own),
        place: own.place,
    }
}

/// Whether a gully has no width of its own to dig, and a pipe leads from it.
fn is_dug_with_pipe(job: &Job, own: &Drain) -> bool {
    let is_led = || job.drain_after(own).and_then(|next| next.kind()) == Some(DrainKind::Pipe);
    let body = own.body.as_ref().map(|body| &body.value);
    matches!(body, Some(DrainBody::Gully { wide: None, .. })) && is_led()
}
