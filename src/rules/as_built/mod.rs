//! Rules of what was measured beside what is designed.

mod bird_bath;
mod level_off;
mod plane_off;
mod reading_unclear;

use super::{Context, Limits, Rule, falls};
use crate::geometry::Point;
use crate::model::{Measured, Region};
use crate::quantities::MeasuredFigures;
use crate::vocabulary::Top;

/// The family's rules, in the order in which they are listed.
pub(crate) static RULES: &[&Rule] = &[
    &level_off::LEVEL_OFF,
    &reading_unclear::READING_UNCLEAR,
    &plane_off::PLANE_OFF,
    &bird_bath::BIRD_BATH,
];

/// How far off a top may be before something is done about it, in metres.
pub fn most_off(limits: &Limits, top: Top, region: Region) -> Option<f64> {
    let limit = limits.in_force(&level_off::LEVEL_OFF, level_off::row(top), region)?;
    Some(limit.value.si())
}

/// How near, in metres, a place is read again.
const SAME_PLACE: f64 = 0.3;

/// Whether a point was read again on a later day: what was put right
/// meanwhile is no fault.
fn is_read_again(context: &Context<'_>, own: &Measured, at: Point) -> bool {
    let later = |other: &Measured| {
        let days = own.on.as_ref().zip(other.on.as_ref());
        let is_later = days.is_some_and(|(own, other)| other.value > own.value);
        let surface = |one: &Measured| one.surface.as_ref().map(|own| own.value);
        is_later && other.top == own.top && surface(own) == surface(other)
    };
    let others = context.job.measured.iter().filter(|other| later(other));
    let mut points = others.flat_map(|other| &other.points);
    points.any(|point| point.at.value.distance(at) <= SAME_PLACE)
}

/// Whether a surface still lacks the fall that it needs, so that what was
/// measured has no design to stand beside: that is told by itself.
fn awaits_fall(context: &Context<'_>, own: &MeasuredFigures) -> bool {
    let surface = own
        .surface
        .and_then(|index| context.job.surfaces.get(index));
    surface.is_some_and(|surface| falls::lacks_fall(context, surface))
}
