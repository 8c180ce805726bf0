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

use super::figure::{Figure, MOST_FIGURES, Sketch};
use super::lettering::HEADING;
use crate::analysis::Analysis;
use crate::geometry::Point;
use crate::text::capital;

/// The long sections of a job, each in so much room; none where no level of a
/// drain is known.
pub(crate) fn long_sections(analysis: &Analysis, room: (f64, f64)) -> Vec<Figure> {
    let system = analysis.job.heading.system();
    let mut chains = chains(analysis);
    let more = chains.split_off(chains.len().min(MOST_FIGURES)).len();
    let surfaces = analysis.job.surfaces.iter();
    let surfaces: Vec<String> = surfaces
        .map(|surface| surface.name.value.replace('-', " "))
        .collect();
    let blocks = chains.iter();
    let blocks: Vec<Block<'_, '_>> = blocks
        .filter_map(|chain| Block::of(chain, &surfaces, system, room.0))
        .collect();
    let layout = Layout::of(&blocks, system, room);
    let drawn = blocks.iter().map(|block| {
        let mut sketch = Sketch::new(analysis);
        if layout.heights > 1 {
            sketch.note(format!(
                "In the long section heights are drawn {} times as long as lengths.",
                layout.heights
            ));
        }
        if more > 0 {
            sketch.note(format!(
                "No more than {MOST_FIGURES} long sections are drawn, of the longest ways: {more} are not."
            ));
        }
        long_section(&mut sketch, &layout, block, room.0);
        Figure {
            is_clear: layout.is_clear(&blocks),
            is_squeezed: layout.is_squeezed,
            ..sketch.figure(&layout.along)
        }
    });
    drawn.collect()
}

/// One long section: its heading, the names, the picture, the figures.
fn long_section(sketch: &mut Sketch, layout: &Layout, block: &Block<'_, '_>, room: f64) {
    let first = block.chain.runs.first().map(|run| run.drain.place);
    sketch.heading(first, &heading(block.chain), Point::ORIGIN, room);
    let high = -HEADING - layout.names - AIR;
    let picture = (block.levels.1 - block.levels.0) * layout.upright_per_metre();
    let frame = Frame::of(layout, block, high - picture);
    picture::names(sketch, layout, block, (high + AIR, LONGEST_NAME));
    picture::levels(sketch, layout, &frame, block.levels);
    let reported = block.table.reported.iter();
    let stations = reported.filter_map(|index| block.stations.get(*index));
    let grounds: Vec<f64> = stations
        .map(|station| {
            let known = station.invert_m.or(station.crown_m).or(station.top_m);
            known.map_or(high - picture, |level| frame.height(level))
        })
        .collect();
    let top = high - picture - AIR;
    block.table.draw(sketch, layout, block, (top, &grounds));
    picture::draw(sketch, block, &frame);
}

/// The most drains that a heading names.
const MOST_NAMED: usize = 3;

fn heading(chain: &Chain<'_>) -> String {
    let (count, runs) = (chain.runs.len(), chain.runs.iter());
    let named = match count > MOST_NAMED {
        true => MOST_NAMED - 1,
        false => count,
    };
    let names = runs
        .take(named)
        .map(|run| run.drain.name.value.replace('-', " "));
    let names = names.collect::<Vec<_>>().join(", ");
    let more = (count > named).then(|| format!(" and {} more", count - named));
    let to = chain.to.map(|to| format!(" to {}", to.replace('-', " ")));
    capital(
        &[Some(names), more, to]
            .into_iter()
            .flatten()
            .collect::<String>(),
    )
}
