//! A sheet that goes with the plan: what is gathered while it is drawn, and
//! what every one of them has round it.

use super::bare::bare;
use super::bearings;
use super::beside::{self, Said, text};
use super::display_list::{Drawing, Ink, Item, Layer, Mark};
use super::font::Face;
use super::legend::{Entry, Legend, Sample};
use super::lettering::{self, HEADING, Setting};
use super::surround::{self, About, errors, job_title};
use crate::analysis::Analysis;
use crate::findings::Place;
use crate::geometry::Point;
use crate::model::Region;
use crate::units::System;

/// A further sheet in the making.
pub(crate) struct Further {
    /// The job's units.
    pub system: System,
    /// Whose words are used.
    pub region: Region,
    /// What is drawn, the lowest first.
    pub items: Vec<Item>,
    /// What the marks mean.
    pub legend: Legend,
    /// What is to be said beside it.
    pub notes: Vec<String>,
}

impl Further {
    /// One on which nothing stands yet.
    pub(crate) fn new(analysis: &Analysis) -> Further {
        Further {
            system: analysis.job.heading.system(),
            region: analysis.job.heading.region(),
            items: Vec::new(),
            legend: Legend::default(),
            notes: Vec::new(),
        }
    }

    /// Draws something.
    pub(crate) fn draw(&mut self, layer: Layer, link: Option<Place>, mark: Mark) {
        self.items.push(Item {
            layer,
            link,
            within: None,
            mark,
        });
    }

    /// Writes a line of text.
    pub(crate) fn write(&mut self, link: Option<Place>, at: Point, setting: Setting, ink: Ink) {
        self.draw(Layer::Names, link, text(at, setting, ink));
    }

    /// Writes what a part of the sheet is called, no wider than it.
    pub(crate) fn heading(&mut self, link: Option<Place>, words: &str, corner: Point, width: f64) {
        let words = lettering::cut(words, HEADING, Face::Medium, width);
        let setting = lettering::set(&words, HEADING, Face::Medium);
        let at = Point::new(corner.x, corner.y - HEADING);
        self.write(link, at, setting, Ink::Black);
    }

    /// Adds a line to the legend.
    pub(crate) fn explain(&mut self, sample: Sample, title: &str, note: Option<String>) {
        self.legend.add(Entry {
            sample,
            title: title.to_owned(),
            note,
            link: None,
        });
    }

    /// Says in notes what the legend does, for where none stands beside it.
    pub(crate) fn say_legend(&mut self) {
        for entry in std::mem::take(&mut self.legend.entries) {
            // What a line is that has nothing more to be said of it, is plain.
            match entry.note {
                Some(note) => self.note(format!("{}: {note}.", entry.title.replace(": ", ", "))),
                None if entry.title.contains(": ") => self.note(format!("{}.", entry.title)),
                None => {}
            }
        }
    }

    /// Adds a note unless it is there.
    pub(crate) fn note(&mut self, note: String) {
        if !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }

    /// The sheet with frame, scale bar, legend, notes and title block; `kind`
    /// is what it shows, for readers that list drawings.
    pub(crate) fn finish(self, analysis: &Analysis, about: &About<'_>, kind: &str) -> Drawing {
        let sheet = about.sheet;
        let drawing = Drawing {
            title: format!("{}: {kind}", job_title(analysis)),
            size: sheet.paper,
            scale: about.scale.ratio,
            origin: Point::ORIGIN,
            is_imperial: self.system == System::Imperial,
            items: Vec::new(),
            notes: Vec::new(),
        };
        if sheet.is_bare {
            let drawing = Drawing {
                items: self.items,
                notes: self.notes,
                ..drawing
            };
            return bare(drawing, about.scale, self.system);
        }
        let mut items = surround::frame(sheet).to_vec();
        items.extend(surround::warning(sheet, "build", errors(analysis)));
        items.extend(self.items);
        items.extend(bearings::scale_bar(&sheet.foot, about.scale, self.system));
        let said = Said {
            legend: &self.legend.entries,
            notes: &self.notes,
            ..Said::default()
        };
        let (mut beside, _) = said.set(sheet);
        items.append(&mut beside);
        let title = surround::title(analysis, about);
        items.extend(beside::title_block(&sheet.title, &title));
        Drawing { items, ..drawing }
    }
}
