//! What the marks of a drawing mean: an entry for each kind that is drawn,
//! and for no other.

use super::display_list::{Ink, Mark, Path, Pen, Weight};
use crate::findings::Place;
use crate::geometry::{Edge, Loop, NO_TAG, Outline, Point, Vector};

/// A sample of what is drawn: marks about the lower left corner of a box.
pub(crate) type Sample = Vec<Mark>;

/// The width and height of a sample.
pub(crate) const SAMPLE: (f64, f64) = (14.0, 6.4);

/// One line of the legend.
#[derive(Debug, Clone)]
pub(crate) struct Entry {
    /// What it looks like.
    pub sample: Sample,
    /// What it is.
    pub title: String,
    /// What more there is to say of it.
    pub note: Option<String>,
    /// The entry that it comes from.
    pub link: Option<Place>,
}

/// The legend of a drawing, in the order in which things were drawn.
#[derive(Debug, Clone, Default)]
pub(crate) struct Legend {
    /// Its lines.
    pub entries: Vec<Entry>,
}

impl Legend {
    /// Adds a line unless it is there.
    pub(crate) fn add(&mut self, entry: Entry) {
        let is_there = |own: &Entry| own.title == entry.title && own.note == entry.note;
        if !self.entries.iter().any(is_there) {
            self.entries.push(entry);
        }
    }
}

/// The corners of the box of a sample.
pub(crate) fn sample_corners() -> [Point; 4] {
    let (width, height) = SAMPLE;
    let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    corners.map(|(x, y)| Point::new(x, y))
}

/// The box of a sample as an outline.
pub(crate) fn sample_field() -> Outline {
    let points = sample_corners();
    let pairs = points.iter().zip(points.iter().cycle().skip(1));
    Outline {
        outer: Loop {
            edges: pairs.map(|(a, b)| Edge::line(*a, *b, NO_TAG)).collect(),
        },
        holes: Vec::new(),
    }
}

/// A box with something in it.
pub(crate) fn boxed(mut marks: Vec<Mark>) -> Sample {
    let outline = Path::round(&sample_field().outer);
    marks.push(Mark::Stroke(vec![outline], Pen::of(Weight::Fine)));
    marks
}

/// A line across, at half the height.
pub(crate) fn lined(pen: Pen) -> Sample {
    let y = SAMPLE.1 / 2.0;
    let line = Path::line(Point::new(0.0, y), Point::new(SAMPLE.0, y));
    vec![Mark::Stroke(vec![line], pen)]
}

/// Marks that stand about a point, moved to the middle of the sample.
pub(crate) fn centred(marks: impl FnOnce(Point) -> Vec<Mark>) -> Sample {
    marks(Point::new(SAMPLE.0 / 2.0, SAMPLE.1 / 2.0))
}

/// The mark of a finished level: a ring with opposite quarters filled.
pub(crate) fn level_mark(at: Point) -> Vec<Mark> {
    const RADIUS: f64 = 1.0;
    let off = |x: f64, y: f64| at + Vector::new(x * RADIUS, y * RADIUS);
    let quarter = |x: f64, y: f64, start: Point, end: Point| {
        let bulge = std::f64::consts::FRAC_PI_8.tan();
        let bulge = if x * y > 0.0 { bulge } else { -bulge };
        Path {
            edges: vec![
                Edge::line(at, start, NO_TAG),
                Edge::arc(start, end, bulge, NO_TAG),
                Edge::line(end, at, NO_TAG),
            ],
            is_closed: true,
        }
    };
    let filled = vec![
        quarter(1.0, 1.0, off(1.0, 0.0), off(0.0, 1.0)),
        quarter(-1.0, -1.0, off(-1.0, 0.0), off(0.0, -1.0)),
    ];
    let cross = vec![
        Path::line(off(-1.9, 0.0), off(1.9, 0.0)),
        Path::line(off(0.0, -1.9), off(0.0, 1.9)),
    ];
    let ring = vec![Path::circle(at, RADIUS)];
    vec![
        Mark::Fill(ring.clone(), Ink::Paper),
        Mark::Fill(filled, Ink::Black),
        Mark::Stroke(ring, Pen::of(Weight::Fine)),
        Mark::Stroke(cross, Pen::of(Weight::Fine)),
    ]
}

/// The arrow of a fall: an open dot at its high end, a filled head at its low
/// one.
pub(crate) fn fall_arrow(high: Point, low: Point) -> Vec<Mark> {
    const DOT: f64 = 0.55;
    const HEAD: f64 = 3.2;
    let way = (low - high).unit();
    let head = HEAD.min(high.distance(low) * 0.6);
    let neck = low + way * -head;
    let half = way.left() * (head * 11.0_f64.to_radians().tan());
    let water = Pen::of(Weight::Mid).in_ink(Ink::Water);
    vec![
        Mark::Stroke(vec![Path::line(high + way * DOT, neck)], water),
        Mark::Stroke(vec![Path::circle(high, DOT)], water),
        Mark::Fill(
            vec![Path::polygon(&[low, neck + half, neck + -half])],
            Ink::Water,
        ),
    ]
}
