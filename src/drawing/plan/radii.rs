//! Radii of arcs, each told once, with the centre where it lies on the sheet.

use super::canvas::Canvas;
use super::dimensions::{circle, is_rounding};
use super::ground::Ground;
use crate::drawing::display_list::{Extents, Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::labels::{Label, room};
use crate::drawing::legend::centred;
use crate::drawing::lettering::{self, LABEL};
use crate::drawing::measure;
use crate::geometry::{Edge, Outline, Point, Vector};
use crate::text::capital;
use crate::vocabulary::spelled_in;

/// Arcs that are told of together.
struct Round {
    edge: Edge,
    count: usize,
    rounds_corners: bool,
}

/// Draws the radii of the arcs round a surface. Round holes are told of where
/// they are named.
pub(crate) fn draw(canvas: &mut Canvas, ground: &Ground<'_>, strips: &[Outline]) {
    for round in rounds(ground) {
        let radius = round.edge.radius() / canvas.view.scale;
        let length = measure::length(radius, canvas.system);
        let words = match (round.count, circle(&ground.outline.outer)) {
            (_, Some(_)) => format!("Ø {}", measure::length(2.0 * radius, canvas.system)),
            (1, None) => format!("R {length}"),
            (count, None) => format!("{count} × R {length}"),
        };
        tell(canvas, &round.edge, &words);
        if !round.rounds_corners {
            centre(canvas, &round.edge, strips);
        }
    }
}

fn rounds(ground: &Ground<'_>) -> Vec<Round> {
    let outline = &ground.outline;
    let is_hole_told = |edge: &Edge| {
        let reported = outline.holes.iter().filter(|hole| circle(hole).is_some());
        reported.flat_map(|hole| &hole.edges).any(|own| own == edge)
    };
    let mut rounds: Vec<Round> = Vec::new();
    for edge in outline.edges() {
        if !edge.is_arc() || is_hole_told(edge) {
            continue;
        }
        let rounds_corners = is_rounding(edge, outline);
        let is_same = |own: &Round| {
            let same_radius = (own.edge.radius() - edge.radius()).abs() < 1e-6 * edge.radius();
            let apart = own.edge.centre().zip(edge.centre());
            let same_centre = apart.is_some_and(|(a, b)| a.distance(b) < 1e-6 * edge.radius());
            same_radius && own.rounds_corners == rounds_corners && (rounds_corners || same_centre)
        };
        match rounds.iter_mut().find(|own| is_same(own)) {
            Some(round) if rounds_corners => round.count += 1,
            // The longest part of an arc that is parted stands for it.
            Some(round) if edge.length() > round.edge.length() => round.edge = *edge,
            Some(_) => {}
            None => rounds.push(Round {
                edge: *edge,
                count: 1,
                rounds_corners,
            }),
        }
    }
    rounds
}

/// A radius beside its arc, with an arrow onto it.
fn tell(canvas: &mut Canvas, edge: &Edge, words: &str) {
    let Some(centre) = edge.centre() else {
        return;
    };
    let mut label = Label {
        layer: Layer::Dimensions,
        ..Label::of(
            vec![lettering::set(words, LABEL, Face::Medium)],
            edge.midpoint(),
            None,
        )
    };
    let half = room(&label);
    let shares = [0.5, 0.35, 0.65, 0.2, 0.8];
    let mut tried: Vec<(Point, Point)> = Vec::new();
    for off in [5.0, 8.0, 12.0] {
        for inward in [true, false] {
            for share in shares {
                let at = edge.point_at(share * edge.length());
                let way = (centre - at).unit() * if inward { 1.0 } else { -1.0 };
                let reach = (way.x * half.0).abs() + (way.y * half.1).abs();
                let is_short = inward && off + 2.0 * reach > edge.radius() && edge.radius() > 8.0;
                if !is_short {
                    tried.push((at, at + way * (off + reach)));
                }
            }
        }
    }
    let box_at = |middle: Point| Extents::about(middle, half.0, half.1);
    let found = tried
        .into_iter()
        .find(|(_, middle)| canvas.board.is_free(&box_at(*middle), true));
    label.places.extend(found.map(|(_, middle)| middle));
    canvas.board.place(&label);
    if let Some((at, middle)) = found {
        let way = (at - middle).unit();
        let reach = (half.0 / way.x.abs().max(1e-9)).min(half.1 / way.y.abs().max(1e-9));
        arrow(canvas, middle + way * reach, at);
    }
}

/// A thin line with a filled head at its end.
fn arrow(canvas: &mut Canvas, from: Point, to: Point) {
    let way = (to - from).unit();
    let neck = to + way * -2.2;
    let half = way.left() * 0.36;
    let line = Mark::Stroke(vec![Path::line(from, neck)], Pen::of(Weight::Fine));
    let head = Mark::Fill(
        vec![Path::polygon(&[to, neck + half, neck + -half])],
        Ink::Black,
    );
    canvas.draw(Layer::Dimensions, None, line);
    canvas.draw(Layer::Dimensions, None, head);
    let between = to - from;
    canvas.board.take(Extents {
        centre: from.midpoint(to),
        half: (between.length() / 2.0, 0.4),
        angle: between.y.atan2(between.x),
    });
}

/// The cross at a centre that lies on the sheet and not in the building.
fn centre(canvas: &mut Canvas, edge: &Edge, strips: &[Outline]) {
    let Some(at) = edge.centre() else {
        return;
    };
    let extents = Extents::about(at, 2.0, 2.0);
    let is_in_building = strips.iter().any(|strip| strip.contains(at));
    if is_in_building || !canvas.board.is_free(&extents, true) {
        return;
    }
    for mark in centre_mark(at, 3.0) {
        canvas.draw(Layer::Dimensions, None, mark);
    }
    canvas.board.take(extents);
    let sample = centred(|middle| centre_mark(middle, 2.6));
    let title = format!(
        "{} of an arc",
        capital(&spelled_in(canvas.region, "centre"))
    );
    canvas.explain(sample, &title, None);
}

/// A cross that reaches so far, with a ring.
fn centre_mark(at: Point, reach: f64) -> Vec<Mark> {
    let line = |way: Vector| Path::line(at + way * -reach, at + way * reach);
    let cross = vec![
        line(Vector::new(1.0, 0.0)),
        line(Vector::new(0.0, 1.0)),
        Path::circle(at, 0.9),
    ];
    vec![Mark::Stroke(cross, Pen::of(Weight::Fine))]
}
