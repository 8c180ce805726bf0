//! What stands at a point or along an edge and is drawn by a mark: doors, guards
//! against a fall, trees, and the soakaways of the site that are no drains.

use super::canvas::Canvas;
use super::ground::{Ground, chain_moved, chains};
use crate::drawing::display_list::{Extents, Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::labels::Label;
use crate::drawing::legend::{SAMPLE, centred};
use crate::drawing::lettering::{self, LABEL};
use crate::drawing::measure;
use crate::findings::Place;
use crate::geometry::{Edge, Point, Vector};
use crate::model::{Job, LevelAt};
use crate::text::capital;
use crate::vocabulary::Term;

/// Half the side of a soakaway whose size is not known.
const SOAKAWAY: f64 = 3.0;
/// How far a door's mark reaches into the wall, and half its width.
const DOOR: (f64, f64) = (3.4, 1.7);
/// How far outside its edge a guard is drawn, and from one post to the next.
const GUARD: (f64, f64) = (0.9, 8.0);
/// The least radius at which a trunk is made out.
const TRUNK: f64 = 0.8;

/// Draws them all.
pub(crate) fn draw(canvas: &mut Canvas, job: &Job, grounds: &[Ground<'_>]) {
    for ground in grounds.iter().filter(|own| own.is_drawn_by_shape()) {
        doors(canvas, ground);
        guards(canvas, ground);
    }
    trees(canvas, job);
    soakaways(canvas, job);
}

/// Writes what they are called, where the legend does not say so.
pub(crate) fn label(canvas: &mut Canvas, job: &Job) {
    for tree in &job.site.trees {
        let at = canvas.view.point(tree.value.at);
        let half = trunk(canvas, tree.value.trunk.si());
        if canvas.board.holds(&Extents::about(at, half, half)) {
            let trunk = measure::length(tree.value.trunk.si(), canvas.system);
            name(
                canvas,
                &format!("tree, Ø {trunk}"),
                (at, half),
                Some(tree.place),
                Ink::Black,
            );
        }
    }
    for soakaway in job.soakaways_of_site() {
        let at = canvas.view.point(soakaway.value);
        let pit = capital(Term::Soakaway.word(canvas.region));
        name(
            canvas,
            &pit,
            (at, SOAKAWAY),
            Some(soakaway.place),
            Ink::Water,
        );
    }
}

/// The doors that open on a surface: how wide they are, nobody states.
fn doors(canvas: &mut Canvas, ground: &Ground<'_>) {
    for door in &ground.surface.doors {
        for (at, out) in openings(canvas, ground, &door.at) {
            for mark in door_mark(at, out) {
                canvas.draw(Layer::Building, Some(door.place), mark);
            }
            canvas.board.take(Extents {
                centre: at + out * (DOOR.0 / 2.0),
                half: (DOOR.0 / 2.0, DOOR.1),
                angle: out.y.atan2(out.x),
            });
            let sample = centred(|middle| door_mark(middle, Vector::new(0.0, 1.0)));
            canvas.explain(sample, "Door", Some("place only, not its width".to_owned()));
        }
    }
}

/// Where a door is on paper, and which way the wall lies from there.
fn openings(canvas: &Canvas, ground: &Ground<'_>, at: &LevelAt) -> Vec<(Point, Vector)> {
    let at_middle = |edge: &Edge| {
        (
            edge.midpoint(),
            edge.direction_at(0.5 * edge.length()).right(),
        )
    };
    match at {
        LevelAt::Point(at) => {
            let at = canvas.view.point(*at);
            let edges = ground.outline.edges();
            let off = |edge: &&Edge| edge.distance_to(at);
            let nearest = edges.min_by(|one, other| off(one).total_cmp(&off(other)));
            let out = nearest.map(|edge| edge.direction_at(edge.distance_along(at)).right());
            out.map(|out| (at, out)).into_iter().collect()
        }
        LevelAt::Edge(_, tags) => {
            let edges = ground.outline.edges();
            let edges = edges.filter(|edge| {
                let side = ground.surface.sides.get(edge.tag as usize);
                side.is_some_and(|side| tags.contains(&side.edge))
            });
            edges.map(at_middle).collect()
        }
        LevelAt::Whole => Vec::new(),
    }
}

/// The threshold, and an arrow out of the wall.
fn door_mark(at: Point, out: Vector) -> Vec<Mark> {
    let (deep, half) = DOOR;
    let aside = out.left() * half;
    let head = [at, at + out * deep + aside, at + out * deep + -aside];
    vec![
        Mark::Fill(vec![Path::polygon(&head)], Ink::Paper),
        Mark::Stroke(vec![Path::polygon(&head)], Pen::of(Weight::Mid)),
        Mark::Stroke(
            vec![Path::line(at + aside, at + -aside)],
            Pen::of(Weight::Heavy),
        ),
    ]
}

/// The guards against a fall: a line with posts outside the edge, their number
/// of no meaning.
fn guards(canvas: &mut Canvas, ground: &Ground<'_>) {
    let surface = ground.surface;
    let is_guarded = |edge: &Edge| surface.is_guarded(edge.tag);
    let link = surface.guards.first().map(|guard| guard.place);
    for (chain, is_closed) in chains(&ground.outline, is_guarded) {
        let moved = chain_moved(&chain, is_closed, -GUARD.0);
        for edge in &moved {
            for mark in guard_marks(edge) {
                canvas.draw(Layer::Outlines, link, mark);
            }
            canvas.board.take_line(edge.start, edge.end);
        }
        let y = SAMPLE.1 / 2.0;
        let line = Edge::line(Point::new(0.0, y), Point::new(SAMPLE.0, y), 0);
        canvas.explain(
            guard_marks(&line),
            "Guard",
            Some("not at its width".to_owned()),
        );
    }
}

fn guard_marks(edge: &Edge) -> Vec<Mark> {
    let length = edge.length();
    let spans = (length / GUARD.1).round().clamp(1.0, 1000.0) as u32;
    let post = |number: u32| {
        let at = edge.point_at(length * f64::from(number) / f64::from(spans));
        let half = Vector::new(0.6, 0.6);
        Path::rectangle(at + -half, at + half)
    };
    vec![
        Mark::Stroke(vec![Path::edge(*edge)], Pen::of(Weight::Mid)),
        Mark::Fill((0..=spans).map(post).collect(), Ink::Black),
    ]
}

/// The trunks of trees at their size.
fn trees(canvas: &mut Canvas, job: &Job) {
    let mut off = 0;
    for tree in &job.site.trees {
        let at = canvas.view.point(tree.value.at);
        let radius = trunk(canvas, tree.value.trunk.si());
        let extents = Extents::about(at, radius, radius);
        if !canvas.board.holds(&extents) {
            off += 1;
            continue;
        }
        let marks = tree_mark(at, radius);
        for mark in marks {
            canvas.draw(Layer::Names, Some(tree.place), mark);
        }
        canvas.board.take(extents);
        canvas.explain(
            centred(|middle| tree_mark(middle, 2.0)),
            "Tree, its trunk",
            None,
        );
    }
    match off {
        0 => {}
        1 => canvas.note("1 tree stands off this sheet.".to_owned()),
        more => canvas.note(format!("{more} trees stand off this sheet.")),
    }
}

fn trunk(canvas: &Canvas, metres: f64) -> f64 {
    (0.5 * metres * canvas.view.scale).max(TRUNK)
}

/// A ring with a cross in it.
fn tree_mark(at: Point, radius: f64) -> Vec<Mark> {
    let to = |x: f64, y: f64| at + Vector::new(x * radius, y * radius);
    let cross = vec![
        Path::line(to(-0.5, 0.0), to(0.5, 0.0)),
        Path::line(to(0.0, -0.5), to(0.0, 0.5)),
    ];
    vec![
        Mark::Stroke(vec![Path::circle(at, radius)], Pen::of(Weight::Mid)),
        Mark::Stroke(cross, Pen::of(Weight::Fine)),
    ]
}

/// The soakaways of the site that are no drains.
fn soakaways(canvas: &mut Canvas, job: &Job) {
    let dashed = Pen::of(Weight::Mid).in_ink(Ink::Water).dashed(&[1.6, 0.8]);
    for soakaway in job.soakaways_of_site() {
        let at = canvas.view.point(soakaway.value);
        let corner = Vector::new(SOAKAWAY, SOAKAWAY);
        let square = Path::rectangle(at + -corner, at + corner);
        let mark = Mark::Stroke(vec![square], dashed);
        canvas.draw(Layer::Water, Some(soakaway.place), mark);
        canvas.board.take(Extents::about(at, SOAKAWAY, SOAKAWAY));
        let sample = Path::rectangle(Point::new(4.0, 0.2), Point::new(10.0, 6.2));
        canvas.explain(
            vec![Mark::Stroke(vec![sample], dashed)],
            Term::Soakaway.word(canvas.region),
            Some("place only, not its size".to_owned()),
        );
    }
}

/// Names a mark under it, over it or beside it.
fn name(canvas: &mut Canvas, words: &str, (at, half): (Point, f64), link: Option<Place>, ink: Ink) {
    let lines = vec![lettering::set(words, LABEL, Face::Medium)];
    let label = Label {
        ink,
        ..Label::of(lines, at, link)
    };
    let ways = [(0.0, -1.0), (0.0, 1.0), (1.0, 0.0), (-1.0, 0.0)];
    canvas.board.place(&label.around(half + 0.6, &ways));
}
