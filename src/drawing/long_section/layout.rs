//! How each long section stands on its paper, and to which scales.

use super::chain::Chain;
use super::stations::{Station, stations};
use super::table::Table;
use crate::drawing::bare::FOOT;
use crate::drawing::font::Face;
use crate::drawing::lettering::{self, HEADING, NOTE};
use crate::drawing::scale::Scale;
use crate::units::System;

/// The column of captions and levels at the left.
pub(crate) const CAPTIONS: f64 = 30.0;
/// The room past the last station.
const PAST: f64 = 6.0;
/// The longest name of a station over the picture.
pub(crate) const LONGEST_NAME: f64 = 30.0;
/// The least and the most that heights take on the paper, and the least at
/// which they can be read.
const LEAST_HIGH: f64 = 12.0;
const MOST_HIGH: f64 = 100.0;
const CLEAR: f64 = 6.0;
/// The white over and under what is drawn.
pub(crate) const AIR: f64 = 5.0;
/// The most times that heights are drawn longer than lengths.
const MOST: f64 = 5.0;

/// The long sections of a job on paper.
pub(crate) struct Layout {
    /// The scale of lengths.
    pub along: Scale,
    /// How many times as long heights are drawn.
    pub heights: u32,
    /// How wide each is.
    pub width: f64,
    /// How much the names of stations take over a picture.
    pub names: f64,
    /// Whether its width alone would let lengths be drawn larger.
    pub is_squeezed: bool,
}

/// A long section.
pub(crate) struct Block<'c, 'j> {
    /// What it shows.
    pub chain: &'c Chain<'j>,
    /// Where its levels are told.
    pub stations: Vec<Station>,
    /// What stands under it.
    pub table: Table,
    /// What the surfaces of the job are called.
    pub surfaces: &'c [String],
    /// The lowest and the highest level of it, in metres.
    pub levels: (f64, f64),
}

impl<'c, 'j> Block<'c, 'j> {
    /// That of a chain in so much width; `None` if no level of it is known.
    pub(crate) fn of(
        chain: &'c Chain<'j>,
        surfaces: &'c [String],
        system: System,
        width: f64,
    ) -> Option<Block<'c, 'j>> {
        let levels = levels(chain)?;
        let stations = stations(chain);
        let table = Table::of(&stations, system, width - CAPTIONS - PAST);
        Some(Block {
            chain,
            stations,
            table,
            surfaces,
            levels,
        })
    }

    fn high_m(&self) -> f64 {
        self.levels.1 - self.levels.0
    }
}

impl Layout {
    /// The largest usual scales at which the longest and the highest fit in so
    /// much room.
    pub(crate) fn of(blocks: &[Block<'_, '_>], system: System, room: (f64, f64)) -> Layout {
        let most = |own: &dyn Fn(&Block<'_, '_>) -> f64, least: f64| {
            blocks.iter().map(own).fold(least, f64::max)
        };
        let longest = most(&|own| reach(own.chain), 0.1);
        let deepest = most(&|own| own.high_m(), 0.05);
        let names = most(&|own| names(&own.stations), 0.0);
        let fixed = HEADING + names + 2.0 * AIR + most(&|own| own.table.height(), 0.0) + FOOT;
        let highest = (room.1 - fixed).clamp(LEAST_HIGH, MOST_HIGH);
        let wide = room.0 - CAPTIONS - PAST;
        let (along, heights) = scales(system, longest / wide, deepest / highest);
        let (widest, _) = scales(system, longest / wide, 0.0);
        let drawn = (longest * per_metre(&along)).max(most(&|own| own.table.width(), 0.0));
        Layout {
            is_squeezed: widest.ratio < along.ratio,
            along,
            heights,
            width: (CAPTIONS + drawn + PAST).min(room.0),
            names,
        }
    }

    /// Whether the heights of the deepest can be told apart.
    pub(crate) fn is_clear(&self, blocks: &[Block<'_, '_>]) -> bool {
        let deepest = blocks.iter().map(Block::high_m).fold(0.0, f64::max);
        deepest * self.upright_per_metre() >= CLEAR
    }

    /// Millimetres of paper to a metre along.
    pub(crate) fn along_per_metre(&self) -> f64 {
        per_metre(&self.along)
    }

    /// Millimetres of paper to a metre of height.
    pub(crate) fn upright_per_metre(&self) -> f64 {
        per_metre(&self.along) * f64::from(self.heights)
    }
}

fn per_metre(scale: &Scale) -> f64 {
    1000.0 / scale.ratio
}

/// How much the names of stations take over a picture, the white round them
/// counted.
fn names(stations: &[Station]) -> f64 {
    let names = stations.iter().filter_map(|own| own.name.as_deref());
    let widths = names.map(|name| lettering::set(name, NOTE, Face::Regular).width);
    widths.fold(0.0, f64::max).min(LONGEST_NAME) + 4.0
}

/// How far along a chain and what stands at its ends goes.
fn reach(chain: &Chain<'_>) -> f64 {
    let pits = chain.stops.iter();
    let pits = pits.map(|stop| stop.at_m + super::picture::half_width(stop));
    pits.fold(chain.length(), f64::max)
}

/// The lowest and highest of what is drawn of a chain, in metres.
fn levels(chain: &Chain<'_>) -> Option<(f64, f64)> {
    let mut levels = chain.levels();
    levels.extend(chain.stops.iter().filter_map(super::picture::lowest));
    levels.retain(|level| level.is_finite());
    let low = levels.iter().copied().reduce(f64::min)?;
    let high = levels.iter().copied().reduce(f64::max)?;
    Some((low, high))
}

/// The largest usual scale along, so many metres to a millimetre at the most,
/// and how many times heights are drawn longer so that they fit.
fn scales(system: System, along: f64, upright: f64) -> (Scale, u32) {
    let along = along.max(upright);
    let fits = |scale: &Scale| scale.ratio / 1000.0 >= along;
    let scale = Scale::usual(system).into_iter().find(fits);
    // What is longer than the last usual scale allows is drawn to a whole one.
    let scale = scale.unwrap_or_else(|| Scale::whole(along * 1000.0));
    let most = (scale.ratio / 1000.0 / upright).clamp(1.0, MOST);
    let mut times = [5, 4, 2].into_iter();
    let times = times.find(|times| f64::from(*times) <= most);
    (scale, times.unwrap_or(1))
}
