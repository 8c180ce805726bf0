//! The pegs of the setting out: a slanting cross on the spot, and its number.

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

/// Draws the pegs of a job, numbered as its setting out numbers them.
pub fn draw(canvas: &mut Canvas, job: &Job) {
    let found = setting_out(job);
    let link = job.setting_out.as_ref().map(|own| own.place);
    let spots = found.pegs.iter().map(|peg| canvas.view.point(peg.at));
    let spots: Vec<(usize, Point)> = (1..).zip(spots.collect::<Vec<Point>>()).collect();
    let is_on = |canvas: &Canvas, at: Point| canvas.board.holds(&Extents::about(at, HALF, HALF));
    let (on, off): (Vec<_>, Vec<_>) = spots.into_iter().partition(|(_, at)| is_on(canvas, *at));
    if !on.is_empty() {
        canvas.explain(
            centred(peg_mark),
            "Peg, numbered as in the setting out",
            None,
        );
    }
    for (_, at) in &on {
        for mark in peg_mark(*at) {
            canvas.draw(Layer::Names, link, mark);
        }
        canvas.board.take(Extents::about(*at, HALF, HALF));
    }
    for (number, at) in on {
        tell(canvas, number, at, link);
    }
    if !off.is_empty() {
        let numbers: Vec<String> = off.iter().map(|(number, _)| number.to_string()).collect();
        canvas.note(format!("Pegs off this sheet: {}.", numbers.join(", ")));
    }
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

fn tell(canvas: &mut Canvas, number: usize, at: Point, link: Option<Place>) {
    let mut label = Label {
        lines: vec![lettering::set(&number.to_string(), LABEL, Face::Medium)],
        ink: Ink::Black,
        layer: Layer::Names,
        link,
        anchor: at,
        places: Vec::new(),
        angle: 0.0,
        minds_lines: true,
    };
    let half = room(&label);
    label.places = [2.0, 3.5, 5.5]
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
