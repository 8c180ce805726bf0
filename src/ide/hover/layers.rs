//! The layer of a build under the pointer.

use super::workings;
use crate::analysis::Analysis;
use crate::ide::cursor::Cursor;
use crate::quantities::FigureRef;

/// How many surfaces of one build are worked out in full.
const MOST: usize = 3;

/// The layer's working for each surface that has the build.
pub(crate) fn cards(analysis: &Analysis, cursor: &Cursor<'_>) -> Vec<String> {
    let line = cursor.line_in_section();
    let surfaces = analysis.figures.surfaces.iter().enumerate();
    let same = surfaces.flat_map(|(surface, own)| {
        let layers = own.layers.iter().enumerate();
        layers.filter_map(move |(layer, figures)| {
            let place = figures.place;
            (place.section == cursor.section && line.overlaps(place.span))
                .then_some(FigureRef::Layer { surface, layer })
        })
    });
    let same: Vec<FigureRef> = same.collect();
    let mut cards: Vec<String> = same
        .iter()
        .take(MOST)
        .filter_map(|of| workings::card(analysis, *of))
        .collect();
    if same.len() > MOST {
        cards.push(format!(
            "and {} more surfaces with this build",
            same.len() - MOST
        ));
    }
    cards
}
