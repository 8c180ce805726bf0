//! A point by two tapes.

use super::super::measures::Length;
use super::super::term::Term;
use super::super::trace::Trace;
use super::marks::Marks;
use crate::geometry::Point;
use crate::model::Origin;

/// Tapes that cross at less than this, in degrees, or at more than what is
/// left of half a turn, do not fix a point.
const LEAST_CROSSING: f64 = 30.0;

/// Nearer to the line of the marks than this, in metres, a point lies on it.
const ON_LINE: f64 = 5e-4;

/// On which side of the line of the marks a point lies, for someone who stands
/// at A and looks to B.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Aside {
    /// To the left.
    Left,
    /// To the right.
    Right,
    /// On the line.
    OnLine,
}

impl Aside {
    /// The word for it on a sheet.
    pub const fn word(self) -> &'static str {
        match self {
            Aside::Left => "left",
            Aside::Right => "right",
            Aside::OnLine => "in line",
        }
    }
}

/// How a point is found from the two marks. Lengths are in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taping {
    /// The tape from A.
    pub from_first_m: f64,
    /// The tape from B.
    pub from_second_m: f64,
    /// How far along the line from A toward B the point lies; behind A it is
    /// negative.
    pub along_m: f64,
    /// How far square out of that line, to whichever side.
    pub out_m: f64,
    /// To which side.
    pub aside: Aside,
    /// The angle at which the tapes cross, in degrees; `None` at a mark.
    pub crossing_degrees: Option<f64>,
}

impl Taping {
    /// Whether the tapes cross so flat or so sharp that they do not fix the
    /// point: under 30° or over 150°.
    pub fn is_weak(&self) -> bool {
        let is_weak = |angle: f64| !(LEAST_CROSSING..=180.0 - LEAST_CROSSING).contains(&angle);
        self.crossing_degrees.is_some_and(is_weak)
    }
}

/// How a point is found from the marks.
pub(in crate::quantities) fn taping(marks: &Marks, at: Point, trace: &Trace) -> Taping {
    let east = trace.input("east", Length(at.x), None);
    let north = trace.input("north", Length(at.y), None);
    let from_first = tape("A", marks.first, marks, (east, north), trace);
    let from_second = tape("B", marks.second, marks, (east, north), trace);
    let along = (marks.second - marks.first).unit();
    let out = along.cross(at - marks.first);
    let (to_first, to_second) = (marks.first - at, marks.second - at);
    let is_at_mark = to_first.length() <= ON_LINE || to_second.length() <= ON_LINE;
    Taping {
        from_first_m: from_first.value.0,
        from_second_m: from_second.value.0,
        along_m: along.dot(at - marks.first),
        out_m: out.abs(),
        aside: match out {
            out if out.abs() <= ON_LINE => Aside::OnLine,
            out if out > 0.0 => Aside::Left,
            _ => Aside::Right,
        },
        crossing_degrees: (!is_at_mark).then(|| to_first.angle_to(to_second).abs().to_degrees()),
    }
}

/// The tape from a mark.
fn tape<'t>(
    name: &str,
    mark: Point,
    marks: &Marks,
    (east, north): (Term<'t, Length>, Term<'t, Length>),
    trace: &'t Trace,
) -> Term<'t, Length> {
    let origin = marks.place.map(Origin::Line);
    let mark_east = trace.input(format!("east of {name}"), Length(mark.x), origin);
    let mark_north = trace.input(format!("north of {name}"), Length(mark.y), origin);
    let over = trace.gives(format!("east from {name}"), east - mark_east);
    let up = trace.gives(format!("north from {name}"), north - mark_north);
    let words = ["√(", "² + ", "²)"];
    let straight = over.joined(words, up, |over, up| Length(over.0.hypot(up.0)));
    trace.gives(format!("tape from {name}"), straight)
}
