//! A flight drawn from the side, to scale: what it is built of, what lies
//! before its foot and behind its top, the level of each nosing.

use super::layout::{LEVELS, Layout, OVER, SAID, depth, heights, rail};
use super::profile::{End, Part, Profile};
use crate::drawing::display_list::{Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::figure::Sketch;
use crate::drawing::filling::{self, Filling};
use crate::drawing::font::Face;
use crate::drawing::legend::{boxed, lined, sample_corners};
use crate::drawing::lettering::{self, LABEL, NOTE};
use crate::drawing::measure;
use crate::drawing::texture::seed;
use crate::geometry::{Point, Vector};
use crate::model::Steps;
use crate::text::capital;
use crate::units::show;
use crate::vocabulary::Handrail;

const FINISH: Pen = Pen::of(Weight::Heavy);
const FACE: Pen = Pen::of(Weight::Mid);
const FINE: Pen = Pen::of(Weight::Fine);
/// From the highest thing that is drawn up to the line of the goings.
const GOINGS: f64 = 6.0;
/// How far over the nosings a handrail is drawn.
const RAIL_HIGH: f64 = 12.0;
/// How far the earth is hatched.
const STROKE: f64 = 1.8;

/// A flight on the paper.
pub(crate) struct Side<'l> {
    profile: &'l Profile<'l>,
    layout: &'l Layout,
    per_metre: f64,
    /// The foot of the flight at level 0 on the paper.
    origin: Point,
    /// The highest thing that is drawn.
    high: f64,
}

impl<'l> Side<'l> {
    /// That of a profile.
    pub(crate) fn of(layout: &'l Layout, profile: &'l Profile<'l>) -> Side<'l> {
        let per_metre = layout.per_metre();
        let (_, most) = heights(profile);
        let high = -OVER;
        let start = LEVELS - profile.span.0 * per_metre;
        Side {
            profile,
            layout,
            per_metre,
            origin: Point::new(start, high - rail(profile) - most * per_metre),
            high,
        }
    }

    fn at(&self, place: Point) -> Point {
        self.origin + (place - Point::ORIGIN) * self.per_metre
    }

    /// Draws it, and says what it is.
    pub(crate) fn draw(&self, sketch: &mut Sketch) {
        for end in &self.profile.ends {
            self.courses(sketch, end);
        }
        for part in &self.profile.parts {
            self.part(sketch, part);
        }
        for end in &self.profile.ends {
            self.finish(sketch, end);
        }
        self.earth(sketch);
        self.handrail(sketch);
        self.goings(sketch);
        self.levels(sketch);
        self.words(sketch);
    }

    fn piece(
        &self,
        sketch: &mut Sketch,
        link: crate::findings::Place,
        (filling, seed): (Filling, u64),
        corners: &[Point],
    ) {
        let paper = Path::polygon(corners);
        let clear = Mark::Fill(vec![paper.clone()], Ink::Paper);
        sketch.draw(Layer::Textures, Some(link), clear);
        for mark in filling::marks(filling, seed, self.origin, corners) {
            sketch.draw(Layer::Textures, Some(link), mark);
        }
        let faces = Mark::Stroke(vec![paper], FACE);
        sketch.draw(Layer::Outlines, Some(link), faces);
    }

    fn part(&self, sketch: &mut Sketch, part: &Part<'_>) {
        let seed = seed(part.material);
        for corners in &part.pieces {
            let corners: Vec<Point> = corners.iter().map(|corner| self.at(*corner)).collect();
            self.piece(sketch, part.place, (part.filling, seed), &corners);
        }
        let sample = filling::marks(part.filling, seed, Point::ORIGIN, &sample_corners());
        let title = format!(
            "{}: {}",
            capital(part.word),
            part.material.replace('-', " ")
        );
        let note = described(self.profile.own, part.word, sketch.system);
        sketch.explain(boxed(sample), &title, note);
    }

    /// What the surface at an end is built of, as far as its thicknesses are
    /// known; a base of the flight is drawn over it.
    fn courses(&self, sketch: &mut Sketch, end: &End<'_>) {
        let layers = end.surface.and_then(|surface| surface.build.as_ref());
        let layers = layers.into_iter().flat_map(|build| &build.value.layers);
        let (from, to) = end.span;
        let mut down = 0.0;
        for layer in layers {
            if layer.role.value.is_sheet() {
                continue;
            }
            let Some(thickness) = &layer.thickness else {
                break;
            };
            let under = down + thickness.value.si();
            let corner = |x: f64, deep: f64| self.at(Point::new(x, end.level(x) - deep));
            let corners = [
                corner(from, under),
                corner(to, under),
                corner(to, down),
                corner(from, down),
            ];
            let seed = seed(layer.of.value.name());
            self.piece(sketch, layer.place, (Filling::of(layer), seed), &corners);
            down = under;
        }
    }

    /// The finished line at an end, and the line at which it is broken off.
    fn finish(&self, sketch: &mut Sketch, end: &End<'_>) {
        let (from, to) = end.span;
        let place = |x: f64| self.at(Point::new(x, end.level(x)));
        let line = Path::line(place(from), place(to));
        let link = end.surface.map(|surface| surface.place);
        let (pen, title) = match end.is_ground {
            true => (FACE, "Ground as stated"),
            false => (FINISH, "Finished surface"),
        };
        sketch.draw(Layer::Outlines, link, Mark::Stroke(vec![line], pen));
        sketch.explain(lined(pen), title, None);
        let at = place(to);
        let deep = end.surface.map_or(0.0, depth) * self.per_metre;
        let bottom = (at.y - deep - 4.0).min(at.y - 6.0);
        let middle = f64::midpoint(at.y + 2.5, bottom);
        let point = |aside: f64, y: f64| Point::new(at.x + aside, y);
        let broken = Path::through(&[
            point(0.0, at.y + 2.5),
            point(0.0, middle + 1.6),
            point(-1.2, middle + 0.5),
            point(1.2, middle - 0.5),
            point(0.0, middle - 1.6),
            point(0.0, bottom),
        ]);
        sketch.draw(Layer::Sheet, None, Mark::Stroke(vec![broken], FINE));
    }

    /// The soil under the lowest part, and under ground that is bare.
    fn earth(&self, sketch: &mut Sketch) {
        let mut strokes = Vec::new();
        let lowest = self
            .profile
            .parts
            .first()
            .filter(|part| part.word == "base");
        for corners in lowest.into_iter().flat_map(|part| &part.pieces) {
            if let [low, other, ..] = corners.as_slice() {
                strokes.extend(earth(self.at(*low), self.at(*other)));
            }
        }
        let reach = lowest
            .and_then(|part| part.pieces.first()?.first().copied())
            .map_or(0.0, |corner| corner.x.abs());
        for end in &self.profile.ends {
            let (from, to) = end.span;
            let deep = end.surface.map_or(0.0, depth);
            if !end.is_ground && deep <= 0.0 {
                continue;
            }
            let out = (to - from).signum();
            let near = from + out * reach;
            let place = |x: f64| self.at(Point::new(x, end.level(x) - deep));
            let (one, other) = (place(near), place(to));
            match one.x < other.x {
                true => strokes.extend(earth(one, other)),
                false => strokes.extend(earth(other, one)),
            }
        }
        sketch.draw(Layer::Textures, None, Mark::Stroke(strokes, FINE));
    }

    /// The handrail along the nosings, its posts broken: how high it stands is
    /// not stated.
    fn handrail(&self, sketch: &mut Sketch) {
        let (profile, flight) = (self.profile, self.profile.flight);
        let Some(stated) = &profile.own.handrail else {
            return;
        };
        // Clear of the lines of the goings, which rise from the nosings.
        let aside = |index: u32| self.at(profile.nosing(index)) + Vector::new(1.6, 0.0);
        let (first, last) = (aside(0), aside(flight.risers.saturating_sub(1)));
        let up = |foot: Point, high: f64| foot + Vector::new(0.0, high);
        let far = match flight.risers {
            0 | 1 => Vector::new(8.0, 0.0),
            _ => last - first,
        };
        let rail = Path::line(up(first, RAIL_HIGH), up(first, RAIL_HIGH) + far);
        let mut posts = Vec::new();
        for foot in [first, first + far] {
            let (low, high) = (RAIL_HIGH / 2.0 - 0.7, RAIL_HIGH / 2.0 + 0.7);
            posts.push(Path::line(foot, up(foot, low)));
            posts.push(Path::line(up(foot, high), up(foot, RAIL_HIGH)));
            for y in [low, high] {
                let half = Vector::new(1.2, 0.6);
                posts.push(Path::line(up(foot, y) + -half, up(foot, y) + half));
            }
        }
        let link = Some(stated.place);
        sketch.draw(Layer::Outlines, link, Mark::Stroke(vec![rail], FINISH));
        sketch.draw(Layer::Outlines, link, Mark::Stroke(posts, FACE));
        let note = "its height is not stated, its posts are broken";
        sketch.explain(lined(FINISH), "Handrail", Some(note.to_owned()));
    }

    /// The goings over the flight, from nosing to nosing.
    fn goings(&self, sketch: &mut Sketch) {
        let (profile, flight) = (self.profile, self.profile.flight);
        if flight.treads() == 0 {
            return;
        }
        let link = profile.own.going.as_ref().map(|going| going.place);
        let y = self.high + GOINGS;
        // Sixty nosings are as many as can be told apart.
        let every = (flight.risers / 60).max(1);
        let reported =
            (0..flight.risers).filter(|index| index % every == 0 || index + 1 == flight.risers);
        let mut lines = Vec::new();
        let mut ticks = Vec::new();
        for index in reported {
            let x = f64::from(index) * flight.going_m * self.per_metre + self.origin.x;
            // Of many lines down to the nosings those at the ends are enough.
            let low = match index == 0 || index + 1 == flight.risers {
                true => self.at(profile.nosing(index)).y + 1.5,
                false => y - 1.8,
            };
            lines.push(Path::line(Point::new(x, low), Point::new(x, y + 1.8)));
            let half = Vector::new(1.25, 1.25).unit() * 1.25;
            let at = Point::new(x, y);
            ticks.push(Path::line(at + -half, at + half));
        }
        let last = flight.run_m * self.per_metre;
        let ends = (self.origin.x, self.origin.x + last);
        lines.push(Path::line(Point::new(ends.0, y), Point::new(ends.1, y)));
        sketch.draw(Layer::Dimensions, link, Mark::Stroke(lines, FINE));
        sketch.draw(Layer::Dimensions, link, Mark::Stroke(ticks, FACE));
        let shown = |metres| measure::length(metres, sketch.system);
        let words = match flight.treads() {
            1 => shown(flight.going_m),
            many => format!(
                "{many} × {} = {}",
                shown(flight.going_m),
                shown(flight.run_m)
            ),
        };
        let setting = lettering::set(&words, LABEL, Face::Medium);
        let middle = f64::midpoint(ends.0, ends.1);
        let x = (middle - setting.width / 2.0)
            .min(self.layout.width - setting.width)
            .max(LEVELS - 4.0);
        let under = match setting.bars.is_empty() {
            true => 2.4,
            false => setting.below + 2.4,
        };
        let at = Point::new(x, y + under);
        sketch.draw(
            Layer::Dimensions,
            link,
            crate::drawing::beside::text(at, setting, Ink::Black),
        );
    }

    /// The level of the foot and of each nosing, at the left.
    fn levels(&self, sketch: &mut Sketch) {
        let (profile, flight) = (self.profile, self.profile.flight);
        let every = self.layout.every(profile);
        let mut reported: Vec<(String, f64, f64)> =
            vec![(String::new(), flight.foot_m, profile.span.0)];
        for index in 0..flight.risers {
            if (index + 1) % every == 0 || index + 1 == flight.risers {
                let nosing = profile.nosing(index);
                reported.push(((index + 1).to_string(), nosing.y, nosing.x));
            }
        }
        let mut before: Option<f64> = None;
        let mut lines = Vec::new();
        let right = LEVELS - 7.0;
        // From the top down: what has no room beside its nosing stands lower.
        for (riser, level, x) in reported.into_iter().rev() {
            let to = self.at(Point::new(x, level));
            let y = before.map_or(to.y, |before| to.y.min(before - self.layout.step));
            before = Some(y);
            let words = measure::level(level, sketch.system);
            let setting = lettering::set(&words, NOTE, Face::Medium);
            let base = y - NOTE / 2.0;
            let at = Point::new(right - setting.width, base);
            sketch.draw(
                Layer::Levels,
                None,
                crate::drawing::beside::text(at, setting, Ink::Black),
            );
            if !riser.is_empty() {
                let number = lettering::set(&riser, NOTE, Face::Regular);
                let at = Point::new(5.0 - number.width, base);
                sketch.write(None, at, number, Ink::Black);
            }
            lines.push(Path::through(&[
                Point::new(right + 1.0, y),
                Point::new(right + 4.0, to.y),
                Point::new(to.x - 0.4, to.y),
            ]));
        }
        let mark = Mark::Stroke(lines, FINE.in_ink(Ink::Grey));
        sketch.draw(Layer::Levels, None, mark);
        let y = self.high + GOINGS;
        for (words, right) in [("riser", 5.0), ("level", right)] {
            let setting = lettering::set(words, NOTE, Face::Regular);
            let at = Point::new((right - setting.width).max(0.0), y);
            sketch.write(None, at, setting, Ink::Pale);
        }
    }

    /// What the flight comes to, in a line under its heading.
    fn words(&self, sketch: &mut Sketch) {
        let (profile, flight) = (self.profile, self.profile.flight);
        let system = sketch.system;
        let shown = |metres| measure::thickness(metres, system);
        let mut words = vec![match flight.risers {
            1 => format!("1 riser of {}", shown(flight.riser_m)),
            more => format!("{more} risers of {}", shown(flight.riser_m)),
        }];
        if flight.odd_m.abs() > 1e-4 {
            words.push(format!("the lowest {}", shown(flight.lowest_m())));
        }
        words.push(format!("{} up", measure::length(flight.rise_m, system)));
        words.push(format!("{} wide", measure::length(flight.width_m, system)));
        let [before, behind] = &profile.ends;
        let mut line = format!(
            "From {} to {}: {}.",
            before.name,
            behind.name,
            words.join(", ")
        );
        if let Some(handrail) = &profile.own.handrail {
            let side = match handrail.value {
                Handrail::Both => "on both sides".to_owned(),
                Handrail::One => "on one side".to_owned(),
                side => format!("on the {}", side.word()),
            };
            line += &format!(" Handrail {side} as one goes up; how high is not stated.");
        }
        let drawn = LEVELS + (profile.span.1 - profile.span.0) * self.per_metre;
        let width = drawn.max(SAID).min(self.layout.width);
        let lines = lettering::broken(&line, NOTE, Face::Regular, width);
        let mut y = -crate::drawing::lettering::HEADING - 2.4;
        for setting in lines.into_iter().take(3) {
            y -= setting.above;
            let at = Point::new(0.0, y);
            y -= setting.below.max(0.9);
            sketch.write(Some(profile.own.place), at, setting, Ink::Black);
        }
    }
}

/// What more is to be said of a part.
fn described(own: &Steps, word: &str, system: crate::units::System) -> Option<String> {
    let shown = |own: &crate::model::Stated<crate::units::Quantity>| {
        measure::thickness(own.value.si(), system)
    };
    let words: Vec<String> = match word {
        "treads" => {
            let tread = own.tread.as_ref()?;
            let thick = tread
                .thickness
                .as_ref()
                .map(|own| format!("{} thick", shown(own)));
            let out = tread.nosing.as_ref();
            let out = out.map(|out| format!("nosing {}", shown(out)));
            let fall = own.fall.as_ref();
            let fall =
                fall.map(|fall| format!("falls {} to its front", show::slope(fall.value.si())));
            [thick, out, fall].into_iter().flatten().collect()
        }
        "risers" => {
            let facing = own.riser.as_ref()?;
            let thick = facing.thickness.as_ref();
            let courses = facing.courses.as_ref();
            let thick = thick.map(|own| format!("{} thick", shown(own)));
            let courses = courses.map(|own| format!("courses of {}", shown(own)));
            let flat = facing.flat.map(|_| "laid flat".to_owned());
            [thick, flat, courses].into_iter().flatten().collect()
        }
        "bed" => {
            let thick = own.bed.as_ref()?.thickness.as_ref();
            thick
                .map(|own| format!("{} thick", shown(own)))
                .into_iter()
                .collect()
        }
        "base" => {
            let base = own.base.as_ref()?;
            let thick = base.layer.thickness.as_ref();
            let thick = thick.map(|own| format!("{} thick", shown(own)));
            let top = base.top.as_ref();
            let top = top.map(|top| format!("its top {} under the foot", shown(top)));
            [thick, top].into_iter().flatten().collect()
        }
        _ => Vec::new(),
    };
    (!words.is_empty()).then(|| words.join(", "))
}

/// Threes of strokes under a line from left to right.
fn earth(from: Point, to: Point) -> Vec<Path> {
    let run = to.x - from.x;
    let count = ((run - 3.0) / 6.4).ceil().clamp(0.0, 200.0) as u32;
    let places = (0..count)
        .flat_map(|number| [0.0, 1.1, 2.2].map(|step| 1.0 + 6.4 * f64::from(number) + step));
    let inside = places.filter(|off| *off + STROKE < run);
    inside
        .map(|off| {
            let y = from.y + (to.y - from.y) * off / run - 0.5;
            let at = Point::new(from.x + off, y);
            Path::line(
                at + Vector::new(STROKE, 0.0),
                at + Vector::new(0.0, -STROKE),
            )
        })
        .collect()
}
