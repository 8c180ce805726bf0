//! The sheet: what stands on it, in which order.

use super::workings::working_text;
use super::{as_built, drains, foot, head, mixes, money, orders, shapes, steps, surface, work};
use crate::analysis::Analysis;
use crate::quantities::{FigureRef, Order, working};
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
    /// How it is laid out.
    pub layout: SheetLayout,
}

/// How a sheet of text is laid out.
#[derive(Debug, Clone, Copy)]
pub struct SheetLayout {
    /// The characters of a line, as far as the names in it allow.
    pub width: usize,
    /// Whether what is bought comes first, for whoever reads it beside the
    /// text, where the rest stands already.
    pub orders_first: bool,
    /// Whether each figure is followed by its working.
    pub shows_working: bool,
}

impl Default for SheetLayout {
    fn default() -> SheetLayout {
        SheetLayout {
            width: WIDTH,
            orders_first: false,
            shows_working: false,
        }
    }
}

impl SheetLayout {
    /// The same, each figure followed by its working or not.
    pub fn with_working(self, shows_working: bool) -> SheetLayout {
        SheetLayout {
            shows_working,
            ..self
        }
    }
}

/// The take-off of a job as text; paths as seen from a folder.
pub fn takeoff_text(analysis: &Analysis, folder: &str, layout: SheetLayout) -> String {
    let sheet = Sheet::of(analysis, folder, layout);
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
    let at = if layout.orders_first { 1 } else { parts.len() };
    parts.insert(at, orders::text(&sheet));
    parts.extend([
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
    pub(crate) fn of(analysis: &'a Analysis, folder: &'a str, layout: SheetLayout) -> Sheet<'a> {
        Sheet {
            analysis,
            system: analysis.job.heading.system(),
            folder,
            layout,
        }
    }

    /// The workings of figures, one after the other, if they are shown.
    pub(crate) fn workings(&self, of: impl IntoIterator<Item = FigureRef>) -> String {
        if !self.layout.shows_working {
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

    /// The name of what an order line is for, marked as [`Sheet::marked`] does.
    pub(crate) fn marked_order(&self, order: &Order) -> String {
        let name = order.name(self.system);
        let size = name.strip_prefix(&order.material).unwrap_or_default();
        self.marked(&order.material) + size
    }

    /// Whether a built-in material is changed by the spec.
    pub(crate) fn is_changed(&self, material: &str) -> bool {
        let own = self.analysis.job.materials.get(material);
        own.is_some_and(|own| own.changes_catalogue)
    }

    /// A label and what it says, set to one margin.
    pub(super) fn labelled(&self, label: &str, text: &str) -> String {
        labelled(label, text, self.layout.width)
    }

    /// A label and several things said of it, parted by semicolons; a line is
    /// broken only between them, and in one that is longer than a line.
    pub(super) fn labelled_parts(&self, label: &str, parts: &[String]) -> String {
        let width = self.layout.width;
        let mut text = margin(label);
        let blank = " ".repeat(text.chars().count());
        for (index, part) in parts.iter().enumerate() {
            let length = part.chars().count() + 1;
            let column = text.lines().last().map_or(0, |line| line.chars().count());
            if index > 0 && column + 2 + length <= width {
                text += &format!("; {part}");
            } else {
                let own = wrapped(part, &blank, width - 1);
                let first = if index > 0 { ";\n" } else { "" };
                let own = if index > 0 { &own } else { own.trim_start() };
                text += &format!("{first}{own}");
            }
        }
        text + "\n"
    }
}

/// A label and what it says, set to one margin, for lines of a width.
pub(in crate::report) fn labelled(label: &str, text: &str, width: usize) -> String {
    wrapped(text, &margin(label), width) + "\n"
}

fn margin(label: &str) -> String {
    format!("  {label:<17} ")
}
