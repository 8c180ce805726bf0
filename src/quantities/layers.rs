//! Area, volume and mass of each layer of a surface.

use std::sync::Arc;

use super::area::area as whole_area;
use super::borders::{bordered_m2, field_inside};
use super::footprint::Footprint;
use super::gauging::gauging;
use super::joints::{of_size, unit_size};
use super::measures::{Area, Count, Density, Length, Mass, Volume};
use super::states::{
    density_in_place, is_granular, loose_density, own_waste, own_waste_is_read, waste_share,
};
use super::term::Term;
use super::trace::Trace;
use crate::findings::Place;
use crate::geometry::{Edge, Vector};
use crate::model::{Contact, Layer, Material, Mix, Origin, Sourced, State, Substance, Surface};
use crate::units::{Quantity, System};
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
    pub ground: Option<Arc<Footprint>>,
    /// Its area.
    pub area_m2: Option<f64>,
    /// What is needed of a sheet: its area, what is turned up and what laps;
    /// `None` where it laps and the size of its roll is not known.
    pub sheet_m2: Option<f64>,
    /// Its thickness, as stated; `None` for a sheet.
    pub thickness_m: Option<f64>,
    /// Area × thickness less what kerbs and drains take of it, in the state in
    /// which the thickness is stated.
    pub volume_m3: Option<f64>,
    /// The room that it takes loose; `None` for what is not in grains.
    pub loose_volume_m3: Option<f64>,
    /// Its mass; of a mix, fresh.
    pub mass_kg: Option<f64>,
    /// How many units lie in it, joints allowed for; `None` if it has none
    /// or their size is not known.
    pub units: Option<f64>,
    /// How many of each size of ashlar, in the order of the text.
    pub sizes: Vec<SizeFigures>,
    /// In how many lifts it is laid, if stated.
    pub lifts: Option<f64>,
    /// The share wasted; `None` if nothing is said of it.
    pub waste: Option<Sourced<f64>>,
    /// Whether what is said of its waste could be made out.
    pub is_waste_known: bool,
    /// Its entry.
    pub place: Place,
}

/// How much there is of a size of ashlar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizeFigures {
    /// Its length.
    pub length_m: f64,
    /// Its width.
    pub width_m: f64,
    /// Its share of the area, joints counted.
    pub share: f64,
    /// How many lie in it, joints allowed for.
    pub units: f64,
}

impl LayerFigures {
    /// The area that is needed of it: of a sheet with what is turned up and
    /// what laps.
    pub fn needed_m2(&self) -> Option<f64> {
        match self.role.is_sheet() {
            true => self.sheet_m2,
            false => self.area_m2,
        }
    }

    /// Whole units with the waste; `None` if how many lie in it, or their
    /// waste, is not known, and of what lies there already.
    pub fn units_with_waste(&self) -> Option<f64> {
        let waste = self.waste.as_ref()?.value;
        let units = self.units.filter(|_| !self.is_existing)?;
        Some(whole_units(units * (1.0 + waste)))
    }

    /// The thickness of each lift, if their number is stated.
    pub fn lift_m(&self) -> Option<f64> {
        let lifts = self.lifts.filter(|lifts| *lifts > 0.0)?;
        Some(self.thickness_m? / lifts)
    }
}

/// Units as they are counted, the last perhaps cut: a hair over a whole number
/// is rounding.
pub fn whole_units(units: f64) -> f64 {
    (units - 1e-6).ceil().max(0.0)
}

/// The figures of one layer over the ground that it covers.
///
/// A thickness is taken in the state in which it is stated: as compacted
/// unless it says `loose`. Joints are not taken off the volume; but the paving
/// of a border weighs what its counted units do, `units_m3`.
pub(super) fn layer(
    surface: &Surface,
    layer: &Layer,
    ground: Option<Arc<Footprint>>,
    units_m3: Option<f64>,
    trace: &Trace,
) -> LayerFigures {
    let covered = ground.as_deref();
    let area = covered.map(|ground| area(surface, layer, ground, trace));
    let area = area.and_then(|area| inside_borders(surface, layer, area, trace));
    let role = layer.role.value;
    let sheet = area.zip(covered).filter(|_| role.is_sheet());
    let sheet = sheet.and_then(|(area, ground)| sheet_area(surface, layer, (area, ground), trace));
    let thickness = layer.thickness.as_ref().filter(|_| area.is_some());
    let thickness =
        thickness.map(|stated| trace.stated("thickness", Length(stated.value.si()), stated.place));
    let volume = area
        .zip(thickness)
        .zip(covered)
        .map(|((area, thickness), ground)| in_place(area * thickness, ground, trace));
    let state = layer.state.as_ref().map(|stated| stated.value);
    let (mass, loose_volume, own) = match &layer.of.value {
        Substance::Material(material) => {
            let counted = units_m3.filter(|_| role == Role::Paving);
            let weighed = match counted {
                Some(units) => Some(trace.term("volume of its units", Volume(units))),
                None => volume,
            };
            let mass = weighed.and_then(|volume| mass_of(material, state, volume, trace));
            let loose = mass.filter(|_| is_granular(material));
            let loose = loose.and_then(|mass| loose_volume(material, mass, trace));
            (mass, loose, own_waste(material))
        }
        Substance::Mix(mix) => {
            let mass = volume.and_then(|volume| fresh_mass(mix, volume, trace));
            (mass, None, mix_waste(mix))
        }
        Substance::Unknown(_) => (None, None, None),
    };
    let material = layer.of.value.material().map(Arc::as_ref);
    // The units of a border are counted along its edges.
    let paved = area.filter(|_| role == Role::Paving && !surface.is_border());
    let sizes = paved.map_or(Vec::new(), |area| sizes_in(surface, area, trace));
    let units = match sizes.is_empty() {
        true => paved
            .and_then(|area| units_in(surface, material, area, trace))
            .map(|units| units.value.0),
        false => {
            let each = sizes.iter().map(|size| Count(size.units));
            Some(trace.sum("units", "those of the one size", each).value.0)
        }
    };
    LayerFigures {
        role,
        material: layer.of.value.name().to_owned(),
        is_mix: layer.of.value.mix().is_some(),
        is_existing: layer.existing.is_some(),
        area_m2: area.map(|area| area.value.0),
        sheet_m2: sheet.map(|sheet| sheet.value.0),
        thickness_m: layer.thickness.as_ref().map(|stated| stated.value.si()),
        volume_m3: volume.map(|volume| volume.value.0),
        loose_volume_m3: loose_volume.map(|volume| volume.value.0),
        mass_kg: mass.map(|mass| mass.value.0),
        units,
        sizes,
        lifts: layer.lifts.as_ref().map(|stated| stated.value.si()),
        waste: waste_share(layer.waste.as_ref(), own),
        is_waste_known: match &layer.waste {
            Some(_) => true,
            None => !layer.is_unread("waste") && own_waste_is_read(&layer.of.value),
        },
        place: layer.place,
        ground,
    }
}

/// The area of the ground that a layer covers.
fn area<'t>(
    surface: &Surface,
    layer: &Layer,
    ground: &Footprint,
    trace: &'t Trace,
) -> Term<'t, Area> {
    let name = "area of the surface";
    let own = whole_area(surface, name, trace);
    let mut area = own.unwrap_or_else(|| trace.input(name, Area(0.0), None));
    let strips = Area(surface.strips_m2());
    if strips.0 > 0.0 {
        let strips = trace.term("borders on builds of their own", strips);
        area = trace.gives("area inside them", area - strips);
    }
    if let Some(stated) = &layer.beyond {
        let beyond = Length(layer.beyond_m());
        let beyond = trace.stated("beyond the free edges", beyond, stated.place);
        let words = ["", " pushed out ", " along the free edges"];
        let pushed_out = Area(ground.whole_m2());
        let pushed_out = area.joined(words, beyond.called("beyond"), |_, _| pushed_out);
        area = trace.gives("area pushed out", pushed_out);
    }
    let shared = Area(ground.shared_m2());
    if shared.0 > 0.0 {
        let shared = trace.term("ground that other surfaces cover", shared);
        area = trace.gives("area", area - shared);
    }
    let under_steps = Area(ground.under_steps_m2);
    if under_steps.0 > 0.0 {
        let under_steps = trace.term("ground that steps or channels stand on", under_steps);
        area = trace.gives("area", area - under_steps);
    }
    area.called("area")
}

/// What is left of a layer's volume by what stands in it.
fn in_place<'t>(whole: Term<'t, Volume>, ground: &Footprint, trace: &'t Trace) -> Term<'t, Volume> {
    let taken = Volume(ground.taken_m3);
    if taken.0 <= 0.0 {
        return trace.gives("volume in place", whole);
    }
    let whole = trace.gives("whole volume", whole);
    let how =
        "the concrete of edgings, channels with their beds and trenches where they stand in it";
    let taken = trace.found("what stands in it", taken, how);
    trace.gives("volume in place", whole - taken)
}

/// What the borders of a surface leave of the area of its paving.
fn inside_borders<'t>(
    surface: &Surface,
    layer: &Layer,
    area: Term<'t, Area>,
    trace: &'t Trace,
) -> Option<Term<'t, Area>> {
    if surface.borders.is_empty() || layer.role.value != Role::Paving {
        return Some(area);
    }
    // Those on builds of their own are off it already.
    field_inside(area, bordered_m2(surface)? - surface.strips_m2(), trace)
}

/// What is needed of a sheet. It is turned up at the rim and the building, not
/// where another surface goes on; laps are counted both ways by the size of the
/// roll or sheet, and without one nobody knows how many there are.
fn sheet_area<'t>(
    surface: &Surface,
    layer: &Layer,
    (area, ground): (Term<'t, Area>, &Footprint),
    trace: &'t Trace,
) -> Option<Term<'t, Area>> {
    let mut needed = area;
    if let Some(stated) = &layer.turned_up {
        if surface.has_unplaced_neighbour() {
            return None;
        }
        let goes_on = |edge: &Edge| matches!(surface.contact(edge.tag), Some(Contact::Surface(_)));
        let rim = ground.outlines.iter().flat_map(|outline| outline.edges());
        let rim = rim.filter(|edge| !goes_on(edge));
        let rim: Length = rim.map(|edge| Length(edge.length())).sum();
        let round = trace.term("edges at which it ends", rim);
        let turned_up = trace.stated("turned up", Length(stated.value.si()), stated.place);
        needed = trace.gives("area with what is turned up", needed + round * turned_up);
    }
    let Some(lap) = &layer.lap else {
        return Some(needed);
    };
    let material = layer.of.value.material();
    let unit = material.and_then(|material| material.unit.as_ref());
    let is_wide = |side: &Sourced<Quantity>| side.value.si() > lap.value.si();
    let Some((width, length)) = unit.filter(|(width, length)| is_wide(width) && is_wide(length))
    else {
        trace.remark("Laps cannot be counted: the size of the roll is not known.");
        return None;
    };
    let turned_up = layer.turned_up.as_ref().map_or(0.0, |own| own.value.si());
    if is_under_one_sheet(ground, turned_up, (width.value.si(), length.value.si())) {
        trace.remark("One piece of the roll covers it, so nothing laps.");
        return Some(needed);
    }
    let lap = trace.stated("lap", Length(lap.value.si()), lap.place);
    let side = |name: &str, side| trace.sourced(name, side, |side: Quantity| Length(side.si()));
    let width = side("width of the roll", width).called("width");
    let length = side("length of the roll", length).called("length");
    let shown = (width - lap) * (length - lap);
    let with_laps = needed.called("area") * (width * length / shown);
    Some(trace.gives("area with laps", with_laps))
}

/// Whether one piece of a roll, turned up all round, lies under the whole of a
/// footprint, laid along one of its sides; all lengths in metres.
fn is_under_one_sheet(ground: &Footprint, turned_up: f64, (width, length): (f64, f64)) -> bool {
    let [outline] = ground.outlines.as_slice() else {
        return false;
    };
    let across = |way: Vector| outline.extent(way) + 2.0 * turned_up;
    let chords = outline.edges().map(Edge::chord);
    let mut ways = chords
        .filter(|chord| chord.length() > 0.0)
        .map(Vector::unit);
    ways.any(|way| {
        let (along, across) = (across(way), across(way.left()));
        let fits = |one: f64, other: f64| one <= width * EXACT && other <= length * EXACT;
        fits(along, across) || fits(across, along)
    })
}

/// What a sheet may lie under, for rounding.
const EXACT: f64 = 1.0 + 1e-9;

/// The mass of a volume of a material in a state.
pub(super) fn mass_of<'t>(
    material: &Material,
    state: Option<State>,
    volume: Term<'t, Volume>,
    trace: &'t Trace,
) -> Option<Term<'t, Mass>> {
    let density = density_in_place(material, state)?;
    let name = match (state, &material.compacted) {
        (_, None) => "density",
        (Some(State::Loose), _) => "density, loose",
        _ => "density, compacted",
    };
    let density = trace.sourced(name, density, |density| Density(density.si()));
    let mass = volume.called("volume") * density.called("density");
    Some(trace.gives("mass", mass))
}

/// The room that a mass of a material takes loose.
pub(super) fn loose_volume<'t>(
    material: &Material,
    mass: Term<'t, Mass>,
    trace: &'t Trace,
) -> Option<Term<'t, Volume>> {
    let density = loose_density(material)?;
    let density = trace.sourced("density, loose", density, |density| Density(density.si()));
    Some(trace.gives("loose volume", mass / density.called("loose density")))
}

/// The mass of a volume of a mix as it is laid, water included.
pub(super) fn fresh_mass<'t>(
    mix: &Mix,
    volume: Term<'t, Volume>,
    trace: &'t Trace,
) -> Option<Term<'t, Mass>> {
    // Which measure is gauged with is one to the density.
    let gauging = gauging(mix, System::Metric).ok()?;
    let density = Density(gauging.fresh_density()?);
    let density = trace.input("density of the mix, fresh", density, None);
    let mass = volume.called("volume") * density.called("density");
    Some(trace.gives("mass, fresh", mass))
}

/// The waste that a mix states for itself.
pub(super) fn mix_waste(mix: &Mix) -> Option<Sourced<&Quantity>> {
    mix.waste.as_ref().map(|waste| Sourced {
        value: &waste.value,
        origin: Origin::Line(waste.place),
    })
}

/// How many units an area takes, each with a joint at two of its sides.
fn units_in<'t>(
    surface: &Surface,
    material: Option<&Material>,
    area: Term<'t, Area>,
    trace: &'t Trace,
) -> Option<Term<'t, Count>> {
    let (length, width) = unit_size(surface, material)?;
    let length = trace.sourced("length of a unit", &length, Length);
    let width = trace.sourced("width of a unit", &width, Length);
    let (length, width) = (length.called("length"), width.called("width"));
    let module = match &surface.joint {
        Some(joint) => {
            let (own, place) = (Length(joint.width.value.si()), joint.width.place);
            let joint = trace.stated("joint", own, place);
            (length + joint) * (width + joint)
        }
        None => length * width,
    };
    let is_sound = module.value.0 > 0.0;
    is_sound.then(|| trace.gives("units", area / module))
}

/// How many of each size of ashlar an area takes.
fn sizes_in(surface: &Surface, area: Term<'_, Area>, trace: &Trace) -> Vec<SizeFigures> {
    let sizes = surface.laid.iter().flat_map(|laid| &laid.sizes);
    let joint = surface.joint.as_ref();
    let joint = joint.map_or(0.0, |joint| joint.width.value.si());
    let counted = sizes.map(|size| {
        let (length, width, share) = of_size(size, trace);
        let joint = trace.term("joint", Length(joint));
        let module = (length + joint) * (width + joint);
        let units = trace.gives("units of this size", area * share / module);
        SizeFigures {
            length_m: length.value.0,
            width_m: width.value.0,
            share: share.value.0,
            units: units.value.0,
        }
    });
    counted.collect()
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
            unit: sourced("6 ft").zip(sourced("300 ft")),
            ..material("fabric")
        };
        let wide = |feet: &str| Material {
            unit: sourced(feet).zip(sourced("300 ft")),
            ..material("fabric")
        };
        // A foot of each side lies under or over the next roll.
        let lapped = |width: f64| width * 300.0 / ((width - 1.0) * 299.0);
        for (of, turned_up, lap, square_feet) in [
            (material("fabric"), None, None, 288.0),
            (material("fabric"), Some("6 in"), None, 288.0 + 72.0 * 0.5),
            (roll.clone(), None, Some("12 in"), 288.0 * lapped(6.0)),
            (
                roll,
                Some("6 in"),
                Some("12 in"),
                (288.0 + 36.0) * lapped(6.0),
            ),
            // A court of 24 ft by 12 ft lies under one piece of a wide roll.
            (wide("12 ft"), None, Some("12 in"), 288.0),
            (wide("11.9 ft"), None, Some("12 in"), 288.0 * lapped(11.9)),
            (wide("13 ft"), Some("6 in"), Some("12 in"), 324.0),
            (
                wide("12 ft"),
                Some("6 in"),
                Some("12 in"),
                324.0 * lapped(12.0),
            ),
        ] {
            let mut fabric = a_layer(Role::Fabric, of, "");
            fabric.turned_up = turned_up.map(stated);
            fabric.lap = lap.map(stated);
            let found = laid(fabric);
            assert!(close(in_unit(found.sheet_m2, "sq ft"), square_feet, 1e-12));
            assert_eq!(found.volume_m3, None);
        }
        let mut fabric = a_layer(Role::Fabric, material("fabric"), "");
        fabric.lap = Some(stated("12 in"));
        assert_eq!(laid(fabric).needed_m2(), None, "of what size is the roll?");
    }

    #[test]
    fn a_sheet_is_not_turned_up_where_a_surface_goes_on() {
        let mut fabric = a_layer(Role::Fabric, material("fabric"), "");
        fabric.turned_up = Some(stated("6 in"));
        let mut court = surface("court", area_of("24 ft", "12 ft"), vec![fabric]);
        court.sides[0].contact = Contact::Surface(1);
        let found = figures(&job(vec![court])).surfaces[0].layers[0].sheet_m2;
        // Of 72 ft of edges one of 24 ft is a seam.
        assert!(close(in_unit(found, "sq ft"), 288.0 + 48.0 * 0.5, 1e-12));
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
