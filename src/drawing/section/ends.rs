//! The two ends of a section, to scale: what it is built of, the building, the
//! edging and the ground.

use super::channel;
use super::cut::{Course, Cut, End};
use super::edging;
use super::layout::{Layout, OVER, deep_m, outside_m};
use super::rows;
use crate::drawing::beside::text;
use crate::drawing::display_list::{Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::figure::Sketch;
use crate::drawing::filling::{self, Filling};
use crate::drawing::font::Face;
use crate::drawing::legend::{boxed, lined, sample_corners};
use crate::drawing::lettering::{self, NOTE};
use crate::drawing::measure;
use crate::drawing::texture::seed;
use crate::geometry::{Point, Vector};
use crate::vocabulary::Role;

/// How wide the building is drawn, and the gap between the ends.
const WALL: f64 = 8.0;
const GAP: f64 = 7.0;
/// The white between the ends and the rows.
const BEFORE_ROWS: f64 = 10.0;
/// How far the ground goes on past the widest layer.
const GROUND: f64 = 9.0;
/// The most that one end is drawn lower than the other.
const LOWEST: f64 = 8.0;
/// How deep the earth is hatched, and how far the building goes down.
const EARTH: f64 = 4.5;
/// From the underside of all that is cut down to the line of the captions, and
/// past it.
const CAPTION: f64 = EARTH + 2.0 + NOTE;
pub(crate) const UNDER: f64 = CAPTION + 0.6;

const FABRIC: Pen = Pen::of(Weight::Heavy).dashed(&[1.6, 0.7]);
const MESH: Pen = Pen::of(Weight::Mid).dashed(&[1.6, 0.7]);
const GROUND_LINE: Pen = Pen::of(Weight::Heavy);

/// How much lower the right end lies than the left one, in metres.
fn drop(cut: &Cut<'_>) -> f64 {
    let [left, right] = cut.levels_m;
    let drop = left.zip(right).map(|(left, right)| left - right);
    drop.unwrap_or_default()
}

/// How much lower one end is drawn than the other.
pub(crate) fn lower(cut: &Cut<'_>, per_metre: f64) -> f64 {
    (drop(cut) * per_metre).abs().min(LOWEST)
}

/// The ends of a section on the paper.
pub(crate) struct Ends<'c> {
    cut: &'c Cut<'c>,
    per_metre: f64,
    /// The most that is drawn of what goes past the edge.
    widest: f64,
    /// The finished surface at the high end.
    start: Point,
    /// Where the high end stops and the low one starts.
    parting: (f64, f64),
    /// The finished surface at the low edge.
    edge: Point,
    /// Whether the low end would lie lower to scale.
    is_raised: bool,
    caption: f64,
}

impl<'c> Ends<'c> {
    /// Those of a section.
    pub(crate) fn of(cut: &'c Cut<'c>, layout: &Layout) -> Ends<'c> {
        let per_metre = layout.per_metre();
        let beyond = (outside_m(cut) * per_metre).min(layout.widest());
        let beside = match layout.is_narrow {
            true => rows::NUMBERS,
            false => rows::WIDTH + BEFORE_ROWS,
        };
        let (first, last) = (WALL, layout.width - beside - beyond - GROUND);
        let half = ((last - first - GAP) / 2.0).max(4.0);
        let drop = drop(cut) * per_metre;
        let top = -OVER;
        let lower = drop.clamp(-LOWEST, LOWEST);
        let deep = deep_m(cut) * per_metre;
        Ends {
            cut,
            per_metre,
            widest: layout.widest(),
            start: Point::new(first, top + lower.min(0.0)),
            parting: (first + half, first + half + GAP),
            edge: Point::new(first + 2.0 * half + GAP, top - lower.max(0.0)),
            is_raised: drop.abs() > LOWEST,
            caption: top - lower.abs() - deep - CAPTION,
        }
    }

    /// The height of the finished surface where it is drawn highest.
    pub(crate) fn surface(&self) -> f64 {
        self.start.y.max(self.edge.y)
    }

    /// The height of the lowest thing that is drawn or written: the captions
    /// stand under all that is cut.
    pub(crate) const fn bottom_of_all(&self) -> f64 {
        self.caption
    }

    /// The height of the finished surface at the low edge.
    pub(crate) fn low_surface(&self) -> f64 {
        self.edge.y
    }

    /// What is cut.
    pub(crate) fn cut(&self) -> &'c Cut<'c> {
        self.cut
    }

    /// So many metres on the paper.
    pub(crate) fn on_paper(&self, metres: f64) -> f64 {
        metres * self.per_metre
    }

    /// The finished surface at the low edge.
    pub(crate) fn edge(&self) -> Point {
        self.edge
    }

    /// A place in the low end, so far along and so deep.
    fn low(&self, x: f64, depth_m: f64) -> Point {
        let rise = (self.edge.x - x) * self.slope();
        Point::new(x, self.edge.y + rise - depth_m * self.per_metre)
    }

    /// A place in the high end.
    fn high(&self, x: f64, depth_m: f64) -> Point {
        let fall = (x - self.start.x) * self.slope();
        Point::new(x, self.start.y - fall - depth_m * self.per_metre)
    }

    /// The slope as it is drawn: none that would turn the picture over.
    fn slope(&self) -> f64 {
        self.cut.slope.clamp(-0.1, 0.1)
    }

    fn beyond(&self, course: &Course<'_>) -> f64 {
        (self.cut.past_m(course) * self.per_metre).min(self.widest)
    }

    /// Where the line to a layer's row starts; `None` if it is not drawn.
    pub(crate) fn point_at(&self, course: &Course<'_>) -> Option<Point> {
        let (top, under) = course.depths()?;
        // Mesh in the middle of a slab has a line of its own.
        let share = if self.cut.is_meshed(course) {
            0.25
        } else {
            0.5
        };
        let depth = top + (under - top) * share;
        let back = if course.layer.role.value.is_sheet() {
            1.0
        } else {
            2.5
        };
        // Behind a unit that is drawn at its size no layer is seen.
        let beyond = match edging::unit_m(self.cut) {
            Some(_) => 0.0,
            None => self.beyond(course),
        };
        // Nor in front of a channel that takes its place.
        let taken = channel::hides_m(self.cut, depth) * self.per_metre;
        let start = match taken > 0.0 {
            true => -taken,
            false => beyond,
        };
        Some(self.low(self.edge.x + start - back, depth))
    }

    /// Draws them.
    pub(crate) fn draw(&self, drawn: &mut Sketch) {
        for course in &self.cut.courses {
            self.course(drawn, course);
        }
        self.earth(drawn);
        self.wall(drawn);
        self.breaks(drawn);
        edging::draw(drawn, self);
        channel::draw(drawn, self);
        self.isolation(drawn);
        self.ground(drawn);
        self.captions(drawn);
        if self.is_raised {
            drawn.note("Between the two ends the fall is not to scale.".to_owned());
        }
    }

    fn course(&self, drawn: &mut Sketch, course: &Course<'_>) {
        let Some((top, under)) = course.depths() else {
            return;
        };
        let role = course.layer.role.value;
        let link = Some(course.layer.place);
        let right = self.edge.x + self.beyond(course);
        let depth = top;
        if role.is_sheet() {
            let pen = match role {
                Role::Mesh => MESH,
                Role::Membrane => Pen::of(Weight::Heavy),
                _ => FABRIC,
            };
            let high = Path::line(
                self.high(self.start.x, depth),
                self.high(self.parting.0, depth),
            );
            let low = Path::line(self.low(self.parting.1, depth), self.low(right, depth));
            drawn.draw(Layer::Outlines, link, Mark::Stroke(vec![high, low], pen));
            return;
        }
        let high = [
            self.high(self.start.x, under),
            self.high(self.parting.0, under),
            self.high(self.parting.0, top),
            self.high(self.start.x, top),
        ];
        let low = [
            self.low(self.parting.1, under),
            self.low(right, under),
            self.low(right, top),
            self.low(self.parting.1, top),
        ];
        let filling = Filling::of(course.layer);
        let seed = seed(course.layer.of.value.name());
        for corners in [high, low] {
            for mark in filling::marks(filling, seed, self.start, &corners) {
                drawn.draw(Layer::Textures, link, mark);
            }
        }
        let [a, b, c, d] = high;
        let faces = vec![Path::line(a, b), Path::line(d, c), Path::through(&low)];
        let pen = Pen::of(Weight::Mid);
        drawn.draw(Layer::Outlines, link, Mark::Stroke(faces, pen));
    }

    /// The soil under all that is laid.
    fn earth(&self, drawn: &mut Sketch) {
        let depth = self.cut.depth_m();
        let lowest = self.cut.courses.iter().rev().find_map(|course| {
            let (_, under) = course.depths()?;
            (under >= depth - 1e-9).then(|| self.beyond(course))
        });
        let right = self.edge.x + lowest.unwrap_or_default();
        let mut strokes = Vec::new();
        let spans = [
            (self.start.x, self.parting.0, true),
            (self.parting.1, right, false),
        ];
        for (from, to, is_high) in spans {
            let mut x = from + 1.0;
            while x + 4.6 < to {
                for step in 0..3 {
                    let x = x + 1.1 * f64::from(step);
                    let at = match is_high {
                        true => self.high(x, depth),
                        false => self.low(x, depth),
                    };
                    let under = at + Vector::new(0.0, -0.5);
                    strokes.push(Path::line(
                        under + Vector::new(1.8, 0.0),
                        under + Vector::new(0.0, -1.8),
                    ));
                }
                x += 6.4;
            }
        }
        if !strokes.is_empty() {
            let pen = Pen::of(Weight::Fine);
            drawn.draw(Layer::Textures, None, Mark::Stroke(strokes, pen));
        }
    }

    fn bottom(&self, at: Point) -> f64 {
        at.y - self.cut.depth_m() * self.per_metre - EARTH
    }

    fn wall(&self, drawn: &mut Sketch) {
        if !self.cut.is_at_building() {
            return;
        }
        let (top, bottom) = (self.start.y + 7.0, self.bottom(self.start));
        let band = [
            Point::new(self.start.x - WALL, bottom),
            Point::new(self.start.x, bottom),
            Point::new(self.start.x, top),
            Point::new(self.start.x - WALL, top),
        ];
        for mark in filling::marks(Filling::Wall, 1, band[0], &band) {
            drawn.draw(Layer::Building, None, mark);
        }
        let face = Mark::Stroke(vec![Path::line(band[1], band[2])], Pen::of(Weight::Heavy));
        drawn.draw(Layer::Building, None, face);
        let field = sample_corners();
        let marks = filling::marks(Filling::Wall, 1, field[0], &field);
        drawn.explain(boxed(marks), "Building", None);
    }

    /// The lines at which the middle is left out; at the high end too where
    /// no building stands.
    fn breaks(&self, drawn: &mut Sketch) {
        let mut at = vec![
            self.high(self.parting.0, 0.0),
            self.low(self.parting.1, 0.0),
        ];
        if !self.cut.is_at_building() {
            at.push(self.start);
        }
        let lines = at.into_iter().map(|at| {
            let (top, bottom) = (at.y + 2.5, self.bottom(at));
            let middle = f64::midpoint(top, bottom);
            let point = |right: f64, y: f64| Point::new(at.x + right, y);
            Path::through(&[
                point(0.0, top),
                point(0.0, middle + 1.6),
                point(-1.2, middle + 0.5),
                point(1.2, middle - 0.5),
                point(0.0, middle - 1.6),
                point(0.0, bottom),
            ])
        });
        let mark = Mark::Stroke(lines.collect(), Pen::of(Weight::Fine));
        drawn.draw(Layer::Sheet, None, mark);
    }

    fn isolation(&self, drawn: &mut Sketch) {
        let joint = self
            .cut
            .surfaces
            .iter()
            .find_map(|own| own.isolation_joint.as_ref());
        let Some(joint) = joint.filter(|_| self.cut.is_at_building()) else {
            return;
        };
        let rigid = self.cut.courses.iter().filter(|course| {
            let role = course.layer.role.value;
            matches!(role, Role::Paving | Role::Slab)
        });
        let depth = rigid.filter_map(Course::depths).map(|(_, under)| under);
        let depth = depth.fold(0.0, f64::max);
        let width = joint.value.si();
        let wide = (width * self.per_metre).clamp(0.5, 4.0);
        let strip = Path::rectangle(
            Point::new(self.start.x, self.high(self.start.x, depth).y),
            Point::new(self.start.x + wide, self.start.y),
        );
        let mark = Mark::Fill(vec![strip], Ink::Black);
        drawn.draw(Layer::Joints, Some(joint.place), mark);
        let sample = Path::rectangle(Point::new(6.5, 0.4), Point::new(7.5, 6.0));
        let words = measure::length(width, drawn.system);
        drawn.explain(
            vec![Mark::Fill(vec![sample], Ink::Black)],
            &format!("Isolation joint, {words} wide"),
            None,
        );
    }

    /// The ground past the low edge, where its level is known.
    fn ground(&self, drawn: &mut Sketch) {
        let Some(over) = self.cut.over_ground_m else {
            return;
        };
        let down = over * self.per_metre;
        let depth = self.cut.depth_m().max(edging::under_m(self.cut)) * self.per_metre;
        if down > depth + EARTH || down < -OVER / 2.0 {
            drawn.note("The ground at the low edge lies off the picture.".to_owned());
            return;
        }
        let y = self.edge.y - down;
        let widest = outside_m(self.cut);
        let widest = (widest * self.per_metre).min(self.widest);
        let held = edging::unit_m(self.cut).unwrap_or_default() * self.per_metre;
        let from = self.edge.x + f64::max(held.min(self.widest), 0.8);
        let to = self.edge.x + widest + GROUND - 1.0;
        let line = Path::line(Point::new(from, y), Point::new(to, y));
        drawn.draw(Layer::Outlines, None, Mark::Stroke(vec![line], GROUND_LINE));
        let strokes = (0..3).map(|step| {
            let at = Point::new(to - 5.2 + 1.1 * f64::from(step), y - 0.5);
            Path::line(at + Vector::new(1.8, 0.0), at + Vector::new(0.0, -1.8))
        });
        let mark = Mark::Stroke(strokes.collect(), Pen::of(Weight::Fine));
        drawn.draw(Layer::Textures, None, mark);
        drawn.explain(lined(GROUND_LINE), "Ground as stated", None);
    }

    fn captions(&self, drawn: &mut Sketch) {
        let middles = [
            f64::midpoint(self.start.x, self.parting.0),
            f64::midpoint(self.parting.1, self.edge.x),
        ];
        for (end, x) in self.cut.ends.into_iter().zip(middles) {
            let words = match self.cut.beside.filter(|_| end == End::LowBeside) {
                Some(name) => format!("{}, beside {}", end.words(), name.replace('-', " ")),
                None => end.words().to_owned(),
            };
            let room = self.parting.0 - self.start.x + GAP;
            let words = lettering::cut(&words, NOTE, Face::Regular, room);
            let setting = lettering::set(&words, NOTE, Face::Regular);
            let at = Point::new(x - setting.width / 2.0, self.caption);
            drawn.draw(Layer::Names, None, text(at, setting, Ink::Black));
        }
    }
}
