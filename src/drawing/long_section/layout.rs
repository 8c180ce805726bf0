//! Where each long section stands on its sheet, and to which scales.

use super::chain::Chain;
use super::stations::{Station, stations};
use super::table::Table;
use crate::analysis::Analysis;
use crate::drawing::font::Face;
use crate::drawing::lettering::{self, HEADING, NOTE};
use crate::drawing::scale::Scale;
use crate::drawing::sheet::Sheet;
use crate::drawing::surround::{WARNING, errors};
use crate::units::System;

/// The white round all of them, and between two.
const MARGIN: f64 = 8.0;
const GAP: f64 = 8.0;
/// The column of captions and levels at the left.
pub(crate) const CAPTIONS: f64 = 30.0;
/// The room past the last station.
const PAST: f64 = 6.0;
/// The longest name of a station over the picture.
pub(crate) const LONGEST_NAME: f64 = 30.0;
/// The least and the most that heights take on the paper.
const LEAST_HIGH: f64 = 12.0;
const MOST_HIGH: f64 = 100.0;
/// What they want where several stand on a sheet.
const WANTED_HIGH: f64 = 30.0;
/// The white over and under what is drawn.
pub(crate) const AIR: f64 = 5.0;
/// The most times that heights are drawn longer than lengths.
const MOST: f64 = 5.0;

/// The long sections of a job on their sheets.
pub(crate) struct Layout<'c, 'j> {
    /// The scale of lengths.
    pub along: Scale,
    /// How many times as long heights are drawn.
    pub heights: u32,
    /// Where they start.
    pub left: f64,
    /// How wide each is.
    pub width: f64,
    /// Sheet by sheet.
    pub pages: Vec<Vec<Block<'c, 'j>>>,
}

/// A long section on its sheet.
pub(crate) struct Block<'c, 'j> {
    /// What it shows.
    pub chain: &'c Chain<'j>,
    /// Where its levels are told.
    pub stations: Vec<Station>,
    /// What stands under it.
    pub table: Table,
    /// How much the names of its stations take over the picture.
    pub names: f64,
    /// What the surfaces of the job are called.
    pub surfaces: Vec<String>,
    /// Its upper edge.
    pub top: f64,
    /// The lowest and the highest level of it, in metres.
    pub levels: (f64, f64),
}

impl<'c, 'j> Layout<'c, 'j> {
    /// Those of chains, on sheets like this one; a chain of which no level is
    /// known is left out.
    pub(crate) fn of(
        chains: &'c [Chain<'j>],
        analysis: &Analysis,
        sheet: &Sheet,
    ) -> Layout<'c, 'j> {
        let system = analysis.job.heading.system();
        let known: Vec<(&Chain<'j>, (f64, f64))> = chains
            .iter()
            .filter_map(|chain| Some((chain, levels(chain)?)))
            .collect();
        let width = sheet.plan.width() - 2.0 * MARGIN;
        let room = width - CAPTIONS - PAST;
        let longest = known.iter().map(|(chain, _)| reach(chain));
        let longest = longest.fold(0.1, f64::max);
        let deepest = known.iter().map(|(_, (low, high))| high - low);
        let deepest = deepest.fold(0.05, f64::max);
        let low = sheet.plan.low.y + MARGIN / 2.0;
        let mut high = sheet.plan.high.y - MARGIN / 2.0;
        if errors(analysis) > 0 {
            high -= WARNING;
        }
        let reported: Vec<(Vec<Station>, Table)> = known
            .iter()
            .map(|(chain, _)| {
                let stations = stations(chain);
                let table = Table::of(&stations, system, room);
                (stations, table)
            })
            .collect();
        let tables = reported.iter().map(|(_, table)| table.height());
        let names = reported.iter().map(|(stations, _)| names(stations));
        let names = names.fold(0.0, f64::max);
        let fixed = HEADING + names + 2.0 * AIR + tables.fold(0.0, f64::max);
        let highest = most_high(known.len(), high - low, fixed);
        let (along, heights) = scales(system, longest / room, deepest / highest);
        let upright = per_metre(&along) * f64::from(heights);
        let surfaces: Vec<String> = analysis
            .job
            .surfaces
            .iter()
            .map(|surface| surface.name.value.replace('-', " "))
            .collect();
        let mut pages: Vec<Vec<Block<'c, 'j>>> = Vec::new();
        let mut top = high;
        for ((chain, levels), (stations, table)) in known.into_iter().zip(reported) {
            let picture = (levels.1 - levels.0) * upright;
            let height = HEADING + names + 2.0 * AIR + picture + table.height();
            if pages.is_empty() || top - height < low {
                pages.push(Vec::new());
                top = high;
            }
            if let Some(page) = pages.last_mut() {
                page.push(Block {
                    chain,
                    stations,
                    table,
                    names,
                    surfaces: surfaces.clone(),
                    top,
                    levels,
                });
            }
            top -= height + GAP;
        }
        Layout {
            along,
            heights,
            left: sheet.plan.low.x + MARGIN,
            width,
            pages,
        }
    }

    /// Millimetres of paper to a metre along.
    pub(crate) fn along_per_metre(&self) -> f64 {
        per_metre(&self.along)
    }

    /// Millimetres of paper to a metre of height.
    pub(crate) fn upright_per_metre(&self) -> f64 {
        per_metre(&self.along) * f64::from(self.heights)
    }

    /// Where the head of each chain stands.
    pub(crate) fn start(&self) -> f64 {
        self.left + CAPTIONS
    }

    /// Where the columns may end.
    pub(crate) fn end(&self) -> f64 {
        self.left + self.width
    }
}

/// How high heights may be drawn, so that as many as fit stand on a sheet.
fn most_high(count: usize, room: f64, fixed: f64) -> f64 {
    let on_sheet = ((room + GAP) / (fixed + WANTED_HIGH + GAP)).floor();
    let on_sheet = on_sheet.clamp(1.0, count.max(1) as f64);
    let each = (room + GAP) / on_sheet - GAP - fixed;
    each.clamp(LEAST_HIGH, MOST_HIGH)
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
    levels.extend(chain.stops.iter().filter_map(super::picture::bottom));
    levels.retain(|level| level.is_finite());
    let low = levels.iter().copied().reduce(f64::min)?;
    let high = levels.iter().copied().reduce(f64::max)?;
    Some((low, high))
}

/// The largest usual scale along, so many metres to a millimetre at the most,
/// and how many times heights are drawn longer so that they fit.
fn scales(system: System, along: f64, upright: f64) -> (Scale, u32) {
    let along = along.max(upright);
    let usual = Scale::usual(system);
    let last = usual.last().cloned();
    let fits = |scale: &Scale| scale.ratio / 1000.0 >= along;
    let scale = usual.into_iter().find(fits).or(last);
    let scale = scale.unwrap_or(Scale {
        ratio: 100.0,
        words: "1:100".to_owned(),
    });
    // What is longer than the last usual scale allows is drawn to a round one.
    let scale = match fits(&scale) {
        true => scale,
        false => Scale {
            ratio: (along * 1000.0).ceil().min(1e9),
            words: format!("1:{:.0}", (along * 1000.0).ceil().min(1e9)),
        },
    };
    let most = (scale.ratio / 1000.0 / upright).clamp(1.0, MOST);
    let mut times = [5, 4, 2].into_iter();
    let times = times.find(|times| f64::from(*times) <= most);
    (scale, times.unwrap_or(1))
}
