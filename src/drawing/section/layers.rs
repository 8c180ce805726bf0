//! The layers of a build as a small picture, for where it is named.

use super::cut::{Course, courses};
use super::rows;
use crate::drawing::beside::{sheet_item, text};
use crate::drawing::display_list::{Drawing, Ink, Item, Mark, Path, Pen, Weight};
use crate::drawing::filling::{self, Filling};
use crate::drawing::font::Face;
use crate::drawing::lettering::{self, NOTE};
use crate::drawing::measure;
use crate::drawing::svg::{Dress, svg};
use crate::drawing::texture::seed;
use crate::geometry::Point;
use crate::model::{Build, Region};
use crate::units::System;

/// How wide the picture is, and what is cut in it, in millimetres.
const WIDE: f64 = 84.0;
const CUT: (f64, f64) = (1.0, 28.0);
/// Where the figures end and the names begin.
const FIGURES: f64 = 44.0;
const NAMES: f64 = 47.0;
/// The most that the layers are drawn high, and the most of a metre.
const HIGHEST: f64 = 30.0;
const LARGEST: f64 = 200.0;
/// From one row to the next, and where fractions stand in them.
const STEP: f64 = 4.4;
const OF_FRACTIONS: f64 = 6.2;
const WHITE: f64 = 2.0;

/// The layers of a build to scale, with thickness and name, as SVG without its
/// type; `None` for one of no layer.
pub fn layers_picture(build: &Build, system: System, region: Region) -> Option<String> {
    let courses = courses(build);
    if courses.is_empty() {
        return None;
    }
    let depths = courses.iter().filter_map(Course::depths);
    let deep = depths.map(|(_, under)| under).fold(0.0, f64::max);
    let per_metre = match deep > 0.0 {
        true => (HIGHEST / deep).min(LARGEST),
        false => LARGEST,
    };
    let step = match system {
        System::Metric => STEP,
        System::Imperial => OF_FRACTIONS,
    };
    let mut rows: Vec<f64> = Vec::new();
    for course in &courses {
        let after = rows.last().map_or(step / 2.0, |last| last + step);
        let wanted = course.middle_m().map(|middle| middle * per_metre);
        rows.push(wanted.unwrap_or(after).max(after));
    }
    let last = rows.last().map_or(0.0, |last| last + step / 2.0);
    let height = (deep * per_metre).max(last) + 2.0 * WHITE;
    let top = height - WHITE;
    let mut items: Vec<Item> = Vec::new();
    let mut draw = |mark: Mark| items.push(sheet_item(None, mark));
    for (course, row) in courses.iter().zip(rows) {
        let y = top - row;
        let thickness = match course.thickness_m {
            _ if course.layer.role.value.is_sheet() => "sheet".to_owned(),
            Some(metres) => measure::thickness(metres, system),
            None => "–".to_owned(),
        };
        let figure = lettering::set(&thickness, NOTE, Face::Medium);
        let at = Point::new(FIGURES - figure.width, y - NOTE / 2.0);
        draw(text(at, figure, Ink::Black));
        let name = rows::name(course, region);
        let name = lettering::cut(&name, NOTE, Face::Regular, WIDE - NAMES - 1.0);
        let name = lettering::set(&name, NOTE, Face::Regular);
        draw(text(Point::new(NAMES, y - NOTE / 2.0), name, Ink::Black));
        let Some((over, under)) = course.depths() else {
            continue;
        };
        let (high, low) = (top - over * per_metre, top - under * per_metre);
        let corners = [
            Point::new(CUT.0, low),
            Point::new(CUT.1, low),
            Point::new(CUT.1, high),
            Point::new(CUT.0, high),
        ];
        if course.layer.role.value.is_sheet() {
            let pen = Pen::of(Weight::Heavy).dashed(&[1.6, 0.7]);
            draw(Mark::Stroke(vec![Path::line(corners[0], corners[1])], pen));
        } else {
            let seed = seed(course.layer.of.value.name());
            let filled = Filling::of(course.layer);
            for mark in filling::marks(filled, seed, corners[3], &corners) {
                draw(mark);
            }
            let face = vec![Path::polygon(&corners)];
            draw(Mark::Stroke(face, Pen::of(Weight::Mid)));
        }
        let from = Point::new(CUT.1, f64::midpoint(low, high));
        let lead = Path::line(from, Point::new(CUT.1 + 5.0, y));
        draw(Mark::Stroke(vec![lead], Pen::of(Weight::Fine)));
    }
    let drawing = Drawing {
        title: "Layers".to_owned(),
        size: (WIDE, height),
        scale: 1000.0 / per_metre,
        origin: Point::ORIGIN,
        is_imperial: system == System::Imperial,
        items,
        insets: Vec::new(),
        notes: Vec::new(),
    };
    let dress = Dress {
        has_type: false,
        anchor: &|_| None,
    };
    Some(svg(&drawing, &dress))
}
