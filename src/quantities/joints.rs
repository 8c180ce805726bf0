//! The joints of a surface.

use super::area::area as whole_area;
use super::borders::{border, bordered_m2, field_inside};
use super::layers::{fresh_mass, loose_volume, mass_of, mix_waste};
use super::measures::{Area, Count, Length, Share, Volume};
use super::states::{is_granular, own_waste, own_waste_is_read, waste_share};
use super::term::Term;
use super::trace::Trace;
use crate::findings::Place;
use crate::model::{
    AshlarSize, Joint, Laid, Material, Origin, Pattern, Sourced, Stated, Stones, Substance, Surface,
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
    /// The room that it takes loose; `None` for what is not in grains.
    pub loose_volume_m3: Option<f64>,
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

/// The length and width of a surface's units: as laid, else the material's;
/// `None` where they are of several sizes, or not in straight rows.
pub(super) fn unit_size(
    surface: &Surface,
    material: Option<&Material>,
) -> Option<(Sourced<f64>, Sourced<f64>)> {
    if surface
        .laid
        .as_ref()
        .is_some_and(|laid| !laid.has_one_size())
    {
        return None;
    }
    let from_line = |stated: &Stated<Quantity>| Sourced {
        value: stated.value.si(),
        origin: Origin::Line(stated.place),
    };
    let from_material = |sourced: &Sourced<Quantity>| Sourced {
        value: sourced.value.si(),
        origin: sourced.origin,
    };
    let laid = surface.laid.as_ref().and_then(|laid| laid.units.as_ref());
    let build = surface.build.as_ref();
    let paving = build.and_then(|build| build.value.layer(Role::Paving));
    let own = material.and_then(|material| match paving {
        Some(paving) if paving.of.value.name() == material.name => paving.face(),
        _ => material.unit.as_ref().map(|(long, wide)| (long, wide)),
    });
    laid.map(|(a, b)| (from_line(a), from_line(b)))
        .or(own.map(|(a, b)| (from_material(a), from_material(b))))
}

/// The figures of the joints of a surface, of which steps take some.
pub(super) fn joints(
    surface: &Surface,
    joint: &Joint,
    under_steps_m2: f64,
    trace: &Trace,
) -> JointFigures {
    let width = Length(joint.width.value.si());
    let width = trace.stated("width of the joint", width, joint.width.place);
    let width = width.called("width");
    let share = share(surface, width.called("joint"), trace);
    let depth = depth(surface, joint, trace);
    let area = whole_area(surface, "area", trace).map(|area| match under_steps_m2 > 0.0 {
        true => {
            let taken = trace.term(
                "ground that steps or channels stand on",
                Area(under_steps_m2),
            );
            trace.gives("area with joints", area - taken)
        }
        false => area,
    });
    let area = match surface.borders.is_empty() {
        true => area,
        false => area
            .zip(bordered_m2(surface))
            .and_then(|(area, borders)| field_inside(area, borders, trace)),
    };
    let covered = area.zip(share).map(|(area, share)| area * share);
    let length = covered.filter(|_| width.value.0 > 0.0);
    let length = length.map(|area| trace.gives("length of the joints", area / width));
    let volume = covered.zip(depth);
    let volume = volume.and_then(|(area, depth)| {
        if surface.borders.is_empty() {
            return Some(trace.gives("volume", area * depth));
        }
        let silent = Trace::silent();
        let each =
            (0..surface.borders.len()).map(|index| border(surface, index, &silent)?.joint_m3);
        let each: Option<Vec<f64>> = each.collect();
        let borders = trace.term("joints of the borders", Volume(each?.iter().sum()));
        Some(trace.gives("volume", area * depth + borders))
    });
    let filling = joint.filling.as_ref().map(|stated| &stated.value);
    let (mass, loose_volume, own) = match filling {
        Some(Substance::Material(material)) => {
            let mass = volume.and_then(|volume| mass_of(material, None, volume, trace));
            let loose = mass.filter(|_| is_granular(material));
            let loose = loose.and_then(|mass| loose_volume(material, mass, trace));
            (mass, loose, own_waste(material))
        }
        Some(Substance::Mix(mix)) => (
            volume.and_then(|volume| fresh_mass(mix, volume, trace)),
            None,
            mix_waste(mix),
        ),
        _ => (None, None, None),
    };
    JointFigures {
        share: share.map(|share| share.value.0),
        depth_m: depth.map(|depth| depth.value.0),
        volume_m3: volume.map(|volume| volume.value.0),
        loose_volume_m3: loose_volume.map(|volume| volume.value.0),
        length_m: length.map(|length| length.value.0),
        material: filling.map(|filling| filling.name().to_owned()),
        is_mix: filling.is_some_and(|filling| filling.mix().is_some()),
        mass_kg: mass.map(|mass| mass.value.0),
        waste: waste_share(None, own),
        is_waste_known: filling.is_none_or(own_waste_is_read),
        place: joint.place,
    }
}

/// The share of the area that is joint, by how the units are laid; `None` if
/// no unit can be of that size.
fn share<'t>(
    surface: &Surface,
    joint: Term<'t, Length>,
    trace: &'t Trace,
) -> Option<Term<'t, Share>> {
    let laid = surface.laid.as_ref();
    if let Some(laid) = laid.filter(|laid| !laid.sizes.is_empty()) {
        return share_of_ashlar(laid, joint, trace);
    }
    let (units, sides) = match laid.and_then(|laid| stone_side(laid, trace)) {
        Some(side) => {
            let side = side.called("side");
            ((side / (side + joint)).squared(), [side, side])
        }
        None => {
            let build = surface.build.as_ref()?;
            let paving = build.value.layer(Role::Paving)?;
            let material = paving.of.value.material().map(std::sync::Arc::as_ref);
            let (a, b) = unit_size(surface, material)?;
            let a = trace
                .sourced("length of a unit", &a, Length)
                .called("length");
            let b = trace.sourced("width of a unit", &b, Length).called("width");
            (a * b / ((a + joint) * (b + joint)), [a, b])
        }
    };
    let share = (1.0 - units).map(|Count(share)| Share(share));
    let is_sound = share.value.0.is_finite()
        && joint.value.0 >= 0.0
        && sides.iter().all(|side| side.value.0 > 0.0);
    is_sound.then(|| trace.gives("joint share", share))
}

/// The share of the area that is joint, of sizes each with its share of it.
fn share_of_ashlar<'t>(
    laid: &Laid,
    joint: Term<'t, Length>,
    trace: &'t Trace,
) -> Option<Term<'t, Share>> {
    let one = trace.term("1", Count(1.0));
    let parts = laid.sizes.iter().map(|size| {
        let (length, width, share) = of_size(size, trace);
        let stone = length * width / ((length + joint) * (width + joint));
        trace.gives("its joints", (one - stone) * share).value
    });
    let all: Vec<Count> = parts.collect();
    let is_sound = all.iter().all(|share| share.0.is_finite()) && joint.value.0 >= 0.0;
    let sum = is_sound.then(|| all.iter().map(|share| share.0).sum::<f64>())?;
    let how = "the sum of the joints of all sizes";
    Some(trace.found("joint share", Share(sum), how))
}

/// The length, the width and the share of the area of a size of ashlar.
pub(super) fn of_size<'t>(
    size: &AshlarSize,
    trace: &'t Trace,
) -> (Term<'t, Length>, Term<'t, Length>, Term<'t, Share>) {
    let stated = |name: &str, side: &Stated<Quantity>| {
        trace.stated(name, Length(side.value.si()), side.place)
    };
    let share = trace.stated("share", Share(size.share.value.si()), size.share.place);
    (
        stated("length", &size.length),
        stated("width", &size.width),
        share,
    )
}

/// The side of a square of the average stone's area, of irregular stones.
fn stone_side<'t>(laid: &Laid, trace: &'t Trace) -> Option<Term<'t, Length>> {
    if laid.pattern.value != Pattern::Irregular && laid.units.is_some() {
        return None;
    }
    let stated = |name: &str, side: &Stated<Quantity>| {
        trace.stated(name, Length(side.value.si()), side.place)
    };
    let average = "side of the average stone";
    Some(match laid.stones.as_ref()? {
        Stones::About(side) => stated(average, side),
        Stones::Between(least, most) => {
            let both = stated("least side", least) + stated("greatest side", most);
            trace.gives(average, both / trace.term("2", Count(2.0)))
        }
    })
}

/// How deep the joints are filled.
fn depth<'t>(surface: &Surface, joint: &Joint, trace: &'t Trace) -> Option<Term<'t, Length>> {
    let stated = joint.depth.as_ref();
    let (name, depth) = match stated {
        Some(stated) => ("depth", stated),
        None => {
            let build = surface.build.as_ref()?;
            let paving = build.value.layer(Role::Paving)?;
            ("depth: the paving's thickness", paving.thickness.as_ref()?)
        }
    };
    let depth = trace.stated(name, Length(depth.value.si()), depth.place);
    Some(depth.called("depth"))
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
            sizes: Vec::new(),
            wide: None,
            centre: None,
            angle: None,
            along: None,
            offset: None,
            from: None,
            place: line(1),
        }
    }

    /// The share by which joints of `w` widen units of `a` by `b`, reckoned
    /// the other way round: what of each unit's room is joint.
    fn unit_share(a: f64, b: f64, w: f64) -> Option<f64> {
        Some(w * (a + b + w) / ((a + w) * (b + w)))
    }

    #[test]
    fn shares_follow_the_size_of_units_and_joints() {
        for (a, b, joint, expected) in [
            ("200 mm", "400 mm", "4 mm", unit_share(0.2, 0.4, 0.004)),
            ("1 m", "1 m", "0 mm", Some(0.0)),
            ("1 m", "1 m", "1 m", Some(0.75)),
            ("0 m", "1 m", "1 mm", None),
            ("1 m", "1 m", "-1 mm", None),
        ] {
            let flag = Material {
                unit: sourced(a).zip(sourced(b)),
                ..material("flag")
            };
            let paving = layer(Role::Paving, flag, "2 in");
            let court = surface("court", area_of("10 ft", "10 ft"), vec![paving]);
            let figures = figures(&job(vec![court.jointed(joint, "", None)]));
            let share = figures.surfaces[0].joints.as_ref().unwrap().share;
            match (share, expected) {
                (Some(found), Some(share)) => assert!(close(found, share, 1e-12), "{a} {b}"),
                (found, share) => assert_eq!(found, share, "{a} {b} {joint}"),
            }
        }
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
            assert!(close(found.share.unwrap(), expected.unwrap(), 1e-12));
        }
    }

    /// 10 by 10 ft of ashlar, two fifths of it 12 by 24 in and the rest 12 in
    /// square, with joints of 1/2 in: each stone takes its room with its joint.
    #[test]
    fn ashlar_is_counted_by_its_shares() {
        let size = |length: &str, width: &str, share: &str| AshlarSize {
            length: stated(length),
            width: stated(width),
            share: stated(share),
        };
        let court = |pattern, sizes| {
            let flag = Material {
                unit: sourced("12 in").zip(sourced("24 in")),
                ..material("flag")
            };
            let paving = layer(Role::Paving, flag, "2 in");
            let mut court = surface("court", area_of("10 ft", "10 ft"), vec![paving])
                .jointed("1/2 in", "", None);
            court.laid = Some(Laid {
                sizes,
                ..laid(pattern)
            });
            figures(&job(vec![court])).surfaces[0].clone()
        };
        let sizes = vec![
            size("24 in", "12 in", "40 %"),
            size("12 in", "12 in", "60 %"),
        ];
        let found = court(Pattern::Ashlar, sizes);
        let area = 14_400.0;
        let wanted = [0.4 * area / (24.5 * 12.5), 0.6 * area / (12.5 * 12.5)];
        let units: Vec<f64> = found.layers[0].sizes.iter().map(|own| own.units).collect();
        assert!(units.iter().zip(wanted).all(|(a, b)| close(*a, b, 1e-12)));
        assert!(close(
            found.layers[0].units.unwrap(),
            wanted[0] + wanted[1],
            1e-12
        ));
        let stone = (wanted[0] * 288.0 + wanted[1] * 144.0) / area;
        let share = found.joints.as_ref().unwrap().share.unwrap();
        assert!(close(share, 1.0 - stone, 1e-12));
        // Courses of all lengths and rings are not counted, whatever the
        // material's size.
        for pattern in [Pattern::Courses, Pattern::Rings] {
            let found = court(pattern, Vec::new());
            assert_eq!(found.layers[0].units, None);
            assert_eq!(found.joints.as_ref().unwrap().share, None);
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
