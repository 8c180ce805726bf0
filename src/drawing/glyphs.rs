//! The outlines of letters, for formats that are drawn and not set.

use std::collections::BTreeSet;

use super::display_list::{Drawing, Mark, Text};
use super::font::{EM, Face};
use super::lettering::CAPITAL;
use crate::geometry::Point;

/// What an outline is traced with: places on the paper in millimetres.
pub(crate) trait Pencil {
    /// A new line starts.
    fn start(&mut self, at: Point);
    /// A straight line.
    fn line(&mut self, to: Point);
    /// A curve with one handle.
    fn bend(&mut self, handle: Point, to: Point);
    /// Back to where the line started.
    fn close(&mut self);
}

/// Traces every letter of a text.
pub(crate) fn trace(text: &Text, pencil: &mut impl Pencil) {
    let face = text.setting.face;
    let Some(font) = face.font() else { return };
    for run in &text.setting.runs {
        let em = run.capital / CAPITAL;
        let mut along = run.along;
        for letter in run.text.chars() {
            let glyph = ttf_parser::GlyphId(face.glyph(letter));
            let mut tracer = Tracer {
                text,
                pencil,
                along,
                up: run.up,
                unit: em / EM,
            };
            font.outline_glyph(glyph, &mut tracer);
            along += super::font::advance(face, letter) * em;
        }
    }
}

/// The letters of drawings that the type has not, in order, each once: where
/// nothing but the type is at hand they are drawn as empty boxes.
pub fn lacking<'d>(drawings: impl IntoIterator<Item = &'d Drawing>) -> BTreeSet<char> {
    let items = drawings.into_iter().flat_map(|drawing| &drawing.items);
    let texts = items.filter_map(|item| match &item.mark {
        Mark::Text(text) => Some(&text.setting),
        Mark::Stroke(..) | Mark::Fill(..) => None,
    });
    let letters = texts.flat_map(|own| {
        let runs = own.runs.iter().flat_map(|run| run.text.chars());
        runs.map(|letter| (own.face, letter))
    });
    let lacks = |(face, letter): &(Face, char)| {
        !letter.is_whitespace() && face.glyph(*letter) == 0 && face.font().is_some()
    };
    letters.filter(lacks).map(|(_, letter)| letter).collect()
}

struct Tracer<'t, P> {
    text: &'t Text,
    pencil: &'t mut P,
    along: f64,
    up: f64,
    unit: f64,
}

impl<P> Tracer<'_, P> {
    fn at(&self, x: f32, y: f32) -> Point {
        let along = self.along + f64::from(x) * self.unit;
        self.text
            .on_sheet(along, self.up + f64::from(y) * self.unit)
    }
}

impl<P: Pencil> ttf_parser::OutlineBuilder for Tracer<'_, P> {
    fn move_to(&mut self, x: f32, y: f32) {
        self.pencil.start(self.at(x, y));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.pencil.line(self.at(x, y));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.pencil.bend(self.at(x1, y1), self.at(x, y));
    }

    /// The type has no curves of two handles; one that had would be drawn
    /// near enough through the middle of both.
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let middle = self.at(f32::midpoint(x1, x2), f32::midpoint(y1, y2));
        self.pencil.bend(middle, self.at(x, y));
    }

    fn close(&mut self) {
        self.pencil.close();
    }
}
