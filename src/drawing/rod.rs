//! The picture of a site card: the rod with its marks below the string, and
//! what is marked under a level board.

use super::beside::text;
use super::cards::drawn;
use super::display_list::{Drawing, Ink, Mark, Path, Pen, Weight};
use super::font::Face;
use super::lettering::{self, LABEL, NOTE};
use crate::geometry::{Point, Vector};

/// The width of a page's words.
const WIDE: f64 = 170.0;
/// The rod: its left side, its width, and the room of the names before it.
const ROD: f64 = 44.0;
const THICK: f64 = 7.0;
/// How far the words stand from the rod, and from one line of them to the next.
const OFF: f64 = 6.0;
const STEP: f64 = 5.8;
/// The least height of the rod.
const LEAST: f64 = 34.0;
/// Where the board begins, how long it is drawn, and how far the finish drops
/// under it.
const BOARD: f64 = 84.0;
const LONG: f64 = 62.0;
const DROP: f64 = 9.0;
/// Where the mark of a row begins.
const MARKED: f64 = 128.0;

/// A mark of the rod.
#[derive(Debug, Clone, PartialEq)]
pub struct RodMark {
    /// What lies there.
    pub name: String,
    /// How far below the string, in words.
    pub figure: String,
    /// The same in metres; `None` where that is not known.
    pub below_m: Option<f64>,
}

/// What is marked under a level board.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct UnderBoard {
    /// How long the board is, in words.
    pub board: String,
    /// Along what it lies, and how far the finish is down at its end, in words;
    /// what falls first, if anything does.
    pub rows: Vec<(String, String)>,
    /// Whether the first of them falls.
    pub falls: bool,
}

/// The rod, its marks from the string down, and beside it the board.
pub fn rod_and_board(rod: &[RodMark], under: &UnderBoard) -> Drawing {
    let (mut marks, deep) = rod_marks(rod);
    let (board, low) = board_marks(under);
    marks.extend(board);
    drawn(marks, (WIDE, deep.max(low)))
}

/// The rod to scale, and how deep it and its words go.
fn rod_marks(rod: &[RodMark]) -> (Vec<Mark>, f64) {
    let head = NOTE + 3.0;
    let known = rod.iter().filter_map(|own| own.below_m);
    let deepest = known.fold(1e-3, f64::max);
    let high = LEAST.max(STEP * rod.len().saturating_sub(1) as f64);
    let mut marks = vec![note("Rod, below the string", Point::new(0.0, -NOTE))];
    let mut words = f64::INFINITY;
    let mut ticks = Vec::new();
    let mut leaders = Vec::new();
    for own in rod {
        let tick = own.below_m.map(|below| -head - below / deepest * high);
        // Words that have no room beside their mark stand lower.
        let y = tick.unwrap_or(words - STEP).min(words - STEP);
        let y = if y.is_finite() { y } else { -head };
        words = y;
        let base = y - LABEL / 2.0;
        let room = ROD - OFF - 1.0;
        let name = lettering::fitted(&own.name, LABEL, Face::Regular, room);
        let at = Point::new(ROD - OFF - name.width, base);
        marks.push(text(at, name, Ink::Black));
        let figure = lettering::set(&own.figure, LABEL, Face::Medium);
        let at = Point::new(ROD + THICK + OFF, base);
        marks.push(text(at, figure, Ink::Black));
        let Some(tick) = tick else {
            continue;
        };
        let (left, right) = (ROD, ROD + THICK);
        ticks.push(Path::line(Point::new(left, tick), Point::new(right, tick)));
        for (side, out) in [(left, -1.0), (right, 1.0)] {
            let at = |far: f64, y: f64| Point::new(side + out * far, y);
            leaders.push(Path::through(&[
                at(0.0, tick),
                at(1.0, tick),
                at(OFF - 1.6, y),
                at(OFF - 0.8, y),
            ]));
        }
    }
    let foot = Point::new(ROD, -head - high);
    let outline = Path::rectangle(foot, Point::new(ROD + THICK, -head));
    marks.push(Mark::Stroke(vec![outline], Pen::of(Weight::Mid)));
    marks.push(Mark::Stroke(ticks, Pen::of(Weight::Heavy)));
    marks.push(Mark::Stroke(leaders, Pen::of(Weight::Fine)));
    let lowest = words.min(foot.y);
    (marks, -lowest + LABEL)
}

/// The board over what falls, and what is marked along each edge; and how deep
/// that goes.
fn board_marks(under: &UnderBoard) -> (Vec<Mark>, f64) {
    let title = format!("Under a level board of {}", under.board);
    let mut marks = vec![note(&title, Point::new(BOARD, -NOTE))];
    let mut y = -NOTE - 3.0;
    if under.falls {
        marks.extend(falling(Point::new(BOARD, y - 2.6)));
        y -= 2.6 + DROP + 3.0;
    }
    for (along, mark) in &under.rows {
        y -= STEP;
        let room = MARKED - BOARD - 3.0;
        let along = lettering::fitted(along, LABEL, Face::Regular, room);
        marks.push(text(Point::new(BOARD, y), along, Ink::Black));
        let mark = lettering::fitted(mark, LABEL, Face::Medium, WIDE - MARKED);
        marks.push(text(Point::new(MARKED, y), mark, Ink::Black));
    }
    (marks, -y + LABEL)
}

/// A board, its lower left corner here, with the finish falling from it.
fn falling(corner: Point) -> Vec<Mark> {
    let at = |x: f64, y: f64| corner + Vector::new(x, y);
    let board = Path::rectangle(at(0.0, 0.0), at(LONG, 2.4));
    let bubble = Path::rectangle(at(LONG / 2.0 - 3.0, 0.7), at(LONG / 2.0 + 3.0, 1.7));
    let finish = Path::line(at(0.0, 0.0), at(LONG, -DROP));
    let x = LONG - 2.0;
    let fallen = -DROP * x / LONG;
    let down = Path::line(at(x, 0.0), at(x, fallen));
    let head = |tip: f64, back: f64| {
        Path::polygon(&[at(x, tip), at(x - 0.7, tip + back), at(x + 0.7, tip + back)])
    };
    vec![
        Mark::Stroke(vec![finish], Pen::of(Weight::Heavy)),
        Mark::Stroke(vec![board, bubble], Pen::of(Weight::Mid)),
        Mark::Stroke(vec![down], Pen::of(Weight::Fine)),
        Mark::Fill(vec![head(0.0, -2.2), head(fallen, 2.2)], Ink::Black),
    ]
}

fn note(words: &str, at: Point) -> Mark {
    let words = lettering::cut(words, NOTE, Face::Regular, WIDE - at.x);
    text(at, lettering::set(&words, NOTE, Face::Regular), Ink::Grey)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::display_list::Extents;

    fn mark(name: &str, below_m: Option<f64>) -> RodMark {
        RodMark {
            name: name.to_owned(),
            figure: below_m.map_or("–".to_owned(), |below| format!("{:.0} mm", below * 1e3)),
            below_m,
        }
    }

    #[test]
    fn marks_close_together_are_told_apart_and_all_of_it_lies_on_the_card() {
        let close = [0.0, 0.001, 0.002, 0.003, 0.3, 0.301];
        let mut rods = vec![Vec::new(), vec![mark("string", Some(0.0))]];
        rods.push(
            close
                .map(|below| mark("top of a layer with a very long name", Some(below)))
                .to_vec(),
        );
        rods.push(vec![
            mark("string", Some(0.0)),
            mark("finish", None),
            mark("dig", None),
        ]);
        let rows = |count: usize| UnderBoard {
            board: "2.400 m".to_owned(),
            rows: vec![
                (
                    "the steepest way there is of all".to_owned(),
                    "60 mm down, toward south".to_owned()
                );
                count
            ],
            falls: count > 0,
        };
        for (rod, under) in rods.iter().zip([0, 1, 9, 2].map(rows)) {
            let card = rod_and_board(rod, &under);
            let (width, height) = card.size;
            let all = Extents::between(Point::ORIGIN, Point::new(width, height));
            let texts = card.items.iter().filter_map(|item| match &item.mark {
                Mark::Text(own) => Some(own.extents()),
                _ => None,
            });
            let boxes: Vec<Extents> = texts.collect();
            assert_eq!(boxes.len(), 2 * rod.len() + 2 * under.rows.len() + 2);
            for (index, own) in boxes.iter().enumerate() {
                assert!(all.grown(0.5).holds(own), "{own:?} of {height}");
                let others = boxes.iter().skip(index + 1);
                assert!(others.clone().all(|other| !own.overlaps(other)), "{own:?}");
            }
        }
    }
}
