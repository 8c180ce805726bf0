//! Finished levels at corners, at stated points and at the lowest point.

use super::canvas::Canvas;
use super::dimensions::is_rounding;
use super::ground::Ground;
use crate::drawing::display_list::{Extents, Layer};
use crate::drawing::font::Face;
use crate::drawing::labels::{CORNERS_FIRST, Label, room};
use crate::drawing::legend::{centred, level_mark};
use crate::drawing::lettering::{self, LABEL};
use crate::drawing::measure;
use crate::findings::Place;
use crate::geometry::{Edge, Outline, Plane, Point, Vector};
use crate::model::LevelAt;
use crate::quantities::SurfaceFigures;

/// Levels nearer than this on paper that read alike are one.
const NEAR: f64 = 3.0;
/// No more than this at one surface's corners.
const MOST: usize = 24;

/// A level to be drawn.
pub(crate) struct Spot {
    at: Point,
    words: String,
    link: Option<Place>,
    ground: usize,
}

/// Draws the marks of the levels of all surfaces, which are to be labelled.
pub(crate) fn draw(
    canvas: &mut Canvas,
    grounds: &[Ground<'_>],
    figures: &[Option<&SurfaceFigures>],
) -> Vec<Spot> {
    let mut spots: Vec<Spot> = Vec::new();
    for (index, ground) in grounds.iter().enumerate() {
        let lowest = figures
            .get(index)
            .copied()
            .flatten()
            .and_then(|own| own.lowest_at);
        for (at, metres, link) in levels(canvas, ground, lowest) {
            let words = measure::level(metres, canvas.system);
            let is_there = |spot: &Spot| spot.words == words && spot.at.distance(at) < NEAR;
            if !spots.iter().any(is_there) {
                spots.push(Spot {
                    at,
                    words,
                    link,
                    ground: index,
                });
            }
        }
    }
    if spots.is_empty() {
        return spots;
    }
    let unit = match canvas.system {
        crate::units::System::Metric => "Finished level, metres",
        crate::units::System::Imperial => "Finished level, inches",
    };
    canvas.explain(centred(level_mark), unit, None);
    for spot in &spots {
        for mark in level_mark(spot.at) {
            canvas.draw(Layer::Levels, spot.link, mark);
        }
        canvas.board.take(Extents::about(spot.at, 1.2, 1.2));
    }
    spots
}

/// Writes the levels beside their marks.
pub(crate) fn label(canvas: &mut Canvas, grounds: &[Ground<'_>], spots: &[Spot]) {
    for spot in spots {
        if let Some(ground) = grounds.get(spot.ground) {
            tell(canvas, spot, &ground.outline);
        }
    }
}

/// The levels of one surface: where, in metres, and the line that says so.
fn levels(
    canvas: &mut Canvas,
    ground: &Ground<'_>,
    lowest: Option<Point>,
) -> Vec<(Point, f64, Option<Place>)> {
    let surface = ground.surface;
    let outline = surface.outline.as_ref().filter(|_| surface.has_levels());
    let Some(outline) = outline else {
        let name = &surface.name.value;
        canvas.note(format!(
            "{name}: its levels are not known, and none are drawn."
        ));
        return Vec::new();
    };
    let level_at = |at: Point| surface.level_at(at).unwrap_or_default();
    let view = canvas.view;
    let mut levels = Vec::new();
    let first = surface.levels.first().map(|level| level.place);
    for level in &surface.levels {
        if let LevelAt::Point(at) = &level.at
            && outline.contains(*at)
        {
            levels.push((view.point(*at), level_at(*at), Some(level.place)));
        }
    }
    let own = corners(&ground.outline, outline);
    // Where both ends of an edge are rounded, its middle stands for them.
    let rounded = middles(&ground.outline, outline);
    let lowest = lowest.map(|at| match &surface.plane {
        Some(plane) => along_level(at, outline, plane),
        None => at,
    });
    let mut corners: Vec<Point> = own.into_iter().chain(rounded).take(MOST).collect();
    // The lowest point, unless a corner is as low.
    let is_told = |low: &Point| {
        let level = level_at(*low);
        corners
            .iter()
            .any(|at| (level_at(*at) - level).abs() < 5e-4)
    };
    let lowest = lowest.filter(|low| !is_told(low));
    corners.extend(lowest);
    for at in corners {
        levels.push((view.point(at), level_at(at), first));
    }
    levels
}

/// The lowest point; the middle of its edge where the whole edge is as low.
fn along_level(lowest: Point, outline: &Outline, plane: &Plane) -> Point {
    let level = plane.level_at(lowest);
    let is_level = |edge: &&Edge| {
        let ends = [edge.start, edge.end, edge.midpoint()];
        ends.iter().any(|end| end.distance(lowest) < 1e-6)
            && ends
                .iter()
                .all(|end| (plane.level_at(*end) - level).abs() < 5e-4)
    };
    let edge = outline.outer.edges.iter().find(is_level);
    edge.map_or(lowest, Edge::midpoint)
}

/// The middles of straight edges with a rounded corner at both ends.
fn middles(on_paper: &Outline, outline: &Outline) -> Vec<Point> {
    let paper = &on_paper.outer.edges;
    let count = paper.len();
    let rounds = |at: usize| {
        paper
            .get(at % count.max(1))
            .is_some_and(|edge| is_rounding(edge, on_paper))
    };
    let edges = outline.outer.edges.iter().enumerate();
    edges
        .filter(|(at, edge)| !edge.is_arc() && rounds(at + count - 1) && rounds(at + 1))
        .map(|(_, edge)| edge.midpoint())
        .collect()
}

/// The corners of a surface on the plan, those that are only rounded left out.
fn corners(on_paper: &Outline, outline: &Outline) -> Vec<Point> {
    let turns = |before: &Edge, after: &Edge| {
        let turn = before
            .direction_at_end()
            .angle_to(after.direction_at_start());
        turn.abs() > 0.1
    };
    let edges = &outline.outer.edges;
    let before = edges.iter().cycle().skip(edges.len().saturating_sub(1));
    let pairs = before.zip(edges).zip(&on_paper.outer.edges);
    pairs
        .filter(|((before, edge), paper)| turns(before, edge) && !is_rounding(paper, on_paper))
        .map(|((_, edge), _)| edge.start)
        .collect()
}

fn tell(canvas: &mut Canvas, spot: &Spot, outline: &Outline) {
    let mut label = Label {
        layer: Layer::Levels,
        ..Label::of(
            vec![lettering::set(&spot.words, LABEL, Face::Medium)],
            spot.at,
            spot.link,
        )
    };
    let half = room(&label);
    let mut places: Vec<(bool, f64, Point)> = Vec::new();
    for far in [1.7, 3.0, 5.0] {
        for (x, y) in CORNERS_FIRST {
            let room = Vector::new(x * (half.0 + far), y * (half.1 + far));
            let middle = spot.at + room;
            places.push((!outline.contains(middle), far, middle));
        }
    }
    places.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    label.places = places.into_iter().map(|(_, _, middle)| middle).collect();
    canvas.board.place(&label);
}
