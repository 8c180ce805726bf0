//! What a layer is filled with where it is cut: a hatch of its kind that reads
//! in black and white.

use super::clip;
use super::display_list::{Ink, Mark, Path, Pen, Weight};
use super::texture::{self, Texture};
use crate::geometry::{Edge, Loop, NO_TAG, Outline, Point, Vector};
use crate::materials::Kind;
use crate::model::{Layer, Substance};
use crate::vocabulary::Role;

/// A kind of filling.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Filling {
    /// Stone, brick and the like: slanting lines.
    Units,
    /// Sand and mortar: fine dots.
    Bedding,
    /// Broken stone: small polygons.
    Stones,
    /// Gravel: dots and rings.
    Gravel,
    /// Concrete.
    Concrete,
    /// The building: lines at half a right angle.
    Wall,
}

impl Filling {
    /// That of a layer.
    pub(crate) fn of(layer: &Layer) -> Filling {
        let is_mix = layer.of.value.mix().is_some();
        match layer.role.value {
            Role::Paving => Filling::Units,
            Role::Surfacing => Filling::Gravel,
            Role::Slab => Filling::Concrete,
            Role::Base | Role::Subbase if is_mix => Filling::Concrete,
            Role::Base | Role::Subbase => Filling::Stones,
            _ => Filling::Bedding,
        }
    }

    /// That of what carries a flight of steps.
    pub(crate) fn of_core(of: &Substance) -> Filling {
        match (of.mix(), of.kind()) {
            (Some(_), _) => Filling::Concrete,
            (None, Some(Kind::DenseAggregate | Kind::OpenAggregate)) => Filling::Stones,
            (None, _) => Filling::Units,
        }
    }
}

/// The marks of a filling between corners, counted from `origin`.
pub(crate) fn marks(filling: Filling, seed: u64, origin: Point, corners: &[Point]) -> Vec<Mark> {
    let outline = outline(corners);
    match filling {
        Filling::Units => lines(&outline, 60.0, 2.2),
        Filling::Wall => lines(&outline, 45.0, 1.6),
        Filling::Bedding => texture::marks(Texture::Sand, seed, origin, &outline),
        Filling::Stones => texture::marks(Texture::Crushed, seed, origin, &outline),
        Filling::Gravel => texture::marks(Texture::Gravel, seed, origin, &outline),
        Filling::Concrete => texture::marks(Texture::Concrete, seed, origin, &outline),
    }
}

/// An outline with its inside on the left, whichever way the corners go.
fn outline(corners: &[Point]) -> Outline {
    let mut corners = corners.to_vec();
    let turns = corners.iter().zip(corners.iter().cycle().skip(1));
    let twice: f64 = turns
        .map(|(a, b)| (*a - Point::ORIGIN).cross(*b - Point::ORIGIN))
        .sum();
    if twice < 0.0 {
        corners.reverse();
    }
    let pairs = corners.iter().zip(corners.iter().cycle().skip(1));
    Outline {
        outer: Loop {
            edges: pairs.map(|(a, b)| Edge::line(*a, *b, NO_TAG)).collect(),
        },
        holes: Vec::new(),
    }
}

/// Lines at an angle, this far apart.
fn lines(outline: &Outline, degrees: f64, step: f64) -> Vec<Mark> {
    let way = Vector::new(1.0, 0.0).turned(degrees.to_radians());
    let (low, high) = outline.bounding_box();
    let reach = (high - low).length();
    let off = way.left();
    let reaches = [
        low,
        high,
        Point::new(low.x, high.y),
        Point::new(high.x, low.y),
    ]
    .map(|corner| (corner - Point::ORIGIN).dot(off));
    let least = reaches.into_iter().fold(f64::INFINITY, f64::min);
    let most = reaches.into_iter().fold(f64::NEG_INFINITY, f64::max);
    let (first, last) = ((least / step).ceil(), (most / step).floor());
    let mut paths = Vec::new();
    // A sheet of paper has room for some hundreds.
    for number in 0..=(last - first).clamp(0.0, 2000.0) as u32 {
        let foot = Point::ORIGIN + off * ((first + f64::from(number)) * step);
        let along = (low.midpoint(high) - foot).dot(way);
        let middle = foot + way * along;
        let pieces = clip::inside(middle + way * -reach, middle + way * reach, outline);
        paths.extend(pieces.into_iter().map(|(from, to)| Path::line(from, to)));
    }
    if paths.is_empty() {
        return Vec::new();
    }
    vec![Mark::Stroke(paths, Pen::of(Weight::Fine).in_ink(Ink::Grey))]
}
