//! What lies on a surface: its laying pattern, or a texture of its kind.

use super::canvas::Canvas;
use super::ground::Ground;
use super::rows;
use crate::drawing::clip;
use crate::drawing::display_list::{Ink, Layer, Mark, Path, Pen, Weight};
use crate::drawing::legend::{boxed, sample_field};
use crate::drawing::measure;
use crate::drawing::pattern::{self, Lattice};
use crate::drawing::texture::{self, Texture};
use crate::findings::Place;
use crate::geometry::{Outline, Point, Vector};
use crate::model::{Layer as Course, Pattern, Region, Stones, Substance, Surface};
use crate::quantities::guide;
use crate::vocabulary::Role;

/// Names longer than this are shortened.
const LONG: usize = 32;

const UNITS: Pen = Pen::of(Weight::Fine).in_ink(Ink::Grey);

/// Draws what lies on a surface and says in the legend what it is.
pub(crate) fn draw(canvas: &mut Canvas, ground: &Ground<'_>) {
    let surface = ground.surface;
    let Some(top) = top_course(surface) else {
        return;
    };
    let title = called(&top.of.value, canvas.region);
    let link = surface.laid.as_ref().map_or(top.place, |laid| laid.place);
    let laid = surface.laid.as_ref().map(|laid| laid.pattern.value);
    let texture = match (top.role.value, laid) {
        (Role::Surfacing | Role::Base | Role::Subbase, _) => Texture::Gravel,
        (Role::Slab, _) => Texture::Concrete,
        (_, Some(Pattern::Irregular)) => Texture::Stone(across(canvas, surface)),
        (_, Some(pattern @ (Pattern::Rings | Pattern::Courses | Pattern::Ashlar))) => {
            rows::draw(canvas, ground, pattern, top);
            return;
        }
        (_, Some(pattern)) => {
            units(canvas, ground, pattern, &title, link);
            return;
        }
        (_, None) => {
            canvas.note(format!(
                "{}: how it is laid is not stated.",
                surface.name.value
            ));
            return;
        }
    };
    let note = match texture {
        Texture::Stone(_) => Some(match stones(canvas, surface) {
            Some(size) => format!("irregular, {size}; texture only, joints chosen on site"),
            None => "irregular; texture only, joints chosen on site".to_owned(),
        }),
        _ => None,
    };
    let seed = texture::seed(&surface.name.value);
    for piece in pieces(canvas, ground) {
        for mark in texture::marks(texture, seed, canvas.view.origin, &piece) {
            canvas.draw_within(Layer::Textures, surface, link, mark);
        }
    }
    let sample = match texture {
        Texture::Stone(_) => Texture::Stone(0.0),
        other => other,
    };
    let sample = texture::marks(sample, 7, Point::ORIGIN, &sample_field());
    canvas.explain(boxed(sample), &title, note);
}

/// The uppermost layer that is seen.
pub(crate) fn top_course(surface: &Surface) -> Option<&Course> {
    let build = surface.build.as_ref()?;
    let is_seen = |course: &&Course| {
        matches!(
            course.role.value,
            Role::Paving | Role::Surfacing | Role::Slab | Role::Base | Role::Subbase
        )
    };
    build.value.layers.iter().find(is_seen)
}

/// What something is made of, as the supplier calls it; of long words what
/// stands before the first comma.
pub(crate) fn called(of: &Substance, region: Region) -> String {
    let called = of
        .material()
        .and_then(|material| material.called_in(region));
    match called {
        Some(called) if called.chars().count() > LONG => {
            called.split(',').next().unwrap_or_default().to_owned()
        }
        Some(called) => called,
        None => of.name().replace('-', " "),
    }
}

/// The same in few words, for the plan itself.
pub(crate) fn called_briefly(of: &Substance, region: Region) -> String {
    let called = called(of, region);
    match called.chars().count() > LONG {
        true => of.name().replace('-', " "),
        false => called,
    }
}

/// The word for a pattern on a sheet.
pub(crate) fn pattern_words(pattern: Pattern) -> &'static str {
    match pattern {
        Pattern::Irregular => "irregular",
        Pattern::RunningBond => "running bond",
        Pattern::StackBond => "stack bond",
        Pattern::Herringbone => "herringbone",
        Pattern::BasketWeave => "basket weave",
        Pattern::Rings => "rings",
        Pattern::Courses => "courses of all lengths",
        Pattern::Ashlar => "ashlar",
    }
}

fn stones(canvas: &Canvas, surface: &Surface) -> Option<String> {
    let length = |metres: f64| measure::length(metres, canvas.system);
    Some(match surface.laid.as_ref()?.stones.as_ref()? {
        Stones::About(size) => format!("about {}", length(size.value.si())),
        Stones::Between(least, most) => {
            format!(
                "{} to {}",
                length(least.value.si()),
                length(most.value.si())
            )
        }
    })
}

/// How wide stones of a middle size are on the paper; 0 where their size is
/// not stated.
fn across(canvas: &Canvas, surface: &Surface) -> f64 {
    let stones = surface.laid.as_ref().and_then(|laid| laid.stones.as_ref());
    let metres = match stones {
        Some(Stones::About(size)) => size.value.si(),
        Some(Stones::Between(least, most)) => 0.5 * (least.value.si() + most.value.si()),
        None => 0.0,
    };
    metres * canvas.view.scale
}

/// The long and the short side of a surface's units in metres: as laid, else
/// the material's.
pub(crate) fn unit_size(surface: &Surface) -> Option<(f64, f64)> {
    let (one, other) = sides(surface)?;
    Some((one.max(other), one.min(other)))
}

fn sides(surface: &Surface) -> Option<(f64, f64)> {
    let laid = surface.laid.as_ref()?;
    if let Some((length, width)) = &laid.units {
        return Some((length.value.si(), width.value.si()));
    }
    let (length, width) = top_course(surface)?.face()?;
    Some((length.value.si(), width.value.si()))
}

fn units(canvas: &mut Canvas, ground: &Ground<'_>, pattern: Pattern, title: &str, link: Place) {
    let surface = ground.surface;
    let name = &surface.name.value;
    let Some((length, width)) = unit_size(surface) else {
        canvas.note(format!(
            "{name}: the size of its units is not known, so its pattern is not drawn."
        ));
        return;
    };
    let angle = surface
        .laid
        .as_ref()
        .and_then(|laid| laid.angle.as_ref())
        .map_or(0.0, |angle| angle.value.si().to_radians());
    let joint = surface
        .joint
        .as_ref()
        .map_or(0.0, |joint| joint.width.value.si());
    let scale = canvas.view.scale;
    let guide = guide(surface);
    let along = guide.map_or(Vector::new(1.0, 0.0), |edge| edge.chord().unit());
    let laid = surface.laid.as_ref();
    let stated = laid.and_then(|laid| laid.from.as_ref());
    let start = stated
        .map(|from| from.value)
        .or(guide.map(|edge| edge.start));
    let offset = laid.and_then(|laid| laid.offset.as_ref());
    let offset = offset.map_or(0.5, |offset| offset.value.si());
    let lattice = Lattice {
        origin: start.map_or(canvas.view.origin, |start| {
            canvas.view.point(ground.laid_point(start))
        }),
        along: along.turned(ground.turn() - angle),
        cell: ((length + joint) * scale, (width + joint) * scale),
        offset,
    };
    let size = measure::unit(length, width, canvas.system);
    let mut words = format!("{size}, {}", pattern_words(pattern));
    if angle.abs() > 1e-9 {
        words += &format!(" at {:.0}°", angle.to_degrees());
    }
    let Some(lines) = pattern::lines(pattern, &lattice, &ground.outline) else {
        if lattice.cell.0.min(lattice.cell.1) < pattern::NARROWEST {
            let lies = (pattern, lattice.along);
            rows::small_units(canvas, ground, lies, (title, words), link);
            return;
        }
        let why = "its units do not make up the pattern, which is not drawn";
        canvas.explain(boxed(Vec::new()), title, Some(format!("{words}; {why}")));
        return;
    };
    let drawn = in_field(canvas, ground, &lines);
    canvas.draw_within(Layer::Units, surface, link, Mark::Stroke(drawn, UNITS));
    let field = sample_field();
    let upright = Lattice {
        origin: Point::new(0.0, 0.0),
        along: Vector::new(1.0, 0.0).turned(-angle),
        cell: sample_cell(lattice.cell),
        offset,
    };
    let sample = pattern::lines(pattern, &upright, &field).unwrap_or_default();
    let sample = Mark::Stroke(within(&sample, &field), UNITS);
    if stated.is_none() {
        words += "; where it starts is not stated";
    }
    canvas.explain(boxed(vec![sample]), title, Some(words));
}

/// The lines of a pattern in the field, and the line between it and borders.
fn in_field(canvas: &Canvas, ground: &Ground<'_>, lines: &[(Point, Point)]) -> Vec<Path> {
    let surface = ground.surface;
    if surface.borders.is_empty() {
        return within(lines, &ground.outline);
    }
    let drawn = pieces(canvas, ground).into_iter().flat_map(|piece| {
        let rims: Vec<Path> = piece.loops().map(Path::round).collect();
        within(lines, &piece).into_iter().chain(rims)
    });
    drawn.collect()
}

/// What borders leave of a surface, on the paper; all of it without any.
pub(crate) fn pieces(canvas: &Canvas, ground: &Ground<'_>) -> Vec<Outline> {
    let Some(border) = ground.surface.borders.last() else {
        return vec![ground.outline.clone()];
    };
    let left = ground.left_by(border).unwrap_or_default();
    left.iter()
        .map(|piece| canvas.view.outline(piece))
        .collect()
}

/// The cell as it is shown in the legend: at most three fit its height.
fn sample_cell(cell: (f64, f64)) -> (f64, f64) {
    let shrink = (2.6 / cell.1.max(1e-6)).min(1.0);
    let (length, width) = (cell.0 * shrink, cell.1 * shrink);
    (
        length.max(pattern::NARROWEST),
        width.max(pattern::NARROWEST),
    )
}

/// The parts of lines that lie in an outline.
fn within(lines: &[(Point, Point)], outline: &Outline) -> Vec<Path> {
    let pieces = lines
        .iter()
        .flat_map(|(from, to)| clip::inside(*from, *to, outline));
    pieces
        .filter(|(from, to)| from.distance(*to) > 0.05)
        .map(|(from, to)| Path::line(from, to))
        .collect()
}
