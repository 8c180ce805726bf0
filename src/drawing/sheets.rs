//! All the sheets of a job: the plan, the sections through each build, the
//! flights of steps from the side, the drains along their length.

use super::display_list::Drawing;
use super::plan::{self, Choice, Misfit};
use super::sheet::Sheet;
use super::{flight, long_section, section};
use crate::analysis::Analysis;

/// A kind of sheet that goes with a plan.
struct Kind {
    /// How many sheets like this one it takes.
    count: fn(&Analysis, &Sheet) -> usize,
    /// Draws them: the file, the sheet, how many come before and are there in
    /// all.
    draw: fn(&Analysis, &str, &Sheet, (usize, usize)) -> Vec<Drawing>,
}

/// What goes with a plan, in order.
const FURTHER: [Kind; 3] = [
    Kind {
        count: section::count,
        draw: section::sections,
    },
    Kind {
        count: flight::count,
        draw: flight::flights,
    },
    Kind {
        count: long_section::count,
        draw: long_section::long_sections,
    },
];

impl Kind {
    /// The sheet for what goes with a plan on this one: a smaller one where as
    /// many of them do and are filled better.
    fn sheet(&self, analysis: &Analysis, plan: &Sheet, choice: &Choice) -> Sheet {
        let smaller = plan.size.smaller().filter(|_| choice.sheet.is_none());
        let smaller = smaller.map(|size| Sheet::new(size, plan.is_upright));
        let takes = |sheet: &Sheet| (self.count)(analysis, sheet);
        let filled = |sheet: &Sheet| self.filled(analysis, sheet);
        smaller
            .filter(|own| takes(own) == takes(plan) && filled(own) > filled(plan))
            .unwrap_or_else(|| plan.clone())
    }

    /// What share of such sheets is drawn on.
    fn filled(&self, analysis: &Analysis, sheet: &Sheet) -> f64 {
        let room = (sheet.plan.width(), sheet.plan.height());
        let drawn = (self.draw)(analysis, "", &Sheet::bare(room), (0, 0));
        let areas = drawn.iter().map(|own| own.size.0 * own.size.1);
        areas.sum::<f64>() / (room.0 * room.1 * drawn.len().max(1) as f64)
    }
}

/// How many sheets go with the plan of a job on this one.
pub(crate) fn further(analysis: &Analysis, plan: &Sheet) -> usize {
    let counts = FURTHER.iter().map(|kind| (kind.count)(analysis, plan));
    counts.sum()
}

/// Draws every sheet of a job, the plan first. `source` is its file as it is
/// shown. The others stand to scales of their own, on sheets like the plan's or,
/// where none is asked for, on smaller ones.
///
/// # Errors
/// [`Misfit`] if a scale was asked for and the plan is too big for its sheet.
pub fn sheets(
    analysis: &Analysis,
    source: &str,
    choice: &Choice,
) -> Result<Vec<Drawing>, Box<Misfit>> {
    let (mut drawings, plan) = plan::on_sheets(analysis, source, choice)?;
    if choice.is_alone {
        return Ok(drawings);
    }
    let count = drawings.len() + further(analysis, &plan);
    for kind in &FURTHER {
        let sheet = kind.sheet(analysis, &plan, choice);
        let number = (drawings.len(), count);
        drawings.extend((kind.draw)(analysis, source, &sheet, number));
    }
    Ok(drawings)
}

/// Draws what goes with the plan bare, each no larger than so much of a page's
/// width and height; what else there is to say of it is in its notes.
pub fn figures(analysis: &Analysis, room: (f64, f64)) -> Vec<Drawing> {
    let sheet = Sheet::bare(room);
    let drawn = FURTHER.iter();
    drawn
        .flat_map(|kind| (kind.draw)(analysis, "", &sheet, (0, 0)))
        .collect()
}
