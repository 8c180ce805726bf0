//! Where each section stands, and to which scale.

use super::cut::Cut;
use super::ends::LOWEST;
use super::rows;
use crate::analysis::Analysis;
use crate::drawing::lettering::HEADING;
use crate::drawing::scale::Scale;
use crate::drawing::sheet::Sheet;
use crate::drawing::surround::{WARNING, errors};

/// The most that the layers of a section take of the sheet's height.
const DEEPEST: f64 = 48.0;
/// The white round all sections, and between two.
const MARGIN: f64 = 8.0;
const GAP: f64 = 9.0;
/// From the heading down to the finished surface.
pub const OVER: f64 = HEADING + 15.0;
/// What is kept under the layers for the ground and the words there.
pub const UNDER: f64 = 18.0;

/// The sections of a job on their sheets.
pub struct Layout<'c> {
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
pub struct Block<'c> {
    /// What it shows.
    pub cut: &'c Cut<'c>,
    /// Where it starts.
    pub top: f64,
    /// Where the middle of each row stands, counted down from the finished
    /// surface at the low edge.
    pub rows: Vec<f64>,
}

impl<'c> Layout<'c> {
    /// The largest usual scale that suits the deepest build; one after the
    /// other, down the sheet.
    pub fn of(cuts: &'c [Cut<'c>], analysis: &Analysis, sheet: &Sheet) -> Layout<'c> {
        let deepest = cuts.iter().map(Cut::depth_m).fold(0.0, f64::max);
        let usual = Scale::usual(analysis.job.heading.system());
        let last = usual.last().cloned();
        let fitting = usual
            .into_iter()
            .find(|scale| deepest * 1000.0 / scale.ratio <= DEEPEST);
        let scale = fitting.or(last).unwrap_or(Scale {
            ratio: 10.0,
            words: "1:10".to_owned(),
        });
        let per_metre = 1000.0 / scale.ratio;
        let (low, mut high) = (sheet.plan.low.y + MARGIN, sheet.plan.high.y - MARGIN);
        if errors(analysis) > 0 {
            high -= WARNING;
        }
        let mut pages: Vec<Vec<Block<'c>>> = Vec::new();
        let mut top = high;
        for cut in cuts {
            let rows = rows::places(cut, per_metre);
            let of_rows = rows.last().map_or(0.0, |last| last + rows::STEP + LOWEST);
            // What is too deep for any scale is cut off at the sheet's foot.
            let depth = (cut.depth_m() * per_metre).min(DEEPEST);
            let height = OVER + (depth + UNDER).max(of_rows);
            if pages.is_empty() || top - height < low {
                pages.push(Vec::new());
                top = high;
            }
            if let Some(page) = pages.last_mut() {
                page.push(Block { cut, top, rows });
            }
            top -= height + GAP;
        }
        Layout {
            scale,
            left: sheet.plan.low.x + MARGIN,
            width: sheet.plan.width() - 2.0 * MARGIN,
            pages,
        }
    }

    /// Millimetres of paper to a metre.
    pub fn per_metre(&self) -> f64 {
        1000.0 / self.scale.ratio
    }
}
