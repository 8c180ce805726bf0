//! How each flight stands on its paper, and to which scale.

use super::profile::Profile;
use crate::drawing::bare::FOOT;
use crate::drawing::lettering::HEADING;
use crate::drawing::scale::Scale;
use crate::model::{Layer, Surface};
use crate::units::System;

/// The column of levels at the left.
pub(crate) const LEVELS: f64 = 30.0;
/// From the heading down to the highest thing that is drawn: what is said of
/// the flight, and the goings.
pub(crate) const OVER: f64 = HEADING + 22.0;
/// The least width that what is said of a flight takes.
pub(crate) const SAID: f64 = 110.0;
/// What is kept under the lowest.
const UNDER: f64 = 7.0;
/// The room of a handrail over the nosings.
const RAIL: f64 = 14.0;
/// The largest picture: what is drawn larger shows no more.
const LARGEST: f64 = 8.0;
/// The least that a riser is drawn high where its tread is to be made out.
const LEAST_RISER: f64 = 5.5;

/// The flights of a job on paper.
pub(crate) struct Layout {
    /// The scale of all of them.
    pub scale: Scale,
    /// How wide each may be.
    pub width: f64,
    /// The least from one level to the next.
    pub step: f64,
    /// How high what is drawn of one may be.
    room: f64,
}

impl Layout {
    /// The largest usual scale at which the longest and the highest fit in so
    /// much room.
    pub(crate) fn of(profiles: &[Profile<'_>], system: System, room: (f64, f64)) -> Layout {
        let (width, high) = room;
        let rails = profiles.iter().map(rail).fold(0.0, f64::max);
        let room = (high - OVER - UNDER - FOOT).max(1.0);
        let longest = profiles.iter().map(|own| own.span.1 - own.span.0);
        let longest = longest.fold(0.1, f64::max);
        let highest = profiles.iter().map(|own| {
            let (low, high) = heights(own);
            high - low
        });
        let highest = highest.fold(0.1, f64::max);
        let along = longest / (width - LEVELS - 2.0).max(1.0);
        let needed = along.max(highest / (room - rails).max(1.0)) * 1000.0;
        let usual = Scale::usual(system).into_iter();
        let fitting = usual
            .filter(|scale| scale.ratio >= LARGEST)
            .find(|scale| scale.ratio >= needed);
        Layout {
            scale: fitting.unwrap_or_else(|| Scale::whole(needed)),
            width,
            step: match system {
                System::Metric => 3.6,
                // A fraction stands two figures high.
                System::Imperial => 5.6,
            },
            room,
        }
    }

    /// Every how manieth level of a flight is told: all where they have room
    /// one under the other.
    pub(crate) fn every(&self, profile: &Profile<'_>) -> u32 {
        let (_, most) = heights(profile);
        let over = (most - profile.flight.top_m) * self.per_metre();
        let over = over.min(self.room / 2.0) + rail(profile);
        let column = (self.room - over - 2.0 * self.step).max(self.step);
        let reported = f64::from(profile.flight.risers) + 1.0;
        (reported * self.step / column).ceil().clamp(1.0, 1000.0) as u32
    }

    /// Whether the risers of all of them are high enough on the paper.
    pub(crate) fn is_clear(&self, profiles: &[Profile<'_>]) -> bool {
        let lowest = profiles.iter().map(|own| own.flight.riser_m);
        let lowest = lowest.fold(f64::INFINITY, f64::min);
        lowest * self.per_metre() >= LEAST_RISER
    }

    /// Millimetres of paper to a metre.
    pub(crate) fn per_metre(&self) -> f64 {
        1000.0 / self.scale.ratio
    }
}

/// What a handrail takes over the flight: how high it is, nobody states.
pub(crate) fn rail(profile: &Profile<'_>) -> f64 {
    match profile.own.handrail {
        Some(_) => RAIL,
        None => 0.0,
    }
}

/// How deep what a surface is built of goes, as far as that is known.
pub(crate) fn depth(surface: &Surface) -> f64 {
    let layers = surface.build.iter().flat_map(|build| &build.value.layers);
    layers.map(Layer::thickness_m).sum()
}

/// The lowest and the highest level of what is drawn.
pub(crate) fn heights(profile: &Profile<'_>) -> (f64, f64) {
    let pieces = profile.parts.iter().flat_map(|part| part.pieces.iter());
    let corners = pieces.flatten().map(|corner| corner.y);
    let ends = profile.ends.iter().flat_map(|end| {
        let deep = end.surface.map_or(0.0, depth);
        let (one, other) = end.levels;
        [one, other, one - deep, other - deep]
    });
    let all = || corners.clone().chain(ends.clone());
    let low = all().fold(profile.flight.foot_m, f64::min);
    let high = all().fold(profile.flight.top_m, f64::max);
    (low, high)
}
