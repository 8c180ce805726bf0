//! What a drawing is before it has a format: marks on a sheet, in order.
//!
//! Places are [`Point`]s in millimetres of paper, counted east and north from
//! the sheet's lower left corner, so that outlines and arcs of the room
//! `geometry` serve as they are.

use std::ops::Range;

use super::lettering::Setting;
use crate::findings::Place;
use crate::geometry::{Edge, Loop, NO_TAG, Point, Vector};

/// A sheet with all that is drawn on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// What it shows, for readers that list drawings.
    pub title: String,
    /// Its width and height in millimetres of paper.
    pub size: (f64, f64),
    /// How many millimetres of the plan's ground one millimetre of paper
    /// stands for.
    pub scale: f64,
    /// Where on the paper the plan's origin lies.
    pub origin: Point,
    /// Whether the job is measured in feet and inches.
    pub is_imperial: bool,
    /// The marks, the lowest first.
    pub items: Vec<Item>,
    /// What of them stands to a scale of its own.
    pub insets: Vec<Inset>,
    /// What is to be said of it where nothing stands beside it that says so.
    pub notes: Vec<String>,
}

/// A part of a drawing to a scale of its own, no larger than the drawing's.
#[derive(Debug, Clone, PartialEq)]
pub struct Inset {
    /// Its marks, by their index in the drawing.
    pub items: Range<usize>,
    /// Its lower left corner.
    pub corner: Point,
    /// How many millimetres of the ground one millimetre of paper stands for.
    pub scale: f64,
}

/// One thing drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// What it belongs to.
    pub layer: Layer,
    /// The entry that it comes from.
    pub link: Option<Place>,
    /// The surface that it may not leave, by its index in the job.
    pub within: Option<usize>,
    /// What is drawn.
    pub mark: Mark,
}

/// The ways to draw.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// Lines drawn with one pen.
    Stroke(Vec<Path>, Pen),
    /// Areas filled with one ink, by the rule of odd and even.
    Fill(Vec<Path>, Ink),
    /// A line of text.
    Text(Text),
}

/// What an item belongs to; a layer of the same name holds it where a format
/// has layers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Layer {
    /// The frame and all that is said beside the plan.
    Sheet,
    /// Textures of loose ground, stone and concrete.
    Textures,
    /// The laying pattern.
    Units,
    /// Joints that move.
    Joints,
    /// The edges of surfaces and what holds them.
    Outlines,
    /// The building.
    Building,
    /// Dimensions, radii and centres.
    Dimensions,
    /// Falls.
    Falls,
    /// Finished levels.
    Levels,
    /// Drains and where the water goes.
    Water,
    /// What things are called.
    Names,
}

impl Layer {
    /// Every layer.
    pub const ALL: &'static [Layer] = &[
        Layer::Sheet,
        Layer::Textures,
        Layer::Units,
        Layer::Joints,
        Layer::Outlines,
        Layer::Building,
        Layer::Dimensions,
        Layer::Falls,
        Layer::Levels,
        Layer::Water,
        Layer::Names,
    ];

    /// Its name.
    pub const fn word(self) -> &'static str {
        match self {
            Layer::Sheet => "sheet",
            Layer::Textures => "textures",
            Layer::Units => "units",
            Layer::Joints => "joints",
            Layer::Outlines => "outlines",
            Layer::Building => "building",
            Layer::Dimensions => "dimensions",
            Layer::Falls => "falls",
            Layer::Levels => "levels",
            Layer::Water => "water",
            Layer::Names => "names",
        }
    }
}

/// What lines and areas are drawn in. Ink on white has a contrast of 17 to 1,
/// captions 5 to 1, water 7 to 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ink {
    /// All that is built to.
    Black,
    /// Joints between units.
    Grey,
    /// Captions.
    Pale,
    /// Water, the one colour.
    Water,
    /// A ground for water.
    WaterTint,
    /// A ground for what is cut.
    Tint,
    /// The paper, to clear what lies under text.
    Paper,
}

impl Ink {
    /// Red, green and blue.
    pub const fn rgb(self) -> (u8, u8, u8) {
        match self {
            Ink::Black => (0x1a, 0x1a, 0x1a),
            Ink::Grey => (0x4a, 0x4a, 0x4a),
            Ink::Pale => (0x6b, 0x6b, 0x6b),
            Ink::Water => (0x0b, 0x5c, 0x9e),
            Ink::WaterTint => (0xdf, 0xea, 0xf4),
            Ink::Tint => (0xe4, 0xe1, 0xda),
            Ink::Paper => (0xff, 0xff, 0xff),
        }
    }

    /// Its name.
    pub const fn word(self) -> &'static str {
        match self {
            Ink::Black => "black",
            Ink::Grey => "grey",
            Ink::Pale => "pale",
            Ink::Water => "water",
            Ink::WaterTint => "water-tint",
            Ink::Tint => "tint",
            Ink::Paper => "paper",
        }
    }
}

/// The three weights of line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// Frame, outlines, joints that move.
    Heavy,
    /// Edges, ticks, arrows.
    Mid,
    /// Units, hatches, dimensions, leaders.
    Fine,
}

impl Weight {
    /// Its width in millimetres of paper.
    pub const fn width(self) -> f64 {
        match self {
            Weight::Heavy => 0.5,
            Weight::Mid => 0.25,
            Weight::Fine => 0.13,
        }
    }
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    /// How heavy.
    pub weight: Weight,
    /// In what.
    pub ink: Ink,
    /// Strokes and gaps in millimetres, in turn; none for an unbroken line.
    pub dash: &'static [f64],
}

impl Pen {
    /// An unbroken line in black.
    pub const fn of(weight: Weight) -> Pen {
        Pen {
            weight,
            ink: Ink::Black,
            dash: &[],
        }
    }

    /// The same in another ink.
    pub const fn in_ink(self, ink: Ink) -> Pen {
        Pen { ink, ..self }
    }

    /// The same in strokes and gaps.
    pub const fn dashed(self, dash: &'static [f64]) -> Pen {
        Pen { dash, ..self }
    }
}

/// Lines and arcs, each starting where the one before ends.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Path {
    /// They, in order.
    pub edges: Vec<Edge>,
    /// Whether the last ends where the first starts.
    pub is_closed: bool,
}

impl Path {
    /// One straight line.
    pub fn line(from: Point, to: Point) -> Path {
        Path {
            edges: vec![Edge::line(from, to, NO_TAG)],
            is_closed: false,
        }
    }

    /// One line or arc.
    pub fn edge(edge: Edge) -> Path {
        Path {
            edges: vec![edge],
            is_closed: false,
        }
    }

    /// Straight from point to point.
    pub fn through(points: &[Point]) -> Path {
        let pairs = points.iter().zip(points.iter().skip(1));
        Path {
            edges: pairs
                .map(|(from, to)| Edge::line(*from, *to, NO_TAG))
                .collect(),
            is_closed: false,
        }
    }

    /// Straight from point to point and back to the first.
    pub fn polygon(points: &[Point]) -> Path {
        let mut path = Path::through(points);
        if let (Some(first), Some(last)) = (points.first(), points.last()) {
            path.edges.push(Edge::line(*last, *first, NO_TAG));
        }
        path.is_closed = true;
        path
    }

    /// An upright rectangle.
    pub fn rectangle(low: Point, high: Point) -> Path {
        Path::polygon(&[
            low,
            Point::new(high.x, low.y),
            high,
            Point::new(low.x, high.y),
        ])
    }

    /// A circle.
    pub fn circle(centre: Point, radius: f64) -> Path {
        let east = centre + Vector::new(radius, 0.0);
        let west = centre + Vector::new(-radius, 0.0);
        Path {
            edges: vec![
                Edge::arc(east, west, 1.0, NO_TAG),
                Edge::arc(west, east, 1.0, NO_TAG),
            ],
            is_closed: true,
        }
    }

    /// A closed line of an outline.
    pub fn round(boundary: &Loop) -> Path {
        Path {
            edges: boundary.edges.clone(),
            is_closed: true,
        }
    }

    /// Where it starts.
    pub fn start(&self) -> Option<Point> {
        self.edges.first().map(|edge| edge.start)
    }
}

/// A line of text as it stands on the sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Where its base line starts.
    pub at: Point,
    /// How far it is turned against the clock, in radians.
    pub angle: f64,
    /// Its letters.
    pub setting: Setting,
    /// In what.
    pub ink: Ink,
}

impl Text {
    /// The rectangle that it takes.
    pub fn extents(&self) -> Extents {
        let along = Vector::new(1.0, 0.0).turned(self.angle);
        let (above, below) = (self.setting.above, self.setting.below);
        Extents {
            centre: self.at
                + along * (self.setting.width / 2.0)
                + along.left() * ((above - below) / 2.0),
            half: (self.setting.width / 2.0, f64::midpoint(above, below)),
            angle: self.angle,
        }
    }

    /// Where a point of its own frame lies on the sheet.
    pub fn on_sheet(&self, along: f64, up: f64) -> Point {
        let way = Vector::new(1.0, 0.0).turned(self.angle);
        self.at + way * along + way.left() * up
    }
}

/// A rectangle on the sheet, turned or upright.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extents {
    /// Its middle.
    pub centre: Point,
    /// Half its length, along its own angle, and half its height.
    pub half: (f64, f64),
    /// How far it is turned against the clock, in radians.
    pub angle: f64,
}

impl Extents {
    /// An upright rectangle about a point.
    pub const fn about(centre: Point, half_width: f64, half_height: f64) -> Extents {
        Extents {
            centre,
            half: (half_width, half_height),
            angle: 0.0,
        }
    }

    /// An upright rectangle between two corners.
    pub fn between(low: Point, high: Point) -> Extents {
        Extents::about(
            low.midpoint(high),
            (high.x - low.x) / 2.0,
            (high.y - low.y) / 2.0,
        )
    }

    /// Grown on every side.
    pub fn grown(self, margin: f64) -> Extents {
        Extents {
            half: (self.half.0 + margin, self.half.1 + margin),
            ..self
        }
    }

    fn axes(&self) -> (Vector, Vector) {
        let east = Vector::new(1.0, 0.0);
        // Most stand upright: what is not turned needs no sine.
        let along = match self.angle == 0.0 {
            true => east,
            false => east.turned(self.angle),
        };
        (along, along.left())
    }

    /// Its corners, in turn.
    pub fn corners(&self) -> [Point; 4] {
        let (along, up) = self.axes();
        let (a, b) = (along * self.half.0, up * self.half.1);
        [
            self.centre + -a + -b,
            self.centre + a + -b,
            self.centre + a + b,
            self.centre + -a + b,
        ]
    }

    /// The corners of the upright rectangle round it.
    pub(crate) fn bounds(&self) -> (Point, Point) {
        let (along, up) = self.axes();
        let wide = (along.x * self.half.0).abs() + (up.x * self.half.1).abs();
        let high = (along.y * self.half.0).abs() + (up.y * self.half.1).abs();
        let reach = Vector::new(wide, high);
        (self.centre + -reach, self.centre + reach)
    }

    /// How far it reaches from its middle in a direction.
    fn reach(&self, way: Vector) -> f64 {
        let (along, up) = self.axes();
        (along.dot(way) * self.half.0).abs() + (up.dot(way) * self.half.1).abs()
    }

    /// Whether the two share more than a line.
    pub fn overlaps(&self, other: &Extents) -> bool {
        let apart = other.centre - self.centre;
        let meets = |way: Vector| apart.dot(way).abs() < self.reach(way) + other.reach(way) - 1e-6;
        let meets_along = |(along, up): (Vector, Vector)| meets(along) && meets(up);
        let is_turned_alike = self.angle == other.angle;
        meets_along(self.axes()) && (is_turned_alike || meets_along(other.axes()))
    }

    /// Whether a rectangle lies wholly in this one.
    pub fn holds(&self, other: &Extents) -> bool {
        let (along, up) = self.axes();
        other.corners().iter().all(|corner| {
            let off = *corner - self.centre;
            off.dot(along).abs() <= self.half.0 + 1e-6 && off.dot(up).abs() <= self.half.1 + 1e-6
        })
    }

    /// Whether a straight line passes through it.
    pub fn is_crossed(&self, from: Point, to: Point) -> bool {
        let (along, up) = self.axes();
        let local = |point: Point| {
            let off = point - self.centre;
            (off.dot(along), off.dot(up))
        };
        let (a, b) = (local(from), local(to));
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for (start, end, half) in [(a.0, b.0, self.half.0), (a.1, b.1, self.half.1)] {
            let run = end - start;
            if run.abs() < 1e-12 {
                if start.abs() >= half {
                    return false;
                }
                continue;
            }
            let (first, second) = ((-half - start) / run, (half - start) / run);
            enters = enters.max(first.min(second));
            leaves = leaves.min(first.max(second));
        }
        enters < leaves
    }

    /// The smallest upright rectangle around it: two corners.
    pub fn upright(&self) -> (Point, Point) {
        let half = Vector::new(
            self.reach(Vector::new(1.0, 0.0)),
            self.reach(Vector::new(0.0, 1.0)),
        );
        (self.centre + -half, self.centre + half)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::FRAC_PI_4;

    #[test]
    fn rectangles_overlap_by_their_own_axes() {
        let upright = Extents::about(Point::new(0.0, 0.0), 2.0, 1.0);
        let turned = |x: f64, y: f64| Extents {
            centre: Point::new(x, y),
            half: (2.0, 0.5),
            angle: FRAC_PI_4,
        };
        assert!(upright.overlaps(&turned(2.0, 1.0)));
        // Their upright rectangles overlap, they do not.
        assert!(
            !upright.overlaps(&turned(3.0, -1.5).grown(-0.2))
                || upright.overlaps(&turned(3.0, 0.0))
        );
        assert!(!upright.overlaps(&turned(5.0, 0.0)));
        // Side by side they share a line alone.
        assert!(!upright.overlaps(&Extents::about(Point::new(4.0, 0.0), 2.0, 1.0)));
    }

    #[test]
    fn a_line_crosses_what_it_passes_through() {
        let one = Extents::about(Point::new(0.0, 0.0), 2.0, 1.0);
        let crosses = |a: (f64, f64), b: (f64, f64)| {
            one.is_crossed(Point::new(a.0, a.1), Point::new(b.0, b.1))
        };
        assert!(crosses((-5.0, 0.0), (5.0, 0.0)));
        assert!(crosses((0.0, 0.0), (0.5, 0.5)));
        assert!(!crosses((-5.0, 1.5), (5.0, 1.5)));
        assert!(!crosses((3.0, 0.0), (5.0, 0.0)));
    }

    #[test]
    fn text_takes_the_room_of_its_letters() {
        let holder = Extents::about(Point::new(0.0, 0.0), 10.0, 10.0);
        assert!(holder.holds(&Extents::about(Point::new(9.0, 0.0), 1.0, 1.0)));
        assert!(!holder.holds(&Extents::about(Point::new(9.5, 0.0), 1.0, 1.0)));
    }
}
