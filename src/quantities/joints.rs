//! The joints of a surface.

use super::layers::{fresh_mass, mass_of, mix_waste};
use super::notes::{Amount, Notes};
use super::states::{own_waste, own_waste_is_read, waste_share};
use crate::findings::Place;
use crate::model::{
    Joint, Laid, Material, Origin, Pattern, Sourced, Stated, Stones, Substance, Surface,
};
use crate::units::Quantity;
use crate::vocabulary::Role;

/// The figures of the joints of a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct JointFigures {
    /// The share of the area that is joint.
    pub share: Option<f64>,
    /// How deep they are filled: as stated, else the paving's thickness.
    pub depth_m: Option<f64>,
    /// What it takes to fill them.
    pub volume_m3: Option<f64>,
    /// Their length together: the area that is joint ÷ their width.
    pub length_m: Option<f64>,
    /// The name of what fills them, if it is stated.
    pub material: Option<String>,
    /// Whether that is a mix.
    pub is_mix: bool,
    /// The mass of what fills them; of a mix, fresh.
    pub mass_kg: Option<f64>,
    /// The share wasted of it; `None` if nothing is said of it.
    pub waste: Option<Sourced<f64>>,
    /// Whether what is said of its waste could be made out.
    pub is_waste_known: bool,
    /// The `joint` entry.
    pub place: Place,
}

/// The share of an area that is joint between units of a by b with joints of
/// w: 1 − ab ÷ ((a + w)(b + w)).
pub fn unit_share(a: f64, b: f64, w: f64) -> Option<f64> {
    let sound = a > 0.0 && b > 0.0 && w >= 0.0;
    // Written so that it does not cancel for narrow joints.
    let share = w * (a + b + w) / ((a + w) * (b + w));
    (sound && share.is_finite()).then_some(share)
}

/// The share of an area that is joint between irregular stones: 1 − (s ÷ (s + w))²,
/// s being the side of a square of the average stone's area and w the average
/// joint.
pub fn irregular_share(s: f64, w: f64) -> Option<f64> {
    unit_share(s, s, w)
}

/// The length and width of a surface's units: as laid, else the material's.
pub(super) fn unit_size(
    surface: &Surface,
    material: Option<&Material>,
) -> Option<(Sourced<f64>, Sourced<f64>)> {
    let from_line = |stated: &Stated<Quantity>| Sourced {
        value: stated.value.si(),
        origin: Origin::Line(stated.place),
    };
    let from_material = |sourced: &Sourced<Quantity>| Sourced {
        value: sourced.value.si(),
        origin: sourced.origin,
    };
    let laid = surface.laid.as_ref().and_then(|laid| laid.units.as_ref());
    let own = material.and_then(|material| material.unit.as_ref());
    laid.map(|(a, b)| (from_line(a), from_line(b)))
        .or(own.map(|(a, b)| (from_material(a), from_material(b))))
}

/// The figures of the joints of a surface.
pub(super) fn joints(surface: &Surface, joint: &Joint, notes: &mut impl Notes) -> JointFigures {
    let width = joint.width.value.si();
    notes.stated(
        "width of the joint",
        Amount::Length(width),
        joint.width.place,
    );
    let share = share(surface, width, notes);
    let depth_m = depth(surface, joint, notes);
    let area = surface.outline.as_ref().map(|outline| outline.area());
    if let (Some(area), Some(shape)) = (area, &surface.shape) {
        notes.stated("area", Amount::Area(area), shape.place);
    }
    let length_m = area
        .zip(share)
        .filter(|_| width > 0.0)
        .map(|(area, share)| {
            let length = area * share / width;
            notes.step(
                "length of the joints",
                "{area} × {joint share} ÷ {width}",
                &[
                    Amount::Area(area),
                    Amount::Share(share),
                    Amount::Length(width),
                ],
                Amount::Length(length),
            );
            length
        });
    let volume_m3 = area.zip(share).zip(depth_m).map(|((area, share), depth)| {
        let volume = area * share * depth;
        notes.step(
            "volume",
            "{area} × {joint share} × {depth}",
            &[
                Amount::Area(area),
                Amount::Share(share),
                Amount::Length(depth),
            ],
            Amount::Volume(volume),
        );
        volume
    });
    let filling = joint.filling.as_ref().map(|stated| &stated.value);
    let (mass_kg, own) = match filling {
        Some(Substance::Material(material)) => {
            let mass = volume_m3.and_then(|volume| mass_of(material, None, volume, notes));
            (mass, own_waste(material))
        }
        Some(Substance::Mix(mix)) => (
            volume_m3.and_then(|volume| fresh_mass(mix, volume, notes)),
            mix_waste(mix),
        ),
        _ => (None, None),
    };
    JointFigures {
        share,
        depth_m,
        volume_m3,
        length_m,
        material: filling.map(|filling| filling.name().to_owned()),
        is_mix: filling.is_some_and(|filling| filling.mix().is_some()),
        mass_kg,
        waste: waste_share(None, own),
        is_waste_known: filling.is_none_or(own_waste_is_read),
        place: joint.place,
    }
}

/// The joint share by how the units are laid.
fn share(surface: &Surface, width: f64, notes: &mut impl Notes) -> Option<f64> {
    let gap = Amount::Length(width);
    if let Some(side) = surface.laid.as_ref().and_then(stone_side) {
        let share = irregular_share(side.value, width)?;
        let stone = Amount::Length(side.value);
        notes.input("side of the average stone", stone, Some(side.origin));
        notes.step(
            "joint share",
            "1 − ({side} ÷ ({side} + {width}))²",
            &[stone, stone, gap],
            Amount::Share(share),
        );
        return Some(share);
    }
    let build = surface.build.as_ref()?;
    let paving = build.value.layer(Role::Paving)?;
    let material = paving.of.value.material().map(std::sync::Arc::as_ref);
    let (a, b) = unit_size(surface, material)?;
    let share = unit_share(a.value, b.value, width)?;
    let (length, across) = (Amount::Length(a.value), Amount::Length(b.value));
    notes.input("length of a unit", length, Some(a.origin));
    notes.input("width of a unit", across, Some(b.origin));
    notes.step(
        "joint share",
        "1 − {length} × {width} ÷ (({length} + {joint}) × ({width} + {joint}))",
        &[length, across, length, gap, across, gap],
        Amount::Share(share),
    );
    Some(share)
}

/// The side of a square of the average stone's area, of irregular stones.
fn stone_side(laid: &Laid) -> Option<Sourced<f64>> {
    if laid.pattern.value != Pattern::Irregular && laid.units.is_some() {
        return None;
    }
    match laid.stones.as_ref()? {
        Stones::About(side) => Some(Sourced {
            value: side.value.si(),
            origin: Origin::Line(side.place),
        }),
        Stones::Between(least, most) => Some(Sourced {
            value: (least.value.si() + most.value.si()) / 2.0,
            origin: Origin::Line(least.place.to(most.place)),
        }),
    }
}

/// How deep the joints are filled.
fn depth(surface: &Surface, joint: &Joint, notes: &mut impl Notes) -> Option<f64> {
    let stated = joint.depth.as_ref();
    let (name, depth) = match stated {
        Some(stated) => ("depth", stated),
        None => {
            let build = surface.build.as_ref()?;
            let paving = build.value.layer(Role::Paving)?;
            ("depth: the paving's thickness", paving.thickness.as_ref()?)
        }
    };
    notes.stated(name, Amount::Length(depth.value.si()), depth.place);
    Some(depth.value.si())
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{
        area_of, catalogued, close, job, layer, line, material, mix, si, sourced, stated, surface,
    };
    use super::*;

    fn laid(pattern: Pattern) -> Laid {
        Laid {
            pattern: Stated::new(pattern, line(1)),
            stones: None,
            units: None,
            angle: None,
            along: None,
            place: line(1),
        }
    }

    #[test]
    fn shares_follow_their_formulas() {
        for (a, b, w, share) in [
            (0.2, 0.4, 0.004, Some(1.0 - 0.08 / (0.204 * 0.404))),
            (1.0, 1.0, 0.0, Some(0.0)),
            (1.0, 1.0, 1.0, Some(0.75)),
            (0.0, 1.0, 0.1, None),
            (1.0, 1.0, -0.1, None),
            (f64::INFINITY, 1.0, 0.1, None),
        ] {
            match (unit_share(a, b, w), share) {
                (Some(found), Some(share)) => assert!(close(found, share, 1e-12), "{a} {b} {w}"),
                (found, share) => assert_eq!(found, share, "{a} {b} {w}"),
            }
        }
        assert!(close(
            irregular_share(16.0, 0.5).unwrap(),
            1.0 - (16.0_f64 / 16.5).powi(2),
            1e-12
        ));
    }

    #[test]
    fn the_depth_is_the_paving_s_unless_stated() {
        let flag = Material {
            unit: sourced("12 in").zip(sourced("24 in")),
            ..material("flag")
        };
        for (depth, expected) in [("", "2 in"), ("1 1/2 in", "1 1/2 in")] {
            let paving = layer(Role::Paving, flag.clone(), "2 in");
            let court = surface("court", area_of("10 ft", "10 ft"), vec![paving]);
            let figures = figures(&job(vec![court.jointed("3/8 in", depth, None)]));
            let joints = figures.surfaces[0].joints.clone().unwrap();
            assert_eq!(joints.depth_m, Some(si(expected)));
            let length = joints.volume_m3.unwrap() / (si(expected) * si("3/8 in"));
            assert!(close(joints.length_m.unwrap(), length, 1e-12));
        }
    }

    #[test]
    fn units_as_laid_go_before_the_material_s_and_stones_before_units() {
        let flag = Material {
            unit: sourced("12 in").zip(sourced("24 in")),
            ..material("flag")
        };
        let unit = |a: &str, b: &str| Some((stated(a), stated(b)));
        let about = Some(Stones::About(stated("16 in")));
        let between = Some(Stones::Between(stated("12 in"), stated("24 in")));
        let share = |a: &str, b: &str| unit_share(si(a), si(b), si("1/2 in"));
        for (how, expected) in [
            (None, share("12 in", "24 in")),
            (
                Some(Laid {
                    units: unit("6 in", "6 in"),
                    ..laid(Pattern::StackBond)
                }),
                share("6 in", "6 in"),
            ),
            (
                Some(Laid {
                    stones: about.clone(),
                    ..laid(Pattern::Irregular)
                }),
                share("16 in", "16 in"),
            ),
            (
                Some(Laid {
                    stones: between,
                    ..laid(Pattern::Irregular)
                }),
                share("18 in", "18 in"),
            ),
        ] {
            let mut court = surface(
                "court",
                area_of("10 ft", "10 ft"),
                vec![layer(Role::Paving, flag.clone(), "2 in")],
            )
            .jointed("1/2 in", "", None);
            court.laid = how;
            let found = figures(&job(vec![court])).surfaces[0]
                .joints
                .clone()
                .unwrap();
            assert_eq!(found.share, expected);
        }
    }

    #[test]
    fn without_units_or_stones_there_is_no_share() {
        let court = surface(
            "court",
            area_of("10 ft", "10 ft"),
            vec![layer(Role::Paving, material("flag"), "2 in")],
        );
        let found = figures(&job(vec![court.jointed("1/2 in", "", None)])).surfaces[0]
            .joints
            .clone()
            .unwrap();
        assert_eq!(
            (found.share, found.volume_m3, found.length_m),
            (None, None, None)
        );
    }

    #[test]
    fn the_filling_is_a_material_or_a_mix() {
        let flag = Material {
            unit: sourced("12 in").zip(sourced("24 in")),
            ..material("flag")
        };
        let mortar = mix(
            "m",
            &[
                ("1", catalogued("portland-cement")),
                ("2", catalogued("sharp-sand")),
            ],
        );
        for (filling, is_mix) in [
            (Substance::from(catalogued("joint-sand")), false),
            (Substance::from(mortar), true),
        ] {
            let court = surface(
                "court",
                area_of("10 ft", "10 ft"),
                vec![layer(Role::Paving, flag.clone(), "2 in")],
            )
            .jointed("1/2 in", "", Some(filling.clone()));
            let found = figures(&job(vec![court])).surfaces[0]
                .joints
                .clone()
                .unwrap();
            assert_eq!(
                (found.is_mix, found.material.as_deref()),
                (is_mix, Some(filling.name()))
            );
            assert!(found.mass_kg.unwrap() > 0.0);
        }
    }
}
