//! What things are called: surfaces with what they are made of, holes by the
//! shape that was cut, and what the site says lies at a point.

use super::canvas::Canvas;
use super::dimensions::circle;
use super::fields::{called_briefly, pattern_words, top_course, unit_size};
use super::ground::Ground;
use crate::drawing::display_list::{Extents, Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::labels::{Label, room};
use crate::drawing::lettering::{self, LABEL, NOTE, Setting};
use crate::drawing::measure;
use crate::geometry::{Loop, Point, Vector};
use crate::model::{Job, Pattern};
use crate::text::capital;
use crate::vocabulary::Term;

/// No line of a label is wider than this.
const WIDEST: f64 = 62.0;

fn note(text: &str) -> Setting {
    let text = lettering::cut(text, NOTE, Face::Regular, WIDEST);
    lettering::set(&text, NOTE, Face::Regular)
}

fn name(text: &str) -> Setting {
    let text = lettering::cut(&text.replace('-', " "), LABEL, Face::Medium, WIDEST);
    lettering::set(&text, LABEL, Face::Medium)
}

/// Names a surface, and says what lies on it if that is told: of a shape that
/// comes again at any of its likes.
pub(crate) fn surface(
    canvas: &mut Canvas,
    ground: &Ground<'_>,
    grounds: &[Ground<'_>],
    tells_laying: bool,
) {
    let surface = ground.surface;
    let mut lines = vec![name(&surface.name.value)];
    if let Some(repeat) = &surface.repeat {
        let spacing = measure::length(repeat.spacing.value.si(), canvas.system);
        let spacing = Term::spacing(&spacing, canvas.region);
        let (count, name) = (surface.count(), &surface.name.value);
        canvas.note(format!("{name}: {count} in all, {spacing}."));
    }
    if let Some(top) = top_course(surface).filter(|_| tells_laying) {
        let called = called_briefly(&top.of.value, canvas.region);
        lines.push(note(&called));
    }
    if let Some(laid) = surface.laid.as_ref().filter(|_| tells_laying) {
        let pattern = laid.pattern.value;
        let is_one = pattern != Pattern::Irregular && laid.has_one_size();
        let size = unit_size(surface).filter(|_| is_one);
        let size = size.map(|(long, short)| measure::unit(long, short, canvas.system) + ", ");
        let words = format!("{}{}", size.unwrap_or_default(), pattern_words(pattern));
        lines.push(note(&words));
    }
    let mut label = Label {
        lines,
        ink: Ink::Black,
        layer: Layer::Names,
        link: Some(surface.name.place),
        anchor: ground.middle(),
        places: Vec::new(),
        angle: 0.0,
        minds_lines: true,
    };
    let likes = || {
        let all = grounds.iter();
        all.filter(|own| own.surface.index == surface.index)
    };
    let places: Vec<Point> = likes().flat_map(|own| own.places(3.0)).collect();
    let half = room(&label);
    let lies_inside = |middle: &Point| {
        let corners = Extents::about(*middle, half.0, half.1).corners();
        likes().any(|own| corners.iter().all(|corner| own.outline.contains(*corner)))
    };
    label.places = places.iter().copied().filter(lies_inside).collect();
    if label.places.is_empty() && label.lines.len() > 1 {
        // Its name alone may still fit; the legend says what it is made of.
        label.lines.truncate(1);
        label.places = places;
    }
    canvas.board.place(&label);
}

/// Names the holes of a surface.
pub(crate) fn holes(canvas: &mut Canvas, ground: &Ground<'_>, grounds: &[Ground<'_>]) {
    for hole in &ground.outline.holes {
        // What lies in it is named by itself.
        if Ground::filling(grounds, hole).is_some() {
            continue;
        }
        let Some(edge) = hole.edges.first() else {
            continue;
        };
        let side = ground.surface.sides.get(edge.tag as usize);
        let shape = ground.surface.shape.as_ref();
        let label = side
            .zip(shape)
            .and_then(|(side, shape)| shape.value.labels.get(side.edge as usize));
        let owner = label.and_then(|label| label.owner.clone());
        let mut lines = vec![name(owner.as_deref().unwrap_or("open"))];
        lines.extend(size(canvas, hole));
        let middle = hole_middle(hole);
        let mut label = Label {
            lines,
            ink: Ink::Black,
            layer: Layer::Names,
            link: label.map(|label| label.place),
            anchor: middle,
            places: vec![middle],
            angle: 0.0,
            // Centre lines run through it.
            minds_lines: false,
        };
        let half = room(&label);
        let box_at = Extents::about(middle, half.0, half.1);
        let fits = box_at.corners().iter().all(|corner| {
            let inside = crate::geometry::Outline {
                outer: Loop {
                    edges: hole
                        .edges
                        .iter()
                        .rev()
                        .map(crate::geometry::Edge::reversed)
                        .collect(),
                },
                holes: Vec::new(),
            };
            inside.contains(*corner)
        });
        if !fits {
            label.places.clear();
        }
        canvas.board.place(&label);
    }
}

fn size(canvas: &Canvas, hole: &Loop) -> Option<Setting> {
    if let Some((_, radius)) = circle(hole) {
        let across = 2.0 * radius / canvas.view.scale;
        return Some(note(&format!(
            "Ø {}",
            measure::length(across, canvas.system)
        )));
    }
    None
}

fn hole_middle(hole: &Loop) -> Point {
    let points: Vec<Point> = hole
        .edges
        .iter()
        .flat_map(|edge| [edge.start, edge.midpoint()])
        .collect();
    let count = points.len().max(1) as f64;
    let sum = points.iter().fold(Vector::default(), |sum, point| {
        sum + (*point - Point::ORIGIN)
    });
    Point::ORIGIN + sum * (1.0 / count)
}

/// Draws the soakaways of the site that are no drains.
pub(crate) fn soakaways(canvas: &mut Canvas, job: &Job) {
    const SIDE: f64 = 3.0;
    let dashed = Pen::of(Weight::Mid).in_ink(Ink::Water).dashed(&[1.6, 0.8]);
    for soakaway in job.soakaways_of_site() {
        let at = canvas.view.point(soakaway.value);
        let corner = Vector::new(SIDE, SIDE);
        let square = Path::rectangle(at + -corner, at + corner);
        canvas.draw(
            Layer::Water,
            Some(soakaway.place),
            Mark::Stroke(vec![square], dashed),
        );
        canvas.board.take(Extents::about(at, SIDE, SIDE));
        let pit = Term::Soakaway.word(canvas.region);
        let mut label = Label {
            lines: vec![lettering::set(&capital(pit), LABEL, Face::Medium)],
            ink: Ink::Water,
            layer: Layer::Water,
            link: Some(soakaway.place),
            anchor: at,
            places: Vec::new(),
            angle: 0.0,
            minds_lines: true,
        };
        let half = room(&label);
        label.places = [
            Vector::new(0.0, -(SIDE + half.1 + 0.6)),
            Vector::new(0.0, SIDE + half.1 + 0.6),
            Vector::new(SIDE + half.0 + 0.6, 0.0),
            Vector::new(-(SIDE + half.0 + 0.6), 0.0),
        ]
        .map(|off| at + off)
        .to_vec();
        canvas.board.place(&label);
        let sample = Path::rectangle(Point::new(4.0, 0.2), Point::new(10.0, 6.2));
        canvas.explain(
            vec![Mark::Stroke(vec![sample], dashed)],
            pit,
            Some("place only, not its size".to_owned()),
        );
    }
}
