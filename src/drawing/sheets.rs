//! All the sheets of a job: the plan, then the sections.

use super::display_list::Drawing;
use super::plan::{self, Choice, Misfit};
use super::section;
use crate::analysis::Analysis;

/// Draws every sheet of a job, the plan first. `source` is its file as it is
/// shown. The sections stand on sheets like the plan's, to a scale of their
/// own.
///
/// # Errors
/// [`Misfit`] if a scale was asked for and the plan is too big for its sheet.
pub fn sheets(
    analysis: &Analysis,
    source: &str,
    choice: &Choice,
) -> Result<Vec<Drawing>, Box<Misfit>> {
    let (plan, sheet) = plan::on_sheet(analysis, source, choice)?;
    let mut drawings = vec![plan];
    drawings.extend(section::sections(analysis, source, &sheet));
    Ok(drawings)
}
