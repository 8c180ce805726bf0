//! Small pictures for the cards that hang on a site: the buckets of a batch,
//! and what is crossed off as it is done.

use super::beside::{sheet_item, text};
use super::display_list::{Drawing, Ink, Mark, Path, Pen, Weight};
use super::filling::{self, Filling};
use super::font::Face;
use super::lettering::{self, LABEL};
use crate::geometry::{Point, Vector};

/// The width of a page's words.
const WIDE: f64 = 170.0;
/// A bucket: its width on top and at its foot, its height, and how high its
/// mark stands.
const TOP: f64 = 9.0;
const FOOT: f64 = 6.4;
const HIGH: f64 = 9.6;
const MARK: f64 = 8.0;
/// From one bucket to the next, and from those of one thing to those of the
/// next.
const NEXT: f64 = 11.0;
const APART: f64 = 8.0;
/// More fills of one thing than this are one bucket and their number.
const MOST: u32 = 8;
/// The height of a row of buckets with its words.
const ROW: f64 = HIGH + 8.0;

/// The fills of a batch: so many of each thing, the first one black.
pub fn buckets(fills: &[(u32, String)]) -> Drawing {
    let mut marks: Vec<Mark> = Vec::new();
    let (mut x, mut y) = (0.0, 0.0);
    for (index, (count, name)) in fills.iter().enumerate() {
        let fill = if *count == 1 { "fill" } else { "fills" };
        let figure = lettering::set(&format!("{count} {fill}"), LABEL, Face::Medium);
        let name = lettering::fitted(name, LABEL, Face::Regular, WIDE - 30.0);
        let drawn = if *count > MOST { 1 } else { *count };
        let words = figure.width + 1.4 + name.width;
        let wide = words.max(NEXT * f64::from(drawn));
        if x > 0.0 && x + wide > WIDE {
            (x, y) = (0.0, y - ROW);
        }
        let foot = y - HIGH;
        for number in 0..drawn {
            let left = x + NEXT * f64::from(number) + 1.0;
            marks.extend(bucket(Point::new(left, foot), index));
        }
        let base = foot - 2.6 - LABEL;
        let after = Point::new(x + figure.width + 1.4, base);
        marks.push(text(Point::new(x, base), figure, Ink::Black));
        marks.push(text(after, name, Ink::Black));
        x += wide + APART;
    }
    drawn(marks, (WIDE, ROW - y))
}

/// One bucket, its lower left corner under its rim here: filled to its mark.
fn bucket(corner: Point, index: usize) -> Vec<Mark> {
    let at = |x: f64, y: f64| corner + Vector::new(x, y);
    // How far its side stands in at a height.
    let inset = |y: f64| (1.0 - y / HIGH) * (TOP - FOOT) / 2.0;
    let up_to = |y: f64| {
        [
            at(inset(0.0), 0.0),
            at(TOP - inset(0.0), 0.0),
            at(TOP - inset(y), y),
            at(inset(y), y),
        ]
    };
    let full = up_to(MARK);
    let mut marks = match index {
        0 => vec![Mark::Fill(vec![Path::polygon(&full)], Ink::Black)],
        1 => filling::marks(Filling::Bedding, 1, Point::ORIGIN, &full),
        _ => filling::marks(Filling::Gravel, 1, Point::ORIGIN, &full),
    };
    let [a, b, c, d] = up_to(HIGH);
    let mark = Path::line(
        at(inset(MARK) - 0.8, MARK),
        at(TOP - inset(MARK) + 0.8, MARK),
    );
    marks.push(Mark::Stroke(
        vec![Path::through(&[d, a, b, c])],
        Pen::of(Weight::Mid),
    ));
    marks.push(Mark::Stroke(vec![mark], Pen::of(Weight::Heavy)));
    marks
}

/// A circle with its number for each of so many.
pub fn crosses(count: u32) -> Drawing {
    const ACROSS: f64 = 10.4;
    const STEP: f64 = 12.4;
    let in_row = (WIDE / STEP).floor().max(1.0) as u32;
    let rows = count.div_ceil(in_row).max(1);
    let mut marks = Vec::new();
    for number in 0..count {
        let (row, column) = (number / in_row, number % in_row);
        let middle = Point::new(
            STEP * f64::from(column) + ACROSS / 2.0 + 0.2,
            -STEP * f64::from(row) - ACROSS / 2.0 - 0.2,
        );
        let ring = vec![Path::circle(middle, ACROSS / 2.0)];
        marks.push(Mark::Stroke(ring, Pen::of(Weight::Mid)));
        let figure = lettering::set(&(number + 1).to_string(), LABEL, Face::Regular);
        let off = Vector::new(-figure.width / 2.0, -LABEL / 2.0);
        marks.push(text(middle + off, figure, Ink::Black));
    }
    drawn(marks, (WIDE, STEP * f64::from(rows)))
}

/// Marks under a line at the height 0, as a drawing of this size.
pub(super) fn drawn(marks: Vec<Mark>, (width, height): (f64, f64)) -> Drawing {
    let up = Vector::new(0.0, height);
    let marks = marks.iter().map(|mark| super::beside::moved(mark, up));
    Drawing {
        title: "Card".to_owned(),
        size: (width, height),
        scale: 1.0,
        origin: Point::ORIGIN,
        is_imperial: false,
        items: marks.map(|mark| sheet_item(None, mark)).collect(),
        insets: Vec::new(),
        notes: Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_drawn_lies_on_its_card() {
        let many = |count: u32| {
            let names = [
                "portland cement",
                "sharp sand",
                "a ballast of every size there is",
            ];
            names.map(|name| (count, name.to_owned())).to_vec()
        };
        for card in [
            buckets(&many(1)),
            buckets(&many(4)),
            buckets(&many(6)),
            buckets(&many(40)),
            buckets(&[]),
            crosses(0),
            crosses(1),
            crosses(14),
            crosses(60),
        ] {
            let (width, height) = card.size;
            for item in &card.items {
                let points: Vec<Point> = match &item.mark {
                    Mark::Text(text) => text.extents().corners().to_vec(),
                    Mark::Stroke(paths, _) | Mark::Fill(paths, _) => {
                        let edges = paths.iter().flat_map(|path| &path.edges);
                        edges
                            .flat_map(|edge| [edge.start, edge.midpoint()])
                            .collect()
                    }
                };
                for at in points {
                    assert!(at.x >= -0.1 && at.x <= width + 0.1, "{at:?} of {width}");
                    assert!(at.y >= -0.1 && at.y <= height + 0.1, "{at:?} of {height}");
                }
            }
        }
        let numbers = crosses(14).items.len();
        assert_eq!(numbers, 28, "a ring and a number each");
    }
}
