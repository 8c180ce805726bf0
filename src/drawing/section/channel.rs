//! The drain channel along the low edge of a section: its body at its size, in
//! what it is laid in.

use super::cut::{Course, Cut};
use super::edging;
use super::ends::Ends;
use crate::drawing::display_list::{Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::figure::Sketch;
use crate::drawing::filling::{self, Filling};
use crate::drawing::legend::{boxed, sample_corners};
use crate::drawing::measure;
use crate::drawing::texture::seed;
use crate::findings::Place;
use crate::geometry::{Point, Vector};
use crate::model::DrainBody;

/// What of a channel is cut, in metres.
#[derive(Clone, Copy)]
struct Sizes {
    /// Outside.
    wide: f64,
    /// Inside.
    clear: (f64, f64),
    /// How thick its walls are.
    wall: f64,
    /// How thick what it is laid in is.
    round: f64,
}

fn sizes(cut: &Cut<'_>) -> Option<Sizes> {
    let channel = cut.channel?;
    let DrainBody::Channel { clear, .. } = &channel.body.as_ref()?.value else {
        return None;
    };
    let (width, depth) = clear.as_ref()?;
    let clear = (width.value.si(), depth.value.si());
    let wide = channel.channel_width()?.value.si();
    let bedded = channel.bedded.as_ref().and_then(|own| own.round.as_ref());
    let all = Sizes {
        wide,
        clear,
        wall: 0.5 * (wide - clear.0),
        round: bedded.map_or(0.0, |round| round.value.si()),
    };
    let known = [all.wide, clear.0, clear.1, all.wall + 1.0, all.round];
    known.iter().all(|own| own.is_finite()).then_some(all)
}

/// How far inward of the edge it hides a layer at a depth, in metres.
pub(crate) fn hides_m(cut: &Cut<'_>, depth_m: f64) -> f64 {
    let top = cut.courses.first().and_then(Course::depths);
    let top = top.map_or(0.0, |(_, under)| under);
    match sizes(cut) {
        Some(own) if depth_m >= own.clear.1 + own.wall + own.round => 0.0,
        Some(own) if depth_m < top => own.wide,
        Some(own) => own.wide + own.round,
        None => 0.0,
    }
}

/// How deep its underside lies under the finished surface, in metres, with
/// what it is laid in.
pub(crate) fn under_m(cut: &Cut<'_>) -> f64 {
    sizes(cut).map_or(0.0, |own| own.clear.1 + own.wall + own.round)
}

/// How far what it is laid in goes past the edge, in metres: not into what
/// holds the edge.
pub(crate) fn outside_m(cut: &Cut<'_>) -> f64 {
    let is_open = edging::unit_m(cut).is_none();
    let round = sizes(cut).filter(|_| is_open);
    round.map_or(0.0, |own| own.round)
}

/// Draws it: what it is laid in, its body, the water's way and the grating.
pub(crate) fn draw(sketch: &mut Sketch, ends: &Ends<'_>) {
    let Some(channel) = ends.cut().channel else {
        return;
    };
    let name = channel.name.value.replace('-', " ");
    let Some(own) = sizes(ends.cut()) else {
        sketch.note(format!(
            "{name}: its size is not stated, and it is not cut here."
        ));
        return;
    };
    let link = Some(channel.place);
    let corner = |inward: f64, down: f64| {
        ends.edge() + Vector::new(-ends.on_paper(inward), -ends.on_paper(down))
    };
    let rectangle = |from: (f64, f64), to: (f64, f64)| {
        let (a, b) = (corner(from.0, from.1), corner(to.0, to.1));
        [a, Point::new(b.x, a.y), b, Point::new(a.x, b.y)]
    };
    let deep = own.clear.1 + own.wall;
    if let Some(bedding) = channel.bedded.as_ref().filter(|_| own.round > 0.0) {
        let filling = match bedding.of.value.mix() {
            Some(_) => Filling::Concrete,
            None => Filling::Bedding,
        };
        let stuff = bedding.of.value.name();
        // Paving goes over it up to the channel.
        let top = ends.cut().courses.first().and_then(Course::depths);
        let top = top.map_or(0.0, |(_, under)| under.min(deep));
        let past = outside_m(ends.cut());
        let around = [
            corner(own.wide + own.round, top),
            corner(own.wide + own.round, deep + own.round),
            corner(-past, deep + own.round),
            corner(-past, 0.0),
            corner(0.0, 0.0),
            corner(0.0, top),
        ];
        filled(sketch, link, (filling, seed(stuff)), &around);
        let marks = filling::marks(filling, seed(stuff), Point::ORIGIN, &sample_corners());
        let title = format!("The channel lies in {}", stuff.replace('-', " "));
        sketch.explain(boxed(marks), &title, None);
    }
    let body = rectangle((own.wide, 0.0), (0.0, deep));
    let way = rectangle((own.wide - own.wall, 0.0), (own.wall, own.clear.1));
    let mid = Pen::of(Weight::Mid).in_ink(Ink::Water);
    for mark in [
        Mark::Fill(vec![Path::polygon(&body)], Ink::Paper),
        Mark::Stroke(vec![Path::polygon(&body)], Pen::of(Weight::Mid)),
        Mark::Fill(vec![Path::polygon(&way)], Ink::WaterTint),
        Mark::Stroke(vec![Path::polygon(&way)], mid),
        Mark::Stroke(vec![Path::line(body[0], body[1])], Pen::of(Weight::Heavy)),
    ] {
        sketch.draw(Layer::Water, link, mark);
    }
    let size = measure::unit(own.clear.0, own.clear.1, sketch.system);
    let sample = vec![
        Mark::Fill(vec![Path::polygon(&sample_corners())], Ink::WaterTint),
        Mark::Stroke(vec![Path::polygon(&sample_corners())], mid),
    ];
    sketch.explain(
        sample,
        "Channel",
        Some(format!("{size} clear, at its size")),
    );
}

/// A face in place of what lies behind it.
fn filled(
    sketch: &mut Sketch,
    link: Option<Place>,
    (filling, seed): (Filling, u64),
    corners: &[Point],
) {
    let face = vec![Path::polygon(corners)];
    sketch.draw(Layer::Water, link, Mark::Fill(face.clone(), Ink::Paper));
    for mark in filling::marks(filling, seed, Point::ORIGIN, corners) {
        sketch.draw(Layer::Textures, link, mark);
    }
    let pen = Pen::of(Weight::Mid);
    sketch.draw(Layer::Outlines, link, Mark::Stroke(face, pen));
}
