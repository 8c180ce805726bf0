//! What is drawn of a long section: the finish and the ground, the runs under
//! them, and what stands on the way.

use super::chain::{Run, Stop};
use super::layout::{AIR, Block, CAPTIONS, Layout};
use super::table::upright;
use crate::drawing::display_list::{Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::figure::Sketch;
use crate::drawing::filling::{self, Filling};
use crate::drawing::font::Face;
use crate::drawing::legend::{SAMPLE, lined};
use crate::drawing::lettering::{self, NOTE};
use crate::drawing::measure;
use crate::geometry::{Point, Vector};
use crate::model::{DrainBody, DrainKind, Pit};
use crate::units::System;

const FINISH: Pen = Pen::of(Weight::Heavy);
const GROUND: Pen = Pen::of(Weight::Mid);
const WATER: Pen = Pen::of(Weight::Mid).in_ink(Ink::Water);
const BURIED: Pen = WATER.dashed(&[1.6, 0.8]);
/// Half the width of what stands at a point and is drawn to no scale.
const GULLY: f64 = 0.9;
/// The most marks along the scale of levels.
const TICKS: u32 = 24;
/// The least between two of them on the paper.
const TICK: f64 = 7.0;

/// How far a pit goes to each side along the run, in metres.
pub(crate) fn half_width(stop: &Stop<'_>) -> f64 {
    match stop.drain.body.as_ref().map(|body| &body.value) {
        Some(DrainBody::Soakaway { pit, .. }) => match pit {
            Pit::Box(long, wide) => 0.5 * f64::max(long.value.si(), wide.value.si()),
            Pit::Round(across) => 0.5 * across.value.si(),
        },
        _ => 0.0,
    }
}

/// The lowest level of what stands at a point: the bottom of a soakaway, the
/// invert of a gully.
pub(crate) fn lowest(stop: &Stop<'_>) -> Option<f64> {
    match stop.drain.kind() {
        Some(DrainKind::Gully) => stop.figures.head_m,
        _ => bottom(stop),
    }
}

/// The level of the bottom of a pit, as far as it is known.
fn bottom(stop: &Stop<'_>) -> Option<f64> {
    let Some(DrainBody::Soakaway { deep, .. }) = stop.drain.body.as_ref().map(|body| &body.value)
    else {
        return None;
    };
    Some(stop.figures.head_m? - deep.as_ref()?.value.si())
}

/// How the levels and lengths of a chain lie on the paper.
pub(crate) struct Frame {
    start: f64,
    along: f64,
    upright: f64,
    /// The lowest level, and where it lies.
    low: (f64, f64),
}

impl Frame {
    /// That of a block whose lowest level lies at a height of the paper.
    pub(crate) fn of(layout: &Layout, block: &Block<'_, '_>, foot: f64) -> Frame {
        Frame {
            start: CAPTIONS,
            along: layout.along_per_metre(),
            upright: layout.upright_per_metre(),
            low: (block.levels.0, foot),
        }
    }

    /// A place on the paper.
    pub(crate) fn at(&self, along_m: f64, level_m: f64) -> Point {
        Point::new(self.start + along_m * self.along, self.height(level_m))
    }

    /// The height of a level on the paper.
    pub(crate) fn height(&self, level_m: f64) -> f64 {
        self.low.1 + (level_m - self.low.0) * self.upright
    }
}

/// Draws it.
pub(crate) fn draw(sketch: &mut Sketch, block: &Block<'_, '_>, frame: &Frame) {
    for stop in &block.chain.stops {
        pit(sketch, block, frame, stop);
    }
    for run in &block.chain.runs {
        self::run(sketch, frame, run);
    }
    for run in &block.chain.runs {
        tops(sketch, block, frame, run);
    }
}

fn run(sketch: &mut Sketch, frame: &Frame, run: &Run<'_>) {
    let length = run.course.length();
    let link = Some(
        run.drain
            .line
            .as_ref()
            .map_or(run.drain.place, |line| line.place),
    );
    let name = &run.drain.name.value;
    let (Some(head), Some(end)) = (run.invert(0.0), run.invert(length)) else {
        sketch.note(format!(
            "{name}: its inverts are not known, and it is not drawn."
        ));
        return;
    };
    let (from, to) = (run.from_m, run.to_m());
    let bottom = [frame.at(from, head), frame.at(to, end)];
    let crowns = run.crown(0.0).zip(run.crown(length));
    let kind = run.drain.kind();
    let ceiling: Vec<Point> = match (kind, crowns) {
        (Some(DrainKind::Pipe), Some((head, end))) => vec![frame.at(from, head), frame.at(to, end)],
        (Some(DrainKind::Pipe), None) => {
            sketch.note(format!(
                "{name}: its size is not known; its invert is drawn alone."
            ));
            Vec::new()
        }
        // A channel and a trench are open up to the finish.
        _ => run
            .tops()
            .filter_map(|(piece, top)| Some((piece, top?)))
            .flat_map(|(piece, (start, end))| {
                [
                    frame.at(from + piece.from_m, start),
                    frame.at(from + piece.to_m(), end),
                ]
            })
            .collect(),
    };
    let pen = match kind {
        Some(DrainKind::Trench) => BURIED,
        _ => WATER,
    };
    if let [first, .., last] = ceiling.as_slice() {
        let mut round = ceiling.clone();
        round.extend([bottom[1], bottom[0]]);
        for mark in inside(kind, &round) {
            sketch.draw(Layer::Water, link, mark);
        }
        let mut lines = vec![Path::line(bottom[0], *first), Path::line(bottom[1], *last)];
        if kind == Some(DrainKind::Pipe) {
            lines.push(Path::line(*first, *last));
        }
        sketch.draw(Layer::Water, link, Mark::Stroke(lines, pen));
    }
    let invert = Path::line(bottom[0], bottom[1]);
    sketch.draw(Layer::Water, link, Mark::Stroke(vec![invert], pen));
    if kind == Some(DrainKind::Trench) {
        pipe_in(sketch, frame, run, bottom);
    }
    sketch.explain(run_sample(kind, pen), run_title(kind), None);
}

/// The pipe in a trench, on its bottom.
fn pipe_in(sketch: &mut Sketch, frame: &Frame, run: &Run<'_>, [head, end]: [Point; 2]) {
    let body = run.drain.body.as_ref();
    let Some(crown) = body.and_then(|body| body.value.pipe()?.crown_m()) else {
        return;
    };
    let up = Vector::new(0.0, crown * frame.upright);
    let round = [head, end, end + up, head + up];
    let kind = Some(DrainKind::Pipe);
    let link = Some(run.drain.place);
    for mark in inside(kind, &round) {
        sketch.draw(Layer::Water, link, mark);
    }
    let outline = Mark::Stroke(vec![Path::polygon(&round)], WATER);
    sketch.draw(Layer::Water, link, outline);
    sketch.explain(run_sample(kind, WATER), run_title(kind), None);
    sketch.note(format!(
        "{}: how high the pipe lies is not stated; it is drawn on the bottom of its trench.",
        run.drain.name.value.replace('-', " ")
    ));
}

/// What a run holds: water, or the stone of a trench.
fn inside(kind: Option<DrainKind>, corners: &[Point]) -> Vec<Mark> {
    match kind {
        Some(DrainKind::Trench) => filling::marks(Filling::Stones, 1, Point::ORIGIN, corners),
        _ => vec![Mark::Fill(vec![Path::polygon(corners)], Ink::WaterTint)],
    }
}

fn run_title(kind: Option<DrainKind>) -> &'static str {
    match kind {
        Some(DrainKind::Channel) => "Channel, from the finish to its invert",
        Some(DrainKind::Trench) => "Trench, from the finish to its bottom",
        _ => "Pipe, from its invert to its top",
    }
}

fn run_sample(kind: Option<DrainKind>, pen: Pen) -> Vec<Mark> {
    let (wide, high) = SAMPLE;
    let (low, deep) = match kind {
        Some(DrainKind::Trench) => (1.0, high - 1.0),
        _ => (high / 2.0, 2.2),
    };
    let corners = [
        Point::new(0.0, low),
        Point::new(wide, low - 1.0),
        Point::new(wide, low - 1.0 + deep),
        Point::new(0.0, low + deep),
    ];
    let mut marks = inside(kind, &corners);
    marks.push(Mark::Stroke(vec![Path::polygon(&corners)], pen));
    marks
}

/// A gully from the finish to its invert; a soakaway from the crown of what
/// comes in to its bottom.
fn pit(sketch: &mut Sketch, block: &Block<'_, '_>, frame: &Frame, stop: &Stop<'_>) {
    let link = Some(stop.drain.place);
    let nearest = block
        .stations
        .iter()
        .filter(|own| (own.at_m - stop.at_m).abs() < 1.2)
        .min_by(|one, other| {
            let off = |at: f64| (at - stop.at_m).abs();
            off(one.at_m).total_cmp(&off(other.at_m))
        });
    let Some(station) = nearest else { return };
    match stop.drain.kind() {
        Some(DrainKind::Soakaway) => {
            let (Some(under), Some(inlet)) = (bottom(stop), stop.figures.head_m) else {
                let name = &stop.drain.name.value;
                sketch.note(format!(
                    "{name}: how deep it is, is not known; it is not drawn."
                ));
                return;
            };
            let over = station.crown_m.unwrap_or(inlet);
            let half = half_width(stop) * frame.along;
            let (low, high) = (frame.at(stop.at_m, under), frame.at(stop.at_m, over));
            let aside = Vector::new(half.max(GULLY), 0.0);
            let shape = Path::rectangle(low + -aside, high + aside);
            sketch.draw(Layer::Water, link, Mark::Stroke(vec![shape], BURIED));
            let sample = Path::rectangle(Point::new(4.0, 0.2), Point::new(10.0, 6.2));
            let sample = vec![Mark::Stroke(vec![sample], BURIED)];
            let title = "Soakaway, from the top of the pipe to its bottom";
            sketch.explain(sample, title, None);
        }
        Some(DrainKind::Gully) => {
            // Down to its own invert or the end of a run, whichever is lower.
            let here = block.stations.iter();
            let here = here.filter(|own| (own.at_m - station.at_m).abs() < 1e-6);
            let inverts = here.filter_map(|own| own.invert_m).chain(lowest(stop));
            let invert = inverts.reduce(f64::min);
            let Some((top, invert)) = station.top_m.zip(invert) else {
                return;
            };
            let (low, high) = (frame.at(stop.at_m, invert), frame.at(stop.at_m, top));
            let aside = Vector::new(GULLY, 0.0);
            let shape = Path::rectangle(low + -aside, high + aside);
            sketch.draw(Layer::Water, link, Mark::Stroke(vec![shape], WATER));
            let sample = Path::rectangle(Point::new(6.1, 0.2), Point::new(7.9, 6.2));
            let sample = vec![Mark::Stroke(vec![sample], WATER)];
            sketch.explain(sample, "Gully, down to its invert; not at its width", None);
        }
        _ => {}
    }
}

/// The finish and the ground over a run.
fn tops(sketch: &mut Sketch, block: &Block<'_, '_>, frame: &Frame, run: &Run<'_>) {
    let mut before: Option<Point> = None;
    for (piece, top) in run.tops() {
        let Some((start, end)) = top else {
            let of = match piece.under {
                Some(index) => block.surfaces.get(index).cloned(),
                None => Some("the ground".to_owned()),
            };
            let of = of.unwrap_or_else(|| "a surface".to_owned());
            sketch.note(format!(
                "The level of {of} is not known, and it is not drawn."
            ));
            before = None;
            continue;
        };
        let from = frame.at(run.from_m + piece.from_m, start);
        let to = frame.at(run.from_m + piece.to_m(), end);
        if let Some(before) = before {
            let step = Mark::Stroke(vec![Path::line(before, from)], GROUND);
            sketch.draw(Layer::Outlines, None, step);
        }
        before = Some(to);
        let line = Path::line(from, to);
        match piece.under {
            Some(_) => {
                sketch.draw(Layer::Outlines, None, Mark::Stroke(vec![line], FINISH));
                sketch.explain(lined(FINISH), "Finished surface", None);
            }
            None => {
                sketch.draw(Layer::Outlines, None, Mark::Stroke(vec![line], GROUND));
                sketch.draw(Layer::Textures, None, earth(from, to));
                let (left, right) = (Point::new(0.0, 4.0), Point::new(SAMPLE.0, 4.0));
                let line = Mark::Stroke(vec![Path::line(left, right)], GROUND);
                sketch.explain(vec![line, earth(left, right)], "Ground as stated", None);
            }
        }
    }
}

/// Threes of strokes under a line.
fn earth(from: Point, to: Point) -> Mark {
    let mut strokes = Vec::new();
    let run = to.x - from.x;
    let count = ((run - 1.0) / 6.4).floor().clamp(0.0, 200.0) as u32;
    for number in 0..count {
        for step in 0..3 {
            let off = 1.0 + 6.4 * f64::from(number) + 1.1 * f64::from(step);
            let y = from.y + (to.y - from.y) * off / run - 0.5;
            let at = Point::new(from.x + off, y);
            strokes.push(Path::line(
                at + Vector::new(1.4, 0.0),
                at + Vector::new(0.0, -1.4),
            ));
        }
    }
    Mark::Stroke(strokes, Pen::of(Weight::Fine))
}

/// The names of the stations over the picture, each over its column.
pub(crate) fn names(
    sketch: &mut Sketch,
    layout: &Layout,
    block: &Block<'_, '_>,
    (foot, room): (f64, f64),
) {
    let columns = block.table.columns(&block.stations, layout);
    let reported = block.table.reported.iter();
    let stations = reported.filter_map(|index| block.stations.get(*index));
    for ((at, column), station) in columns.into_iter().zip(stations) {
        let Some(name) = &station.name else { continue };
        let name = lettering::cut(name, NOTE, Face::Regular, room);
        let setting = lettering::set(&name, NOTE, Face::Regular);
        let mark = upright(&setting, Point::new(column, foot));
        sketch.draw(Layer::Names, None, mark);
        let lead = Path::through(&[
            Point::new(column, foot - 0.6),
            Point::new(at, foot - AIR + 1.0),
        ]);
        let mark = Mark::Stroke(vec![lead], Pen::of(Weight::Fine).in_ink(Ink::Grey));
        sketch.draw(Layer::Dimensions, None, mark);
    }
}

/// The scale of levels at the left: round levels, each with its mark.
pub(crate) fn levels(sketch: &mut Sketch, layout: &Layout, frame: &Frame, levels: (f64, f64)) {
    let rounds: &[f64] = match sketch.system {
        System::Metric => &[0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 50.0],
        System::Imperial => &[
            0.0254, 0.0508, 0.1016, 0.1524, 0.3048, 0.6096, 1.524, 3.048, 15.24, 30.48,
        ],
    };
    let fits = |step: &&f64| **step * layout.upright_per_metre() >= TICK;
    let Some(step) = rounds.iter().find(fits) else {
        return;
    };
    let x = CAPTIONS - 4.0;
    let first = (levels.0 / step - 1e-9).ceil();
    let told = (0..TICKS).map(|number| (first + f64::from(number)) * step);
    let mut told: Vec<f64> = told.take_while(|level| *level <= levels.1 + 1e-9).collect();
    // Between two round levels the highest is told as it is.
    if told.is_empty() {
        told.push(levels.1);
    }
    let mut strokes = Vec::new();
    for level in told {
        let y = frame.height(level);
        strokes.push(Path::line(Point::new(x - 1.2, y), Point::new(x, y)));
        let words = measure::level(level, sketch.system);
        let setting = lettering::set(&words, NOTE, Face::Regular);
        let at = Point::new(x - 2.2 - setting.width, y - NOTE / 2.0);
        sketch.write(None, at, setting, Ink::Black);
    }
    let ends = (frame.height(levels.0), frame.height(levels.1));
    strokes.push(Path::line(Point::new(x, ends.0), Point::new(x, ends.1)));
    sketch.draw(
        Layer::Levels,
        None,
        Mark::Stroke(strokes, Pen::of(Weight::Fine)),
    );
}
