//! The section through each build: both its ends to scale, the layers named
//! beside them with their thickness and the level of their top.

mod channel;
mod cut;
mod edging;
mod ends;
mod layers;
mod layout;
mod rows;

pub use layers::layers_picture;

use cut::{Cut, cuts};
use ends::Ends;
use layout::{Block, Layout};

use super::display_list::Drawing;
use super::further::Further;
use super::sheet::Sheet;
use super::surround::About;
use crate::analysis::Analysis;
use crate::geometry::Point;
use crate::text::capital;

/// How many sheets the sections of a job take.
pub(crate) fn count(analysis: &Analysis, sheet: &Sheet) -> usize {
    let cuts = cuts(analysis);
    Layout::of(&cuts, analysis, sheet).pages.len()
}

/// The sections of a job on sheets like the plan's; none where nothing is
/// built. `before` sheets come before them, and there are `count` in all.
pub(crate) fn sections(
    analysis: &Analysis,
    source: &str,
    sheet: &Sheet,
    (before, count): (usize, usize),
) -> Vec<Drawing> {
    let cuts = cuts(analysis);
    let layout = Layout::of(&cuts, analysis, sheet);
    let pages = layout.pages.iter().enumerate();
    let drawn = pages.map(|(index, blocks)| {
        let mut further = Further::new(analysis);
        further.note("The ends are drawn, the middle is left out.".to_owned());
        for block in blocks {
            section(&mut further, &layout, block);
        }
        let about = About {
            source,
            drawing: "Section through the build",
            scale: &layout.scale,
            sheet,
            number: (before + index + 1, count),
            has_levels: blocks.iter().any(|block| block.cut.levels_m[1].is_some()),
        };
        further.finish(analysis, &about, "section")
    });
    drawn.collect()
}

/// One section: its heading, its two ends, the rows beside them.
fn section(further: &mut Further, layout: &Layout<'_>, block: &Block<'_>) {
    let cut = block.cut;
    let corner = Point::new(layout.left, block.top);
    further.heading(Some(cut.place()), &heading(cut), corner, layout.width);
    let ends = Ends::of(cut, layout, block);
    ends.draw(further);
    rows::draw(further, &ends, layout, block);
}

fn heading(cut: &Cut<'_>) -> String {
    let names: Vec<&str> = cut
        .surfaces
        .iter()
        .map(|surface| surface.name.value.as_str())
        .collect();
    let names = names.join(", ").replace('-', " ");
    format!("{}: {}", capital(&names), cut.build.name.value)
}
