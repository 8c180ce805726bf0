//! The pegs of the setting out: a slanting cross on the spot, and its number;
//! the two marks that tapes are held at; and the points of drains and steps,
//! each with its label.

use super::canvas::Canvas;
use crate::drawing::display_list::{Extents, Layer, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::labels::{CORNERS_FIRST, Instead, Label};
use crate::drawing::legend::centred;
use crate::drawing::lettering::{self, LABEL};
use crate::findings::Place;
use crate::geometry::{Point, Vector};
use crate::model::Job;
use crate::quantities::setting_out;

/// Half the width of a peg's cross.
const HALF: f64 = 1.5;

/// Draws the pegs of a job, numbered as its setting out numbers them, and the
/// points of its drains and steps; what is on the sheet is to be labelled.
pub(crate) fn draw(canvas: &mut Canvas, job: &Job) -> Vec<Spot> {
    let found = setting_out(job);
    let link = job.setting_out.as_ref().map(|own| own.place);
    let marks = found.marks.iter();
    let marks = marks.flat_map(|own| {
        [("A", own.first), ("B", own.second)].map(|(label, at)| Spot {
            label: label.to_owned(),
            at: canvas.view.point(at),
            link: own.place,
        })
    });
    let marks: Vec<Spot> = marks.collect();
    let pegs = (1..).zip(&found.pegs);
    let pegs = pegs.map(|(number, peg): (usize, _)| Spot {
        label: number.to_string(),
        at: canvas.view.point(peg.at),
        link,
    });
    let pegs: Vec<Spot> = pegs.collect();
    let points = found.spots.iter().map(|spot| Spot {
        label: spot.label.clone(),
        at: canvas.view.point(spot.at),
        link: Some(spot.place),
    });
    let points: Vec<Spot> = points.collect();
    let told = ["Mark that the tapes are held at", "Marks off this sheet"];
    let mut on = of_kind(canvas, marks, tape_mark, told);
    let reported = ["Peg, numbered as in the setting out", "Pegs off this sheet"];
    let pegs = of_kind(canvas, pegs, peg_mark, reported);
    let reported = ["Point, as in the setting out", "Points off this sheet"];
    let points = of_kind(canvas, points, point_mark, reported);
    on.extend(pegs);
    on.extend(points);
    on
}

/// A peg or a point on paper.
pub(crate) struct Spot {
    label: String,
    at: Point,
    link: Option<Place>,
}

/// Draws those of one kind and gives those on the sheet: what the legend says of
/// them, and what a note says of those that lie off it.
fn of_kind(
    canvas: &mut Canvas,
    spots: Vec<Spot>,
    mark: fn(Point) -> Vec<Mark>,
    [legend, off_sheet]: [&str; 2],
) -> Vec<Spot> {
    let is_on = |canvas: &Canvas, at: Point| canvas.board.holds(&Extents::about(at, HALF, HALF));
    let (on, off): (Vec<Spot>, Vec<Spot>) =
        spots.into_iter().partition(|spot| is_on(canvas, spot.at));
    if !on.is_empty() {
        canvas.explain(centred(mark), legend, None);
    }
    for spot in &on {
        for mark in mark(spot.at) {
            canvas.draw(Layer::Names, spot.link, mark);
        }
        canvas.board.take(Extents::about(spot.at, HALF, HALF));
    }
    if !off.is_empty() {
        let labels: Vec<&str> = off.iter().map(|spot| spot.label.as_str()).collect();
        canvas.note(format!("{off_sheet}: {}.", labels.join(", ")));
    }
    on
}

/// A mark that tapes are held at: a triangle with its foot there.
fn tape_mark(at: Point) -> Vec<Mark> {
    let to = |x: f64, y: f64| at + Vector::new(x * HALF, y * HALF);
    let triangle = [to(0.0, 1.2), to(-1.0, -0.6), to(1.0, -0.6)];
    vec![Mark::Stroke(
        vec![Path::polygon(&triangle)],
        Pen::of(Weight::Heavy),
    )]
}

/// The mark of a point: an upright cross.
fn point_mark(at: Point) -> Vec<Mark> {
    let to = |x: f64, y: f64| at + Vector::new(x * HALF, y * HALF);
    let cross = vec![
        Path::line(to(-1.0, 0.0), to(1.0, 0.0)),
        Path::line(to(0.0, -1.0), to(0.0, 1.0)),
    ];
    vec![Mark::Stroke(cross, Pen::of(Weight::Mid))]
}

/// The mark of a peg.
fn peg_mark(at: Point) -> Vec<Mark> {
    let to = |x: f64, y: f64| at + Vector::new(x * HALF, y * HALF);
    let cross = vec![
        Path::line(to(-1.0, -1.0), to(1.0, 1.0)),
        Path::line(to(-1.0, 1.0), to(1.0, -1.0)),
    ];
    vec![Mark::Stroke(cross, Pen::of(Weight::Mid))]
}

/// Writes what a point is called beside it, farther off on a leader.
pub(crate) fn label(canvas: &mut Canvas, spot: &Spot) {
    let lines = vec![lettering::set(&spot.label, LABEL, Face::Medium)];
    let label = Label {
        instead: Instead::List,
        ..Label::of(lines, spot.at, spot.link)
    };
    let label = label
        .around(2.0, &CORNERS_FIRST)
        .around(3.0, &CORNERS_FIRST);
    canvas.board.place(&label);
}
