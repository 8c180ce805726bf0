//! A figure that goes with the plan: what is gathered while it is drawn, and the
//! figure cut to what is drawn of it, with its scale bar.

use super::bare::bare;
use super::beside::text;
use super::display_list::{Drawing, Ink, Item, Layer, Mark};
use super::font::Face;
use super::legend::{Entry, Legend, Sample};
use super::lettering::{self, HEADING, Setting};
use super::scale::Scale;
use crate::analysis::Analysis;
use crate::findings::Place;
use crate::geometry::Point;
use crate::model::Region;
use crate::units::System;

/// The most figures of a kind that are drawn: nobody reads more, and each takes
/// its paper.
pub(crate) const MOST_FIGURES: usize = 24;

/// A figure in the making.
pub(crate) struct Sketch {
    /// The job's units.
    pub system: System,
    /// Whose words are used.
    pub region: Region,
    /// What is drawn, the lowest first.
    items: Vec<Item>,
    /// What the marks mean.
    legend: Legend,
    /// What is to be said beside it.
    notes: Vec<String>,
}

/// A figure cut to what is drawn of it.
pub(crate) struct Figure {
    /// It, with its notes.
    pub drawing: Drawing,
    /// The scale that it is drawn to.
    pub scale: Scale,
    /// What its marks mean.
    pub legend: Legend,
    /// Whether what is drawn is large enough to be made out.
    pub is_clear: bool,
    /// Whether it would be larger with more height and no more width.
    pub is_squeezed: bool,
    /// Whether levels are told in it.
    pub has_levels: bool,
}

impl Sketch {
    /// One on which nothing stands yet.
    pub(crate) fn new(analysis: &Analysis) -> Sketch {
        Sketch {
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

    /// Writes what a part of it is called, no wider than it.
    pub(crate) fn heading(&mut self, link: Option<Place>, words: &str, corner: Point, width: f64) {
        let setting = lettering::fitted(words, HEADING, Face::Medium, width);
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

    /// Adds a note unless it is there.
    pub(crate) fn note(&mut self, note: String) {
        add(&mut self.notes, note);
    }

    /// The figure to a scale.
    pub(crate) fn figure(self, scale: &Scale) -> Figure {
        let drawing = Drawing {
            title: String::new(),
            size: (0.0, 0.0),
            scale: scale.ratio,
            origin: Point::ORIGIN,
            is_imperial: self.system == System::Imperial,
            items: self.items,
            insets: Vec::new(),
            notes: self.notes,
        };
        Figure {
            drawing: bare(drawing, scale, self.system),
            scale: scale.clone(),
            legend: self.legend,
            is_clear: true,
            is_squeezed: false,
            has_levels: true,
        }
    }
}

impl Figure {
    /// It for a page that has no legend beside it: its notes say what the legend
    /// would.
    pub(crate) fn alone(mut self) -> Drawing {
        for entry in self.legend.entries {
            // What a line is that has nothing more to be said of it, is plain.
            let note = match entry.note {
                Some(note) => format!("{}: {note}.", entry.title.replace(": ", ", ")),
                None if entry.title.contains(": ") => format!("{}.", entry.title),
                None => continue,
            };
            add(&mut self.drawing.notes, note);
        }
        self.drawing
    }
}

/// Adds a note unless it is there.
pub(crate) fn add(notes: &mut Vec<String>, note: String) {
    if !notes.contains(&note) {
        notes.push(note);
    }
}
