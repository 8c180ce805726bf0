//! The scale bar and the needle of north.

use super::beside::{sheet_item, text};
use super::display_list::{Extents, Ink, Item, Mark, Path, Pen, Weight};
use super::font::Face;
use super::lettering::{self, LABEL, NOTE};
use super::scale::Scale;
use super::sheet::Panel;
use crate::geometry::{Point, Vector};
use crate::units::System;

/// The blocks of a scale bar: how many, and how high.
const BLOCKS: u32 = 5;
const HIGH: f64 = 1.2;
/// The longest that it gets.
const LONGEST: f64 = 110.0;
/// A foot and a metre in millimetres.
const FOOT: f64 = 304.8;
const METRE: f64 = 1000.0;

/// The scale bar in the strip under a plan: blocks of a round length, the
/// first parted.
pub(crate) fn scale_bar(panel: &Panel, scale: &Scale, system: System) -> Vec<Item> {
    let (unit, word) = match system {
        System::Metric => (METRE, "m"),
        System::Imperial => (FOOT, "ft"),
    };
    let words = lettering::set(&scale.set(), LABEL, Face::Medium);
    let left = panel.low.x + 6.0 + words.width + 5.0;
    let room = (panel.high.x - left - 16.0).min(LONGEST);
    let fits = |length: &f64| length * unit / scale.ratio * f64::from(BLOCKS) <= room;
    let Some(block) = rounds().into_iter().rev().find(fits) else {
        return Vec::new();
    };
    let step = block * unit / scale.ratio;
    let base = panel.low.y + 3.6;
    let at = |share: f64, up: f64| Point::new(left + share * step, base + up);
    let mut filled = Vec::new();
    let first_parts = 5;
    for part in (0..first_parts).step_by(2) {
        let share = |part: u32| f64::from(part) / f64::from(first_parts);
        filled.push(Path::rectangle(
            at(share(part), 0.0),
            at(share(part + 1), HIGH),
        ));
    }
    for number in (1..BLOCKS).filter(|number| number % 2 == 1) {
        // The first block ends black, so the others change about from there.
        filled.push(Path::rectangle(
            at(f64::from(number) + 1.0, 0.0),
            at((f64::from(number) + 2.0).min(f64::from(BLOCKS)), HIGH),
        ));
    }
    filled.retain(|path| {
        path.edges
            .iter()
            .any(|edge| edge.chord().length() > HIGH + 1e-9)
    });
    let outline = Path::rectangle(at(0.0, 0.0), at(f64::from(BLOCKS), HIGH));
    let mut marks = vec![
        Mark::Fill(filled, Ink::Black),
        Mark::Stroke(vec![outline], Pen::of(Weight::Fine)),
    ];
    let title = Point::new(panel.low.x + 6.0, base - 0.6);
    marks.push(text(title, words, Ink::Black));
    for number in 0..=BLOCKS {
        let value = block * f64::from(number);
        let figure = lettering::set(&crate::units::show::number(value), NOTE, Face::Regular);
        let middle = at(f64::from(number), HIGH + 1.4);
        let place = middle + Vector::new(-figure.width / 2.0, 0.0);
        marks.push(text(place, figure, Ink::Black));
    }
    let end = at(f64::from(BLOCKS), HIGH + 1.4) + Vector::new(5.0, 0.0);
    let unit = lettering::set(word, NOTE, Face::Regular);
    marks.push(text(end, unit, Ink::Black));
    marks
        .into_iter()
        .map(|mark| sheet_item(None, mark))
        .collect()
}

/// Round lengths: 0.1, 0.2, 0.5, 1, 2, 5, …
fn rounds() -> Vec<f64> {
    let powers = (-1..=6).flat_map(|power| [1.0, 2.0, 5.0].map(|lead| lead * 10_f64.powi(power)));
    powers.collect()
}

/// How long the needle is.
const NEEDLE: f64 = 14.0;

/// What the needle of north takes, about its middle.
pub(crate) fn needle_room(middle: Point) -> Extents {
    Extents::about(middle, NEEDLE / 2.0 + 5.0, NEEDLE / 2.0 + 5.0)
}

/// The needle of north: the way it points on the plan.
pub(crate) fn needle(middle: Point, north: Vector) -> Vec<Mark> {
    let (tip, tail) = (
        middle + north * (NEEDLE / 2.0),
        middle + north * (-NEEDLE / 2.0),
    );
    let neck = tip + north * -5.0;
    let half = north.left() * 1.4;
    let letter = lettering::set("N", LABEL, Face::Medium);
    let over = tip + north * 2.6 + Vector::new(-letter.width / 2.0, -LABEL / 2.0);
    let cross = north.left() * 2.0;
    vec![
        Mark::Stroke(
            vec![
                Path::line(tail, tip),
                Path::line(middle + -cross, middle + cross),
                Path::polygon(&[tip, neck + half, neck]),
            ],
            Pen::of(Weight::Mid),
        ),
        Mark::Fill(vec![Path::polygon(&[tip, neck, neck + -half])], Ink::Black),
        text(over, letter, Ink::Black),
    ]
}
