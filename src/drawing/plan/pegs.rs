//! The pegs of the setting out: a slanting cross on the spot, and its number;
//! and the points of drains and steps, each with its label.

use super::canvas::Canvas;
use crate::drawing::display_list::{Extents, Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::labels::{Label, room};
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
    let reported = ["Peg, numbered as in the setting out", "Pegs off this sheet"];
    let mut on = of_kind(canvas, pegs, peg_mark, reported);
    let reported = ["Point, as in the setting out", "Points off this sheet"];
    on.extend(of_kind(canvas, points, point_mark, reported));
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
    let (at, link) = (spot.at, spot.link);
    let mut label = Label {
        lines: vec![lettering::set(&spot.label, LABEL, Face::Medium)],
        ink: Ink::Black,
        layer: Layer::Names,
        link,
        anchor: at,
        places: Vec::new(),
        angle: 0.0,
        minds_lines: true,
    };
    let half = room(&label);
    label.places = [2.0, 3.0]
        .into_iter()
        .flat_map(|far| {
            let around = [
                (1.0, 1.0),
                (-1.0, 1.0),
                (1.0, -1.0),
                (-1.0, -1.0),
                (1.0, 0.0),
                (-1.0, 0.0),
                (0.0, 1.0),
                (0.0, -1.0),
            ];
            around.map(|(x, y)| at + Vector::new(x * (half.0 + far), y * (half.1 + far)))
        })
        .collect();
    canvas.board.place(&label);
}
