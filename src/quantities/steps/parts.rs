//! What a flight is built of: its treads, the facing of its risers, its core
//! and its base.

use super::super::layers::{fresh_mass, loose_volume, mass_of, mix_waste};
use super::super::measures::{Area, Count, Length, Mass, Slope, Volume};
use super::super::size::Size;
use super::super::states::{is_granular, own_waste, own_waste_is_read, waste_share};
use super::super::term::Term;
use super::super::trace::Trace;
use super::flight::Flight;
use crate::findings::Place;
use crate::model::{
    Core, CoreFoot, Facing, Layer, Material, Origin, Region, Sourced, State, Stated, Steps,
    Substance, Tread, TreadBed,
};
use crate::sources::Source;
use crate::units::Quantity;

static COMMON: Source = Source::COMMON_PRACTICE;

/// One kind of thing that a flight is built of, all of it together.
#[derive(Debug, Clone, PartialEq)]
pub struct StepsPart {
    /// The name of its material or mix.
    pub material: String,
    /// Whether that is a mix.
    pub is_mix: bool,
    /// The area of the treads, of the faces of the risers, or of the base.
    pub area_m2: Option<f64>,
    /// Its thickness, if it is known.
    pub thickness_m: Option<f64>,
    /// Its volume in place.
    pub volume_m3: Option<f64>,
    /// The room that it takes loose; `None` for what is not in grains.
    pub loose_volume_m3: Option<f64>,
    /// Its mass; of a mix, fresh.
    pub mass_kg: Option<f64>,
    /// How many pieces or bricks there are.
    pub pieces: Option<f64>,
    /// What one piece of a tread measures along the riser and from front to
    /// back.
    pub piece_m: Option<(f64, f64)>,
    /// What one piece of a tread weighs.
    pub piece_kg: Option<f64>,
    /// The height of a riser that shows, the lowest left out.
    pub shown_m: Option<f64>,
    /// The rises next to it, under and over, that whole courses make.
    pub fitting_m: Option<(f64, f64)>,
    /// The share wasted.
    pub waste: Option<Sourced<f64>>,
    /// Whether what is said of its waste could be made out.
    pub is_waste_known: bool,
    /// Its entry.
    pub place: Place,
}

impl StepsPart {
    fn of(
        of: &Substance,
        waste: Option<&Stated<Quantity>>,
        is_unread: bool,
        place: Place,
    ) -> StepsPart {
        let own = match of {
            Substance::Material(material) => own_waste(material),
            Substance::Mix(mix) => mix_waste(mix),
            Substance::Unknown(_) => None,
        };
        StepsPart {
            material: of.name().to_owned(),
            is_mix: of.mix().is_some(),
            area_m2: None,
            thickness_m: None,
            volume_m3: None,
            loose_volume_m3: None,
            mass_kg: None,
            pieces: None,
            piece_m: None,
            piece_kg: None,
            shown_m: None,
            fitting_m: None,
            waste: waste_share(waste, own),
            is_waste_known: match waste {
                Some(_) => true,
                None => !is_unread && own_waste_is_read(of),
            },
            place,
        }
    }

    /// The treads, of which no figure is known.
    pub(super) fn of_tread(tread: &Tread) -> StepsPart {
        let (of, waste) = (&tread.of.value, tread.waste.as_ref());
        StepsPart::of(of, waste, tread.is_waste_unread, tread.place)
    }

    /// The bed of the treads, of which no figure is known.
    pub(super) fn of_bed(bed: &TreadBed) -> StepsPart {
        let (of, waste) = (&bed.of.value, bed.waste.as_ref());
        StepsPart::of(of, waste, bed.is_waste_unread, bed.place)
    }

    /// The facing of the risers, of which no figure is known.
    pub(super) fn of_facing(facing: &Facing) -> StepsPart {
        let (of, waste) = (&facing.of.value, facing.waste.as_ref());
        StepsPart::of(of, waste, facing.is_waste_unread, facing.place)
    }

    /// The core, of which no figure is known.
    pub(super) fn of_core(core: &Core) -> StepsPart {
        let (of, waste) = (&core.of.value, core.waste.as_ref());
        StepsPart::of(of, waste, core.is_waste_unread, core.place)
    }

    /// The base, of which no figure is known.
    pub(super) fn of_base(base: &Layer) -> StepsPart {
        let (of, waste) = (&base.of.value, base.waste.as_ref());
        StepsPart::of(of, waste, base.is_unread("waste"), base.place)
    }

    /// The size in which its pieces are bought: treads are cut to size, bricks
    /// are not.
    pub(in crate::quantities) fn size(&self, material: &Material) -> Option<Size> {
        let thickness = self.thickness_m.map(|thickness| (thickness, thickness));
        Size::piece(material, self.piece_m.into_iter().collect(), thickness)
    }

    /// With its volume, and what follows from that.
    fn filled(
        self,
        of: &Substance,
        state: Option<State>,
        volume: Term<'_, Volume>,
        trace: &Trace,
    ) -> StepsPart {
        let mass = mass(of, state, volume, trace);
        let grains = of.material().filter(|material| is_granular(material));
        let loose = grains.zip(mass);
        let loose = loose.and_then(|(material, mass)| {
            let kilograms = trace.term("mass", mass);
            Some(loose_volume(material, kilograms, trace)?.value.0)
        });
        StepsPart {
            volume_m3: Some(volume.value.0),
            loose_volume_m3: loose,
            mass_kg: mass.map(|mass| mass.0),
            ..self
        }
    }
}

/// The mass of a volume of a material, or of a mix as it is laid.
fn mass(
    of: &Substance,
    state: Option<State>,
    volume: Term<'_, Volume>,
    trace: &Trace,
) -> Option<Mass> {
    let value = volume.value;
    let volume = trace.term("volume", value);
    let mass = match of {
        Substance::Material(material) => mass_of(material, state, volume, trace),
        Substance::Mix(mix) => fresh_mass(mix, volume, trace),
        Substance::Unknown(_) => None,
    };
    mass.map(|mass| mass.value)
}

/// A length of the spec, and what it is called.
fn stated<'t>(name: &str, own: &Stated<Quantity>, trace: &'t Trace) -> Term<'t, Length> {
    trace.stated(name, Length(own.value.si()), own.place)
}

/// The treads.
pub(super) fn treads(own: &Steps, flight: &Flight, trace: &Trace) -> Option<StepsPart> {
    let tread = own.tread.as_ref()?;
    let part = StepsPart::of_tread(tread);
    let going = trace.term("going", Length(flight.going_m));
    let width = trace.term("width", Length(flight.width_m));
    let depth = match &tread.nosing {
        Some(nosing) => trace.gives("depth of a tread", going + stated("nosing", nosing, trace)),
        None => going,
    };
    let pieces = tread.pieces.as_ref().map_or(1.0, |count| count.value.si());
    let each = match &tread.pieces {
        Some(count) => trace.stated("pieces in a tread", Count(pieces), count.place),
        None => trace.term("1 piece", Count(1.0)),
    };
    let length = trace.gives("length of a piece", width / each);
    let treads = trace.term("treads", Count(f64::from(flight.treads())));
    let count = trace.gives("pieces", treads * each);
    // The number is the same of however deep ones.
    let is_counted = !tread.is_count_unread;
    let part = StepsPart {
        pieces: is_counted.then_some(count.value.0),
        ..part
    };
    if tread.is_nosing_unread {
        return Some(part);
    }
    let one = trace.gives("area of a piece", length * depth);
    let area = trace.gives("area of the treads", count * one);
    let piece_m = Some((length.value.0, depth.value.0));
    // The area is the same of however many pieces.
    let part = StepsPart {
        area_m2: Some(area.value.0),
        piece_m: piece_m.filter(|_| is_counted && flight.treads() > 0),
        ..part
    };
    let Some(thickness) = &tread.thickness else {
        return Some(part);
    };
    let thick = stated("thickness", thickness, trace);
    let volume = trace.gives("volume", area * thick);
    let part = part.filled(&tread.of.value, None, volume, trace);
    let is_weighed = is_counted && count.value.0 > 0.0;
    let piece = part.mass_kg.filter(|_| is_weighed).map(|mass| {
        let mass = trace.term("mass", Mass(mass));
        trace.gives("one piece weighs", mass / count)
    });
    Some(StepsPart {
        thickness_m: Some(thick.value.0),
        piece_kg: piece.map(|piece| piece.value.0),
        ..part
    })
}

/// The bed of the treads: under all of each but its nosing.
pub(super) fn bed(own: &Steps, flight: &Flight, trace: &Trace) -> Option<StepsPart> {
    let bed = own.bed.as_ref()?;
    let part = StepsPart::of_bed(bed);
    let going = trace.term("going", Length(flight.going_m));
    let width = trace.term("width", Length(flight.width_m));
    let treads = trace.term("treads", Count(f64::from(flight.treads())));
    let area = trace.gives("area of the bed", treads * (going * width));
    let part = StepsPart {
        area_m2: Some(area.value.0),
        ..part
    };
    let Some(thickness) = &bed.thickness else {
        return Some(part);
    };
    let thick = stated("thickness", thickness, trace);
    let volume = trace.gives("volume", area * thick);
    Some(StepsPart {
        thickness_m: Some(thick.value.0),
        ..part.filled(&bed.of.value, None, volume, trace)
    })
}

/// The thickness of a tread with the bed that it lies in; `None` if that of
/// one of them is not known.
fn tread_and_bed<'t>(own: &Steps, trace: &'t Trace) -> Option<Term<'t, Length>> {
    let tread = own.tread.as_ref()?.thickness.as_ref()?;
    let tread = stated("thickness of a tread", tread, trace);
    let Some(bed) = &own.bed else {
        return Some(tread);
    };
    let bed = stated("thickness of its bed", bed.thickness.as_ref()?, trace);
    Some(trace.gives("tread and bed", tread + bed))
}

/// The height of a riser that shows, the lowest left out: what stands between
/// the back of a tread and the underside of the next. `None` if how thick a
/// tread is, is not known.
fn shown<'t>(own: &Steps, flight: &Flight, trace: &'t Trace) -> Option<Term<'t, Length>> {
    let thickness = tread_and_bed(own, trace)?;
    let riser = trace.term("riser", Length(flight.riser_m));
    let shown = match &own.fall {
        Some(fall) => {
            let slope = trace.stated("fall", Slope(fall.value.si()), fall.place);
            let going = trace.term("going", Length(flight.going_m));
            riser - thickness - slope * going
        }
        None => riser - thickness,
    };
    Some(trace.gives("riser that shows", shown))
}

/// The facing of the risers.
pub(super) fn facing(
    own: &Steps,
    flight: &Flight,
    region: Region,
    trace: &Trace,
) -> Option<StepsPart> {
    let facing = own.riser.as_ref()?;
    let part = StepsPart::of_facing(facing);
    let Some(shown) = shown(own, flight, trace).filter(|shown| shown.value.0 > 0.0) else {
        return Some(part);
    };
    let thickness = tread_and_bed(own, &Trace::silent())?.value.0;
    let lowest = trace.term("lowest riser", Length(flight.lowest_m()));
    let thick = match own.bed {
        Some(_) => "tread and bed",
        None => "thickness of a tread",
    };
    let thick = trace.term(thick, Length(thickness));
    let lowest = trace.gives("the lowest that shows", lowest - thick);
    let others = trace.term("the others", Count(f64::from(flight.treads())));
    let width = trace.term("width", Length(flight.width_m));
    let area = trace.gives("area of the faces", (shown * others + lowest) * width);
    let part = StepsPart {
        area_m2: Some(area.value.0),
        shown_m: Some(shown.value.0),
        pieces: bricks(facing, flight, shown, region, trace),
        fitting_m: fitting(facing, flight, shown.value),
        ..part
    };
    let Some(thick) = facing_thickness(facing, trace) else {
        return Some(part);
    };
    let volume = trace.gives("volume", area * thick);
    Some(StepsPart {
        thickness_m: Some(thick.value.0),
        ..part.filled(&facing.of.value, None, volume, trace)
    })
}

/// The length and the width of a brick.
fn brick(facing: &Facing) -> Option<(Sourced<f64>, Sourced<f64>)> {
    let (one, other) = facing.of.value.material()?.unit.as_ref()?;
    let of = |side: &Sourced<Quantity>| Sourced {
        value: side.value.si(),
        origin: side.origin,
    };
    let (one, other) = (of(one), of(other));
    Some(match one.value < other.value {
        true => (other, one),
        false => (one, other),
    })
}

/// As stated; of bricks that lie flat their width.
fn facing_thickness<'t>(facing: &Facing, trace: &'t Trace) -> Option<Term<'t, Length>> {
    if let Some(thickness) = &facing.thickness {
        return Some(stated("thickness", thickness, trace));
    }
    let (_, width) = brick(facing).filter(|_| facing.flat.is_some())?;
    Some(trace.sourced("width of a brick", &width, Length))
}

/// So much of a riser, in metres, the joints of its courses take up.
const TAKEN_UP: f64 = 0.002;

/// How many bricks face the risers: whole courses of whole bricks.
fn bricks(
    facing: &Facing,
    flight: &Flight,
    shown: Term<'_, Length>,
    region: Region,
    trace: &Trace,
) -> Option<f64> {
    let (length, _) = brick(facing).filter(|_| facing.flat.is_some())?;
    let course = stated("height of a course", facing.courses.as_ref()?, trace);
    let usual = Sourced {
        value: match region {
            Region::Us => 0.375 * 0.0254,
            _ => 0.01,
        },
        origin: Origin::Default {
            what: "the joint between the bricks of a riser",
            source: &COMMON,
        },
    };
    let joint = trace.sourced("joint between bricks", &usual, Length);
    let length = trace.sourced("length of a brick", &length, Length);
    // To the tape's mark a riser is as high as the units of the sheet have it,
    // and what is bought does not hang on those.
    let odd = Length(flight.rise_m / f64::from(flight.risers) - flight.riser_m);
    let shown = Length(shown.value.0 + odd.0);
    let shown = trace.term("riser that shows, all alike", shown);
    let taken_up = trace.term("what its joints take up", Length(TAKEN_UP));
    let width = trace.term("width", Length(flight.width_m));
    let courses = (shown - taken_up) / course;
    let courses = trace.gives("courses in a riser", courses.rounded_up()?);
    let row = trace.gives(
        "bricks in a course",
        (width / (length + joint)).rounded_up()?,
    );
    let risers = trace.term("risers", Count(f64::from(flight.risers)));
    Some(trace.gives("bricks", courses * row * risers).value.0)
}

/// The rises that whole courses make, next under and over what is built.
fn fitting(facing: &Facing, flight: &Flight, shown: Length) -> Option<(f64, f64)> {
    let course = facing.courses.as_ref()?.value.si();
    let rest = flight.riser_m - shown.0;
    let courses = shown.0 / course;
    let rise = |courses: f64| courses * course + rest;
    let under = (courses + 1e-6).floor().max(1.0);
    Some((rise(under), rise(under + 1.0)))
}

/// The core: between the underside of the treads and the level that it
/// reaches down to, less what the facing of the risers takes of it.
pub(super) fn core(
    own: &Steps,
    flight: &Flight,
    facing: Option<&StepsPart>,
    trace: &Trace,
) -> Option<StepsPart> {
    let core = own.core.as_ref()?;
    let part = StepsPart::of_core(core);
    let volume = || {
        let thickness = match &own.tread {
            Some(_) => tread_and_bed(own, trace)?,
            None => trace.term("no tread", Length(0.0)),
        };
        let riser = trace.term("riser", Length(flight.riser_m));
        let odd = trace.term("odd", Length(flight.odd_m));
        let risers = trace.term("risers", Count(f64::from(flight.risers)));
        let two = trace.term("2", Count(2.0));
        let mut height = riser * risers / two + odd - thickness;
        if let Some(fall) = &own.fall {
            let slope = trace.stated("fall", Slope(fall.value.si()), fall.place);
            let going = trace.term("going", Length(flight.going_m));
            height = height + slope * going / two;
        }
        if core.down_to? == CoreFoot::Base {
            let top = own.base.as_ref()?.top.as_ref()?;
            height = height + stated("top of the base below the foot", top, trace);
        }
        let height = trace.gives("height of the core in the middle", height);
        let plan = trace.term("area that it stands on", Area(flight.plan_m2));
        let whole = trace.gives("volume with the facing", plan * height);
        let facing = match (&own.riser, facing.map(|facing| facing.volume_m3)) {
            (Some(riser), Some(None)) if riser.thickness.is_none() && riser.flat.is_none() => None,
            (_, Some(None)) => return None,
            (_, facing) => facing.flatten(),
        };
        Some(match facing {
            Some(facing) => {
                let facing = trace.term("volume of the facing", Volume(facing));
                let treads = trace.term("treads", Count(f64::from(flight.treads())));
                trace.gives("volume", whole - facing * treads / risers)
            }
            None => whole,
        })
    };
    let Some(volume) = volume() else {
        return Some(part);
    };
    Some(part.filled(&core.of.value, None, volume, trace))
}

/// The base.
pub(super) fn base(own: &Steps, flight: &Flight, trace: &Trace) -> Option<StepsPart> {
    let base = &own.base.as_ref()?.layer;
    let part = StepsPart::of_base(base);
    if base.is_unread("beyond") {
        return Some(part);
    }
    let run = trace.term("run", Length(flight.run_m));
    let width = trace.term("width", Length(flight.width_m));
    let area = match &base.beyond {
        Some(beyond) => {
            let beyond = stated("beyond the flight", beyond, trace).called("beyond");
            let two = trace.term("2", Count(2.0));
            (run + beyond * two) * (width + beyond * two)
        }
        None => run * width,
    };
    let area = trace.gives("area", area);
    let part = StepsPart {
        area_m2: Some(area.value.0),
        ..part
    };
    let Some(thickness) = &base.thickness else {
        return Some(part);
    };
    let thick = stated("thickness", thickness, trace);
    let volume = trace.gives("volume in place", area * thick);
    let state = base.state.as_ref().map(|stated| stated.value);
    Some(StepsPart {
        thickness_m: Some(thick.value.0),
        ..part.filled(&base.of.value, state, volume, trace)
    })
}
