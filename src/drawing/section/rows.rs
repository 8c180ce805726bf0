//! The rows beside a section: each layer with its thickness and the level of
//! its top at both ends.

use std::collections::BTreeSet;

use super::cut::{Course, Cut, End};
use super::ends::Ends;
use super::layout::Layout;
use crate::drawing::display_list::{Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::figure::Sketch;
use crate::drawing::font::Face;
use crate::drawing::lettering::{self, LABEL, NOTE, Setting};
use crate::drawing::measure;
use crate::drawing::plan::called_briefly;
use crate::findings::Place;
use crate::geometry::Point;
use crate::model::{Region, Surface};
use crate::quantities::no_levels;
use crate::vocabulary::Role;

/// From one row to the next beside the ends, under them, and from one number
/// to the next.
const STEP: f64 = 6.2;
const STEP_UNDER: f64 = 5.2;
const STEP_NUMBERS: f64 = 4.6;
/// How wide the rows are, and where their columns end.
pub(crate) const WIDTH: f64 = 98.0;
const NAME: f64 = 46.0;
/// The widest that a supplier's name for a material may be.
const CALLED: f64 = 33.0;
const COLUMNS: [f64; 3] = [57.0, 77.5, WIDTH];
/// From the finished surface up to the headings.
const HEADINGS: f64 = 8.0;

/// Where the middle of each row stands, counted down from the finished
/// surface at the low edge: beside its layer, or as near under the row before as may be.
fn places(cut: &Cut<'_>, layout: &Layout) -> Vec<f64> {
    let mut places: Vec<f64> = Vec::new();
    for course in &cut.courses {
        let after = places.last().map(|last| last + step(layout));
        let beside = course.middle_m().map(|depth| depth * layout.per_metre());
        let wanted = beside.or(after).unwrap_or_default();
        places.push(after.map_or(wanted, |after| wanted.max(after)));
    }
    places
}

/// From one row, or where rows stand under the ends one number, to the next.
const fn step(layout: &Layout) -> f64 {
    match layout.is_narrow {
        true => STEP_NUMBERS,
        false => STEP,
    }
}

/// How far down the rows beside the ends, or the numbers, go.
pub(crate) fn beside(cut: &Cut<'_>, layout: &Layout) -> f64 {
    let places = places(cut, layout);
    places.last().map_or(0.0, |last| last + step(layout))
}

/// The room beside the ends for the numbers of the layers.
pub(crate) const NUMBERS: f64 = 16.0;
/// The radius of the ring round a number.
const RING: f64 = 1.9;

/// How high the rows of a section are where they stand under it.
pub(crate) fn height(cut: &Cut<'_>) -> f64 {
    STEP_UNDER * cut.courses.len() as f64 + HEADINGS + 4.0
}

/// Draws the rows of a section: beside its ends, each with the line that leads
/// to its layer; on a narrow sheet under them, each with its number.
pub(crate) fn draw(drawn: &mut Sketch, ends: &Ends<'_>, layout: &Layout) {
    let cut = ends.cut();
    let is_narrow = layout.is_narrow;
    let left = match is_narrow {
        true => RING * 2.0 + 2.0,
        false => layout.width - WIDTH,
    };
    let top = ends.low_surface();
    let under = ends.bottom_of_all() - 4.0 - HEADINGS;
    let head = match is_narrow {
        true => under,
        false => ends.surface() + HEADINGS,
    };
    headings(drawn, cut, left, head);
    let places = places(cut, layout);
    for (index, (course, down)) in cut.courses.iter().zip(places).enumerate() {
        let beside = top - down;
        let y = match is_narrow {
            true => under - STEP_UNDER * (index as f64 + 0.8),
            false => beside,
        };
        row(drawn, cut, course, Point::new(left, y));
        let link = Some(course.layer.place);
        let end = match is_narrow {
            true => {
                let right = layout.width - RING;
                number(drawn, link, index + 1, Point::new(RING, y));
                if ends.point_at(course).is_some() {
                    number(drawn, link, index + 1, Point::new(right, beside));
                }
                Point::new(right - RING, beside)
            }
            false => Point::new(left - 2.0, beside),
        };
        if let Some(start) = ends.point_at(course) {
            let pen = Pen::of(Weight::Fine);
            let dot = Mark::Fill(vec![Path::circle(start, 0.35)], Ink::Black);
            let line = Mark::Stroke(vec![Path::line(start, end)], pen);
            for mark in [line, dot] {
                drawn.draw(Layer::Names, link, mark);
            }
        }
    }
    unknown(drawn, cut);
}

/// A row: the layer, and its thickness and levels.
fn row(drawn: &mut Sketch, cut: &Cut<'_>, course: &Course<'_>, at: Point) {
    let link = Some(course.layer.place);
    let base = at.y - LABEL / 2.0;
    let name = lettering::fitted(&name(course, drawn.region), LABEL, Face::Regular, NAME);
    drawn.write(link, Point::new(at.x, base), name, Ink::Black);
    for (cell, right) in cells(drawn, cut, course).into_iter().zip(COLUMNS) {
        let setting = lettering::set(&cell, LABEL, Face::Medium);
        let corner = Point::new(at.x + right - setting.width, base);
        drawn.write(link, corner, setting, Ink::Black);
    }
}

/// A number in a ring.
fn number(drawn: &mut Sketch, link: Option<Place>, number: usize, at: Point) {
    let ring = Mark::Stroke(vec![Path::circle(at, RING)], Pen::of(Weight::Fine));
    drawn.draw(Layer::Names, link, ring);
    let setting = lettering::set(&number.to_string(), NOTE, Face::Medium);
    let corner = Point::new(at.x - setting.width / 2.0, at.y - NOTE / 2.0);
    drawn.write(link, corner, setting, Ink::Black);
}

/// What is not known, said once.
fn unknown(drawn: &mut Sketch, cut: &Cut<'_>) {
    let named = |counts: &dyn Fn(&Surface) -> bool| -> String {
        let own = cut.surfaces.iter().filter(|own| counts(own));
        let names: Vec<&str> = own.map(|own| own.name.value.as_str()).collect();
        names.join(", ")
    };
    if cut.levels_m[1].is_none() {
        let whys: BTreeSet<&str> = cut.surfaces.iter().map(|own| no_levels(own)).collect();
        for why in whys {
            let names = named(&|own| no_levels(own) == why);
            drawn.note(format!("{names}: {why}, so no levels are given."));
        }
    }
    let mut courses = cut.courses.iter();
    if courses.any(|course| course.layer.role.value == Role::Mesh) {
        drawn.note(
            "How high the mesh lies is not stated; it is drawn in the middle of its slab."
                .to_owned(),
        );
    }
    if cut
        .courses
        .iter()
        .any(|course| course.thickness_m.is_none())
    {
        let names = named(&|_| true);
        drawn.note(format!(
            "{names}: where a thickness is not known, what lies under it is not drawn."
        ));
    }
}

fn headings(drawn: &mut Sketch, cut: &Cut<'_>, left: f64, y: f64) {
    let [left_end, right_end] = cut.ends.map(End::column);
    let left_end = if cut.is_level() { "" } else { left_end };
    let words = ["thick", left_end, right_end];
    let first = lettering::set("Layer, from the top", NOTE, Face::Regular);
    drawn.write(None, Point::new(left, y), first, Ink::Black);
    let mut before = NAME;
    for (words, right) in words.into_iter().zip(COLUMNS) {
        // Two lines where one would reach into the column before.
        let lines = lettering::broken(words, NOTE, Face::Regular, right - before - 1.5);
        let lines: Vec<Setting> = lines.into_iter().rev().collect();
        for (number, line) in lines.into_iter().enumerate() {
            let up = 2.8 * number as f64;
            let at = Point::new(left + right - line.width, y + up);
            drawn.write(None, at, line, Ink::Black);
        }
        before = right;
    }
    let rule = Path::line(Point::new(left, y - 1.6), Point::new(left + WIDTH, y - 1.6));
    drawn.draw(
        Layer::Sheet,
        None,
        Mark::Stroke(vec![rule], Pen::of(Weight::Mid)),
    );
}

/// What a layer is for, and what it is made of.
pub(crate) fn name(course: &Course<'_>, region: Region) -> String {
    let layer = course.layer;
    let role = layer.role.value;
    let called = called_briefly(&layer.of.value, region);
    let of = match lettering::set(&called, LABEL, Face::Regular).width > CALLED {
        true => layer.of.value.name().replace('-', " "),
        false => called,
    };
    let existing = if layer.existing.is_some() {
        ", existing"
    } else {
        ""
    };
    let mut letters = role.word().chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    let role: String = first.chain(letters).collect();
    format!("{role}: {of}{existing}")
}

fn cells(drawn: &Sketch, cut: &Cut<'_>, course: &Course<'_>) -> [String; 3] {
    let unknown = || "–".to_owned();
    let system = drawn.system;
    let is_sheet = course.layer.role.value.is_sheet();
    let thickness = match (is_sheet, course.thickness_m) {
        (true, _) => "sheet".to_owned(),
        (false, Some(metres)) => measure::thickness(metres, system),
        (false, None) => unknown(),
    };
    let is_at_a_height = course.layer.role.value != Role::Mesh;
    let top = |finished: Option<f64>| {
        let level = finished.zip(course.top_m).filter(|_| is_at_a_height);
        level.map_or_else(unknown, |(finished, depth)| {
            measure::level(finished - depth, system)
        })
    };
    let [left, right] = cut.levels_m.map(top);
    let left = if cut.is_level() { String::new() } else { left };
    [thickness, left, right]
}
