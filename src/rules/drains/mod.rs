//! Rules of drains: where they lead, how they fall, how deep they lie, and
//! whether they take what comes to them.

mod bedding_unsuited;
mod channel_light;
mod cover_thin;
mod documents;
mod drain_circular;
mod drain_clogged;
mod drain_flat;
mod drain_idle;
mod drain_small;
mod drain_unled;
mod drain_unwrapped;
mod fill_missing;
mod invert_high;
mod invert_misplaced;
mod invert_missing;
mod pipe_narrow;
mod pipe_unsuited;
mod runoff_odd;
mod soakaway_small;
mod storm_long;
mod storm_short;
mod trench_narrow;
mod voids_high;

pub(in crate::rules) use pipe_unsuited::is_collector;

use super::Rule;
use crate::geometry::Edge;
use crate::model::{Drain, Invert, Job, Surface};
use crate::quantities::{DrainFigures, DrainWater, Figures};

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &drain_flat::DRAIN_FLAT,
    &drain_unled::DRAIN_UNLED,
    &drain_circular::DRAIN_CIRCULAR,
    &invert_high::INVERT_HIGH,
    &invert_missing::INVERT_MISSING,
    &invert_misplaced::INVERT_MISPLACED,
    &cover_thin::COVER_THIN,
    &pipe_unsuited::PIPE_UNSUITED,
    &bedding_unsuited::BEDDING_UNSUITED,
    &pipe_narrow::PIPE_NARROW,
    &drain_clogged::DRAIN_CLOGGED,
    &fill_missing::FILL_MISSING,
    &drain_unwrapped::DRAIN_UNWRAPPED,
    &voids_high::VOIDS_HIGH,
    &channel_light::CHANNEL_LIGHT,
    &trench_narrow::TRENCH_NARROW,
    &drain_idle::DRAIN_IDLE,
    &drain_small::DRAIN_SMALL,
    &soakaway_small::SOAKAWAY_SMALL,
    &storm_short::STORM_SHORT,
    &storm_long::STORM_LONG,
    &runoff_odd::RUNOFF_ODD,
];

/// The drains of a job with their figures, those left out of which a line
/// cannot be read.
fn readable<'a>(
    job: &'a Job,
    figures: &'a Figures,
) -> impl Iterator<Item = (&'a Drain, &'a DrainFigures)> {
    let both = job
        .drains
        .iter()
        .map(AsRef::as_ref)
        .zip(figures.drains.iter());
    both.filter(|(drain, _)| !drain.is_unread)
}

/// The only invert of a drain that sticks out of the ground where it is stated
/// above the datum, so that it most likely lacks its minus, and how far, in
/// metres, the drain lies above the ground.
fn without_minus<'a>(drain: &'a Drain, figures: &DrainFigures) -> Option<(&'a Invert, f64)> {
    let [invert] = drain.inverts.as_slice() else {
        return None;
    };
    let covers = figures.covers.iter().map(|cover| cover.least_m);
    let depths = figures.depths_m.map(|(head, outlet)| head.min(outlet));
    let least = covers.chain(depths).min_by(f64::total_cmp)?;
    (least < 0.0 && invert.value.value.si() > 0.0).then_some((invert, -least))
}

/// Whether the middle of a piece of a drain's run lies in a surface.
pub(in crate::rules) fn passes_through(drain: &Drain, surface: &Surface) -> bool {
    let line = drain.line.iter().flat_map(|line| line.value.edges());
    let mut middles = line.map(Edge::midpoint);
    middles.any(|at| surface.contains(at))
}

/// What a figure may lie over what it is held against, for rounding.
const ROUNDING: f64 = 1.0 + 1e-9;

/// The same with what comes to each, where the job states a storm.
fn with_water<'a>(
    job: &'a Job,
    figures: &'a Figures,
) -> impl Iterator<Item = (&'a Drain, &'a DrainFigures, &'a DrainWater)> {
    let water = figures.water.iter().flat_map(|water| &water.drains);
    let all = job.drains.iter().zip(figures.drains.iter()).zip(water);
    let all = all.map(|((drain, figures), comes)| (drain.as_ref(), figures, comes));
    all.filter(|(drain, ..)| !drain.is_unread)
}
