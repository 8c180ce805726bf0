//! The size of what is bought: a slab of another size is another thing to
//! order, though it is of the same stone.

use super::joints::unit_size;
use super::needs::Need;
use crate::materials::Kind;
use crate::model::{Border, Layer, Material, Surface};
use crate::units::{System, show};
use crate::vocabulary::Role;

/// How far apart, in metres, two sides are still the same.
const SAME: f64 = 1e-6;

/// The size of one piece of what is bought, in metres, as far as it is known.
#[derive(Debug, Clone, PartialEq)]
pub enum Size {
    /// A slab, brick, kerb or tread.
    Piece {
        /// The two longest sides, the longer first; several pairs where sizes
        /// are mixed in one lay-out, none where that is not known.
        faces: Vec<(f64, f64)>,
        /// The least and the greatest thickness.
        thickness: Option<(f64, f64)>,
    },
    /// A pipe or gully, by how wide it is.
    Across(f64),
    /// A channel, by its width and depth inside.
    Clear(f64, f64),
}

impl Size {
    /// The piece that a material itself is, whatever it is used for.
    pub(super) fn own(material: &Material) -> Option<Size> {
        Size::piece(material, Vec::new(), None)
    }

    /// The piece that a layer of a surface is paved with.
    pub(super) fn paved(surface: &Surface, layer: &Layer, material: &Material) -> Option<Size> {
        if layer.role.value != Role::Paving {
            return None;
        }
        let laid = surface.laid.as_ref();
        let laid_one = laid.and_then(|laid| laid.units.as_ref());
        let one = match laid_one {
            Some((long, wide)) => Some((long.value.si(), wide.value.si())),
            None => unit_size(surface, Some(material)).map(|(long, wide)| (long.value, wide.value)),
        };
        let mixed = laid.into_iter().flat_map(|laid| &laid.sizes);
        let mixed = mixed.map(|size| (size.length.value.si(), size.width.value.si()));
        let thickness = layer.thickness.is_some();
        let thickness = thickness.then(|| (layer.thinnest_m(), layer.thickest_m()));
        Size::piece(material, mixed.chain(one).collect(), thickness)
    }

    /// The piece that a border is laid of. It is as thick as the paving where
    /// that is the same material; else nothing says how thick it is.
    pub(super) fn bordering(
        surface: &Surface,
        border: &Border,
        material: &Material,
    ) -> Option<Size> {
        let face = border.units.as_ref();
        let face = face.map(|(long, wide)| (long.value.si(), wide.value.si()));
        let build = border.on.as_ref().or(surface.build.as_ref());
        let paving = build.and_then(|build| build.value.layer(Role::Paving));
        let same = paving.filter(|layer| layer.of.value.name() == material.name);
        let thickness = same.filter(|layer| layer.thickness.is_some());
        let thickness = thickness.map(|layer| (layer.thinnest_m(), layer.thickest_m()));
        Size::piece(material, face.into_iter().collect(), thickness)
    }

    /// The piece with these faces and this thickness, as far as its material
    /// does not say itself what it measures.
    pub(super) fn piece(
        material: &Material,
        faces: Vec<(f64, f64)>,
        thickness: Option<(f64, f64)>,
    ) -> Option<Size> {
        let own = material.unit.as_ref();
        let own = own.map(|(long, wide)| (long.value.si(), wide.value.si()));
        let least = material.least_side.as_ref().map(|side| side.value.si());
        let (faces, thickness) = match (own, least) {
            (Some(own), Some(least)) => (vec![own], Some((least, least))),
            (Some(own), None) => (vec![own], thickness),
            (None, _) => (faces, thickness),
        };
        let is_piece = |kind: Kind| kind.is_unit() || kind.is_edging();
        let is_known = match material.kind {
            Some(kind) => is_piece(kind) && (!faces.is_empty() || thickness.is_some()),
            None => !faces.is_empty(),
        };
        is_known.then(|| Size::sorted(faces, thickness))
    }

    /// A brick on its edge is the brick that it is lying flat.
    fn sorted(faces: Vec<(f64, f64)>, thickness: Option<(f64, f64)>) -> Size {
        let downward = |sides: &mut [f64]| sides.sort_by(|one, other| other.total_cmp(one));
        if let ([(long, wide)], Some((least, most))) = (faces.as_slice(), thickness)
            && is_same(least, most)
        {
            let mut sides = [*long, *wide, least];
            downward(&mut sides);
            let [long, wide, least] = sides;
            return Size::Piece {
                faces: vec![(long, wide)],
                thickness: Some((least, least)),
            };
        }
        let faces = faces.into_iter();
        let faces = faces.map(|(one, other)| (one.max(other), one.min(other)));
        Size::Piece {
            faces: faces.collect(),
            thickness,
        }
    }

    /// Whether both may be the same thing to buy: what is known of their
    /// thickness alone may be less of the one than of the other.
    fn agrees(&self, other: &Size) -> bool {
        let both = |(one, other): (f64, f64), (its, others): (f64, f64)| {
            is_same(one, its) && is_same(other, others)
        };
        match (self, other) {
            (
                Size::Piece { faces, thickness },
                Size::Piece {
                    faces: others,
                    thickness: its,
                },
            ) => {
                faces.len() == others.len()
                    && faces.iter().zip(others).all(|(one, its)| both(*one, *its))
                    && thickness.zip(*its).is_none_or(|(one, its)| both(one, its))
            }
            (Size::Across(one), Size::Across(its)) => is_same(*one, *its),
            (Size::Clear(wide, deep), Size::Clear(its, others)) => {
                both((*wide, *deep), (*its, *others))
            }
            _ => false,
        }
    }

    /// Whether it says less than another that it agrees with.
    fn is_vaguer_than(&self, other: &Size) -> bool {
        let thickness = |size: &Size| match size {
            Size::Piece { thickness, .. } => thickness.is_some(),
            _ => true,
        };
        thickness(other) && !thickness(self)
    }

    /// `600 mm by 450 mm by 38 mm`, `1 1/2 in thick`, `110 mm across`.
    pub fn shown(&self, system: System) -> String {
        let length = |metres: f64| show::length(metres, system);
        let face = |(long, wide): &(f64, f64)| show::sides([*long, *wide], system).join(" by ");
        match self {
            Size::Across(wide) => format!("{} across", length(*wide)),
            Size::Clear(wide, deep) => format!("{} clear", face(&(*wide, *deep))),
            Size::Piece { faces, thickness } => {
                if let ([(long, wide)], Some((least, most))) = (faces.as_slice(), thickness)
                    && is_same(*least, *most)
                {
                    return show::sides([*long, *wide, *least], system).join(" by ");
                }
                let sides: Vec<String> = faces.iter().map(face).collect();
                let thick = thickness.map(|(least, most)| match is_same(least, most) {
                    true => format!("{} thick", length(least)),
                    false => format!("{} to {} thick", length(least), length(most)),
                });
                let sides = sides.join(" and ");
                match thick {
                    Some(thick) if sides.is_empty() => thick,
                    Some(thick) => format!("{sides}, {thick}"),
                    None => sides,
                }
            }
        }
    }
}

fn is_same(one: f64, other: f64) -> bool {
    (one - other).abs() <= SAME
}

/// The sizes in which needs take a material, each with the needs that take it
/// by their index, in the order of first use.
pub(super) fn by_size<'n>(
    needs: impl Iterator<Item = &'n Need>,
) -> Vec<(Option<Size>, Vec<usize>)> {
    let mut sizes: Vec<(Option<Size>, Vec<usize>)> = Vec::new();
    for (index, need) in needs.enumerate() {
        let agrees = |known: &Option<Size>| match (known, &need.size) {
            (Some(known), Some(own)) => known.agrees(own),
            (known, own) => known == own,
        };
        match sizes.iter_mut().find(|(known, _)| agrees(known)) {
            Some((known, all)) => {
                let vaguer = known.as_ref().zip(need.size.as_ref());
                if vaguer.is_some_and(|(known, own)| known.is_vaguer_than(own)) {
                    known.clone_from(&need.size);
                }
                all.push(index);
            }
            None => sizes.push((need.size.clone(), vec![index])),
        }
    }
    sizes
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{line, material, sourced};
    use super::*;

    /// A paver whose unit is stated with so many sides.
    fn brick(sides: &[&str]) -> Material {
        let side = |index: usize| sides.get(index).and_then(|side| sourced(side));
        Material {
            kind: Some(Kind::ClayPaver),
            unit: side(0).zip(side(1)),
            least_side: side(2),
            ..material("brick")
        }
    }

    #[test]
    fn a_size_is_shown_as_it_is_asked_for() {
        let (piece, metric) = (Size::piece, System::Metric);
        let none = || brick(&[]);
        let thick = Some((0.038, 0.038));
        for (size, shown) in [
            (
                piece(&none(), vec![(0.45, 0.6)], thick),
                "600 mm by 450 mm by 38 mm",
            ),
            (piece(&none(), vec![(0.45, 0.6)], None), "600 mm by 450 mm"),
            (piece(&none(), Vec::new(), thick), "38 mm thick"),
            (
                piece(&none(), Vec::new(), Some((0.025, 0.04))),
                "25 mm to 40 mm thick",
            ),
            (
                piece(&none(), vec![(0.9, 0.6), (0.6, 0.6)], thick),
                "900 mm by 600 mm and 600 mm by 600 mm, 38 mm thick",
            ),
            (
                Size::own(&brick(&["215 mm", "102 mm", "65 mm"])),
                "215 mm by 102 mm by 65 mm",
            ),
            (Some(Size::Across(0.11)), "110 mm across"),
            (Some(Size::Clear(0.1, 0.09)), "100 mm by 90 mm clear"),
        ] {
            assert_eq!(size.map(|size| size.shown(metric)).as_deref(), Some(shown));
        }
        assert_eq!(piece(&none(), Vec::new(), None), None);
        let sand = Material {
            kind: Some(Kind::BeddingSand),
            ..none()
        };
        assert_eq!(piece(&sand, vec![(0.45, 0.6)], thick), None);
    }

    #[test]
    fn needs_of_one_size_are_one_line() {
        let flag = |face: (f64, f64), thickness: Option<f64>| {
            let thickness = thickness.map(|thick| (thick, thick));
            Size::piece(&brick(&[]), vec![face], thickness)
        };
        let flat = flag((0.215, 0.102), Some(0.065));
        let on_edge = flag((0.215, 0.065), Some(0.102));
        let of_unknown_depth = flag((0.102, 0.215), None);
        let small = flag((0.45, 0.45), Some(0.038));
        let large = flag((0.6, 0.6), Some(0.038));
        let thin = flag((0.45, 0.45), Some(0.02));
        for (all, groups) in [
            (vec![&flat, &on_edge, &of_unknown_depth], 1),
            (vec![&of_unknown_depth, &flat], 1),
            (vec![&small, &large, &small], 2),
            (vec![&small, &thin], 2),
            (vec![&small, &None], 2),
            (vec![&None, &None], 1),
        ] {
            let need = |size: &&Option<Size>| Need {
                size: (*size).clone(),
                ..Need::new(String::new(), line(1))
            };
            let needs: Vec<Need> = all.iter().map(need).collect();
            let found = by_size(needs.iter());
            assert_eq!(found.len(), groups, "{all:?}");
            let shown = |size: &Size| size.shown(System::Metric);
            let known = found.first().and_then(|(size, _)| size.as_ref());
            if groups == 1 && known.is_some() {
                let whole = "215 mm by 102 mm by 65 mm";
                assert_eq!(known.map(shown).as_deref(), Some(whole));
            }
        }
    }
}
