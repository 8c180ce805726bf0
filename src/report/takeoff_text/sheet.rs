//! The sheet: what stands on it, in which order.

use super::workings::working_text;
use super::{as_built, drains, foot, head, mixes, money, orders, shapes, steps, surface, work};
use crate::analysis::Analysis;
use crate::quantities::{FigureRef, working};
use crate::report::words::{WIDTH, wrapped};
use crate::units::System;

/// What the parts of the sheet are made from.
#[derive(Clone, Copy)]
pub(in crate::report) struct Sheet<'a> {
    /// The job and its figures.
    pub analysis: &'a Analysis,
    /// The units of the job.
    pub system: System,
    /// The folder from which paths are shown.
    pub folder: &'a str,
    /// Whether each figure is followed by its working.
    pub shows_working: bool,
}

/// The take-off of a job as text, at most 100 characters wide where the names
/// in it allow; paths as seen from a folder. `shows_working` follows each
/// figure with how it came about.
pub fn takeoff_text(analysis: &Analysis, folder: &str, shows_working: bool) -> String {
    let sheet = Sheet::of(analysis, folder, shows_working);
    let mut parts = vec![head::text(&sheet), shapes::text(&sheet)];
    let surfaces = analysis
        .job
        .surfaces
        .iter()
        .zip(analysis.figures.surfaces.iter());
    parts.extend(
        surfaces
            .enumerate()
            .map(|(index, (own, figures))| surface::text(&sheet, index, own, figures)),
    );
    let all_steps = analysis.figures.steps.iter().enumerate();
    parts.extend(all_steps.map(|(index, own)| steps::text(&sheet, index, own)));
    let all_drains = analysis
        .job
        .drains
        .iter()
        .zip(analysis.figures.drains.iter());
    parts.extend(
        all_drains
            .enumerate()
            .map(|(index, (own, figures))| drains::text(&sheet, index, own, figures)),
    );
    let all_mixes = analysis.figures.mixes.iter();
    parts.extend(
        all_mixes
            .enumerate()
            .map(|(index, mix)| mixes::text(&sheet, index, mix)),
    );
    parts.extend([
        orders::text(&sheet),
        work::text(&sheet),
        money::text(&sheet),
        as_built::text(&sheet),
        foot::text(&sheet),
    ]);
    parts.retain(|part| !part.is_empty());
    parts.join("\n")
}

impl<'a> Sheet<'a> {
    /// A sheet of an analysis; paths as seen from a folder.
    pub(crate) fn of(analysis: &'a Analysis, folder: &'a str, shows_working: bool) -> Sheet<'a> {
        Sheet {
            analysis,
            system: analysis.job.heading.system(),
            folder,
            shows_working,
        }
    }

    /// The workings of figures, one after the other, if they are shown.
    pub(crate) fn workings(&self, of: impl IntoIterator<Item = FigureRef>) -> String {
        if !self.shows_working {
            return String::new();
        }
        let (job, figures) = (&self.analysis.job, &self.analysis.figures);
        let found = of.into_iter().filter_map(|of| working(job, figures, of));
        let with_steps = found.filter(|working| !working.steps.is_empty());
        with_steps
            .map(|working| working_text(self, &working))
            .collect()
    }

    /// The name of a material, marked if the spec changes what is built in.
    pub(crate) fn marked(&self, material: &str) -> String {
        match self.is_changed(material) {
            true => format!("{material}*"),
            false => material.to_owned(),
        }
    }

    /// Whether a built-in material is changed by the spec.
    pub(crate) fn is_changed(&self, material: &str) -> bool {
        let own = self.analysis.job.materials.get(material);
        own.is_some_and(|own| own.changes_catalogue)
    }
}

/// A label and what it says, set to one margin.
pub(in crate::report) fn labelled(label: &str, text: &str) -> String {
    wrapped(text, &margin(label), WIDTH) + "\n"
}

/// A label and several things said of it, parted by semicolons; a line is
/// broken only between them.
pub(super) fn labelled_parts(label: &str, parts: &[String]) -> String {
    let first = margin(label);
    let mut column = first.chars().count();
    let (indent, mut text) = (column, first);
    for (index, part) in parts.iter().enumerate() {
        let length = part.chars().count() + 1;
        if index > 0 && column + 1 + length > WIDTH {
            text.push_str(&format!(";\n{}", " ".repeat(indent)));
            column = indent;
        } else if index > 0 {
            text.push_str("; ");
            column += 1;
        }
        text.push_str(part);
        column += length;
    }
    text + "\n"
}

fn margin(label: &str) -> String {
    format!("  {label:<17} ")
}
