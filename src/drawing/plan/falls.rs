//! Which way each surface falls, how steeply, and where its water goes.

use super::canvas::Canvas;
use super::ground::Ground;
use crate::drawing::display_list::{Extents, Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::labels::{Label, room};
use crate::drawing::legend::{centred, fall_arrow, lined};
use crate::drawing::lettering::{self, LABEL, NOTE, Setting};
use crate::drawing::measure;
use crate::findings::Place;
use crate::geometry::{Edge, Point, Vector};
use crate::model::{Contact, DrainLine, Job};
use crate::vocabulary::compass_word;

/// The lengths of the arrow that are tried.
const LENGTHS: [f64; 4] = [24.0, 16.0, 11.0, 7.0];
/// The white beside it.
const BESIDE: f64 = 1.4;

/// The room kept past the ends of an arrow.
const AT_ENDS: f64 = 0.8;
/// How far along its edge the arrow of a facet is moved aside at a time.
const ASIDE: f64 = 0.1;
const VALLEY: Pen = Pen::of(Weight::Fine).in_ink(Ink::Water);

/// What an arrow about a point takes.
fn arrow_room(centre: Point, down: Vector, length: f64) -> Extents {
    Extents {
        centre,
        half: (length / 2.0 + AT_ENDS, 1.2),
        angle: down.y.atan2(down.x),
    }
}

fn explain_arrow(canvas: &mut Canvas) {
    let arrow = centred(|middle| {
        let half = Vector::new(6.0, 0.0);
        fall_arrow(middle + -half, middle + half)
    });
    canvas.explain(arrow, "Fall, the arrow points down", None);
}

/// How the water runs on a surface: its slope and direction on the plan, and
/// the line that says so.
fn fall(ground: &Ground<'_>) -> Option<(f64, Vector, Option<Place>)> {
    let surface = ground.surface;
    let link = surface
        .fall
        .as_ref()
        .map(|fall| fall.place)
        .or_else(|| surface.levels.first().map(|level| level.place));
    let gradient = match (&surface.plane, &surface.fall) {
        (Some(plane), _) => plane.gradient(),
        (None, Some(fall)) => fall.gradient(),
        (None, None) => return None,
    };
    let slope = gradient.length();
    (slope > 1e-6).then(|| (slope, (-gradient).unit(), link))
}

/// Draws the valleys of a surface that falls to a drain, if it does.
pub(crate) fn draw_facets(canvas: &mut Canvas, ground: &Ground<'_>) {
    let surface = ground.surface;
    if surface.facets.is_empty() {
        return;
    }
    let link = surface.fall_to.as_ref().map(|fall| fall.place);
    let mut valleys = Vec::new();
    for facet in &surface.facets {
        let outline = canvas.view.outline(&facet.outline);
        let corners: Vec<Point> = outline.corners().collect();
        if let [_, end, foot] = corners.as_slice() {
            valleys.push(Path::line(*end, *foot));
            canvas.board.take_line(*end, *foot);
        }
    }
    if !valleys.is_empty() {
        canvas.explain(lined(VALLEY), "Valley, where two falls meet", None);
    }
    canvas.draw(Layer::Falls, link, Mark::Stroke(valleys, VALLEY));
}

/// Draws on each facet of a surface that falls to a drain an arrow with its
/// slope, where nothing else is drawn.
fn facets(canvas: &mut Canvas, ground: &Ground<'_>) {
    let surface = ground.surface;
    let link = surface.fall_to.as_ref().map(|fall| fall.place);
    explain_arrow(canvas);
    for facet in &surface.facets {
        let outline = canvas.view.outline(&facet.outline);
        let corners: Vec<Point> = outline.corners().collect();
        let [start, end, foot] = corners.as_slice() else {
            continue;
        };
        let side = *end - *start;
        let down = side.unit().left();
        let height = down.dot(*foot - *start);
        let lengths = LENGTHS.iter().filter(|length| **length * 2.0 <= height);
        // Pipes run to the pit through the middle.
        let reach = side.length() * ASIDE;
        let aside = [0.0, 1.0, -1.0, 2.0, -2.0].map(|times| side.unit() * (times * reach));
        let tried = lengths.flat_map(|length| aside.map(|off| (off, *length)));
        let mut tried =
            tried.map(|(off, length)| arrow_room(outline.centroid() + off, down, length));
        let Some(arrow) = tried.find(|room| canvas.board.is_free(room, true)) else {
            continue;
        };
        let (middle, half) = (arrow.centre, down * (arrow.half.0 - AT_ENDS));
        for mark in fall_arrow(middle + -half, middle + half) {
            canvas.draw(Layer::Falls, link, mark);
        }
        canvas.board.take(arrow);
        let (built, _) = measure::fall(facet.plane.slope(), canvas.system);
        let mut label = Label {
            ink: Ink::Water,
            layer: Layer::Falls,
            ..Label::of(
                vec![lettering::set(&built, LABEL, Face::Medium)],
                middle,
                link,
            )
        };
        let (wide, high) = room(&label);
        for way in [down.left(), down.right()] {
            let reach = (way.x * wide).abs() + (way.y * high).abs();
            label.places.push(middle + way * (reach + BESIDE));
        }
        canvas.board.place(&label);
    }
}

/// Draws the fall of a surface.
pub(crate) fn draw(canvas: &mut Canvas, ground: &Ground<'_>) {
    if !ground.surface.facets.is_empty() {
        facets(canvas, ground);
        return;
    }
    let Some((slope, down, link)) = fall(ground) else {
        return;
    };
    let (built, reported) = measure::fall(slope, canvas.system);
    let lines = vec![
        lettering::set(&built, LABEL, Face::Medium),
        lettering::set(&reported, NOTE, Face::Regular),
    ];
    explain_arrow(canvas);
    let places = ground.places(2.5);
    let middle = ground.middle();
    for length in LENGTHS {
        // A little off the middle, which is for the name.
        let side = down.left() * (length * 0.8);
        let wanted = [middle + side, middle + -side, middle];
        let mut tried = places.clone();
        let off = |place: &Point| {
            wanted
                .iter()
                .map(|wanted| wanted.distance(*place))
                .fold(f64::INFINITY, f64::min)
        };
        tried.sort_by(|a, b| off(a).total_cmp(&off(b)));
        for place in tried {
            if stands(canvas, ground, place, (down, length), &lines, link) {
                return;
            }
        }
    }
    let mut bare = places.iter().filter(|at| canvas.board.is_bare(**at));
    let bare = bare.next().copied().unwrap_or(middle);
    let label = Label {
        ink: Ink::Water,
        layer: Layer::Falls,
        others: places.clone(),
        ..Label::of(
            vec![
                lettering::set(
                    &format!("falls {built} {}", compass_word(down.bearing())),
                    LABEL,
                    Face::Medium,
                ),
                lettering::set(&reported, NOTE, Face::Regular),
            ],
            bare,
            link,
        )
    };
    canvas.board.place(&label);
}

/// Draws the arrow with its figures at a place, if there is room.
fn stands(
    canvas: &mut Canvas,
    ground: &Ground<'_>,
    place: Point,
    (down, length): (Vector, f64),
    lines: &[Setting],
    link: Option<Place>,
) -> bool {
    let arrow = arrow_room(place, down, length);
    let mut label = Label {
        ink: Ink::Water,
        layer: Layer::Falls,
        ..Label::of(lines.to_vec(), place, link)
    };
    if !canvas.board.is_free(&arrow, true) {
        return false;
    }
    let half = room(&label);
    let figures = [down.left(), down.right()]
        .map(|way| {
            let way = if way.x >= -1e-9 { way } else { -way };
            let reach = (way.x * half.0).abs() + (way.y * half.1).abs();
            place + way * (reach + BESIDE)
        })
        .into_iter()
        .find(|middle| {
            let extents = Extents::about(*middle, half.0, half.1);
            ground.outline.contains(*middle) && canvas.board.is_free(&extents, true)
        });
    let Some(figures) = figures else {
        return false;
    };
    let half_way = down * (length / 2.0);
    for mark in fall_arrow(place + -half_way, place + half_way) {
        let index = ground.surface.index;
        canvas.draw(Layer::Falls, link, mark);
        if let Some(item) = canvas.items.last_mut() {
            item.within = Some(index);
        }
    }
    label.places = vec![figures];
    canvas.board.place(&label);
    canvas.board.take(arrow);
    true
}

/// Says at the low edge where the water goes; not where that is a drain at the
/// surface, which is drawn with its name.
pub(crate) fn water(canvas: &mut Canvas, ground: &Ground<'_>, job: &Job) {
    let surface = ground.surface;
    let Some(water) = &surface.water else {
        return;
    };
    let drain = water.value.drain().and_then(|name| job.drain(name));
    let line = drain.and_then(|drain| drain.line.as_ref());
    let is_here = line.is_some_and(|line| match &line.value {
        DrainLine::Along { surface: own, .. } => *own == surface.name.value,
        DrainLine::At(at) => surface
            .outline
            .as_ref()
            .is_some_and(|outline| outline.contains(*at)),
        DrainLine::Straight(_) => false,
    });
    if is_here {
        return;
    }
    let words = format!("water to {}", water.value.shown());
    let words = lettering::cut(&words, NOTE, Face::Regular, 60.0);
    let mut label = Label {
        ink: Ink::Water,
        layer: Layer::Water,
        ..Label::of(
            vec![lettering::set(&words, NOTE, Face::Regular)],
            ground.middle(),
            Some(water.place),
        )
    };
    let half = room(&label);
    let Some((_, down, _)) = fall(ground) else {
        // Which edge is low is not known: inside, beside what stands there.
        let places = ground.places(2.5);
        let lies_in = |middle: &&Point| {
            let corners = Extents::about(**middle, half.0, half.1).corners();
            corners.iter().all(|at| ground.outline.contains(*at))
        };
        label.places = places.iter().filter(lies_in).copied().collect();
        let bare = places.iter().find(|at| canvas.board.is_bare(**at));
        label.anchor = bare.copied().unwrap_or(label.anchor);
        canvas.board.place(&label);
        return;
    };
    let height = |edge: &&Edge| down.dot(edge.midpoint() - Point::ORIGIN);
    let edges = ground.edges_at(|contact| contact != Contact::Building);
    let Some(low) = edges
        .max_by(|a, b| height(a).total_cmp(&height(b)))
        .copied()
    else {
        canvas.board.place(&label);
        return;
    };
    label.anchor = low.midpoint();
    for off in [2.2, 4.0, 6.0, 9.0] {
        for share in [0.5, 0.3, 0.7, 0.15, 0.85] {
            let at = low.point_at(share * low.length());
            let out = low.direction_at(share * low.length()).right();
            let reach = (out.x * half.0).abs() + (out.y * half.1).abs();
            label.places.push(at + out * (reach + off));
            label.others.push(at + out * off);
        }
    }
    canvas.board.place(&label);
}
