//! The long section of the drains: from each head down as far as one leads on
//! to the next, the finish and the ground over them, and the levels under the
//! picture. Heights are drawn longer than lengths, and the sheet says so.

mod chain;
mod layout;
mod picture;
mod stations;
mod table;

use chain::{Chain, chains};
use layout::{AIR, Block, LONGEST_NAME, Layout};
use picture::Frame;

use super::display_list::Drawing;
use super::further::Further;
use super::lettering::HEADING;
use super::sheet::Sheet;
use super::surround::About;
use crate::analysis::Analysis;
use crate::geometry::Point;
use crate::text::capital;

/// How many sheets the long sections of a job take.
pub(crate) fn count(analysis: &Analysis, sheet: &Sheet) -> usize {
    let chains = chains(analysis);
    Layout::of(&chains, analysis, sheet).pages.len()
}

/// The long sections of a job on sheets like the plan's; none where no level
/// of a drain is known. `before` sheets come before them, and there are
/// `count` in all.
pub(crate) fn long_sections(
    analysis: &Analysis,
    source: &str,
    sheet: &Sheet,
    (before, count): (usize, usize),
) -> Vec<Drawing> {
    let chains = chains(analysis);
    let layout = Layout::of(&chains, analysis, sheet);
    let times = match layout.heights {
        1 => "heights and lengths alike".to_owned(),
        times => format!("heights × {times}"),
    };
    let drawn = layout.pages.iter().enumerate().map(|(index, blocks)| {
        let mut further = Further::new(analysis);
        if layout.heights > 1 {
            further.note(format!(
                "Heights are drawn {} times as long as lengths.",
                layout.heights
            ));
        }
        for block in blocks {
            long_section(&mut further, &layout, block);
        }
        let about = About {
            source,
            drawing: &format!("Long section of the drains, {times}"),
            scale: &layout.along,
            sheet,
            number: (before + index + 1, count),
            has_levels: true,
        };
        further.finish(analysis, &about, "long section")
    });
    drawn.collect()
}

/// One long section: its heading, the names, the picture, the figures.
fn long_section(further: &mut Further, layout: &Layout<'_, '_>, block: &Block<'_, '_>) {
    let corner = Point::new(layout.left, block.top);
    let first = block.chain.runs.first().map(|run| run.drain.place);
    further.heading(first, &heading(block.chain), corner, layout.width);
    let high = block.top - HEADING - block.names - AIR;
    let picture = (block.levels.1 - block.levels.0) * layout.upright_per_metre();
    let frame = Frame::of(layout, block, high - picture);
    picture::names(further, layout, block, (high + AIR, LONGEST_NAME));
    picture::levels(further, layout, &frame, block.levels);
    let reported = block.table.reported.iter();
    let stations = reported.filter_map(|index| block.stations.get(*index));
    let grounds: Vec<f64> = stations
        .map(|station| {
            let known = station.invert_m.or(station.crown_m).or(station.top_m);
            known.map_or(high - picture, |level| frame.height(level))
        })
        .collect();
    let top = high - picture - AIR;
    block.table.draw(further, layout, block, (top, &grounds));
    picture::draw(further, block, &frame);
}

fn heading(chain: &Chain<'_>) -> String {
    let names: Vec<String> = chain
        .runs
        .iter()
        .map(|run| run.drain.name.value.replace('-', " "))
        .collect();
    let to = chain.to.map(|to| format!(" to {}", to.replace('-', " ")));
    capital(&format!("{}{}", names.join(", "), to.unwrap_or_default()))
}
