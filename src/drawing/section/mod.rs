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
use layout::Layout;

use super::figure::{Figure, MOST_FIGURES, Sketch};
use crate::analysis::Analysis;
use crate::geometry::Point;
use crate::text::capital;

/// The sections of a job, each in so much room; none where nothing is built.
pub(crate) fn sections(analysis: &Analysis, room: (f64, f64)) -> Vec<Figure> {
    let mut cuts = cuts(analysis);
    let more = cuts.split_off(cuts.len().min(MOST_FIGURES));
    let more: usize = more.iter().map(|cut| cut.surfaces.len()).sum();
    let layout = Layout::of(&cuts, analysis.job.heading.system(), room);
    let drawn = cuts.iter().map(|cut| {
        let mut sketch = Sketch::new(analysis);
        sketch.note("Sections show both ends, not the middle.".to_owned());
        if more > 0 {
            sketch.note(format!(
                "No more than {MOST_FIGURES} sections are drawn: {more} surfaces further down have none."
            ));
        }
        section(&mut sketch, &layout, cut);
        Figure {
            is_clear: layout.is_clear(&cuts),
            has_levels: cut.levels_m[1].is_some(),
            ..sketch.figure(&layout.scale)
        }
    });
    drawn.collect()
}

/// One section: its heading, its two ends, the rows beside them.
fn section(sketch: &mut Sketch, layout: &Layout, cut: &Cut<'_>) {
    sketch.heading(
        Some(cut.place()),
        &heading(cut),
        Point::ORIGIN,
        layout.width,
    );
    let ends = Ends::of(cut, layout);
    ends.draw(sketch);
    rows::draw(sketch, &ends, layout);
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
