//! Where labels go: each has its places in the order of liking. The first
//! that is free is taken; else it stands off, on a leader; else a numbered
//! ring stands for it and its words go into the key beside the plan. No box
//! ever lies on another.

use std::f64::consts::TAU;

use super::cells::Cells;
use super::display_list::{Extents, Ink, Item, Layer, Mark, Path, Pen, Text, Weight};
use super::font::Face;
use super::lettering::{self, Setting};
use crate::findings::Place;
use crate::geometry::{Outline, Point, Vector};

/// The white round a label, in millimetres.
const CLEAR: f64 = 0.6;
/// From one base line to the next, over the height of the capitals.
const LINE_GAP: f64 = 1.1;
/// The radius of a numbered ring.
const RING: f64 = 1.9;
/// The lengths of leaders that are tried.
const LEADERS: [f64; 7] = [5.0, 7.5, 10.5, 14.0, 18.0, 22.0, 26.0];
/// And of those of rings that found no place by them: a ring stands somewhere.
const FAR: [f64; 7] = [31.0, 37.0, 44.0, 52.0, 61.0, 71.0, 82.0];
/// So many other places of a ring are tried.
const OTHERS: usize = 60;
/// The directions that are tried.
const DIRECTIONS: u32 = 16;

/// Something to be said at a place.
#[derive(Debug, Clone)]
pub(crate) struct Label {
    /// Its lines, from the top.
    pub lines: Vec<Setting>,
    /// What it is drawn in.
    pub ink: Ink,
    /// What it belongs to.
    pub layer: Layer,
    /// The entry that it comes from.
    pub link: Option<Place>,
    /// What it is about: leaders and rings end here.
    pub anchor: Point,
    /// Other places that it is about: a ring may stand in one of them.
    pub others: Vec<Point>,
    /// The middles of the places to try, the best first.
    pub places: Vec<Point>,
    /// How far it is turned against the clock, in radians.
    pub angle: f64,
    /// Lines that no label may cross unless it stands on a leader; a
    /// dimension crosses its own.
    pub minds_lines: bool,
    /// What stands for it where it has no room.
    pub instead: Instead,
}

/// What stands for a label that has no room on the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Instead {
    /// A ring with the next number, its words in the key.
    Number,
    /// A ring with this letter, by which other sheets know it too, its words in
    /// the key.
    Letter(String),
    /// Nothing on the plan: what it says is listed beside it.
    List,
}

/// The ways in which a label may stand to what it is about, as shares of their
/// sizes to the right and upward: in the corners first, or beside it first.
pub(crate) const CORNERS_FIRST: [(f64, f64); 8] = [
    (1.0, 1.0),
    (-1.0, 1.0),
    (1.0, -1.0),
    (-1.0, -1.0),
    (1.0, 0.0),
    (-1.0, 0.0),
    (0.0, 1.0),
    (0.0, -1.0),
];
pub(crate) const SIDES_FIRST: [(f64, f64); 8] = [
    (0.0, 1.0),
    (0.0, -1.0),
    (1.0, 0.0),
    (-1.0, 0.0),
    (1.0, 1.0),
    (-1.0, 1.0),
    (1.0, -1.0),
    (-1.0, -1.0),
];

impl Label {
    /// A name about a point, with no place yet.
    pub(crate) fn of(lines: Vec<Setting>, anchor: Point, link: Option<Place>) -> Label {
        Label {
            lines,
            ink: Ink::Black,
            layer: Layer::Names,
            link,
            anchor,
            others: Vec::new(),
            places: Vec::new(),
            angle: 0.0,
            minds_lines: true,
            instead: Instead::Number,
        }
    }

    /// The same with places so far off what it is about, each of these ways.
    pub(crate) fn around(mut self, off: f64, ways: &[(f64, f64)]) -> Label {
        let half = room(&self);
        let (wide, high) = (half.0 + off, half.1 + off);
        let at = self.anchor;
        let places = ways
            .iter()
            .map(|(x, y)| at + Vector::new(x * wide, y * high));
        self.places.extend(places);
        self
    }
}

/// A label that stands in the key.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Keyed {
    /// What stands in its ring: a number, or the letter by which other sheets
    /// know it too; a number is for what has a ring alone.
    pub mark: Option<String>,
    /// Whether its ring found a place on the plan.
    pub is_on_plan: bool,
    /// Its words.
    pub words: Vec<Setting>,
    /// The entry that it comes from.
    pub link: Option<Place>,
}

impl Keyed {
    fn said(&self) -> String {
        let words: Vec<String> = self.words.iter().map(Setting::words).collect();
        words.join(", ")
    }
}

/// The key in sentences: each of a ring by its mark, what has none in one.
pub(crate) fn sentences(keyed: &[Keyed]) -> Vec<String> {
    let on_plan = keyed.iter().filter(|own| own.is_on_plan);
    let marked = on_plan.filter_map(|own| Some(format!("{}: {}.", own.mark.as_ref()?, own.said())));
    let mut all: Vec<String> = marked.collect();
    let others = keyed.iter().filter(|own| !own.is_on_plan).map(Keyed::said);
    let others = others.collect::<Vec<_>>().join("; ");
    if !others.is_empty() {
        all.push(format!("Without room on the plan: {others}."));
    }
    all
}

/// The plan's part of the sheet, with what already stands on it.
#[derive(Debug, Clone)]
pub(crate) struct Board {
    area: Extents,
    /// Whether what lies off it is told elsewhere.
    is_a_part: bool,
    taken: Cells<Extents>,
    lines: Cells<(Point, Point)>,
    /// What is drawn of the labels.
    pub items: Vec<Item>,
    /// What stands in the key instead.
    pub keyed: Vec<Keyed>,
    /// What found no place and is listed beside the plan, in order.
    pub listed: Vec<String>,
}

impl Board {
    /// An empty one.
    pub(crate) fn new(area: Extents) -> Board {
        Board {
            area,
            is_a_part: false,
            taken: Cells::over(&area),
            lines: Cells::over(&area),
            items: Vec::new(),
            keyed: Vec::new(),
            listed: Vec::new(),
        }
    }

    /// From now on leaves out labels of what lies off it: another sheet tells
    /// of that.
    pub(crate) fn is_a_part(&mut self) {
        self.is_a_part = true;
    }

    /// Takes the place of a mark: no label will lie on it.
    pub(crate) fn take(&mut self, extents: Extents) {
        self.taken.add(extents, extents.bounds());
    }

    /// Takes the place of a line.
    pub(crate) fn take_line(&mut self, from: Point, to: Point) {
        self.lines.add((from, to), between(from, to));
    }

    /// Takes the place of the sides of an outline.
    pub(crate) fn take_outline(&mut self, outline: &Outline) {
        for edge in outline.edges() {
            let parts = if edge.is_arc() { 12 } else { 1 };
            let step = edge.length() / f64::from(parts);
            for part in 0..parts {
                let from = edge.point_at(f64::from(part) * step);
                let to = edge.point_at(f64::from(part + 1) * step);
                self.take_line(from, to);
            }
        }
    }

    /// Whether a rectangle lies on the plan's part of the sheet.
    pub(crate) fn holds(&self, extents: &Extents) -> bool {
        self.area.holds(extents)
    }

    /// Whether nothing stands at a point: a leader may end there.
    pub(crate) fn is_bare(&self, at: Point) -> bool {
        let mut near = self.taken.near((at, at));
        !near.any(|taken| is_in(taken, at))
    }

    /// Whether a rectangle may be taken.
    pub(crate) fn is_free(&self, extents: &Extents, minds_lines: bool) -> bool {
        let bounds = extents.bounds();
        let is_met = || (self.taken.near(bounds)).any(|taken| taken.overlaps(extents));
        let is_crossed = || {
            let mut near = self.lines.near(bounds);
            near.any(|(from, to)| extents.is_crossed(*from, *to))
        };
        self.area.holds(extents) && !is_met() && !(minds_lines && is_crossed())
    }

    /// Puts a label somewhere.
    pub(crate) fn place(&mut self, label: &Label) {
        let anchor = Extents::about(label.anchor, 0.0, 0.0);
        if self.is_a_part && !self.area.holds(&anchor) {
            return;
        }
        let room = room(label);
        let tried = label.places.iter().map(|centre| Extents {
            centre: *centre,
            half: room,
            angle: label.angle,
        });
        let found = tried
            .into_iter()
            .find(|extents| self.is_free(extents, label.minds_lines));
        match found {
            Some(extents) => self.draw(label, extents),
            None if self.on_leader(label, room) => {}
            None => match &label.instead {
                Instead::List => self.listed.extend(label.lines.iter().map(Setting::words)),
                Instead::Number | Instead::Letter(_) => self.in_key(label),
            },
        }
    }

    /// Places round an anchor, the nearest first: which way and how far.
    fn around(lengths: [f64; 7]) -> impl Iterator<Item = (Vector, f64)> {
        lengths.into_iter().flat_map(|far| {
            (0..DIRECTIONS).map(move |step| {
                // To the right and upward first, where the eye looks.
                let turn = TAU * (f64::from(step) + 0.5) / f64::from(DIRECTIONS);
                (Vector::new(1.0, 0.0).turned(turn), far)
            })
        })
    }

    fn on_leader(&mut self, label: &Label, room: (f64, f64)) -> bool {
        let found = Board::around(LEADERS).find_map(|(way, far)| {
            let end = label.anchor + way * far;
            // The text hangs on the leader by the side that faces it.
            let side = if way.x >= 0.0 { 1.0 } else { -1.0 };
            let upright = Extents::about(end + Vector::new(side * room.0, 0.0), room.0, room.1);
            (self.is_free(&upright, true) && self.is_clear(label.anchor, end))
                .then_some((upright, end))
        });
        let Some((extents, end)) = found else {
            return false;
        };
        self.leader(label, end);
        let upright = Label {
            angle: 0.0,
            ..label.clone()
        };
        self.draw(&upright, extents);
        true
    }

    /// Whether a leader may run here: over lines, never over text or marks
    /// but the one it starts in.
    fn is_clear(&self, anchor: Point, end: Point) -> bool {
        let mut near = self.taken.near(between(anchor, end));
        !near.any(|taken| !is_in(taken, anchor) && taken.is_crossed(anchor, end))
    }

    fn leader(&mut self, label: &Label, end: Point) {
        let pen = Pen::of(Weight::Fine).in_ink(label.ink);
        let line = Mark::Stroke(vec![Path::line(label.anchor, end)], pen);
        let dot = Mark::Fill(vec![Path::circle(label.anchor, 0.35)], label.ink);
        self.items.extend([item(label, line), item(label, dot)]);
        self.take_line(label.anchor, end);
        // A thin rectangle along it keeps other text off.
        let way = end - label.anchor;
        self.take(Extents {
            centre: label.anchor.midpoint(end),
            half: (way.length() / 2.0, 0.15),
            angle: way.y.atan2(way.x),
        });
    }

    fn in_key(&mut self, label: &Label) {
        let half = (RING + 0.3, RING + 0.3);
        let ring = |centre| Extents {
            centre,
            half,
            angle: 0.0,
        };
        let about = |lengths| {
            let around = Board::around(lengths);
            around.map(|(way, far)| (label.anchor, label.anchor + way * far))
        };
        let others = label.others.iter().take(OTHERS).map(|at| (*at, *at));
        let tried = std::iter::once((label.anchor, label.anchor)).chain(about(LEADERS));
        let mut tried = tried.chain(others).chain(about(FAR));
        let found = tried.find(|(anchor, centre)| {
            self.is_free(&ring(*centre), false) && self.is_clear(*anchor, *centre)
        });
        let mark = self.key(label, found.is_some());
        let (Some((_, centre)), Some(mark)) = (found, mark) else {
            return;
        };
        let way = (label.anchor - centre).unit();
        let is_led = found.is_some_and(|(anchor, _)| anchor == label.anchor);
        if is_led && centre.distance(label.anchor) > RING + 0.5 {
            self.leader(label, centre + way * RING);
        }
        let circle = vec![Path::circle(centre, RING)];
        let paper = Mark::Fill(circle.clone(), Ink::Paper);
        let line = Mark::Stroke(circle, Pen::of(Weight::Fine).in_ink(label.ink));
        let setting = lettering::set(&mark, lettering::NOTE, Face::Medium);
        let text = Mark::Text(Text {
            at: centre + Vector::new(-setting.width / 2.0, -lettering::NOTE / 2.0),
            angle: 0.0,
            setting,
            ink: label.ink,
        });
        self.items
            .extend([paper, line, text].map(|mark| item(label, mark)));
        self.take(ring(centre));
    }

    /// Writes a label into the key, the same words as one line of it, and gives
    /// what its ring holds.
    fn key(&mut self, label: &Label, has_ring: bool) -> Option<String> {
        let mark = match &label.instead {
            Instead::Letter(letter) => Some(letter.clone()),
            Instead::Number | Instead::List => has_ring.then(|| self.next_number()),
        };
        let mut keyed = self.keyed.iter_mut();
        match keyed.find(|keyed| keyed.words == label.lines) {
            Some(keyed) => {
                keyed.mark = keyed.mark.take().or(mark);
                keyed.is_on_plan |= has_ring;
                keyed.mark.clone()
            }
            None => {
                self.keyed.push(Keyed {
                    mark: mark.clone(),
                    is_on_plan: has_ring,
                    words: label.lines.clone(),
                    link: label.link,
                });
                mark
            }
        }
    }

    /// The number of the next ring.
    fn next_number(&self) -> String {
        let marks = self.keyed.iter().filter_map(|own| own.mark.as_ref());
        let numbered = marks.filter(|mark| mark.parse::<usize>().is_ok());
        (numbered.count() + 1).to_string()
    }

    fn draw(&mut self, label: &Label, extents: Extents) {
        self.take(extents);
        let paper = Path::polygon(&extents.corners());
        self.items
            .push(item(label, Mark::Fill(vec![paper], Ink::Paper)));
        for text in texts(label, extents) {
            self.items.push(item(label, Mark::Text(text)));
        }
    }
}

fn item(label: &Label, mark: Mark) -> Item {
    Item {
        layer: label.layer,
        link: label.link,
        within: None,
        mark,
    }
}

/// The corners of the upright rectangle in which a line lies.
fn between(from: Point, to: Point) -> (Point, Point) {
    (
        Point::new(from.x.min(to.x), from.y.min(to.y)),
        Point::new(from.x.max(to.x), from.y.max(to.y)),
    )
}

fn is_in(extents: &Extents, point: Point) -> bool {
    extents.holds(&Extents::about(point, 0.0, 0.0))
}

/// Half the width and half the height that a label takes.
pub(crate) fn room(label: &Label) -> (f64, f64) {
    let wide = label
        .lines
        .iter()
        .map(|line| line.width)
        .fold(0.0, f64::max);
    (wide / 2.0 + CLEAR, height(&label.lines) / 2.0 + CLEAR)
}

fn height(lines: &[Setting]) -> f64 {
    let gaps = LINE_GAP * lines.len().saturating_sub(1) as f64;
    lines
        .iter()
        .map(|line| line.above + line.below * 0.6)
        .sum::<f64>()
        + gaps
}

/// The lines of a label, centred in its rectangle.
fn texts(label: &Label, extents: Extents) -> Vec<Text> {
    let along = Vector::new(1.0, 0.0).turned(extents.angle);
    let mut top = height(&label.lines) / 2.0;
    let mut texts = Vec::new();
    for line in &label.lines {
        let base = top - line.above;
        texts.push(Text {
            at: extents.centre + along * (-line.width / 2.0) + along.left() * base,
            angle: extents.angle,
            setting: line.clone(),
            ink: label.ink,
        });
        top = base - line.below * 0.6 - LINE_GAP;
    }
    texts
}

#[cfg(test)]
mod tests {
    use super::*;

    fn label(text: &str) -> Label {
        let lines = vec![lettering::set(text, lettering::LABEL, Face::Medium)];
        let at = Point::new(50.0, 50.0);
        Label {
            places: vec![at],
            ..Label::of(lines, at, None)
        }
    }

    fn words(board: &Board) -> Vec<String> {
        let texts = board.items.iter().filter_map(|item| match &item.mark {
            Mark::Text(text) => Some(text.setting.words()),
            _ => None,
        });
        texts.collect()
    }

    #[test]
    fn labels_take_a_place_then_a_leader_then_a_number() {
        let mut board = Board::new(Extents::about(Point::new(50.0, 50.0), 40.0, 20.0));
        for number in 0..60 {
            board.place(&label(&format!("label {number}")));
        }
        let boxes: Vec<Extents> = board
            .items
            .iter()
            .filter_map(|item| match &item.mark {
                Mark::Text(text) => Some(text.extents()),
                _ => None,
            })
            .collect();
        for (at, one) in boxes.iter().enumerate() {
            let other = boxes.iter().skip(at + 1).find(|other| one.overlaps(other));
            assert_eq!(other, None);
        }
        let words = words(&board);
        assert_eq!(words.first().map(String::as_str), Some("label 0"));
        assert!(!board.keyed.is_empty());
        let reported = words
            .iter()
            .filter(|word| word.starts_with("label"))
            .count();
        assert_eq!(reported + board.keyed.len(), 60);
        // No leader takes words as wide as the plan; a ring has room.
        let mut board = Board::new(Extents::about(Point::new(50.0, 50.0), 30.0, 20.0));
        board.place(&label(&"wide ".repeat(20)));
        assert!(board.keyed.iter().any(|keyed| keyed.is_on_plan));
    }

    #[test]
    fn what_has_no_room_is_known_by_its_own_letter_or_listed() {
        let none = Extents::about(Point::new(50.0, 50.0), 8.0, 4.0);
        for (instead, mark, listed) in [
            (Instead::Number, Some("1"), 0),
            (Instead::Letter("c".to_owned()), Some("c"), 0),
            (Instead::List, None, 1),
        ] {
            let mut board = Board::new(none);
            board.place(&Label {
                instead,
                ..label("too wide for this place")
            });
            let marks = board.keyed.iter().filter_map(|own| own.mark.as_deref());
            assert_eq!(marks.collect::<Vec<_>>(), mark.as_slice());
            assert_eq!(board.listed.len(), listed);
        }
        // A number counts no letter, and a ring without a place has none.
        let mut board = Board::new(none);
        for (words, instead) in [
            ("the first, too wide", Instead::Letter("a".to_owned())),
            ("the next, too wide", Instead::Number),
            ("the last, too wide", Instead::Number),
        ] {
            board.place(&Label {
                instead,
                ..label(words)
            });
        }
        let marks: Vec<Option<&str>> = board.keyed.iter().map(|own| own.mark.as_deref()).collect();
        assert_eq!(marks.len(), 3);
        assert!(marks.starts_with(&[Some("a"), Some("1")]), "{marks:?}");
    }

    #[test]
    fn the_same_words_are_one_line_of_the_key() {
        let mut board = Board::new(Extents::about(Point::new(50.0, 50.0), 4.0, 4.0));
        board.place(&label("too wide for this"));
        board.place(&label("too wide for this"));
        assert_eq!(board.keyed.len(), 1);
    }
}
