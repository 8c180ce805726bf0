//! What holds the low edge of a section: its unit at its size, in the concrete
//! that it stands in.

use super::cut::{Course, Cut};
use super::ends::Ends;
use crate::drawing::display_list::{Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::figure::Sketch;
use crate::drawing::filling::{self, Filling};
use crate::drawing::legend::{boxed, lined, sample_corners};
use crate::drawing::measure;
use crate::drawing::texture::seed;
use crate::findings::Place;
use crate::geometry::{Point, Vector};
use crate::model::{Edging, Footing};
use crate::vocabulary::Role;

/// How wide the unit at the low edge is, in metres, where its size is known.
pub(crate) fn unit_m(cut: &Cut<'_>) -> Option<f64> {
    let (_, breadth) = cut.edging?.standing()?;
    Some(breadth.value.si()).filter(|breadth| breadth.is_finite())
}

/// How far what holds the low edge goes past it, in metres.
pub(crate) fn outside_m(cut: &Cut<'_>) -> f64 {
    let haunch = cut
        .edging
        .and_then(|own| own.footing.as_ref()?.haunch.as_ref());
    let haunch = haunch.map_or(0.0, |haunch| haunch.width.value.si());
    unit_m(cut).map_or(0.0, |breadth| breadth + haunch)
}

/// How deep its underside lies under the finished surface, in metres, with
/// the bed that it stands in.
pub(crate) fn under_m(cut: &Cut<'_>) -> f64 {
    let known = cut.edging.and_then(|own| {
        let (height, _) = own.standing()?;
        let above = own.above.as_ref().map_or(0.0, |above| above.value.si());
        let bed = own.footing.as_ref().and_then(|own| own.depth.as_ref());
        let bed = bed.map_or(0.0, |bed| bed.value.si());
        Some(height.value.si() + bed - above)
    });
    known.filter(|deep| deep.is_finite()).unwrap_or(0.0)
}

/// Draws it; where its size is not known, a line as deep as what it holds.
pub(crate) fn draw(sketch: &mut Sketch, ends: &Ends<'_>) {
    let cut = ends.cut();
    high(sketch, cut);
    let Some(edging) = cut.edging else {
        elsewhere(sketch, cut);
        return;
    };
    let title = format!("Edging: {}", edging.material.value.name().replace('-', " "));
    let Some((height, breadth)) = edging.standing() else {
        line(sketch, ends, edging, &title);
        return;
    };
    let (height, breadth) = (height.value.si(), breadth.value.si());
    let above = edging.above.as_ref().map_or(0.0, |above| above.value.si());
    let top = ends.edge() + Vector::new(0.0, ends.on_paper(above));
    let (wide, high) = (ends.on_paper(breadth), ends.on_paper(height));
    if let Some(footing) = &edging.footing {
        concrete(sketch, ends, (edging, footing), (top, wide, high));
    }
    let unit = rectangle(top, wide, high);
    let link = Some(edging.place);
    piece(
        sketch,
        link,
        (Filling::Units, edging.material.value.name()),
        &unit,
    );
    let size = measure::unit(height, breadth, sketch.system);
    let marks = filling::marks(Filling::Units, 1, Point::ORIGIN, &sample_corners());
    sketch.explain(boxed(marks), &title, Some(format!("{size}, at its size")));
}

/// The bed under the unit and its haunch, and the haunch against its outer
/// side.
fn concrete(
    sketch: &mut Sketch,
    ends: &Ends<'_>,
    (edging, footing): (&Edging, &Footing),
    (top, wide, high): (Point, f64, f64),
) {
    let filling = match footing.of.value.mix() {
        Some(_) => Filling::Concrete,
        None => Filling::Bedding,
    };
    let name = footing.of.value.name();
    let link = Some(edging.place);
    let haunch = footing.haunch.as_ref();
    let aside = haunch.map_or(0.0, |own| ends.on_paper(own.width.value.si()));
    let under = top + Vector::new(0.0, -high);
    if let Some(depth) = &footing.depth {
        let bed = rectangle(under, wide + aside, ends.on_paper(depth.value.si()));
        piece(sketch, link, (filling, name), &bed);
    }
    if let Some(haunch) = haunch {
        let down = ends.on_paper(haunch.below_top.value.si());
        let corner = top + Vector::new(wide, -down);
        if high > down {
            piece(
                sketch,
                link,
                (filling, name),
                &rectangle(corner, aside, high - down),
            );
        }
    }
    let marks = filling::marks(filling, seed(name), Point::ORIGIN, &sample_corners());
    let title = format!("The edging stands in {}", name.replace('-', " "));
    sketch.explain(boxed(marks), &title, None);
}

fn line(sketch: &mut Sketch, ends: &Ends<'_>, edging: &Edging, title: &str) {
    let held = ends.cut().courses.iter().filter(|course| {
        let role = course.layer.role.value;
        matches!(
            role,
            Role::Paving | Role::Surfacing | Role::Bond | Role::Bed
        )
    });
    let depth = held.filter_map(Course::depths).map(|(_, under)| under);
    let depth = depth.fold(0.0, f64::max);
    let from = ends.edge() + Vector::new(0.4, 0.0);
    let line = Path::line(from, from + Vector::new(0.0, -ends.on_paper(depth)));
    let pen = Pen::of(Weight::Heavy);
    let mark = Mark::Stroke(vec![line], pen);
    sketch.draw(Layer::Outlines, Some(edging.place), mark);
    let note = "a line: its size is not stated".to_owned();
    sketch.explain(lined(pen), title, Some(note));
}

/// Says what holds the high edge.
fn high(sketch: &mut Sketch, cut: &Cut<'_>) {
    let Some(edging) = cut.high_edging.filter(|_| cut.edging.is_some()) else {
        return;
    };
    let name = edging.material.value.name().replace('-', " ");
    for surface in &cut.surfaces {
        sketch.note(format!(
            "{}: the {name} at the high edge is not drawn here.",
            surface.name.value.replace('-', " ")
        ));
    }
}

/// Says what holds other edges than the one that is cut.
fn elsewhere(sketch: &mut Sketch, cut: &Cut<'_>) {
    // What holds the border there is cut with it.
    if cut.ends_inside() && cut.beside.is_none() {
        return;
    }
    for surface in &cut.surfaces {
        for edging in &surface.edgings {
            let name = edging.material.value.name().replace('-', " ");
            let of = surface.name.value.replace('-', " ");
            sketch.note(match cut.is_way_known {
                true => format!("{of}: the {name} is not at the low edge, and is not drawn here."),
                false => format!(
                    "{of}: which edge is low is not known, so the {name} is not drawn here."
                ),
            });
        }
    }
}

/// Corners from the upper left one on, against the clock.
fn rectangle(corner: Point, wide: f64, high: f64) -> [Point; 4] {
    [(0.0, -high), (wide, -high), (wide, 0.0), (0.0, 0.0)]
        .map(|(right, up)| corner + Vector::new(right, up))
}

fn piece(
    sketch: &mut Sketch,
    link: Option<Place>,
    (filling, name): (Filling, &str),
    corners: &[Point; 4],
) {
    let outline = Path::polygon(corners);
    let clear = Mark::Fill(vec![outline.clone()], Ink::Paper);
    sketch.draw(Layer::Textures, link, clear);
    for mark in filling::marks(filling, seed(name), corners[0], corners) {
        sketch.draw(Layer::Textures, link, mark);
    }
    let faces = Mark::Stroke(vec![outline], Pen::of(Weight::Mid));
    sketch.draw(Layer::Outlines, link, faces);
}
