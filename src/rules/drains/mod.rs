//! Rules of drains: where they lead, how they fall, how deep they lie.

mod cover_thin;
mod documents;
mod drain_circular;
mod drain_flat;
mod drain_idle;
mod drain_unled;
mod invert_high;

use super::Rule;
use crate::model::{Drain, Job};
use crate::quantities::{DrainFigures, Figures};

/// The family's rules, in the order in which they are listed.
pub static RULES: &[&Rule] = &[
    &drain_flat::DRAIN_FLAT,
    &drain_unled::DRAIN_UNLED,
    &drain_circular::DRAIN_CIRCULAR,
    &invert_high::INVERT_HIGH,
    &cover_thin::COVER_THIN,
    &drain_idle::DRAIN_IDLE,
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
