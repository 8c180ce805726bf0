//! Where each section stands, and to which scale.

use super::channel;
use super::cut::Cut;
use super::edging;
use super::ends::LOWEST;
use super::rows;
use crate::analysis::Analysis;
use crate::drawing::lettering::HEADING;
use crate::drawing::scale::Scale;
use crate::drawing::sheet::Sheet;
use crate::drawing::surround::{WARNING, errors};

/// The most that the layers of a section take of the sheet's height.
const DEEPEST: f64 = 48.0;
/// The largest picture that a section is drawn at.
const LARGEST: f64 = 4.0;
/// The white round all sections, and between two.
const MARGIN: f64 = 8.0;
const GAP: f64 = 9.0;
/// From the heading down to the finished surface.
pub(crate) const OVER: f64 = HEADING + 15.0;
/// What is kept under the layers for the ground and the words there.
pub(crate) const UNDER: f64 = 18.0;

/// The sections of a job on their sheets.
pub(crate) struct Layout<'c> {
    /// The scale of all of them.
    pub scale: Scale,
    /// Where they start.
    pub left: f64,
    /// How wide each is.
    pub width: f64,
    /// Sheet by sheet.
    pub pages: Vec<Vec<Block<'c>>>,
}

/// A section on its sheet.
pub(crate) struct Block<'c> {
    /// What it shows.
    pub cut: &'c Cut<'c>,
    /// Where it starts.
    pub top: f64,
    /// Where the middle of each row stands, counted down from the finished
    /// surface at the low edge.
    pub rows: Vec<f64>,
}

impl<'c> Layout<'c> {
    /// Whether the rows stand under the ends, each with the number of its
    /// layer: beside them on a narrow sheet there is no room for both.
    pub(crate) fn is_narrow(&self) -> bool {
        is_narrow(self.width)
    }

    /// The largest usual scale that takes no more sheets than one that suits
    /// the deepest build; one section after the other, down the sheet.
    pub(crate) fn of(cuts: &'c [Cut<'c>], analysis: &Analysis, sheet: &Sheet) -> Layout<'c> {
        let deepest = cuts.iter().map(deep_m).fold(0.0, f64::max);
        let widest = cuts.iter().map(outside_m).fold(0.0, f64::max);
        let width = sheet.plan.width() - 2.0 * MARGIN;
        let mut room = (sheet.plan.low.y + MARGIN, sheet.plan.high.y - MARGIN);
        if errors(analysis) > 0 {
            room.1 -= WARNING;
        }
        let of_rows = cuts.iter().map(rows::height).fold(0.0, f64::max);
        let of_rows = if is_narrow(width) { of_rows } else { 0.0 };
        let usual = Scale::usual(analysis.job.heading.system());
        let held = cuts.iter().map(edging::outside_m).fold(0.0, f64::max);
        let suits = |scale: &&Scale| {
            let on_paper = |metres: f64| metres * 1000.0 / scale.ratio;
            on_paper(deepest) <= DEEPEST && on_paper(held) <= widest_drawn(width)
        };
        let plain = usual.iter().find(suits).or(usual.last()).cloned();
        let plain = plain.unwrap_or(Scale {
            ratio: 10.0,
            words: "1:10".to_owned(),
        });
        let pages = paged(cuts, &plain, width, room);
        let larger = usual.into_iter().filter(|scale| {
            let on_paper = |metres: f64| metres * 1000.0 / scale.ratio;
            scale.ratio < plain.ratio
                && scale.ratio >= LARGEST
                && on_paper(deepest) + OVER + UNDER + of_rows <= room.1 - room.0
                && on_paper(widest) <= widest_drawn(width)
        });
        let larger = larger.map(|scale| {
            let pages = paged(cuts, &scale, width, room);
            (scale, pages)
        });
        let (scale, pages) = larger
            .into_iter()
            .find(|(_, own)| own.len() <= pages.len())
            .unwrap_or((plain, pages));
        Layout {
            scale,
            left: sheet.plan.low.x + MARGIN,
            width,
            pages,
        }
    }

    /// The most that is drawn of what goes past the edge.
    pub(crate) fn widest(&self) -> f64 {
        widest_drawn(self.width)
    }

    /// Millimetres of paper to a metre.
    pub(crate) fn per_metre(&self) -> f64 {
        1000.0 / self.scale.ratio
    }
}

/// How deep a section is drawn, in metres.
fn deep_m(cut: &Cut<'_>) -> f64 {
    cut.depth_m()
        .max(edging::under_m(cut))
        .max(channel::under_m(cut))
}

/// How far past the edge it goes, in metres.
pub(crate) fn outside_m(cut: &Cut<'_>) -> f64 {
    cut.beyond_m()
        .max(edging::outside_m(cut))
        .max(channel::outside_m(cut))
}

/// The most that is drawn of what goes past the edge, on sections so wide.
fn widest_drawn(width: f64) -> f64 {
    let share = if is_narrow(width) { 0.16 } else { 0.12 };
    share * width
}

/// The narrowest that ends and rows stand beside one another.
const NARROW: f64 = 185.0;

fn is_narrow(width: f64) -> bool {
    width < NARROW
}

/// The sections one after the other at a scale, between two heights of the
/// sheet.
fn paged<'c>(
    cuts: &'c [Cut<'c>],
    scale: &Scale,
    width: f64,
    (low, high): (f64, f64),
) -> Vec<Vec<Block<'c>>> {
    let per_metre = 1000.0 / scale.ratio;
    let mut pages: Vec<Vec<Block<'c>>> = Vec::new();
    let mut top = high;
    for cut in cuts {
        let rows = rows::places(cut, per_metre);
        let of_rows = rows.last().map_or(0.0, |last| last + rows::STEP + LOWEST);
        // What is too deep for any scale is cut off at the sheet's foot.
        let depth = (deep_m(cut) * per_metre).min(high - low - OVER - UNDER);
        let height = match is_narrow(width) {
            false => OVER + (depth + UNDER).max(of_rows),
            true => OVER + (depth + UNDER).max(of_rows) + rows::height(cut),
        };
        if pages.is_empty() || top - height < low {
            pages.push(Vec::new());
            top = high;
        }
        if let Some(page) = pages.last_mut() {
            page.push(Block { cut, top, rows });
        }
        top -= height + GAP;
    }
    pages
}
