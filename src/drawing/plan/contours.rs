//! Contours: lines of one level across each surface, a round step apart.

use super::canvas::Canvas;
use super::ground::Ground;
use crate::drawing::clip;
use crate::drawing::display_list::{Extents, Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::labels::{Label, room};
use crate::drawing::legend::lined;
use crate::drawing::lettering::{self, NOTE};
use crate::drawing::measure;
use crate::geometry::{Outline, Plane, Point};
use crate::units::System;

/// The least between two contours on the paper.
const CLOSEST: f64 = 9.0;
/// The most that are drawn across one plane.
const MOST: u32 = 200;
/// How far off the edges it runs, at least.
const OFF_EDGES: f64 = 0.4;
/// How far along a contour its level is tried.
const SHARES: [f64; 5] = [0.2, 0.8, 0.35, 0.65, 0.5];

const CONTOUR: Pen = Pen::of(Weight::Fine).in_ink(Ink::Water).dashed(&[1.2, 0.9]);

/// The steps that are read easily, in metres.
const fn steps(system: System) -> &'static [f64] {
    match system {
        System::Metric => &[0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0],
        System::Imperial => &[
            0.00635, 0.0127, 0.0254, 0.0508, 0.0762, 0.1524, 0.3048, 0.6096, 1.524,
        ],
    }
}

/// A plane and where it lies on the paper.
struct Field<'g> {
    plane: &'g Plane,
    outline: Outline,
    ground: &'g Ground<'g>,
}

/// Draws the contours of all surfaces, all by one step.
pub(crate) fn draw(canvas: &mut Canvas, grounds: &[Ground<'_>]) {
    let fields: Vec<Field<'_>> = grounds
        .iter()
        .flat_map(|ground| fields(canvas, ground))
        .filter(|field| field.plane.slope() > 1e-6)
        .collect();
    let steepest = fields.iter().map(|field| field.plane.slope());
    let steepest = steepest.fold(0.0, f64::max);
    let apart = |step: &&f64| **step / steepest * canvas.view.scale >= CLOSEST;
    let Some(step) = steps(canvas.system).iter().find(apart).copied() else {
        return;
    };
    for field in &fields {
        for (level, pieces) in lines(canvas, field, step) {
            let link = field.ground.surface.fall.as_ref().map(|fall| fall.place);
            let paths = pieces.iter().map(|(from, to)| Path::line(*from, *to));
            let mark = Mark::Stroke(paths.collect(), CONTOUR);
            canvas.draw(Layer::Falls, link, mark);
            let longest = pieces.iter().copied().max_by(|(a, b), (c, d)| {
                let lengths = (a.distance(*b), c.distance(*d));
                lengths.0.total_cmp(&lengths.1)
            });
            if let Some(piece) = longest {
                tell(canvas, piece, level);
            }
        }
    }
    let every = measure::thickness(step, canvas.system);
    canvas.explain(lined(CONTOUR), &format!("Contour, one every {every}"), None);
}

/// The planes of a surface: its one, or those of its facets.
fn fields<'g>(canvas: &Canvas, ground: &'g Ground<'g>) -> Vec<Field<'g>> {
    let facets = ground.surface.facets.iter().map(|facet| Field {
        plane: &facet.plane,
        outline: canvas.view.outline(&facet.outline),
        ground,
    });
    let whole = ground.surface.plane.as_ref().map(|plane| Field {
        plane,
        outline: ground.outline.clone(),
        ground,
    });
    match ground.surface.facets.is_empty() {
        true => whole.into_iter().collect(),
        false => facets.collect(),
    }
}

/// The contours of a plane, each with its level in metres.
fn lines(canvas: &Canvas, field: &Field<'_>, step: f64) -> Vec<(f64, Vec<(Point, Point)>)> {
    let view = canvas.view;
    let (low, high) = field.outline.bounding_box();
    let middle = low.midpoint(high);
    let reach = (high - low).length();
    let up = field.plane.gradient();
    let on_ground = Point::ORIGIN + (middle - view.origin) * (1.0 / view.scale);
    let level = field.plane.level_at(on_ground);
    let swing = 0.5 * reach / view.scale * up.length();
    let first = ((level - swing) / step).ceil();
    let count = (2.0 * swing / step).ceil().clamp(0.0, f64::from(MOST)) as u32;
    let across = up.unit().left() * reach;
    (0..=count)
        .map(|number| (first + f64::from(number)) * step)
        .map(|own| {
            let off = (own - level) / up.length() * view.scale;
            let at = middle + up.unit() * off;
            let whole = clip::inside(at + -across, at + across, &field.outline);
            // A facet reaches over a hole that its surface leaves open.
            let open = &field.ground.outline;
            let pieces = whole
                .into_iter()
                .flat_map(|(from, to)| clip::inside(from, to, open))
                // One that runs along an edge is that edge.
                .filter(|(from, to)| open.distance_to_boundary(from.midpoint(*to)) > OFF_EDGES);
            (own, pieces.collect::<Vec<_>>())
        })
        .filter(|(_, pieces)| !pieces.is_empty())
        .collect()
}

/// The level along its contour, where there is room.
fn tell(canvas: &mut Canvas, (from, to): (Point, Point), level: f64) {
    let way = (to - from).unit();
    let angle = way.y.atan2(way.x);
    // Read from below or from the right.
    let is_turned = angle > std::f64::consts::FRAC_PI_2 + 1e-9 || angle <= -1.5;
    let words = measure::level(level, canvas.system);
    let mut label = Label {
        ink: Ink::Water,
        layer: Layer::Falls,
        angle: if is_turned {
            angle + std::f64::consts::PI
        } else {
            angle
        },
        ..Label::of(
            vec![lettering::set(&words, NOTE, Face::Regular)],
            from,
            None,
        )
    };
    let half = room(&label);
    let places = SHARES.map(|share| from + (to - from) * share);
    let free = places.into_iter().find(|place| {
        let extents = Extents {
            centre: *place,
            half,
            angle: label.angle,
        };
        canvas.board.is_free(&extents, true) && from.distance(to) > 3.0 * half.0
    });
    if let Some(place) = free {
        label.anchor = place;
        label.places = vec![place];
        canvas.board.place(&label);
    }
}
