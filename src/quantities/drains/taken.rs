//! The ground that drains take from the paving and its base: channels, which
//! lie inside its outline, with what they are laid in, and trenches beside it.

use std::sync::Arc;

use super::course::{Course, beside, lies_under, over_point};
use super::levels::{Levels, levels};
use super::section::Section;
use crate::geometry::{Edge, NO_TAG, Outline, Point, Ribbon, Vector, ribbon, widened};
use crate::model::{Drain, DrainKind, DrainLine, Job, Surface};
use crate::quantities::dig::dug_beyond;
use crate::quantities::sharing::overlap;
use crate::quantities::taken::{Body, Taken, What};
use crate::quantities::trace::Trace;

/// The ground that the drains of a job take from the surfaces. Of the base a
/// channel takes what its bed reaches into; below that it goes through.
pub(in crate::quantities) fn taken(job: &Job) -> impl Iterator<Item = Taken> {
    job.drains.iter().flat_map(|drain| {
        let paving = strip(drain, channel(drain), What::OverBase);
        paving.into_iter().chain(in_base(job, drain))
    })
}

/// How far something reaches to the left and to the right of a drain's line.
type Sides = Option<(f64, f64)>;

/// A channel as wide as it is over all. What lies inside of an edge is on its
/// left.
fn channel(drain: &Drain) -> Sides {
    let width = drain.channel_width()?.value.si();
    Some(match &drain.line.as_ref()?.value {
        DrainLine::Along { .. } => (width, 0.0),
        _ => (0.5 * width, 0.5 * width),
    })
}

/// A channel with what it is laid in, or a trench, as it stands in the base.
fn in_base(job: &Job, drain: &Drain) -> Option<Taken> {
    if drain.existing.is_some() || drain.is_unread {
        return None;
    }
    let silent = Trace::silent();
    let section = Section::of(drain, &silent)?;
    let sides = sides_in_base(drain, &section);
    let bottoms = bottoms(job, drain)?;
    let under = section.under.value.0;
    let body = Body {
        top: 0.0,
        bottoms: ((bottoms.0 + under).max(0.0), (bottoms.1 + under).max(0.0)),
    };
    strip(drain, sides, What::Within(body))
}

/// How far what stands in the base reaches to both sides of a drain's line.
fn sides_in_base(drain: &Drain, section: &Section<'_>) -> Sides {
    match drain.kind()? {
        DrainKind::Channel => {
            let round = section.round.map_or(0.0, |round| round.value.0);
            channel(drain).map(|(left, right)| (left + round, right + round))
        }
        // One that follows no edge begins under the base.
        DrainKind::Trench => match &drain.line.as_ref()?.value {
            DrainLine::Along { .. } => Some((0.0, section.width.value.0)),
            _ => None,
        },
        _ => None,
    }
}

/// What is dug for a drain, as the plan shows it: its trench or its pit.
/// `None` of what is there already, and where it is not known.
pub(in crate::quantities) fn dug(drain: &Drain) -> Option<Outline> {
    if drain.existing.is_some() || drain.is_unread {
        return None;
    }
    if let Some(pit) = drain.plan() {
        let bedded = drain
            .bedded
            .as_ref()
            .filter(|_| drain.kind() == Some(DrainKind::Gully));
        let round = bedded.and_then(|bedded| bedded.round.as_ref());
        let round = round.map_or(0.0, |round| round.value.si());
        return widened(&pit, round, &|_| true).ok();
    }
    let silent = Trace::silent();
    let section = Section::of(drain, &silent)?;
    let half = 0.5 * section.width.value.0;
    let sides = sides_in_base(drain, &section).unwrap_or((half, half));
    let trench = strip(drain, Some(sides), What::All)?;
    Some(Arc::unwrap_or_clone(trench.plan))
}

/// The surfaces beside which a drain is dug for, by their indices: at an edge,
/// or in what is dug past one for the base. Not those that it lies under.
pub(in crate::quantities) fn lies_beside(job: &Job, drain: &Drain) -> Vec<usize> {
    let Some(plan) = dug(drain) else {
        return Vec::new();
    };
    let under = lies_under(job, drain);
    let own_box = plan.bounding_box();
    let is_beside = |surface: &Surface| {
        let reach = |edge: &Edge| dug_beyond(surface, edge.tag) + AT_EDGE;
        let farthest = surface.edges().map(reach).fold(0.0, f64::max);
        let is_near = surface.bounding_box().is_some_and(|(least, most)| {
            let out = Vector::new(farthest, farthest);
            overlap(own_box, (least + out * -1.0, most + out))
        });
        is_near
            && surface.edges().any(|edge| {
                let mut own = plan.edges();
                own.any(|own| own.distance_to_edge(edge) <= reach(edge))
            })
    };
    let surfaces = job.surfaces.iter().enumerate();
    let beside = surfaces.filter(|(index, own)| !under.contains(index) && is_beside(own));
    beside.map(|(index, _)| index).collect()
}

/// How near to an edge, in metres, what is dug is dug at it.
const AT_EDGE: f64 = 0.01;

/// How far below the finish its bottom lies at its head and at its outlet.
fn bottoms(job: &Job, drain: &Drain) -> Option<(f64, f64)> {
    if drain.fall.is_none() && drain.inverts.is_empty() {
        let deep = drain.depth()?.value.si();
        return Some((deep, deep));
    }
    let course = Course::of(job, drain)?;
    let silent = Trace::silent();
    let levels = levels(job, drain, Some(&course), &silent);
    depths(job, drain, &course, &levels)
}

/// How far below the finish the bottom of a channel or a trench lies by its
/// levels, at its head and at its outlet; less than nothing where it lies
/// above.
pub(super) fn depths(
    job: &Job,
    drain: &Drain,
    course: &Course,
    levels: &Levels<'_>,
) -> Option<(f64, f64)> {
    let is_open = matches!(drain.kind()?, DrainKind::Channel | DrainKind::Trench);
    if !is_open {
        return None;
    }
    let below = |at: Point, invert: f64| {
        let finish = match beside(job, drain) {
            Some(surface) => surface.plane_at(at),
            None => over_point(job, at).0,
        };
        Some(finish?.level_at(at) - invert)
    };
    let head = below(course.head, levels.head?.value.0)?;
    Some((head, below(course.outlet, levels.outlet?.value.0)?))
}

/// What a drain takes so far to both sides of its line; `None` where that is
/// not known.
fn strip(drain: &Drain, sides: Sides, what: What) -> Option<Taken> {
    let (left, right) = sides?;
    let sides = Ribbon {
        left,
        right,
        right_tag: NO_TAG,
        end_tags: [NO_TAG; 2],
    };
    let plan: Outline = ribbon(drain.line.as_ref()?.value.edges(), sides).ok()?;
    Some(Taken {
        plan: Arc::new(plan),
        what,
    })
}
