//! What things are called: surfaces with what they are made of, holes by the
//! shape that was cut.

use super::canvas::Canvas;
use super::dimensions::circle;
use super::fields::{called_briefly, pattern_words, top_course, unit_size};
use super::ground::Ground;
use crate::drawing::display_list::Extents;
use crate::drawing::font::Face;
use crate::drawing::labels::{Label, room};
use crate::drawing::lettering::{self, LABEL, NOTE, Setting};
use crate::drawing::measure;
use crate::geometry::{Loop, Point, Vector};
use crate::model::Pattern;
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
    let mut label = Label::of(lines, ground.middle(), Some(surface.name.place));
    let likes = || {
        let all = grounds.iter();
        all.filter(|own| own.surface.index == surface.index)
    };
    let places: Vec<Point> = likes().flat_map(|own| own.places(3.0)).collect();
    // What it is laid in goes first where there is no room, then what it is
    // made of: the legend says so too.
    for count in (1..=label.lines.len()).rev() {
        label.lines.truncate(count);
        let half = room(&label);
        let is_room = |middle: &&Point| {
            let extents = Extents::about(**middle, half.0, half.1);
            let corners = extents.corners();
            let lies_in = |own: &Ground<'_>| corners.iter().all(|at| own.outline.contains(*at));
            canvas.board.is_free(&extents, true) && likes().any(lies_in)
        };
        if let Some(middle) = places.iter().find(is_room) {
            label.places = vec![*middle];
            break;
        }
    }
    let bare = places.iter().find(|at| canvas.board.is_bare(**at));
    label.anchor = bare.copied().unwrap_or(label.anchor);
    label.others = places;
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
            places: vec![middle],
            // Centre lines run through it.
            minds_lines: false,
            ..Label::of(lines, middle, label.map(|label| label.place))
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
