//! Textures that tell kinds of ground and stone apart in black and white, and
//! claim no joint and no stone that is not there.
//!
//! Each is strewn on a grid of the paper and settled by a seed, so that the
//! same surface looks the same whenever it is drawn.

use super::clip;
use super::display_list::{Ink, Mark, Path, Pen, Weight};
use crate::geometry::{Outline, Point, Vector};

/// A kind of ground or stone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Texture {
    /// Irregular stone, about so many millimetres across on the paper: corners
    /// where three stones meet, never closed.
    Stone(f64),
    /// Stones with square corners in courses of all heights, these ways: the
    /// corners where three meet, never closed.
    Ashlar(Vector),
    /// Units too small to be drawn one by one: strokes the way that they lie,
    /// and whether others lie across.
    Units(Vector, bool),
    /// Gravel and the like: dots and open rings.
    Gravel,
    /// Concrete: dots, and a triangle now and then.
    Concrete,
    /// Sand and mortar, cut: fine dots, close together.
    Sand,
    /// Crushed stone, cut: pieces of four or five sides, some filled.
    Crushed,
}

/// A number from 0 to 1 that a seed and two counts settle: splitmix64.
fn chance(seed: u64, column: i64, row: i64, which: u64) -> f64 {
    let mut mixed = seed
        .wrapping_add((column as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15))
        .wrapping_add((row as u64).wrapping_mul(0xc2b2_ae3d_27d4_eb4f))
        .wrapping_add(which.wrapping_mul(0x1656_67b1_9e37_79f9));
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    ((mixed ^ (mixed >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
}

/// A number that a name settles.
pub(crate) fn seed(name: &str) -> u64 {
    name.bytes().fold(0xcbf2_9ce4_8422_2325, |seed, byte| {
        (seed ^ u64::from(byte)).wrapping_mul(0x100_0000_01b3)
    })
}

/// The marks of a texture over an outline on paper, counted from `origin`.
pub(crate) fn marks(texture: Texture, seed: u64, origin: Point, outline: &Outline) -> Vec<Mark> {
    let ground = Ground {
        seed,
        origin,
        outline,
    };
    match texture {
        Texture::Stone(across) => ground.stone(across),
        Texture::Ashlar(along) => ground.ashlar(along),
        Texture::Units(along, is_crosswise) => ground.units(along, is_crosswise),
        Texture::Gravel => ground.gravel(),
        Texture::Concrete => ground.concrete(),
        Texture::Sand => ground.sand(),
        Texture::Crushed => ground.crushed(),
    }
}

struct Ground<'o> {
    seed: u64,
    origin: Point,
    outline: &'o Outline,
}

const FINE: Pen = Pen::of(Weight::Fine);
/// The least and the most that stones of the texture are across.
const STONES: (f64, f64) = (5.8, 18.0);
/// From one corner of ashlar to the next, and from one small unit to the next.
const SQUARE: f64 = 6.0;
const UNIT: f64 = 3.2;

impl Ground<'_> {
    /// The cells of a grid of this step that the outline may touch.
    fn cells(&self, step: f64) -> Vec<(i64, i64)> {
        let (low, high) = self.outline.bounding_box();
        let span = |low: f64, high: f64, from: f64| {
            ((low - from) / step).floor() as i64 - 1..=((high - from) / step).ceil() as i64 + 1
        };
        let columns = span(low.x, high.x, self.origin.x);
        let rows = span(low.y, high.y, self.origin.y);
        columns
            .flat_map(|column| rows.clone().map(move |row| (column, row)))
            .collect()
    }

    fn chance(&self, (column, row): (i64, i64), which: u64) -> f64 {
        chance(self.seed, column, row, which)
    }

    /// A place in a cell.
    fn strewn(&self, cell: (i64, i64), step: f64) -> Point {
        let off = |count: i64, which| (count as f64 + 0.2 + 0.6 * self.chance(cell, which)) * step;
        self.origin + Vector::new(off(cell.0, 0), off(cell.1, 1))
    }

    /// Whether a mark of this radius lies in the outline.
    fn takes(&self, at: Point, radius: f64) -> bool {
        self.outline.contains(at) && self.outline.distance_to_boundary(at) > radius + 0.2
    }

    /// Three arms at a corner, the middle one to any of four sides.
    fn ashlar(&self, along: Vector) -> Vec<Mark> {
        let mut arms = Vec::new();
        for cell in self.turned_cells(SQUARE, along) {
            let at = self.strewn_along(cell, SQUARE, along);
            if !self.outline.contains(at) {
                continue;
            }
            let quarter = (4.0 * self.chance(cell, 2)).floor() * std::f64::consts::FRAC_PI_2;
            for turn in [0.0, 0.5, 1.5] {
                let way = along.turned(quarter + turn * std::f64::consts::PI);
                let long = SQUARE * (0.2 + 0.12 * self.chance(cell, 3 + (2.0 * turn) as u64));
                let pieces = clip::inside(at, at + way * long, self.outline);
                arms.extend(pieces.into_iter().map(|(from, to)| Path::line(from, to)));
            }
        }
        vec![Mark::Stroke(arms, FINE.in_ink(Ink::Grey))]
    }

    fn units(&self, along: Vector, is_crosswise: bool) -> Vec<Mark> {
        let mut strokes = Vec::new();
        for cell in self.turned_cells(UNIT, along) {
            let at = self.strewn_along(cell, UNIT, along);
            let lies_across = is_crosswise && (cell.0 + cell.1).rem_euclid(2) == 1;
            let way = if lies_across { along.left() } else { along };
            let half = way * (0.22 * UNIT);
            if self.takes(at + half, 0.0) && self.takes(at + -half, 0.0) {
                strokes.push(Path::line(at + -half, at + half));
            }
        }
        vec![Mark::Stroke(strokes, FINE.in_ink(Ink::Grey))]
    }

    /// The cells of a grid of this step that the outline may touch, the grid
    /// turned this way about its origin.
    fn turned_cells(&self, step: f64, along: Vector) -> Vec<(i64, i64)> {
        let span = |way: Vector| {
            let (low, high) = self.outline.extremes(way);
            let from = way.dot(self.origin - Point::ORIGIN);
            ((low - from) / step).floor() as i64 - 1..=((high - from) / step).ceil() as i64
        };
        let (columns, rows) = (span(along), span(along.left()));
        columns
            .flat_map(|column| rows.clone().map(move |row| (column, row)))
            .collect()
    }

    /// A place in a cell of a grid that is turned.
    fn strewn_along(&self, cell: (i64, i64), step: f64, along: Vector) -> Point {
        let off = |count: i64, which| (count as f64 + 0.2 + 0.6 * self.chance(cell, which)) * step;
        self.origin + along * off(cell.0, 0) + along.left() * off(cell.1, 1)
    }

    fn gravel(&self) -> Vec<Mark> {
        let (mut dots, mut rings) = (Vec::new(), Vec::new());
        for cell in self.cells(1.7) {
            let at = self.strewn(cell, 1.7);
            let is_dot = self.chance(cell, 2) < 0.5;
            let radius = match is_dot {
                true => 0.14,
                false => 0.2 + 0.16 * self.chance(cell, 3),
            };
            if self.takes(at, radius) {
                let list = if is_dot { &mut dots } else { &mut rings };
                list.push(Path::circle(at, radius));
            }
        }
        vec![Mark::Fill(dots, Ink::Black), Mark::Stroke(rings, FINE)]
    }

    fn concrete(&self) -> Vec<Mark> {
        let (mut dots, mut triangles) = (Vec::new(), Vec::new());
        for cell in self.cells(3.0) {
            let at = self.strewn(cell, 3.0);
            if self.chance(cell, 2) < 0.3 {
                if self.takes(at, 0.55) {
                    let turn = std::f64::consts::TAU * self.chance(cell, 3);
                    let corner =
                        |third: f64| at + Vector::new(0.5, 0.0).turned(turn + third * 2.094);
                    triangles.push(Path::polygon(&[corner(0.0), corner(1.0), corner(2.0)]));
                }
            } else if self.takes(at, 0.13) {
                dots.push(Path::circle(at, 0.13));
            }
        }
        vec![Mark::Fill(dots, Ink::Black), Mark::Stroke(triangles, FINE)]
    }

    fn sand(&self) -> Vec<Mark> {
        let cells = self.cells(0.9).into_iter();
        let places = cells.map(|cell| self.strewn(cell, 0.9));
        let dots = places
            .filter(|at| self.takes(*at, 0.0))
            .map(|at| Path::circle(at, 0.12));
        vec![Mark::Fill(dots.collect(), Ink::Black)]
    }

    fn crushed(&self) -> Vec<Mark> {
        let (mut open, mut filled) = (Vec::new(), Vec::new());
        for cell in self.cells(2.0) {
            let at = self.strewn(cell, 2.0);
            let radius = 0.42 + 0.24 * self.chance(cell, 2);
            if !self.takes(at, radius) {
                continue;
            }
            let sides = 4 + u64::from(self.chance(cell, 3) < 0.5);
            let corner = |side: u64| {
                let share = side as f64 + 0.5 * self.chance(cell, 8 + side);
                at + Vector::new(radius, 0.0).turned(std::f64::consts::TAU * share / sides as f64)
            };
            let corners: Vec<Point> = (0..sides).map(corner).collect();
            let is_filled = self.chance(cell, 4) < 0.2;
            let list = if is_filled { &mut filled } else { &mut open };
            list.push(Path::polygon(&corners));
        }
        vec![Mark::Stroke(open, FINE), Mark::Fill(filled, Ink::Black)]
    }

    /// The corners of a bent honeycomb, of each side only the parts next to
    /// its ends.
    fn stone(&self, across: f64) -> Vec<Mark> {
        let step = across.clamp(STONES.0, STONES.1);
        let height = step * 0.866;
        // Two corners a cell; odd rows stand half a cell further.
        let corner = |column: i64, row: i64, upper: bool| {
            let which = if upper { 8 } else { 4 };
            let off = |salt: u64| 0.5 * (self.chance((column, row), which + salt) - 0.5) * step;
            let shift = 0.5 * row.rem_euclid(2) as f64;
            let rise = if upper { 0.333 } else { 0.0 };
            self.origin
                + Vector::new(
                    (column as f64 + shift) * step + off(0),
                    (row as f64 + rise) * height + off(1) * 0.7,
                )
        };
        let mut arms = Vec::new();
        for (column, row) in self.cells(height) {
            let shift = row.rem_euclid(2);
            let lower = corner(column, row, false);
            let upper = corner(column, row, true);
            let right = corner(column + shift, row + 1, false);
            let left = corner(column + shift - 1, row + 1, false);
            for (number, (from, to)) in [(lower, upper), (upper, right), (upper, left)]
                .into_iter()
                .enumerate()
            {
                self.side(from, to, (column, row), 12 + 4 * number as u64, &mut arms);
            }
        }
        vec![Mark::Stroke(arms, FINE.in_ink(Ink::Grey))]
    }

    /// What is drawn of the joint between two corners.
    fn side(&self, from: Point, to: Point, cell: (i64, i64), salt: u64, arms: &mut Vec<Path>) {
        let way = to - from;
        let share = |which| 0.22 + 0.14 * self.chance(cell, salt + which);
        for (start, way, which) in [(from, way, 0), (to, -way, 1)] {
            let end = start + way * share(which);
            let pieces = clip::inside(start, end, self.outline);
            arms.extend(pieces.into_iter().map(|(from, to)| Path::line(from, to)));
        }
    }
}
