//! A sheet that goes with the plan: the figures that stand on it, and frame,
//! legend, notes and title block round them.

use super::beside::{self, Said, moved};
use super::display_list::{Drawing, Inset, Item};
use super::figure::{Figure, add};
use super::legend::Legend;
use super::scale::Scale;
use super::sheet::Sheet;
use super::surround::{self, About, errors, job_title};
use crate::analysis::Analysis;
use crate::geometry::Point;
use crate::units::System;

/// What is told of a further sheet.
pub(crate) struct Told<'a> {
    /// The job's file as it is shown.
    pub source: &'a str,
    /// What is drawn: `Section through the build`.
    pub drawing: &'a str,
    /// What it shows, for readers that list drawings.
    pub kinds: &'a str,
    /// Which of how many sheets.
    pub number: (usize, usize),
}

/// A sheet of figures, each with its lower left corner.
pub(crate) fn further(
    analysis: &Analysis,
    sheet: &Sheet,
    figures: &[(Point, &Figure)],
    told: &Told<'_>,
) -> Drawing {
    let mut items = surround::frame(sheet).to_vec();
    items.extend(surround::warning(sheet, "build", errors(analysis)));
    let mut insets = Vec::new();
    let mut legend = Legend::default();
    let mut notes = Vec::new();
    for (corner, figure) in figures {
        let by = *corner - Point::ORIGIN;
        let first = items.len();
        items.extend(figure.drawing.items.iter().map(|item| Item {
            mark: moved(&item.mark, by),
            ..item.clone()
        }));
        insets.push(Inset {
            items: first..items.len(),
            corner: *corner,
            scale: figure.scale.ratio,
        });
        for entry in &figure.legend.entries {
            legend.add(entry.clone());
        }
        for note in &figure.drawing.notes {
            add(&mut notes, note.clone());
        }
    }
    let said = Said {
        legend: &legend.entries,
        notes: &notes,
        ..Said::default()
    };
    items.extend(said.set(sheet, None).0);
    let scale = common(figures);
    let about = About {
        source: told.source,
        drawing: told.drawing,
        scale: &scale,
        sheet,
        number: told.number,
        has_levels: figures.iter().any(|(_, figure)| figure.has_levels),
    };
    let title = surround::title(analysis, &about);
    items.extend(beside::title_block(&sheet.title, &title));
    Drawing {
        title: format!("{}: {}", job_title(analysis), told.kinds),
        size: sheet.paper,
        scale: scale.ratio,
        origin: Point::ORIGIN,
        is_imperial: analysis.job.heading.system() == System::Imperial,
        items,
        insets,
        notes: Vec::new(),
    }
}

/// The scale of all figures; where they have several, the smallest, and a word
/// that each shows its own.
fn common(figures: &[(Point, &Figure)]) -> Scale {
    let scales = || figures.iter().map(|(_, figure)| &figure.scale);
    let smallest = scales().max_by(|one, other| one.ratio.total_cmp(&other.ratio));
    let smallest = smallest.cloned().unwrap_or_else(|| Scale::whole(1.0));
    match scales().all(|own| *own == smallest) {
        true => smallest,
        false => Scale {
            words: "as shown".to_owned(),
            ..smallest
        },
    }
}
