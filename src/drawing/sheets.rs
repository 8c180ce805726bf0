//! All the sheets of a job: the plan, the sections through each build, the
//! flights of steps from the side, the drains along their length.

use super::display_list::Drawing;
use super::plan::{self, Choice, Misfit};
use super::sheet::Sheet;
use super::{flight, long_section, section};
use crate::analysis::Analysis;

/// How many sheets like this one go with the plan of a job.
pub(crate) fn further(analysis: &Analysis, sheet: &Sheet) -> usize {
    section::count(analysis, sheet)
        + flight::count(analysis, sheet)
        + long_section::count(analysis, sheet)
}

/// Draws every sheet of a job, the plan first. `source` is its file as it is
/// shown. The others stand on sheets like the plan's, to scales of their own.
///
/// # Errors
/// [`Misfit`] if a scale was asked for and the plan is too big for its sheet.
pub fn sheets(
    analysis: &Analysis,
    source: &str,
    choice: &Choice,
) -> Result<Vec<Drawing>, Box<Misfit>> {
    let (mut drawings, sheet) = plan::on_sheets(analysis, source, choice)?;
    if choice.is_alone {
        return Ok(drawings);
    }
    let count = drawings.len() + further(analysis, &sheet);
    for draw in FURTHER {
        let number = (drawings.len(), count);
        drawings.extend(draw(analysis, source, &sheet, number));
    }
    Ok(drawings)
}

type Draw = fn(&Analysis, &str, &Sheet, (usize, usize)) -> Vec<Drawing>;

/// What goes with a plan, in order.
const FURTHER: [Draw; 3] = [
    section::sections,
    flight::flights,
    long_section::long_sections,
];

/// Draws what goes with the plan bare, each no larger than so much of a page's
/// width and height; what else there is to say of it is in its notes.
pub fn figures(analysis: &Analysis, room: (f64, f64)) -> Vec<Drawing> {
    let sheet = Sheet::bare(room);
    let drawn = FURTHER.iter();
    drawn
        .flat_map(|draw| draw(analysis, "", &sheet, (0, 0)))
        .collect()
}
