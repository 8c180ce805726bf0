//! What is gathered while a plan is drawn.

use super::ground::View;
use crate::drawing::display_list::{Item, Layer, Mark};
use crate::drawing::labels::Board;
use crate::drawing::legend::{Entry, Legend, Sample};
use crate::findings::Place;
use crate::model::{Region, Surface};
use crate::text::capital;
use crate::units::System;

/// A plan in the making.
pub(crate) struct Canvas {
    /// The job's units.
    pub system: System,
    /// Whose words are used.
    pub region: Region,
    /// How the plan lies on the paper.
    pub view: View,
    /// What is drawn, the lowest first.
    pub items: Vec<Item>,
    /// Where labels stand.
    pub board: Board,
    /// What the marks mean.
    pub legend: Legend,
    /// What is to be said beside the plan: assumed, or not known.
    pub notes: Vec<String>,
}

impl Canvas {
    /// Draws something.
    pub(crate) fn draw(&mut self, layer: Layer, link: Option<Place>, mark: Mark) {
        let is_empty = match &mark {
            Mark::Stroke(paths, _) | Mark::Fill(paths, _) => paths.is_empty(),
            Mark::Text(_) => false,
        };
        if !is_empty {
            self.items.push(Item {
                layer,
                link,
                within: None,
                mark,
            });
        }
    }

    /// Draws something that belongs to a surface and may not leave it.
    pub(crate) fn draw_within(&mut self, layer: Layer, surface: &Surface, link: Place, mark: Mark) {
        let before = self.items.len();
        self.draw(layer, Some(link), mark);
        for item in self.items.iter_mut().skip(before) {
            item.within = Some(surface.index);
        }
    }

    /// Adds a line to the legend.
    pub(crate) fn explain(&mut self, sample: Sample, title: &str, note: Option<String>) {
        self.legend.add(Entry {
            sample,
            title: capital(title),
            note,
            link: None,
        });
    }

    /// Adds a note unless it is there.
    pub(crate) fn note(&mut self, note: String) {
        if !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }
}
