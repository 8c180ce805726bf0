//! Where each flight stands on its sheet, and to which scale.

use super::profile::Profile;
use crate::analysis::Analysis;
use crate::drawing::lettering::HEADING;
use crate::drawing::scale::Scale;
use crate::drawing::sheet::Sheet;
use crate::drawing::surround::{WARNING, errors};
use crate::model::{Layer, Surface};
use crate::units::System;

/// The white round all of them, and between two.
const MARGIN: f64 = 8.0;
const GAP: f64 = 8.0;
/// The column of levels at the left.
pub(crate) const LEVELS: f64 = 30.0;
/// From the heading down to the highest thing that is drawn: what is said of
/// the flight, and the goings.
pub(crate) const OVER: f64 = HEADING + 20.0;
/// What is kept under the lowest.
const UNDER: f64 = 7.0;
/// The room of a handrail over the nosings.
const RAIL: f64 = 14.0;
/// The largest picture: what is drawn larger shows no more.
const LARGEST: f64 = 8.0;

/// The flights of a job on their sheets.
pub(crate) struct Layout<'c, 'j> {
    /// The scale of all of them.
    pub scale: Scale,
    /// Where they start.
    pub left: f64,
    /// How wide each is.
    pub width: f64,
    /// Sheet by sheet.
    pub pages: Vec<Vec<Block<'c, 'j>>>,
}

/// A flight on its sheet.
pub(crate) struct Block<'c, 'j> {
    /// What it shows.
    pub profile: &'c Profile<'j>,
    /// Its upper edge.
    pub top: f64,
    /// Every how manieth level is told.
    pub every: u32,
    /// The least from one level to the next.
    pub step: f64,
}

impl<'c, 'j> Layout<'c, 'j> {
    /// The largest usual scale at which the longest and the highest fit.
    pub(crate) fn of(
        profiles: &'c [Profile<'j>],
        analysis: &Analysis,
        sheet: &Sheet,
    ) -> Layout<'c, 'j> {
        let width = sheet.plan.width() - 2.0 * MARGIN;
        let low = sheet.plan.low.y + MARGIN / 2.0;
        let mut high = sheet.plan.high.y - MARGIN / 2.0;
        if errors(analysis) > 0 {
            high -= WARNING;
        }
        let rails = profiles.iter().map(rail).fold(0.0, f64::max);
        let room = high - low - OVER - UNDER - rails;
        let longest = profiles.iter().map(|own| own.span.1 - own.span.0);
        let longest = longest.fold(0.1, f64::max);
        let highest = profiles.iter().map(|own| {
            let (low, high) = heights(own);
            high - low
        });
        let highest = highest.fold(0.1, f64::max);
        let needed = (longest / (width - LEVELS - 2.0)).max(highest / room) * 1000.0;
        let system = analysis.job.heading.system();
        let step = match system {
            System::Metric => 3.6,
            // A fraction stands two figures high.
            System::Imperial => 5.6,
        };
        let usual = Scale::usual(system);
        let fitting = usual
            .into_iter()
            .find(|scale| scale.ratio >= needed.max(LARGEST));
        let scale = fitting.unwrap_or(Scale {
            ratio: needed.ceil().min(1e9),
            words: format!("1:{:.0}", needed.ceil().min(1e9)),
        });
        let per_metre = 1000.0 / scale.ratio;
        let mut pages: Vec<Vec<Block<'c, 'j>>> = Vec::new();
        let mut top = high;
        for profile in profiles {
            let (least, most) = heights(profile);
            let picture = (most - least) * per_metre + rail(profile);
            let reported = f64::from(profile.flight.risers) + 1.0;
            let over = ((most - profile.flight.top_m) * per_metre).min(room / 2.0) + rail(profile);
            let column = (room - over - 2.0 * step).max(step);
            let every = (reported * step / column).ceil().clamp(1.0, 1000.0);
            let levels = over + (reported / every + 1.0) * step;
            let height = OVER + UNDER + picture.max(levels);
            if pages.is_empty() || top - height < low {
                pages.push(Vec::new());
                top = high;
            }
            if let Some(page) = pages.last_mut() {
                page.push(Block {
                    profile,
                    top,
                    every: every as u32,
                    step,
                });
            }
            top -= height + GAP;
        }
        Layout {
            scale,
            left: sheet.plan.low.x + MARGIN,
            width,
            pages,
        }
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
