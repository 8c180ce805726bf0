//! The ground that drain channels take from the paving: they lie inside its
//! outline, as wide as they are over all.

use std::sync::Arc;

use crate::geometry::{NO_TAG, Outline, Ribbon, ribbon};
use crate::model::{Drain, DrainLine, Job};
use crate::quantities::taken::Taken;

/// The ground that the channels of a job take from the paving. The base goes
/// through below them.
pub(in crate::quantities) fn taken(job: &Job) -> impl Iterator<Item = Taken> {
    job.drains.iter().filter_map(|drain| {
        Some(Taken {
            plan: Arc::new(strip(drain)?),
            has_base: false,
        })
    })
}

/// The strip that a channel covers; `None` where its width is not stated.
fn strip(drain: &Drain) -> Option<Outline> {
    let width = drain.channel_width()?.value.si();
    let line = &drain.line.as_ref()?.value;
    // What lies inside of an edge is on its left.
    let (left, right) = match line {
        DrainLine::Along { .. } => (width, 0.0),
        _ => (0.5 * width, 0.5 * width),
    };
    let sides = Ribbon {
        left,
        right,
        right_tag: NO_TAG,
        end_tags: [NO_TAG; 2],
    };
    ribbon(line.edges(), sides).ok()
}
