//! Drains: pipes with the way that they run and their inverts, trenches,
//! gullies, and soakaways at their size. Channels along an edge are drawn with
//! the borders.

use super::canvas::Canvas;
use super::ground::View;
use crate::analysis::Analysis;
use crate::drawing::display_list::{Extents, Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::labels::{Instead, Label, SIDES_FIRST};
use crate::drawing::legend::{SAMPLE, centred, fall_arrow, lined};
use crate::drawing::lettering::{self, LABEL, NOTE, Setting};
use crate::drawing::letters::letter_of;
use crate::drawing::measure;
use crate::findings::Place;
use crate::geometry::{Edge, Point, Vector};
use crate::model::{Drain, DrainBody, DrainKind, DrainLine, Job};
use crate::quantities::DrainFigures;
use crate::units::show;
use crate::vocabulary::Term;

/// Half the side of a gully whose size is not known, in millimetres of paper.
const GULLY: f64 = 1.4;

/// The length of the arrow on a pipe.
const ARROW: f64 = 7.0;

/// The widest line of a label.
const WIDEST: f64 = 48.0;

/// Inverts nearer than this on paper are told apart by the names of their drains.
const NEAR: f64 = 8.0;

/// Draws the drains of a job, which are to be labelled.
pub(crate) fn draw(canvas: &mut Canvas, analysis: &Analysis) {
    for (drain, figures) in drains(analysis) {
        let Some(line) = &drain.line else {
            canvas.note(format!(
                "{}: where it lies is not known, and it is not drawn.",
                drain.name.value
            ));
            continue;
        };
        match &line.value {
            DrainLine::At(at) => stands(canvas, drain, *at, line.place),
            _ => runs(canvas, &analysis.job, drain, figures, line.place),
        }
    }
}

/// Writes what the drains of a job are called and the inverts of their ends.
pub(crate) fn label(canvas: &mut Canvas, analysis: &Analysis) {
    for (drain, figures) in drains(analysis) {
        let line = drain.line.as_ref().map(|line| &line.value);
        match line {
            Some(DrainLine::At(at)) => name_standing(canvas, &analysis.job, drain, *at),
            Some(_) => name_run(canvas, &analysis.job, drain, figures),
            None => {}
        }
    }
    let ends: Vec<Invert<'_>> = drains(analysis)
        .flat_map(|(drain, figures)| inverts(canvas, drain, figures))
        .collect();
    for own in &ends {
        let is_near = |other: &&Invert<'_>| other.at.distance(own.at) < NEAR;
        // Where several stand, each says whose it is.
        let words = match ends.iter().filter(is_near).count() {
            1 => format!("invert {}", own.level),
            _ => format!("{} invert {}", shown(own.drain), own.level),
        };
        let link = own.drain.inverts.first().map(|invert| invert.value.place);
        let link = link.unwrap_or(own.drain.place);
        beside(
            canvas,
            Label::of(vec![noted(&words)], own.at, Some(link)),
            2.0,
        );
    }
}

fn drains(analysis: &Analysis) -> impl Iterator<Item = (&Drain, &DrainFigures)> {
    let figures = analysis.figures.drains.iter();
    let all = analysis.job.drains.iter().zip(figures);
    all.map(|(drain, figures)| (&**drain, figures))
}

/// Every point that a plan has to hold for its drains.
pub(crate) fn corners(job: &Job, view: &View) -> Vec<Point> {
    let mut corners = Vec::new();
    for drain in job.drains.iter() {
        match (drain.plan(), drain.line.as_ref().map(|line| &line.value)) {
            (Some(plan), _) => corners.extend(plan.corners()),
            (None, Some(DrainLine::At(at))) => corners.push(*at),
            (None, Some(line)) => {
                corners.extend(line.edges().iter().flat_map(|edge| [edge.start, edge.end]));
            }
            (None, None) => {}
        }
    }
    corners
        .into_iter()
        .map(|corner| view.point(corner))
        .collect()
}

const fn pen() -> Pen {
    Pen::of(Weight::Mid).in_ink(Ink::Water)
}

/// A gully or a soakaway.
fn stands(canvas: &mut Canvas, drain: &Drain, at: Point, link: Place) {
    let middle = canvas.view.point(at);
    let (shape, half) = standing(canvas, drain, middle);
    let is_gully = drain.kind() == Some(DrainKind::Gully);
    if is_gully {
        // To scale it would be a dot on most sheets.
        for mark in gully(middle, half) {
            canvas.draw(Layer::Water, Some(link), mark);
        }
        canvas.explain(
            centred(|middle| gully(middle, GULLY)),
            Term::Gully.word(canvas.region),
            None,
        );
    } else {
        let dashed = pen().dashed(&[1.6, 0.8]);
        canvas.draw(Layer::Water, Some(link), Mark::Stroke(vec![shape], dashed));
        let sample = Path::rectangle(Point::new(4.0, 0.2), Point::new(10.0, 6.2));
        let sample = vec![Mark::Stroke(vec![sample], dashed)];
        let pit = Term::Soakaway.word(canvas.region);
        canvas.explain(sample, &format!("{pit}, at its size"), None);
    }
    canvas.board.take(Extents::about(middle, half, half));
}

/// The shape on paper of what stands at a point, and half its size; one whose
/// size is not known has a mark.
fn standing(canvas: &Canvas, drain: &Drain, middle: Point) -> (Path, f64) {
    match drain.plan().map(|plan| canvas.view.outline(&plan)) {
        Some(plan) => {
            let (low, high) = plan.bounding_box();
            let half = 0.5 * f64::max(high.x - low.x, high.y - low.y);
            (Path::round(&plan.outer), half.max(GULLY))
        }
        None => (square(middle, GULLY), GULLY),
    }
}

/// Names a gully, a pit or a soakaway.
fn name_standing(canvas: &mut Canvas, job: &Job, drain: &Drain, at: Point) {
    let middle = canvas.view.point(at);
    let (_, half) = standing(canvas, drain, middle);
    let mut lines = vec![named(drain)];
    if let Some(DrainBody::Soakaway {
        deep: Some(deep), ..
    }) = drain.body.as_ref().map(|body| &body.value)
    {
        let deep = measure::length(deep.value.si(), canvas.system);
        lines.push(noted(&format!("{deep} deep below its inlet")));
    }
    beside(canvas, name_of(job, drain, lines, middle), half);
}

/// A square about a point.
fn square(middle: Point, half: f64) -> Path {
    let corner = Vector::new(half, half);
    Path::rectangle(middle + -corner, middle + corner)
}

/// A gully: a grating in a square.
fn gully(middle: Point, half: f64) -> Vec<Mark> {
    let low = middle + Vector::new(-half, -half);
    let high = middle + Vector::new(half, half);
    let bars = [-0.4, 0.0, 0.4].map(|share| {
        let x = middle.x + share * half;
        Path::line(Point::new(x, low.y), Point::new(x, high.y))
    });
    let fine = Pen::of(Weight::Fine).in_ink(Ink::Water);
    vec![
        Mark::Fill(vec![square(middle, half)], Ink::WaterTint),
        Mark::Stroke(bars.to_vec(), fine),
        Mark::Stroke(vec![square(middle, half)], pen()),
    ]
}

/// The edges of a run on paper, the way that it falls.
fn edges(canvas: &Canvas, job: &Job, drain: &Drain, figures: &DrainFigures) -> Vec<Edge> {
    let Some(line) = &drain.line else {
        return Vec::new();
    };
    let on_paper = |edge: &Edge| Edge {
        start: canvas.view.point(edge.start),
        end: canvas.view.point(edge.end),
        ..*edge
    };
    let mut edges: Vec<Edge> = match drain.kind() {
        Some(DrainKind::Pipe) => {
            let edges = line.value.edges().iter();
            edges
                .map(|edge| on_paper(&to_the_faces(job, edge)))
                .collect()
        }
        _ => line.value.edges().iter().map(on_paper).collect(),
    };
    let head = figures.head_at.map(|head| canvas.view.point(head));
    let outlet = figures.outlet_at.map(|outlet| canvas.view.point(outlet));
    if let (Some(head), Some(outlet), Some(first)) = (head, outlet, edges.first())
        && first.start.distance(outlet) < first.start.distance(head)
    {
        edges.reverse();
        edges.iter_mut().for_each(|edge| *edge = edge.reversed());
    }
    edges
}

/// The longest edge of a run.
fn longest(edges: &[Edge]) -> Option<&Edge> {
    let edges = edges.iter();
    edges.max_by(|one, other| one.length().total_cmp(&other.length()))
}

/// A pipe, a trench, or a channel that lies along no edge.
fn runs(canvas: &mut Canvas, job: &Job, drain: &Drain, figures: &DrainFigures, link: Place) {
    let Some(line) = &drain.line else { return };
    let edges = edges(canvas, job, drain, figures);
    let is_along = matches!(line.value, DrainLine::Along { .. });
    match drain.kind() {
        Some(DrainKind::Trench) => trench(canvas, drain, &line.value, link),
        // The borders draw it.
        Some(DrainKind::Channel) if is_along => {}
        _ => pipe(canvas, drain.kind(), &edges, link),
    }
    let Some(longest) = longest(&edges) else {
        return;
    };
    let way = longest.direction_at(0.5 * longest.length());
    if figures.fall.is_some_and(|fall| fall > 0.0) && longest.length() > 2.0 * ARROW {
        let middle = longest.point_at(0.65 * longest.length());
        let half = way * (0.5 * ARROW);
        for mark in fall_arrow(middle + -half, middle + half) {
            canvas.draw(Layer::Water, Some(link), mark);
        }
        canvas.board.take(Extents {
            centre: middle,
            half: (0.5 * ARROW + 0.6, 1.0),
            angle: way.y.atan2(way.x),
        });
    }
    for edge in &edges {
        canvas.board.take_line(edge.start, edge.end);
    }
}

/// Names a run, with its size and its fall.
fn name_run(canvas: &mut Canvas, job: &Job, drain: &Drain, figures: &DrainFigures) {
    let edges = edges(canvas, job, drain, figures);
    let Some(longest) = longest(&edges) else {
        return;
    };
    let mut lines = vec![named(drain)];
    let size = drain.body.as_ref().and_then(|body| {
        let pipe = body.value.pipe()?;
        let size = measure::length(pipe.size.as_ref()?.value.si(), canvas.system);
        Some(format!("Ø {size}"))
    });
    let fall = figures
        .fall
        .map(|fall| format!("falls {}", show::slope(fall)));
    let reported: Vec<String> = size.into_iter().chain(fall).collect();
    if !reported.is_empty() {
        lines.push(noted(&reported.join(", ")));
    }
    let middle = longest.point_at(0.4 * longest.length());
    beside(canvas, name_of(job, drain, lines, middle), 1.0);
}

/// A pipe to the faces of the gullies and pits at its ends.
fn to_the_faces(job: &Job, edge: &Edge) -> Edge {
    let length = edge.length();
    let (mut from, mut to) = (0.0, length);
    for plan in job.drains.iter().filter_map(|drain| drain.plan()) {
        for (start, end) in plan.stretches_inside(edge) {
            if start <= 1e-6 {
                from = f64::max(from, end);
            }
            if end >= length - 1e-6 {
                to = f64::min(to, start);
            }
        }
    }
    // A pipe that lies in a pit altogether is drawn as it is written.
    match to - from > 1e-3 {
        true => edge.between(from, to),
        false => *edge,
    }
}

/// A line of dashes for what lies in the ground, a strip for a channel.
fn pipe(canvas: &mut Canvas, kind: Option<DrainKind>, edges: &[Edge], link: Place) {
    let paths: Vec<Path> = edges.iter().map(|edge| Path::edge(*edge)).collect();
    let (pen, title) = match kind {
        Some(DrainKind::Channel) => (
            Pen::of(Weight::Heavy).in_ink(Ink::Water),
            "Drain channel across the paving",
        ),
        _ => (pen().dashed(&[3.2, 1.0]), "Drain pipe, in the ground"),
    };
    canvas.draw(Layer::Water, Some(link), Mark::Stroke(paths, pen));
    canvas.explain(lined(pen), title, None);
}

/// A trench at its width, outside the edges that it runs along.
fn trench(canvas: &mut Canvas, drain: &Drain, line: &DrainLine, link: Place) {
    let Some(DrainBody::Trench { wide, .. }) = drain.body.as_ref().map(|body| &body.value) else {
        return;
    };
    let wide = wide.value.si() * canvas.view.scale;
    // A shape lies on the left of its edges.
    let (near, far) = match line {
        DrainLine::Along { .. } => (0.0, wide),
        _ => (-0.5 * wide, 0.5 * wide),
    };
    let dashed = Pen::of(Weight::Fine).in_ink(Ink::Water).dashed(&[1.6, 0.8]);
    let strips = line.edges().iter().map(|edge| {
        let edge = Edge {
            start: canvas.view.point(edge.start),
            end: canvas.view.point(edge.end),
            ..*edge
        };
        let out = |at: f64| edge.direction_at(at).right();
        let length = edge.length();
        let parts = if edge.is_arc() { 24 } else { 1 };
        let share = |part: u32| f64::from(part) / f64::from(parts) * length;
        let side = |off: f64| -> Vec<Point> {
            (0..=parts)
                .map(|part| edge.point_at(share(part)) + out(share(part)) * off)
                .collect()
        };
        let mut round = side(near);
        round.extend(side(far).into_iter().rev());
        Path::polygon(&round)
    });
    let strips: Vec<Path> = strips.collect();
    for edge in strips.iter().flat_map(|strip| &strip.edges) {
        canvas.board.take_line(edge.start, edge.end);
    }
    canvas.draw(
        Layer::Water,
        Some(link),
        Mark::Fill(strips.clone(), Ink::WaterTint),
    );
    canvas.draw(Layer::Water, Some(link), Mark::Stroke(strips, dashed));
    let (low, high) = (SAMPLE.1 / 2.0 - 1.2, SAMPLE.1 / 2.0 + 1.2);
    let sample = Path::rectangle(Point::new(0.0, low), Point::new(SAMPLE.0, high));
    let sample = vec![
        Mark::Fill(vec![sample.clone()], Ink::WaterTint),
        Mark::Stroke(vec![sample], dashed),
    ];
    canvas.explain(sample, "Drain trench, at its width", None);
}

/// The invert of an end of a drain.
struct Invert<'j> {
    drain: &'j Drain,
    at: Point,
    level: String,
}

/// The inverts at both ends of a run, and the stated one of what stands at a
/// point.
fn inverts<'j>(canvas: &Canvas, drain: &'j Drain, figures: &DrainFigures) -> Vec<Invert<'j>> {
    let is_run = drain.kind().is_some_and(DrainKind::is_run);
    let head = (figures.head_at, figures.head_m);
    let ends = match is_run {
        true => vec![head, (figures.outlet_at, figures.outlet_m)],
        // It is that of the pipe at it, which says so.
        false if drain.inverts.is_empty() => Vec::new(),
        false => vec![head],
    };
    let ends = ends.into_iter().filter_map(|(at, level)| {
        Some(Invert {
            drain,
            at: canvas.view.point(at?),
            level: measure::level(level?, canvas.system),
        })
    });
    ends.collect()
}

/// What a drain is called on a sheet.
fn shown(drain: &Drain) -> String {
    drain.name.value.replace('-', " ")
}

fn named(drain: &Drain) -> Setting {
    let name = lettering::cut(&shown(drain), LABEL, Face::Medium, WIDEST);
    lettering::set(&name, LABEL, Face::Medium)
}

fn noted(words: &str) -> Setting {
    let words = lettering::cut(words, NOTE, Face::Regular, WIDEST);
    lettering::set(&words, NOTE, Face::Regular)
}

/// A label round a point, so far off it.
fn beside(canvas: &mut Canvas, label: Label, off: f64) {
    let label = Label {
        ink: Ink::Water,
        layer: Layer::Water,
        ..label
    };
    canvas.board.place(&label.around(off + 0.6, &SIDES_FIRST));
}

/// What a drain is called, by its letter where that has no room.
fn name_of(job: &Job, drain: &Drain, lines: Vec<Setting>, at: Point) -> Label {
    Label {
        instead: Instead::Letter(letter_of(job, drain)),
        ..Label::of(lines, at, Some(drain.place))
    }
}
