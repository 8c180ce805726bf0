//! Area, volume and mass of each layer of a surface.

use std::sync::Arc;

use super::gauging::gauging;
use super::grounds::Covered;
use super::joints::unit_size;
use super::notes::{Amount, Notes, Silent};
use super::states::{
    density_in_place, is_granular, loose_density, own_waste, own_waste_is_read, waste_share,
};
use crate::findings::Place;
use crate::model::{Layer, Material, Mix, Origin, Sourced, State, Substance, Surface};
use crate::units::System;
use crate::vocabulary::Role;

/// The figures of a layer of a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct LayerFigures {
    /// What it is for.
    pub role: Role,
    /// The name of its material or mix.
    pub material: String,
    /// Whether that is a mix.
    pub is_mix: bool,
    /// Whether it lies there already: neither dug for nor ordered.
    pub is_existing: bool,
    /// The ground that it covers; `None` if that cannot be made out.
    pub ground: Option<Arc<Covered>>,
    /// Its area.
    pub area_m2: Option<f64>,
    /// What is needed of a sheet: its area, what is turned up and what laps.
    pub sheet_m2: Option<f64>,
    /// Its thickness, as stated; `None` for a sheet.
    pub thickness_m: Option<f64>,
    /// Area × thickness, in the state in which the thickness is stated.
    pub volume_m3: Option<f64>,
    /// The room that it takes loose; `None` for what is not in grains.
    pub loose_volume_m3: Option<f64>,
    /// Its mass; of a mix, fresh.
    pub mass_kg: Option<f64>,
    /// How many units lie in it, joints allowed for; `None` if it has none
    /// or their size is not known.
    pub units: Option<f64>,
    /// In how many lifts it is laid, if stated.
    pub lifts: Option<f64>,
    /// The share wasted; `None` if nothing is said of it.
    pub waste: Option<Sourced<f64>>,
    /// Whether what is said of its waste could be made out.
    pub is_waste_known: bool,
    /// Its entry.
    pub place: Place,
}

impl LayerFigures {
    /// The thickness of each lift, if their number is stated.
    pub fn lift_m(&self) -> Option<f64> {
        let lifts = self.lifts.filter(|lifts| *lifts > 0.0)?;
        Some(self.thickness_m? / lifts)
    }
}

/// The figures of one layer over the ground that it covers.
///
/// A thickness is taken in the state in which it is stated: as compacted
/// unless it says `loose`. Volume is area × thickness, joints not taken off;
/// mass is volume × the density of that state; the loose volume is mass ÷
/// the loose density.
pub(super) fn layer(
    surface: &Surface,
    layer: &Layer,
    ground: Option<Arc<Covered>>,
    notes: &mut impl Notes,
) -> LayerFigures {
    let area_m2 = ground
        .as_deref()
        .map(|ground| area(surface, layer, ground, notes));
    let role = layer.role.value;
    let sheet_m2 = match (area_m2, ground.as_deref()) {
        (Some(area), Some(ground)) if role.is_sheet() => Some(sheet(layer, area, ground, notes)),
        _ => None,
    };
    let thickness_m = layer.thickness.as_ref().map(|stated| stated.value.si());
    let volume_m3 = area_m2.zip(thickness_m).map(|(area, thickness)| {
        if let Some(stated) = &layer.thickness {
            notes.stated("thickness", Amount::Length(thickness), stated.place);
        }
        let volume = area * thickness;
        let terms = [Amount::Area(area), Amount::Length(thickness)];
        notes.step(
            "volume in place",
            "{area} × {thickness}",
            &terms,
            Amount::Volume(volume),
        );
        volume
    });
    let state = layer.state.as_ref().map(|stated| stated.value);
    let (mass_kg, loose_volume_m3, own) = match &layer.of.value {
        Substance::Material(material) => {
            let mass = volume_m3.and_then(|volume| mass_of(material, state, volume, notes));
            let loose = mass.and_then(|mass| loose_volume(material, mass, notes));
            (mass, loose, own_waste(material))
        }
        Substance::Mix(mix) => {
            let mass = volume_m3.and_then(|volume| fresh_mass(mix, volume, notes));
            (mass, None, mix_waste(mix))
        }
        Substance::Unknown(_) => (None, None, None),
    };
    let units = area_m2.filter(|_| role == Role::Paving).and_then(|area| {
        units_in(
            surface,
            layer.of.value.material().map(Arc::as_ref),
            area,
            notes,
        )
    });
    LayerFigures {
        role,
        material: layer.of.value.name().to_owned(),
        is_mix: layer.of.value.mix().is_some(),
        is_existing: layer.existing.is_some(),
        ground,
        area_m2,
        sheet_m2,
        thickness_m,
        volume_m3,
        loose_volume_m3,
        mass_kg,
        units,
        lifts: layer.lifts.as_ref().map(|stated| stated.value.si()),
        waste: waste_share(layer.waste.as_ref(), own),
        is_waste_known: match &layer.waste {
            Some(_) => true,
            None => !layer.is_unread("waste") && own_waste_is_read(&layer.of.value),
        },
        place: layer.place,
    }
}

/// The area of the ground that a layer covers.
fn area(surface: &Surface, layer: &Layer, ground: &Covered, notes: &mut impl Notes) -> f64 {
    let (area, beyond) = (ground.area_m2(), layer.beyond_m());
    let own = surface
        .outline
        .as_ref()
        .map_or(0.0, |outline| outline.area());
    let shape = surface
        .shape
        .as_ref()
        .map(|shape| Origin::Line(shape.place));
    notes.input("area of the surface", Amount::Area(own), shape);
    if let Some(stated) = &layer.beyond {
        notes.stated(
            "beyond the free edges",
            Amount::Length(beyond),
            stated.place,
        );
        let pushed_out = ground.outline.area();
        notes.step(
            "area pushed out",
            "{area of the surface} pushed out {beyond} along the free edges",
            &[Amount::Area(own), Amount::Length(beyond)],
            Amount::Area(pushed_out),
        );
        let shared = ground.shared_m2();
        if shared > 0.0 {
            notes.step(
                "area",
                "{area pushed out} − {ground that other surfaces cover}",
                &[Amount::Area(pushed_out), Amount::Area(shared)],
                Amount::Area(area),
            );
        }
    }
    area
}

/// What is needed of a sheet. What is turned up goes all round; laps are
/// counted where the width of the roll is known, as the shorter side of its
/// `unit`, and otherwise left to waste.
fn sheet(layer: &Layer, area: f64, ground: &Covered, notes: &mut impl Notes) -> f64 {
    let mut needed = area;
    if let Some(turned_up) = &layer.turned_up {
        let round: f64 = ground.pieces.iter().map(|piece| piece.perimeter()).sum();
        let height = turned_up.value.si();
        needed += round * height;
        notes.stated("turned up", Amount::Length(height), turned_up.place);
        notes.step(
            "area with what is turned up",
            "{area} + {perimeter} × {turned up}",
            &[
                Amount::Area(area),
                Amount::Length(round),
                Amount::Length(height),
            ],
            Amount::Area(needed),
        );
    }
    let Some(lap) = &layer.lap else { return needed };
    let unit = layer
        .of
        .value
        .material()
        .and_then(|material| material.unit.as_ref());
    let width = unit.map(|(a, b)| if a.value.si() < b.value.si() { a } else { b });
    let lap_m = lap.value.si();
    match width.filter(|width| width.value.si() > lap_m) {
        Some(width) => {
            let width_m = width.value.si();
            let with_laps = needed * width_m / (width_m - lap_m);
            notes.stated("lap", Amount::Length(lap_m), lap.place);
            notes.input(
                "width of the roll",
                Amount::Length(width_m),
                Some(width.origin),
            );
            let (whole, cover) = (Amount::Length(width_m), Amount::Length(lap_m));
            notes.step(
                "area with laps",
                "{area} × {width} ÷ ({width} − {lap})",
                &[Amount::Area(needed), whole, whole, cover],
                Amount::Area(with_laps),
            );
            with_laps
        }
        None => {
            notes.remark("Laps are not counted: the width of the roll is not known.");
            needed
        }
    }
}

/// The mass of a volume of a material in a state.
pub(super) fn mass_of(
    material: &Material,
    state: Option<State>,
    volume: f64,
    notes: &mut impl Notes,
) -> Option<f64> {
    let density = density_in_place(material, state)?;
    let name = match (state, &material.compacted) {
        (_, None) => "density",
        (Some(State::Loose), _) => "density, loose",
        _ => "density, compacted",
    };
    let value = density.value.si();
    notes.input(name, Amount::Density(value), Some(density.origin));
    let mass = volume * value;
    let terms = [Amount::Volume(volume), Amount::Density(value)];
    notes.step("mass", "{volume} × {density}", &terms, Amount::Mass(mass));
    Some(mass)
}

/// The room that a mass of a material in grains takes loose.
fn loose_volume(material: &Material, mass: f64, notes: &mut impl Notes) -> Option<f64> {
    let density = loose_density(material).filter(|_| is_granular(material))?;
    let value = density.value.si();
    let loose = mass / value;
    notes.input(
        "density, loose",
        Amount::Density(value),
        Some(density.origin),
    );
    let terms = [Amount::Mass(mass), Amount::Density(value)];
    notes.step(
        "loose volume",
        "{mass} ÷ {loose density}",
        &terms,
        Amount::Volume(loose),
    );
    Some(loose)
}

/// The mass of a volume of a mix as it is laid, water included.
pub(super) fn fresh_mass(mix: &Mix, volume: f64, notes: &mut impl Notes) -> Option<f64> {
    // Which measure is gauged with is one to the density.
    let density = gauging(mix, System::Metric, &mut Silent)
        .ok()?
        .fresh_density()?;
    let mass = volume * density;
    notes.input("density of the mix, fresh", Amount::Density(density), None);
    let terms = [Amount::Volume(volume), Amount::Density(density)];
    notes.step(
        "mass, fresh",
        "{volume} × {density}",
        &terms,
        Amount::Mass(mass),
    );
    Some(mass)
}

/// The waste that a mix states for itself.
pub(super) fn mix_waste(mix: &Mix) -> Option<Sourced<&crate::units::Quantity>> {
    mix.waste.as_ref().map(|waste| Sourced {
        value: &waste.value,
        origin: Origin::Line(waste.place),
    })
}

/// How many units of a by b with joints of w an area takes: area ÷ ((a + w)
/// (b + w)).
fn units_in(
    surface: &Surface,
    material: Option<&Material>,
    area: f64,
    notes: &mut impl Notes,
) -> Option<f64> {
    let (length, width) = unit_size(surface, material)?;
    let joint = surface
        .joint
        .as_ref()
        .map_or(0.0, |joint| joint.width.value.si());
    let (a, b) = (length.value, width.value);
    let module = (a + joint) * (b + joint);
    if module.is_nan() || module <= 0.0 {
        return None;
    }
    let units = area / module;
    notes.input("length of a unit", Amount::Length(a), Some(length.origin));
    notes.input("width of a unit", Amount::Length(b), Some(width.origin));
    if let Some(stated) = &surface.joint {
        notes.stated("joint", Amount::Length(joint), stated.width.place);
    }
    let gap = Amount::Length(joint);
    notes.step(
        "units",
        "{area} ÷ (({length} + {joint}) × ({width} + {joint}))",
        &[
            Amount::Area(area),
            Amount::Length(a),
            gap,
            Amount::Length(b),
            gap,
        ],
        Amount::Number(units),
    );
    Some(units)
}

#[cfg(test)]
mod tests {
    use super::super::figures;
    use super::super::fixture::{
        area_of, catalogued, close, in_unit, job, layer as a_layer, line, material, mix, si,
        sourced, stated, surface,
    };
    use super::*;
    use crate::model::Stated;

    fn stone() -> Material {
        Material {
            density: sourced("95 lb/cu ft"),
            compacted: sourced("125 lb/cu ft"),
            ..material("stone")
        }
    }

    fn laid(entry: Layer) -> LayerFigures {
        let court = surface("court", area_of("24 ft", "12 ft"), vec![entry]).meeting(2);
        figures(&job(vec![court])).surfaces[0].layers[0].clone()
    }

    #[test]
    fn a_base_goes_beyond_the_free_edges_only() {
        for (beyond, square_feet) in [("6 in", 312.5), ("0 in", 288.0), ("12 in", 26.0 * 13.0)] {
            let mut base = a_layer(Role::Base, stone(), "6 in");
            base.beyond = Some(stated(beyond));
            let found = in_unit(laid(base).area_m2, "sq ft");
            assert!(close(found, square_feet, 1e-12), "{beyond}: {found}");
        }
    }

    #[test]
    fn mass_and_loose_volume_follow_the_state() {
        // 288 sq ft, 6 in: 144 cu ft as stated.
        for (state, pounds, loose_cubic_feet) in [
            (None, 144.0 * 125.0, 144.0 * 125.0 / 95.0),
            (Some(State::Compacted), 144.0 * 125.0, 144.0 * 125.0 / 95.0),
            (Some(State::Loose), 144.0 * 95.0, 144.0),
        ] {
            let mut base = a_layer(Role::Base, stone(), "6 in");
            base.state = state.map(|state| Stated::new(state, line(1)));
            let found = laid(base);
            assert!(close(in_unit(found.volume_m3, "cu ft"), 144.0, 1e-12));
            assert!(
                close(in_unit(found.mass_kg, "lb"), pounds, 1e-12),
                "{state:?}"
            );
            assert!(close(
                in_unit(found.loose_volume_m3, "cu ft"),
                loose_cubic_feet,
                1e-12
            ));
        }
    }

    #[test]
    fn what_is_not_known_is_not_guessed() {
        let found = laid(a_layer(Role::Base, material("stone"), "6 in"));
        assert!(found.volume_m3.is_some());
        assert_eq!((found.mass_kg, found.loose_volume_m3), (None, None));
        let found = laid(a_layer(Role::Base, stone(), ""));
        assert!(found.area_m2.is_some());
        assert_eq!(
            (found.thickness_m, found.volume_m3, found.mass_kg),
            (None, None, None)
        );
        let flag = Material {
            density: sourced("150 lb/cu ft"),
            ..material("flag")
        };
        let found = laid(a_layer(Role::Paving, flag, "2 in"));
        assert!(found.mass_kg.is_some());
        assert_eq!((found.loose_volume_m3, found.units), (None, None));
    }

    #[test]
    fn a_mix_is_as_heavy_as_it_is_laid() {
        let parts = [
            ("1", catalogued("portland-cement")),
            ("3", catalogued("sharp-sand")),
        ];
        let found = laid(a_layer(Role::Bed, mix("mortar", &parts), "1 in"));
        let density = found.mass_kg.unwrap() / found.volume_m3.unwrap();
        assert!((1_900.0..2_300.0).contains(&density), "{density} kg/m3");
        assert!(found.is_mix);
    }

    #[test]
    fn sheets_are_turned_up_and_lapped() {
        let roll = Material {
            unit: sourced("13 ft").zip(sourced("300 ft")),
            ..material("fabric")
        };
        for (of, turned_up, lap, square_feet) in [
            (material("fabric"), None, None, 288.0),
            (material("fabric"), Some("6 in"), None, 288.0 + 72.0 * 0.5),
            (roll.clone(), None, Some("12 in"), 288.0 * 13.0 / 12.0),
            (
                roll,
                Some("6 in"),
                Some("12 in"),
                (288.0 + 36.0) * 13.0 / 12.0,
            ),
            (material("fabric"), None, Some("12 in"), 288.0),
        ] {
            let mut fabric = a_layer(Role::Fabric, of, "");
            fabric.turned_up = turned_up.map(stated);
            fabric.lap = lap.map(stated);
            let found = laid(fabric);
            assert!(close(in_unit(found.sheet_m2, "sq ft"), square_feet, 1e-12));
            assert_eq!(found.volume_m3, None);
        }
    }

    #[test]
    fn lifts_part_the_thickness() {
        let mut base = a_layer(Role::Base, stone(), "6 in");
        base.lifts = Some(stated("2"));
        let found = laid(base.clone()).lift_m().unwrap();
        assert!(close(found, si("3 in"), 1e-12));
        base.lifts = Some(stated("0"));
        assert_eq!(laid(base).lift_m(), None);
    }
}
