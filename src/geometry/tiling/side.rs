//! A side of an outline in the axes of a pattern, walked upward: monotone both
//! ways, so that a height gives one point of it.

use super::super::edge::{Edge, bulge_of_chord};
use super::super::point::Point;

/// A stretch of a side, in the axes of the pattern.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Side {
    /// Its lower end, or one end if it runs level.
    pub low: Point,
    /// Its upper end.
    pub high: Point,
    /// 1 if the outline is walked upward along it, −1 if downward.
    pub sense: f64,
    /// Its westmost and its eastmost point.
    pub left: f64,
    pub right: f64,
    arc: Option<Arc>,
}

/// The circle of a stretch that is an arc.
#[derive(Debug, Clone, Copy)]
struct Arc {
    radius: f64,
    /// The lower end as seen from the centre.
    x: f64,
    y: f64,
    /// On which half of the circle the stretch lies: 1 on the right or on the
    /// upper one, else −1.
    right: f64,
    upper: f64,
}

/// A side that rises by no more than this, in metres, is level: where along it
/// a height lies is rounding.
const LEVEL: f64 = 1e-9;

/// The upright rectangle of a unit.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Rect {
    pub left: f64,
    pub low: f64,
    pub right: f64,
    pub high: f64,
}

impl Rect {
    pub(crate) fn area(&self) -> f64 {
        (self.right - self.left) * (self.high - self.low)
    }

    /// The rectangle, smaller by `by` all round.
    pub(crate) fn shrunk(&self, by: f64) -> Rect {
        Rect {
            left: self.left + by,
            low: self.low + by,
            right: self.right - by,
            high: self.high - by,
        }
    }

    /// The rectangle, brought out to the sides of another where it comes
    /// within `by` of them.
    pub(crate) fn grown_to(&self, other: &Rect, by: f64) -> Rect {
        let to = |own: f64, side: f64| {
            if (own - side).abs() <= 1.5 * by {
                side
            } else {
                own
            }
        };
        Rect {
            left: to(self.left, other.left),
            low: to(self.low, other.low),
            right: to(self.right, other.right),
            high: to(self.high, other.high),
        }
    }

    pub(crate) fn corners(&self) -> [Point; 4] {
        let Rect {
            left,
            low,
            right,
            high,
        } = *self;
        [(left, low), (right, low), (right, high), (left, high)].map(|(x, y)| Point::new(x, y))
    }
}

impl Side {
    /// A side that is monotone both ways.
    pub(crate) fn of(edge: &Edge) -> Side {
        let is_up = edge.end.y >= edge.start.y;
        let upward = if is_up { *edge } else { edge.reversed() };
        let arc = upward.is_arc().then(|| {
            let to_centre = upward.to_centre();
            let middle = upward.midpoint() - (upward.start + to_centre);
            Arc {
                radius: upward.radius(),
                x: -to_centre.x,
                y: -to_centre.y,
                right: 1f64.copysign(middle.x),
                upper: 1f64.copysign(middle.y),
            }
        });
        Side {
            low: upward.start,
            high: upward.end,
            sense: if is_up { 1.0 } else { -1.0 },
            left: upward.start.x.min(upward.end.x),
            right: upward.start.x.max(upward.end.x),
            arc,
        }
    }

    /// Whether it rises by no more than what is rounding.
    pub(crate) fn is_level(&self) -> bool {
        self.high.y - self.low.y <= LEVEL
    }

    /// The part of it between two heights, if any.
    pub(crate) fn between(&self, from: f64, to: f64) -> Option<Side> {
        if self.low.y >= from && self.high.y <= to {
            return Some(*self);
        }
        let (from, to) = (from.max(self.low.y), to.min(self.high.y));
        if to <= from {
            return None;
        }
        let (low, high) = (
            Point::new(self.x_at(from), from),
            Point::new(self.x_at(to), to),
        );
        let arc = self.arc.map(|arc| Arc {
            x: arc.x + (low.x - self.low.x),
            y: arc.y + (low.y - self.low.y),
            ..arc
        });
        Some(Side {
            low,
            high,
            left: low.x.min(high.x),
            right: low.x.max(high.x),
            arc,
            ..*self
        })
    }

    /// How far east it lies at a height that it has.
    pub(crate) fn x_at(&self, y: f64) -> f64 {
        let up = y - self.low.y;
        let x = match self.arc {
            None if self.high.y == self.low.y => self.low.x,
            None => self.low.x + (self.high.x - self.low.x) * (up / (self.high.y - self.low.y)),
            Some(arc) => self.low.x + on_circle(arc.x, arc.right, up * (up + 2.0 * arc.y)),
        };
        x.clamp(self.left, self.right)
    }

    /// How high it lies where it is so far east.
    fn y_at(&self, x: f64) -> f64 {
        let along = x - self.low.x;
        let y = match self.arc {
            None if self.high.x == self.low.x => self.low.y,
            None => self.low.y + (self.high.y - self.low.y) * (along / (self.high.x - self.low.x)),
            Some(arc) => self.low.y + on_circle(arc.y, arc.upper, along * (along + 2.0 * arc.x)),
        };
        y.clamp(self.low.y, self.high.y)
    }

    /// The area between the side and the left of a rectangle, as far as it
    /// lies in the rectangle; signed as the outline is walked.
    pub(crate) fn area_left_of(&self, rect: &Rect) -> f64 {
        let (from, to) = (rect.low.max(self.low.y), rect.high.min(self.high.y));
        if to <= from || self.right <= rect.left {
            return 0.0;
        }
        let wide = rect.right - rect.left;
        if self.left >= rect.right {
            return self.sense * wide * (to - from);
        }
        let mut area = 0.0;
        for (low, high) in self.between_uprights(rect, from, to) {
            let (start, end) = (
                Point::new(self.x_at(low), low),
                Point::new(self.x_at(high), high),
            );
            let middle = 0.5 * (start.x + end.x);
            area += if middle <= rect.left {
                0.0
            } else if middle >= rect.right {
                wide * (high - low)
            } else {
                (middle - rect.left) * (high - low) + self.segment(start, end)
            };
        }
        self.sense * area
    }

    /// The stretches of heights between which it does not cross the left or
    /// the right of a rectangle.
    fn between_uprights(
        &self,
        rect: &Rect,
        from: f64,
        to: f64,
    ) -> impl Iterator<Item = (f64, f64)> {
        let (start, end) = (self.x_at(from), self.x_at(to));
        let (least, most) = (start.min(end), start.max(end));
        let crossing = |x: f64, or: f64| match x > least && x < most {
            true => self.y_at(x).clamp(from, to),
            false => or,
        };
        let (left, right) = (crossing(rect.left, from), crossing(rect.right, from));
        let stops = [from, left.min(right), left.max(right), to];
        let [a, b, c, d] = stops;
        [(a, b), (b, c), (c, d)]
            .into_iter()
            .filter(|(low, high)| high > low)
    }

    /// The area between the chord of two of its points and the side itself,
    /// positive to the right of the chord.
    fn segment(&self, start: Point, end: Point) -> f64 {
        self.arc.map_or(0.0, |arc| {
            let bulge = bulge_of_chord(start.distance(end), arc.radius);
            arc.right * Edge::arc(start, end, bulge, 0).segment_area()
        })
    }

    /// The length of it from one of its points to another.
    fn length(&self, start: Point, end: Point) -> f64 {
        let chord = start.distance(end);
        match self.arc {
            Some(arc) if chord > 0.0 => {
                Edge::arc(start, end, bulge_of_chord(chord, arc.radius), 0).length()
            }
            _ => chord,
        }
    }

    /// The ends of the part of it that lies in a rectangle, and its length.
    pub(crate) fn within(&self, rect: &Rect) -> Option<(Point, Point, f64)> {
        if self.is_level() {
            let (left, right) = (self.left.max(rect.left), self.right.min(rect.right));
            let y = self.low.y;
            let is_inside = right > left && y >= rect.low && y <= rect.high;
            return is_inside.then(|| (Point::new(left, y), Point::new(right, y), right - left));
        }
        let (from, to) = (rect.low.max(self.low.y), rect.high.min(self.high.y));
        if to <= from || self.right <= rect.left || self.left >= rect.right {
            return None;
        }
        let is_inside = |(low, high): &(f64, f64)| {
            let middle = 0.5 * (self.x_at(*low) + self.x_at(*high));
            middle >= rect.left && middle <= rect.right
        };
        // Through a corner of the rectangle a stretch of no length comes first.
        let inside = self.between_uprights(rect, from, to).filter(is_inside);
        let (low, high) = inside.max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))?;
        let (start, end) = (
            Point::new(self.x_at(low), low),
            Point::new(self.x_at(high), high),
        );
        Some((start, end, self.length(start, end)))
    }
}

/// How far a point of a circle lies from another in one way, which lies `own`
/// from the centre in that way; `square` is what the two differ by in the
/// other way, squared. Worked so that a far centre loses nothing.
fn on_circle(own: f64, half: f64, square: f64) -> f64 {
    let root = (own * own - square).max(0.0).sqrt();
    let sum = own + half * root;
    if sum == 0.0 { 0.0 } else { -square / sum }
}
