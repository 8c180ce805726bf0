//! Dimensions outside the figure: on each side a chain of what is seen from
//! there, and the whole; holes by lines through their middles or sides.

use super::canvas::Canvas;
use super::ground::{Frame, Ground};
use crate::drawing::clip;
use crate::drawing::display_list::{Extents, Layer, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::labels::Label;
use crate::drawing::legend::lined;
use crate::drawing::lettering::{self, LABEL};
use crate::drawing::measure;
use crate::geometry::{Edge, Loop, Outline, Point, Vector};
use crate::text::capital;
use crate::vocabulary::spelled_in;

/// From the outermost thing to the first line, and from line to line.
const FIRST: f64 = 8.0;
const NEXT: f64 = 7.5;
/// What a side takes past its last line, and a side that has none.
const PAST_LAST: f64 = 5.0;
const PLAIN_SIDE: f64 = 6.0;
/// How far extension lines start off and go past.
const OFF: f64 = 1.5;
const OVER: f64 = 1.8;
/// Two features nearer than this on paper are one.
const SAME: f64 = 0.02;

const FINE: Pen = Pen::of(Weight::Fine);
const CENTRE: Pen = FINE.dashed(&[6.0, 1.0, 0.6, 1.0]);

/// A point that a dimension leads to.
#[derive(Debug, Clone, Copy)]
struct Feature {
    at: Point,
    /// Whether it counts along the frame, and across it.
    counts: [bool; 2],
}

/// One line of dimensions.
#[derive(Debug, Clone)]
struct Row {
    points: Vec<Point>,
    is_of_holes: bool,
}

/// The lines of one side, the nearest first.
#[derive(Debug, Clone)]
pub(crate) struct Side {
    out: Vector,
    axis: Vector,
    rows: Vec<Row>,
}

impl Side {
    /// What its lines take outside the figure.
    fn takes(&self) -> f64 {
        match self.rows.len() {
            0 => PLAIN_SIDE,
            count => FIRST + NEXT * (count - 1) as f64 + PAST_LAST,
        }
    }
}

/// The dimension lines of a plan, side by side: over, under, left, right.
pub(crate) fn sides(grounds: &[Ground<'_>], frame: &Frame) -> Vec<Side> {
    let features = all_features(grounds, frame);
    let holes = holes(grounds, frame);
    let mut sides = Vec::new();
    for (which, axis, out) in [
        (0, frame.along, frame.across),
        (0, frame.along, -frame.across),
        (1, frame.across, -frame.along),
        (1, frame.across, frame.along),
    ] {
        let counted = || {
            features
                .iter()
                .filter(|feature| feature.counts.get(which) == Some(&true))
                .map(|feature| feature.at)
        };
        let from_here = Seen::of(grounds, axis, out);
        let seen = counted().filter(|at| from_here.is_seen(*at));
        let seen = in_order(seen.collect(), axis, out);
        let all = in_order(counted().collect(), axis, out);
        let whole: Vec<Point> = [all.first(), all.last()]
            .into_iter()
            .flatten()
            .copied()
            .collect();
        let is_main = sides.len() % 2 == 0;
        let mut rows = Vec::new();
        let opposite: Option<&Side> = if is_main { None } else { sides.last() };
        let is_told = |points: &[Point]| {
            same(points, &whole, axis)
                || opposite.is_some_and(|side: &Side| {
                    side.rows.iter().any(|row| same(&row.points, points, axis))
                })
        };
        if seen.len() >= 2 && !is_told(&seen) {
            rows.push(Row {
                points: seen,
                is_of_holes: false,
            });
        }
        if !is_main
            && let Some(through) = holes.get(which)
            && !through.is_empty()
            && whole.len() == 2
        {
            let points = whole.iter().chain(through).copied().collect();
            rows.push(Row {
                points: in_order(points, axis, out),
                is_of_holes: true,
            });
        }
        if is_main && whole.len() == 2 {
            rows.push(Row {
                points: whole,
                is_of_holes: false,
            });
        }
        sides.push(Side { out, axis, rows });
    }
    sides
}

/// How far figure and dimensions reach on the upright paper.
pub(crate) fn extents(sides: &[Side], reach: &[(f64, f64); 2], frame: &Frame) -> (Point, Point) {
    let takes = |at: usize| sides.get(at).map_or(0.0, Side::takes);
    let [along, across] = *reach;
    let (low, high) = (
        (along.0 - takes(2), across.0 - takes(1)),
        (along.1 + takes(3), across.1 + takes(0)),
    );
    let middle = (f64::midpoint(low.0, high.0), f64::midpoint(low.1, high.1));
    let box_of = Extents {
        centre: Point::ORIGIN + frame.along * middle.0 + frame.across * middle.1,
        half: ((high.0 - low.0) / 2.0, (high.1 - low.1) / 2.0),
        angle: frame.along.y.atan2(frame.along.x),
    };
    box_of.upright()
}

fn with_before(boundary: &Loop) -> impl Iterator<Item = (&Edge, &Edge)> {
    let count = boundary.edges.len();
    let before = boundary.edges.iter().cycle().skip(count.saturating_sub(1));
    before.zip(&boundary.edges)
}

fn is_smooth(before: &Edge, after: &Edge) -> bool {
    let turn = before
        .direction_at_end()
        .angle_to(after.direction_at_start());
    turn.abs() < 0.02
}

/// Whether an arc rounds a corner: smooth at both ends, between straight
/// edges, and small beside the figure.
pub(crate) fn is_rounding(edge: &Edge, outline: &Outline) -> bool {
    let (low, high) = outline.bounding_box();
    let size = (high - low).x.min((high - low).y);
    let touches = |at: Point, other: Point| at.distance(other) < 1e-6;
    let is_between = || {
        outline.edges().any(|before| {
            touches(before.end, edge.start) && !before.is_arc() && is_smooth(before, edge)
        }) && outline.edges().any(|after| {
            touches(after.start, edge.end) && !after.is_arc() && is_smooth(edge, after)
        })
    };
    edge.is_arc() && edge.radius() <= 0.3 * size && is_between()
}

/// The features of every surface with how far its arcs bulge.
fn all_features(grounds: &[Ground<'_>], frame: &Frame) -> Vec<Feature> {
    let grounds = || grounds.iter().filter(|ground| ground.is_dimensioned());
    let corners = grounds().flat_map(features);
    corners
        .chain(grounds().flat_map(|ground| arcs(ground, frame)))
        .collect()
}

/// Corners, and where straight edges and arcs meet.
fn features(ground: &Ground<'_>) -> Vec<Feature> {
    let outline = &ground.outline;
    let mut features = Vec::new();
    for (before, edge) in with_before(&outline.outer) {
        let rounds = is_rounding(before, outline) || is_rounding(edge, outline);
        // Edges are parted where what they stand against changes: no corner.
        let is_like = match edge.is_arc() {
            true => before.is_arc() && (before.radius() - edge.radius()).abs() < 1e-6,
            false => !before.is_arc(),
        };
        let goes_on = is_like && is_smooth(before, edge);
        if !rounds && !goes_on {
            features.push(Feature {
                at: edge.start,
                counts: [true, true],
            });
        }
    }
    features
}

/// How far arcs bulge along a frame and across it.
fn arcs(ground: &Ground<'_>, frame: &Frame) -> Vec<Feature> {
    let mut features = Vec::new();
    for edge in &ground.outline.outer.edges {
        let Some(centre) = edge.centre() else {
            continue;
        };
        for (way, counts) in [
            (frame.along, [true, false]),
            (-frame.along, [true, false]),
            (frame.across, [false, true]),
            (-frame.across, [false, true]),
        ] {
            let at = centre + way * edge.radius();
            if edge.distance_to(at) < 1e-6 {
                features.push(Feature { at, counts });
            }
        }
    }
    features
}

/// What is dimensioned of holes along and across: the middle of a round one,
/// both sides of any other.
fn holes(grounds: &[Ground<'_>], frame: &Frame) -> [Vec<Point>; 2] {
    let mut through = [Vec::new(), Vec::new()];
    let holes = grounds.iter().flat_map(|ground| &ground.outline.holes);
    let is_told = |hole: &&Loop| Ground::filling(grounds, hole).is_none_or(Ground::is_dimensioned);
    for hole in holes.filter(is_told) {
        if let Some((centre, _)) = circle(hole) {
            for list in &mut through {
                list.push(centre);
            }
            continue;
        }
        let points: Vec<Point> = hole.edges.iter().map(|edge| edge.start).collect();
        for (list, axis) in through.iter_mut().zip([frame.along, frame.across]) {
            let along = |point: &Point| axis.dot(*point - Point::ORIGIN);
            list.extend(
                points
                    .iter()
                    .copied()
                    .min_by(|a, b| along(a).total_cmp(&along(b))),
            );
            list.extend(
                points
                    .iter()
                    .copied()
                    .max_by(|a, b| along(a).total_cmp(&along(b))),
            );
        }
    }
    through
}

/// Centre and radius of a loop that is one circle.
pub(crate) fn circle(boundary: &Loop) -> Option<(Point, f64)> {
    let first = boundary.edges.first()?;
    let (centre, radius) = (first.centre()?, first.radius());
    let is_of_it = |edge: &Edge| {
        edge.centre()
            .is_some_and(|own| own.distance(centre) < 1e-6 * radius)
            && (edge.radius() - radius).abs() < 1e-6 * radius
    };
    boundary
        .edges
        .iter()
        .all(is_of_it)
        .then_some((centre, radius))
}

/// The grounds of a plan as they are seen from a side, each with how far it
/// goes along the side and out to it: most lie beside or behind a point and are
/// not looked at more closely.
struct Seen<'g, 'j> {
    axis: Vector,
    out: Vector,
    grounds: Vec<(&'g Ground<'j>, (f64, f64), f64)>,
}

impl<'g, 'j> Seen<'g, 'j> {
    fn of(grounds: &'g [Ground<'j>], axis: Vector, out: Vector) -> Seen<'g, 'j> {
        let reach = |ground: &'g Ground<'j>| {
            let (outline, (_, outer)) = (&ground.outline, ground.outline.extremes(out));
            (ground, outline.extremes(axis), outer)
        };
        Seen {
            axis,
            out,
            grounds: grounds.iter().map(reach).collect(),
        }
    }

    /// Whether nothing lies between a point and the outside on its side.
    fn is_seen(&self, at: Point) -> bool {
        let far = at + self.out * 2000.0;
        let from = at - Point::ORIGIN;
        let (along, outward) = (self.axis.dot(from), self.out.dot(from));
        let may_hide = |(_, (first, last), outer): &&(&Ground<'_>, (f64, f64), f64)| {
            (*first..=*last).contains(&along) && *outer > outward
        };
        let mut before = self.grounds.iter().filter(may_hide);
        before.all(|(ground, ..)| clip::length_inside(at, far, &ground.outline) < 0.05)
    }
}

/// Points by their place along an axis, of those that share one the outermost.
fn in_order(mut points: Vec<Point>, axis: Vector, out: Vector) -> Vec<Point> {
    let along = |point: Point| axis.dot(point - Point::ORIGIN);
    points.sort_by(|a, b| along(*a).total_cmp(&along(*b)));
    let mut kept: Vec<Point> = Vec::new();
    for point in points {
        match kept.last_mut() {
            Some(last) if along(point) - along(*last) < SAME => {
                if out.dot(point - *last) > 0.0 {
                    *last = point;
                }
            }
            _ => kept.push(point),
        }
    }
    kept
}

fn same(one: &[Point], other: &[Point], axis: Vector) -> bool {
    one.len() == other.len()
        && one
            .iter()
            .zip(other)
            .all(|(a, b)| axis.dot(*a - *b).abs() < SAME)
}

/// Draws the dimension lines of a side.
pub(crate) fn draw(canvas: &mut Canvas, side: &Side, figure: f64, strips: &[Outline]) {
    let axis_of = |point: Point| side.axis.dot(point - Point::ORIGIN);
    let mut led: Vec<f64> = Vec::new();
    for (number, row) in side.rows.iter().enumerate().rev() {
        let height = figure + FIRST + NEXT * number as f64;
        let on_line = |at: Point| at + side.out * (height - side.out.dot(at - Point::ORIGIN));
        let ends = row.points.first().zip(row.points.last());
        let Some((first, last)) = ends.map(|(a, b)| (on_line(*a), on_line(*b))) else {
            continue;
        };
        let line = (first + side.axis * -OVER, last + side.axis * OVER);
        stroke(canvas, line, FINE);
        for at in &row.points {
            let end = on_line(*at);
            let tick = (side.axis + side.out).unit() * 1.25;
            stroke(canvas, (end + -tick, end + tick), Pen::of(Weight::Mid));
            if !led.iter().any(|own| (own - axis_of(*at)).abs() < SAME) {
                led.push(axis_of(*at));
                let is_of_figure =
                    !row.is_of_holes || [row.points.first(), row.points.last()].contains(&Some(at));
                let start = match is_of_figure {
                    true => past_building(*at, end, strips),
                    false => *at,
                };
                let pen = if is_of_figure { FINE } else { CENTRE };
                stroke(canvas, (start, end + side.out * OVER), pen);
                if !is_of_figure {
                    let middle = spelled_in(canvas.region, "centre");
                    let title = format!("{} or side of an opening", capital(&middle));
                    let note = Some("carried out to its dimension".to_owned());
                    canvas.explain(lined(CENTRE), &title, note);
                }
            }
        }
        figures(canvas, side, row, &on_line);
    }
}

fn stroke(canvas: &mut Canvas, (from, to): (Point, Point), pen: Pen) {
    canvas.board.take_line(from, to);
    let mark = Mark::Stroke(vec![Path::line(from, to)], pen);
    canvas.draw(Layer::Dimensions, None, mark);
}

/// Where an extension line starts: off the feature, and past the building.
fn past_building(at: Point, end: Point, strips: &[Outline]) -> Point {
    let way = (end - at).unit();
    let far = strips
        .iter()
        .flat_map(|strip| clip::inside(at, end, strip))
        .map(|(_, leaves)| at.distance(leaves))
        .fold(0.0, f64::max);
    at + way * (far + OFF)
}

fn figures(canvas: &mut Canvas, side: &Side, row: &Row, on_line: &impl Fn(Point) -> Point) {
    let mut angle = side.axis.y.atan2(side.axis.x);
    if angle > std::f64::consts::FRAC_PI_2 + 1e-9 {
        angle -= std::f64::consts::PI;
    }
    let up = Vector::new(0.0, 1.0).turned(angle);
    let count = row.points.len();
    for (number, (from, to)) in row.points.iter().zip(row.points.iter().skip(1)).enumerate() {
        let (start, end) = (on_line(*from), on_line(*to));
        let long = start.distance(end);
        let text = measure::length(long / canvas.view.scale, canvas.system);
        let setting = lettering::set(&text, LABEL, Face::Medium);
        let half = (
            setting.width / 2.0,
            (setting.above + setting.below * 0.6) / 2.0,
        );
        let lift = up * (0.9 + half.1);
        let mut places = Vec::new();
        if setting.width <= long - 1.0 {
            places.push(start.midpoint(end) + lift);
        }
        if number == 0 {
            places.push(start + side.axis * -(half.0 + OVER + 1.2) + lift);
        }
        if number + 2 == count {
            places.push(end + side.axis * (half.0 + OVER + 1.2) + lift);
        }
        canvas.board.place(&Label {
            layer: Layer::Dimensions,
            places,
            angle,
            ..Label::of(vec![setting], start.midpoint(end), None)
        });
    }
}
