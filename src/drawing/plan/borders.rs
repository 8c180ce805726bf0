//! The edges of surfaces: the building, what holds a free edge, channels, and
//! the joints along and across.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_4};

use super::canvas::Canvas;
use super::fields::{called, called_briefly};
use super::ground::{Frame, Ground, chain_moved, chains, strip_outside};
use crate::drawing::clip;
use crate::drawing::display_list::{Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::font::Face;
use crate::drawing::labels::{Label, room};
use crate::drawing::legend::{SAMPLE, lined, sample_field};
use crate::drawing::lettering::{self, NOTE};
use crate::drawing::measure;
use crate::geometry::{Edge, NO_TAG, Outline, Point, Vector};
use crate::model::{Contact, Drain, Edging, Job};
use crate::quantities::SurfaceFigures;

/// How far the hatch of the building reaches.
pub(crate) const BAND: f64 = 7.0;
/// How far it goes past the ends of an edge.
const PAST: f64 = 4.0;
/// From one line of its hatch to the next.
const HATCH: f64 = 1.6;

const MOVEMENT: Pen = Pen::of(Weight::Heavy).dashed(&[3.0, 0.9, 0.5, 0.9]);
const ISOLATION: Pen = Pen::of(Weight::Heavy).dashed(&[0.9, 0.9]);

/// The strips of the building, outside the edges that meet it.
pub(crate) fn building(grounds: &[Ground<'_>]) -> Vec<Outline> {
    let mut strips = Vec::new();
    for ground in grounds {
        let at_building = |edge: &Edge| ground.surface.contact(edge.tag) == Some(Contact::Building);
        for (chain, is_closed) in chains(&ground.outline, at_building) {
            let last = chain.len().saturating_sub(1);
            for (at, edge) in chain.iter().enumerate() {
                let past = |is_end: bool| {
                    if is_end && !is_closed && !edge.is_arc() {
                        PAST
                    } else {
                        0.0
                    }
                };
                let longer = match edge.is_arc() {
                    true => *edge,
                    false => {
                        let way = edge.chord().unit();
                        Edge::line(
                            edge.start + way * -past(at == 0),
                            edge.end + way * past(at == last),
                            NO_TAG,
                        )
                    }
                };
                strips.extend(strip_outside(&longer, BAND));
            }
        }
    }
    strips
}

/// Draws the building: a hatched strip with no far line, cut where a surface
/// lies.
pub(crate) fn draw_building(canvas: &mut Canvas, grounds: &[Ground<'_>], strips: &[Outline]) {
    let mut lines = Vec::new();
    for (at, strip) in strips.iter().enumerate() {
        let earlier = strips.get(..at).unwrap_or_default();
        let others: Vec<&Outline> = grounds
            .iter()
            .map(|ground| &ground.outline)
            .chain(earlier)
            .collect();
        for (from, to) in hatch(strip) {
            let mut pieces = clip::inside(from, to, strip);
            for other in &others {
                let left = pieces
                    .iter()
                    .flat_map(|(from, to)| clip::outside(*from, *to, other));
                pieces = left.collect();
            }
            let long = pieces
                .into_iter()
                .filter(|(from, to)| from.distance(*to) > 0.2);
            lines.extend(long.map(|(from, to)| Path::line(from, to)));
        }
    }
    if lines.is_empty() {
        return;
    }
    canvas.draw(
        Layer::Building,
        None,
        Mark::Stroke(lines, Pen::of(Weight::Fine)),
    );
    let mut faces = Vec::new();
    for ground in grounds {
        let at_building = |edge: &Edge| ground.surface.contact(edge.tag) == Some(Contact::Building);
        for (chain, is_closed) in chains(&ground.outline, at_building) {
            faces.extend(face(&chain, is_closed));
        }
    }
    let cut: Vec<Path> = faces
        .into_iter()
        .flat_map(|(from, to)| {
            let mut pieces = vec![(from, to)];
            for ground in grounds {
                let shrunk =
                    |(from, to): &(Point, Point)| clip::outside(*from, *to, &ground.outline);
                pieces = pieces.iter().flat_map(shrunk).collect();
            }
            pieces
        })
        .map(|(from, to)| Path::line(from, to))
        .collect();
    canvas.draw(
        Layer::Building,
        None,
        Mark::Stroke(cut, Pen::of(Weight::Heavy)),
    );
    let field = sample_field();
    let sample = hatch(&field)
        .into_iter()
        .flat_map(|(from, to)| clip::inside(from, to, &field))
        .map(|(from, to)| Path::line(from, to))
        .collect();
    let face = Path::line(Point::new(0.0, 0.0), Point::new(SAMPLE.0, 0.0));
    let sample = vec![
        Mark::Stroke(sample, Pen::of(Weight::Fine)),
        Mark::Stroke(vec![face], Pen::of(Weight::Heavy)),
    ];
    canvas.explain(sample, "Building", None);
}

/// The wall's face past the ends of a chain.
fn face(chain: &[Edge], is_closed: bool) -> Vec<(Point, Point)> {
    let (Some(first), Some(last)) = (chain.first(), chain.last()) else {
        return Vec::new();
    };
    let mut lines = Vec::new();
    if !is_closed && !first.is_arc() {
        lines.push((first.start + first.chord().unit() * -PAST, first.start));
    }
    if !is_closed && !last.is_arc() {
        lines.push((last.end, last.end + last.chord().unit() * PAST));
    }
    lines
}

/// Lines at 45° over an outline, not yet cut; all outlines share them.
fn hatch(outline: &Outline) -> Vec<(Point, Point)> {
    // Half a right angle to the wall, whichever way that runs: on one that is
    // square to the sheet or to another wall the lines go on round the corner.
    let wall = outline.outer.edges.first();
    let along = wall.map_or(Vector::new(1.0, 0.0), Edge::chord);
    let turned = (along.y.atan2(along.x) + 1e-9).rem_euclid(FRAC_PI_2);
    let way = Vector::new(1.0, 0.0).turned(turned + FRAC_PI_4);
    let (least, most) = outline.extremes(way.left());
    let (start, end) = outline.extremes(way);
    let count = |value: f64| (value / HATCH).floor() as i64;
    (count(least)..=count(most) + 1)
        .map(|line| {
            let from = Point::ORIGIN + way.left() * (line as f64 * HATCH);
            (from + way * start, from + way * end)
        })
        .collect()
}

/// Draws the edges of a surface with what runs along them.
pub(crate) fn draw(canvas: &mut Canvas, job: &Job, ground: &Ground<'_>) {
    let surface = ground.surface;
    for edge in ground.outline.edges() {
        let (weight, layer) = match surface.contact(edge.tag) {
            Some(Contact::Building) => (Weight::Heavy, Layer::Building),
            Some(Contact::Surface(_)) => (Weight::Mid, Layer::Outlines),
            _ => (Weight::Heavy, Layer::Outlines),
        };
        let link = edge_place(ground, edge);
        let path = Path::edge(*edge);
        canvas.draw(layer, link, Mark::Stroke(vec![path], Pen::of(weight)));
    }
    edgings(canvas, ground);
    channels(canvas, job, ground);
    isolation(canvas, ground);
}

/// The line that makes an edge.
fn edge_place(ground: &Ground<'_>, edge: &Edge) -> Option<crate::findings::Place> {
    let side = ground.surface.sides.get(edge.tag as usize)?;
    let shape = ground.surface.shape.as_ref()?;
    let label = shape.value.labels.get(side.edge as usize)?;
    Some(label.place)
}

fn edgings(canvas: &mut Canvas, ground: &Ground<'_>) {
    for edging in &ground.surface.edgings {
        if !edging.is_known {
            continue;
        }
        let of = &edging.material.value;
        let breadth = edging.standing();
        let width = breadth.map(|(_, breadth)| breadth.value.si() * canvas.view.scale);
        // No narrower than can be seen apart from the edge.
        let width = width.unwrap_or(0.0).clamp(1.0, 6.0);
        let mut paths = Vec::new();
        for (chain, is_closed) in chains(&ground.outline, |edge| edging.along.contains(&edge.tag)) {
            let moved = chain_moved(&chain, is_closed, -width);
            let ends = chain
                .first()
                .zip(chain.last())
                .zip(moved.first().zip(moved.last()));
            if let Some(((first, last), (outer_first, outer_last))) = ends
                && !is_closed
            {
                paths.push(Path::line(first.start, outer_first.start));
                paths.push(Path::line(last.end, outer_last.end));
            }
            paths.push(Path {
                edges: moved,
                is_closed,
            });
        }
        let drawn = Mark::Stroke(paths, Pen::of(Weight::Mid));
        canvas.draw(Layer::Outlines, Some(edging.place), drawn);
        let y = SAMPLE.1 / 2.0;
        let line = |y: f64| Path::line(Point::new(0.0, y), Point::new(SAMPLE.0, y));
        let sample = vec![
            Mark::Stroke(vec![line(y)], Pen::of(Weight::Heavy)),
            Mark::Stroke(vec![line(y - 1.0)], Pen::of(Weight::Mid)),
        ];
        canvas.explain(
            sample,
            &format!("Edging: {}", called(of, canvas.region)),
            None,
        );
    }
}

/// Says along each edge what holds it, where that is not the same all round.
pub(crate) fn name_edgings(canvas: &mut Canvas, grounds: &[Ground<'_>]) {
    let edgings = grounds.iter().flat_map(|ground| {
        let own = ground.surface.edgings.iter();
        own.filter(|own| own.is_known).map(move |own| (ground, own))
    });
    let all: Vec<(&Ground<'_>, &Edging)> = edgings.collect();
    let region = canvas.region;
    let name = |own: &Edging| called_briefly(&own.material.value, region);
    let first = all.first().map(|(_, own)| name(own));
    if all.iter().all(|(_, own)| Some(name(own)) == first) {
        return;
    }
    for (ground, own) in all {
        let sides = ground
            .outline
            .edges()
            .filter(|edge| own.along.contains(&edge.tag));
        let longest = sides.max_by(|one, other| one.length().total_cmp(&other.length()));
        let Some(side) = longest else { continue };
        let out = (side.end - side.start).unit().right();
        let mut label = Label::of(
            vec![lettering::set(&name(own), NOTE, Face::Regular)],
            side.midpoint(),
            Some(own.place),
        );
        let (wide, high) = room(&label);
        let reach = (out.x * wide).abs() + (out.y * high).abs();
        for share in [0.5, 0.35, 0.65, 0.2, 0.8] {
            let at = side.point_at(share * side.length());
            label
                .places
                .extend([2.2, 7.0].map(|off| at + out * (reach + off)));
        }
        canvas.board.place(&label);
    }
}

fn channels(canvas: &mut Canvas, job: &Job, ground: &Ground<'_>) {
    // No narrower than can be seen.
    const WIDTH: f64 = 1.8;
    let surface = ground.surface;
    let own = |edge: &Edge| {
        let side = surface.sides.get(edge.tag as usize)?;
        job.channel_along(&surface.name.value, side.edge)
    };
    for (chain, is_closed) in chains(&ground.outline, |edge| surface.channel(edge.tag).is_some()) {
        let link = chain.first().and_then(|edge| surface.channel(edge.tag));
        let stated = chain.first().and_then(own).and_then(Drain::channel_width);
        let stated = stated.map(|own| own.value.si());
        let on_paper = stated.map(|metres| metres * canvas.view.scale);
        let width = on_paper.map_or(WIDTH, |wide| wide.clamp(WIDTH, 8.0));
        let inner = chain_moved(&chain, is_closed, width);
        for (outer, inner) in chain.iter().zip(&inner) {
            let (from, to) = (outer.start, outer.end);
            let strip = Path {
                edges: vec![
                    *outer,
                    Edge::line(to, inner.end, NO_TAG),
                    inner.reversed(),
                    Edge::line(inner.start, from, NO_TAG),
                ],
                is_closed: true,
            };
            canvas.draw(Layer::Water, link, Mark::Fill(vec![strip], Ink::WaterTint));
            let bars = bars(outer, inner);
            let pen = Pen::of(Weight::Fine).in_ink(Ink::Water);
            canvas.draw(Layer::Water, link, Mark::Stroke(bars, pen));
        }
        let line = Path {
            edges: inner,
            is_closed,
        };
        let pen = Pen::of(Weight::Mid).in_ink(Ink::Water);
        canvas.draw(Layer::Water, link, Mark::Stroke(vec![line], pen));
        let middle = SAMPLE.1 / 2.0;
        let (low, high) = (middle - WIDTH / 2.0, middle + WIDTH / 2.0);
        let (bottom, top) = (
            Edge::line(Point::new(0.0, low), Point::new(SAMPLE.0, low), NO_TAG),
            Edge::line(Point::new(0.0, high), Point::new(SAMPLE.0, high), NO_TAG),
        );
        let tint = Path::rectangle(Point::new(0.0, low), Point::new(SAMPLE.0, high));
        let sample = vec![
            Mark::Fill(vec![tint], Ink::WaterTint),
            Mark::Stroke(
                bars(&bottom, &top),
                Pen::of(Weight::Fine).in_ink(Ink::Water),
            ),
            Mark::Stroke(vec![Path::edge(bottom), Path::edge(top)], pen),
        ];
        let shown = stated.map(|metres| measure::length(metres, canvas.system));
        let note = match (shown, on_paper) {
            (None, _) => "its width is not stated".to_owned(),
            (Some(wide), Some(own)) if own >= WIDTH => format!("{wide} wide"),
            (Some(wide), _) => format!("{wide} wide; not at its width"),
        };
        canvas.explain(sample, "Drain channel", Some(note));
    }
}

/// Lines across a strip every 1.5 mm.
fn bars(outer: &Edge, inner: &Edge) -> Vec<Path> {
    let count = (outer.length() / 1.5).floor().clamp(0.0, 1000.0) as u32;
    (1..=count)
        .map(|bar| {
            let share = (f64::from(bar) * 1.5 / outer.length()).min(1.0);
            Path::line(
                outer.point_at(share * outer.length()),
                inner.point_at(share * inner.length()),
            )
        })
        .collect()
}

fn isolation(canvas: &mut Canvas, ground: &Ground<'_>) {
    let surface = ground.surface;
    let Some(joint) = &surface.isolation_joint else {
        return;
    };
    let at_building = |edge: &Edge| surface.contact(edge.tag) == Some(Contact::Building);
    let width = joint.value.si();
    let off = (width * canvas.view.scale / 2.0).max(0.7);
    let mut is_drawn = false;
    for (chain, is_closed) in chains(&ground.outline, at_building) {
        let line = Path {
            edges: chain_moved(&chain, is_closed, off),
            is_closed,
        };
        canvas.draw(
            Layer::Joints,
            Some(joint.place),
            Mark::Stroke(vec![line], ISOLATION),
        );
        is_drawn = true;
    }
    if is_drawn {
        let words = format!(
            "Isolation joint, {} wide",
            measure::length(width, canvas.system)
        );
        canvas.explain(lined(ISOLATION), &words, None);
    }
}

/// Draws the movement joints: equal panels of the rectangle that lies along
/// the longest straight edge, as the take-off counts them.
pub(crate) fn movement(canvas: &mut Canvas, ground: &Ground<'_>, figures: &SurfaceFigures) {
    let surface = ground.surface;
    let (Some(panels), Some(spacing)) = (figures.movement, &surface.movement_joints) else {
        return;
    };
    let edges = ground.outline.outer.edges.iter();
    let longest = edges
        .filter(|edge| !edge.is_arc())
        .max_by(|a, b| a.length().total_cmp(&b.length()));
    let along = longest.map_or(Vector::new(1.0, 0.0), |edge| edge.chord().unit());
    let mut paths = Vec::new();
    for (way, count) in [
        (along, panels.panels_along),
        (along.left(), panels.panels_across),
    ] {
        let (least, most) = ground.outline.extremes(way);
        let (start, end) = ground.outline.extremes(way.left());
        // A joint every millimetre of paper would be black.
        let fits = (most - least) / count > 1.0;
        let joints = if fits { count as u32 } else { 0 };
        for joint in 1..joints {
            let at = least + (most - least) * f64::from(joint) / count;
            let foot = Point::ORIGIN + way * at;
            let across = way.left();
            let line = (foot + across * (start - 1.0), foot + across * (end + 1.0));
            let pieces = clip::inside(line.0, line.1, &ground.outline);
            paths.extend(pieces.into_iter().map(|(from, to)| Path::line(from, to)));
        }
    }
    if paths.is_empty() {
        return;
    }
    for path in &paths {
        for edge in &path.edges {
            canvas.board.take_line(edge.start, edge.end);
        }
    }
    let mark = Mark::Stroke(paths, MOVEMENT);
    canvas.draw_within(Layer::Joints, surface, spacing.place, mark);
    let most = measure::length(spacing.value.si(), canvas.system);
    let note = format!("at most every {most}: equal panels are assumed");
    canvas.explain(lined(MOVEMENT), "Movement joint", Some(note));
}

/// What surfaces and all that stands beside them take along and across a
/// frame.
pub(crate) fn reaches<'a>(
    grounds: &'a [Ground<'_>],
    beside: impl Iterator<Item = &'a Outline> + Clone,
    frame: &Frame,
) -> [(f64, f64); 2] {
    [frame.along, frame.across].map(|way| {
        let outlines = grounds.iter().map(|ground| &ground.outline);
        let outlines = outlines.chain(beside.clone());
        outlines
            .map(|outline| outline.extremes(way))
            .reduce(|all, one| (all.0.min(one.0), all.1.max(one.1)))
            .unwrap_or((0.0, 0.0))
    })
}
