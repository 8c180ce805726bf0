//! The courses of borders: the units that stand along the edges of a surface.

use super::canvas::Canvas;
use super::fields::called;
use super::ground::Ground;
use crate::drawing::clip;
use crate::drawing::display_list::{Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::legend::{boxed, sample_field};
use crate::drawing::measure;
use crate::drawing::pattern::NARROWEST;
use crate::geometry::{Edge, Outline, Point, Vector, mitres, narrowed};
use crate::model::Border;

const UNITS: Pen = Pen::of(Weight::Fine).in_ink(Ink::Grey);

/// More courses side by side than this are drawn as one.
const MOST_COURSES: u32 = 12;

/// Draws the borders of a surface and says in the legend what they are.
pub(crate) fn draw(canvas: &mut Canvas, ground: &Ground<'_>) {
    let surface = ground.surface;
    let mut pieces = vec![ground.outline.clone()];
    for border in &surface.borders {
        let Some(left) = ground.left_by(border) else {
            return;
        };
        let left: Vec<Outline> = left.iter().map(|own| canvas.view.outline(own)).collect();
        let inner = left.iter().flat_map(Outline::loops).map(Path::round);
        let mut paths: Vec<Path> = inner.collect();
        let strip = Strip::of(border, canvas.view.scale);
        if let Some(strip) = &strip {
            for piece in &pieces {
                paths.extend(strip.courses(piece));
                paths.extend(match border.mitred.is_some() {
                    true => strip.mitred_joints(piece),
                    false => strip.joints(piece),
                });
            }
        }
        let mark = Mark::Stroke(paths, UNITS);
        canvas.draw_within(Layer::Units, surface, border.place, mark);
        explain(canvas, border, strip.as_ref());
        pieces = left;
    }
}

fn explain(canvas: &mut Canvas, border: &Border, strip: Option<&Strip<'_>>) {
    let title = format!("Border: {}", called(&border.material.value, canvas.region));
    let mut words = match border.is_soldier {
        true => "soldiers".to_owned(),
        false => "stretchers".to_owned(),
    };
    if border.courses > 1 {
        words = format!("{} courses of {words}", border.courses);
    }
    if border.mitred.is_some() {
        words += ", mitred";
    }
    if let Some((along, across)) = border.unit_m() {
        let (long, short) = (along.max(across), along.min(across));
        words += &format!(", {}", measure::unit(long, short, canvas.system));
    }
    let sample = strip.filter(|strip| strip.is_drawn());
    if sample.is_none() {
        words += "; too small to draw at this scale";
    }
    let field = sample_field();
    let rows = sample.map(|strip| strip.sample(&field)).unwrap_or_default();
    canvas.explain(boxed(vec![Mark::Stroke(rows, UNITS)]), &title, Some(words));
}

/// A border in millimetres of paper.
struct Strip<'b> {
    border: &'b Border,
    /// A unit and its joint along the edge.
    pitch: f64,
    /// A unit and its joint across it.
    course: f64,
    /// The whole width.
    width: f64,
}

impl<'b> Strip<'b> {
    fn of(border: &'b Border, scale: f64) -> Option<Strip<'b>> {
        let (along, across) = border.unit_m()?;
        let joint = border.joint_m();
        Some(Strip {
            border,
            pitch: (along + joint) * scale,
            course: (across + joint) * scale,
            width: border.width_m()? * scale,
        })
    }

    /// Whether its units are wide enough on paper to be drawn one by one.
    fn is_drawn(&self) -> bool {
        self.pitch.min(self.course) >= NARROWEST
    }

    /// The joints between its courses.
    fn courses(&self, piece: &Outline) -> Vec<Path> {
        if !self.is_drawn() || self.border.courses > MOST_COURSES {
            return Vec::new();
        }
        let is_along = |edge: &Edge| self.border.along.contains(&edge.tag);
        let between = (1..self.border.courses)
            .filter_map(|course| narrowed(piece, f64::from(course) * self.course, &is_along).ok());
        let outlines = between.flatten();
        outlines
            .flat_map(|outline| outline.loops().map(Path::round).collect::<Vec<_>>())
            .collect()
    }

    /// The joints between its units, square out of the edges. Where two edges
    /// meet, the units of the earlier one run through.
    fn joints(&self, piece: &Outline) -> Vec<Path> {
        if !self.is_drawn() {
            return Vec::new();
        }
        let edges = piece.edges();
        let own: Vec<&Edge> = edges
            .filter(|edge| self.border.along.contains(&edge.tag))
            .collect();
        let mut paths = Vec::new();
        for (index, edge) in own.iter().enumerate() {
            let before = own.get(..index).unwrap_or_default();
            let is_taken = |point: Point| before.iter().any(|other| self.covers(other, point));
            let pitch = self.pitch_on(edge);
            let inward = |at: f64| edge.direction_at(at).left() * self.width;
            let beside = edge.point_at(0.0) + inward(0.0) * 0.5 + edge.direction_at_start() * 0.05;
            let mut at = match is_taken(beside) {
                true => self.width,
                false => pitch,
            };
            // Every unit is NARROWEST or wider, so that an edge bounds this.
            while at < edge.length() - pitch * 0.1 {
                let from = edge.point_at(at);
                let to = from + inward(at);
                if !is_taken(from.midpoint(to)) {
                    let inside = clip::inside(from, to, piece).into_iter();
                    paths.extend(inside.map(|(from, to)| Path::line(from, to)));
                }
                at += pitch;
            }
        }
        paths
    }

    /// The joints between its units, square out of the edges and cut off at the
    /// mitres, and the mitres themselves.
    fn mitred_joints(&self, piece: &Outline) -> Vec<Path> {
        if !self.is_drawn() {
            return Vec::new();
        }
        let is_along = |edge: &Edge| self.border.along.contains(&edge.tag);
        let all = mitres(piece, &is_along);
        let lines = all.iter();
        let lines = lines.map(|own| (own.corner, own.corner + own.inward * self.width));
        let mut paths: Vec<Path> = lines.map(|(from, to)| Path::line(from, to)).collect();
        let at_corner = |at: Point| {
            let mut all = all.iter();
            let own = all.find(|own| own.corner.distance(at) < 1e-6);
            own.map_or(0.0, |own| own.half_turn)
        };
        for edge in piece.edges().filter(|edge| is_along(edge)) {
            let pitch = self.pitch_on(edge);
            let (first, last) = (at_corner(edge.start), at_corner(edge.end));
            let reach = |from_corner: f64, half_turn: f64| match half_turn > 0.0 {
                true => from_corner / half_turn,
                false => self.width,
            };
            let mut at = pitch;
            // Every unit is NARROWEST or wider, so that an edge bounds this.
            while at < edge.length() - pitch * 0.1 {
                let deep = reach(at, first).min(reach(edge.length() - at, last));
                let from = edge.point_at(at);
                let to = from + edge.direction_at(at).left() * deep.min(self.width);
                let inside = clip::inside(from, to, piece).into_iter();
                paths.extend(inside.map(|(from, to)| Path::line(from, to)));
                at += pitch;
            }
        }
        paths
    }

    /// The pitch along the edge itself: on a curve that of the tighter side is
    /// the one that counts.
    fn pitch_on(&self, edge: &Edge) -> f64 {
        let outer = edge.radius();
        let inner = outer - self.width * edge.bulge.signum();
        match edge.is_arc() && inner > 0.0 && inner < outer {
            true => self.pitch * outer / inner,
            false => self.pitch,
        }
    }

    /// Whether a place lies in the strip along an edge.
    fn covers(&self, edge: &Edge, point: Point) -> bool {
        let at = edge.distance_along(point);
        let foot = edge.point_at(at);
        let inward = (point - foot).dot(edge.direction_at(at).left());
        edge.distance_to(point) <= self.width && inward >= -1e-6
    }

    /// A few of its units for the legend.
    fn sample(&self, field: &Outline) -> Vec<Path> {
        let (low, high) = field.bounding_box();
        let across = (high - low).y;
        let pitch = (self.pitch / self.course * across).clamp(NARROWEST, (high - low).x / 2.0);
        let mut paths = Vec::new();
        let mut at = low.x + pitch;
        while at < high.x - 0.1 {
            let from = Point::new(at, low.y);
            paths.push(Path::line(from, from + Vector::new(0.0, across)));
            at += pitch;
        }
        paths
    }
}
