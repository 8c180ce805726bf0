//! What must set before work goes on, and how long that takes in the cold.

use super::super::measures::Count;
use super::super::term::Term;
use super::super::trace::Trace;
use super::tasks::Planned;
use super::work_on::WorkOn;
use crate::materials::Kind;
use crate::model::{Edging, Job, Origin, Region, Steps, Substance, Surface};
use crate::sources::Source;
use crate::vocabulary::{Role, Task};

/// 0 °C in kelvin.
const FREEZING_K: f64 = 273.15;
/// 20 °C in kelvin: what waits are stated for unless they say otherwise.
pub(crate) const USUAL_K: f64 = FREEZING_K + 20.0;
/// 40 kJ for a mole over the gas constant, in kelvin.
const ENERGY_K: f64 = 4_811.0;
/// However warm it is, this much of a wait is kept.
const LEAST_SHARE: f64 = 0.75;

/// By what law cold makes something wait longer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Law {
    /// Portland cement: its equivalent age.
    Cement,
    /// Bond mortars: maturity counted from 0 °C.
    BondMortar,
    /// Hydraulic lime: taken to slow down in the cold as cement does.
    Lime,
    /// Not by the temperature.
    None,
}

/// A wait that is usual.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UsualWait {
    /// What it is for: `mortar of the bed`.
    pub of: &'static str,
    /// How long at 20 °C, in hours.
    pub hours: f64,
    /// How it goes with the temperature.
    pub law: Law,
    /// Where it comes from.
    pub source: Source,
}

/// Moist curing of a slab before anything goes on it.
pub(crate) static CURING: UsualWait = UsualWait {
    of: "curing of a slab",
    hours: 7.0 * 24.0,
    law: Law::Cement,
    source: Source::read("US UFGS 03372", "7 days with cement of type I"),
};
/// A slab that takes a finish in mortar.
pub(crate) static CURING_BONDED: UsualWait = UsualWait {
    of: "curing of a slab before paving is bonded to it",
    hours: 28.0 * 24.0,
    law: Law::None,
    source: Source::second_hand(
        "US tile consultants, an answer",
        "28 days, unless the sheet of the mortar says less",
    ),
};
/// A core under treads that are bedded in mortar, as such a slab.
pub(crate) static CURING_BEDDED: UsualWait = UsualWait {
    of: "curing of a core before treads are bedded on it in mortar",
    ..CURING_BONDED
};
/// A bed of mortar under stone.
pub(crate) static BED_MORTAR: UsualWait = UsualWait {
    of: "setting of the bed",
    hours: 24.0,
    law: Law::Cement,
    source: Source::read(
        "US television programme on flagstone (1998)",
        "joints filled 24 h after the stone is floated in",
    ),
};
/// A bed of hydraulic lime, and joints of it.
pub(crate) static LIME_MORTAR: UsualWait = UsualWait {
    of: "setting of lime mortar",
    hours: 72.0,
    law: Law::Lime,
    source: Source::COMMON_PRACTICE,
};
/// A bond coat under stone or tile.
pub(crate) static BOND_COAT: UsualWait = UsualWait {
    of: "setting of the bond coat",
    hours: 24.0,
    law: Law::BondMortar,
    source: Source::read(
        "Makers of bond mortars",
        "24 h at 70 °F before grouting, longer in the cold",
    ),
};
/// Joints of mortar before they are washed.
pub(crate) static JOINT_MORTAR: UsualWait = UsualWait {
    of: "setting of the joints",
    hours: 24.0,
    law: Law::Cement,
    source: Source::COMMON_PRACTICE,
};
/// Joint sand that sets.
pub(crate) static STABILISED: UsualWait = UsualWait {
    of: "setting of the joint sand",
    hours: 24.0,
    law: Law::None,
    source: Source::read("Articles on polymeric sand", "24 h before it is walked on"),
};
/// The concrete of steps before anything is set against it: forms come off.
pub(crate) static FORMS_OFF: UsualWait = UsualWait {
    of: "concrete of steps before their forms come off",
    hours: 24.0,
    law: Law::Cement,
    source: Source::COMMON_PRACTICE,
};
/// The concrete of kerbs and channels before paving is laid against them.
pub(crate) static KERBS_SET: UsualWait = UsualWait {
    of: "concrete of edgings and channels before paving is laid against it",
    hours: 24.0,
    law: Law::Cement,
    source: Source::COMMON_PRACTICE,
};
/// Paving before it is sealed.
pub(crate) static BEFORE_SEALING: UsualWait = UsualWait {
    of: "bloom to come out before sealing",
    hours: 30.0 * 24.0,
    law: Law::None,
    source: Source::read(
        "Articles on polymeric sand",
        "30 days before new pavers are sealed",
    ),
};

/// Notice before a dig.
pub const LOCATE_SERVICES: Source = Source::second_hand(
    "US state laws on buried services, as contractors quote them",
    "two to three working days of notice, by dialling 811",
);

/// So many working days pass in the US from the call to the dig, where the
/// site does not say that services are located.
pub(crate) const NOTICE_DAYS: u8 = 3;

/// Whether a dig is to be given notice of.
pub(crate) fn has_notice(job: &Job) -> bool {
    job.heading.region() == Region::Us
}

/// The share of a wait at one temperature that it takes at another, both in
/// kelvin, by equivalent age: FHWA and ASTM C1074 write it so.
fn by_energy(at_k: f64, reference_k: f64) -> f64 {
    (ENERGY_K * (1.0 / at_k - 1.0 / reference_k)).exp()
}

/// The same by maturity, counted from a datum (Nurse and Saul).
fn by_maturity(at_k: f64, reference_k: f64, datum_k: f64) -> f64 {
    (reference_k - datum_k) / (at_k - datum_k)
}

impl Law {
    /// How many times as long it takes at a temperature in kelvin; `None`
    /// where it does not set at all.
    pub fn factor(self, at_k: f64) -> Option<f64> {
        let factor = match self {
            Law::None => return Some(1.0),
            _ if at_k <= FREEZING_K => return None,
            Law::Cement | Law::Lime => by_energy(at_k, USUAL_K),
            Law::BondMortar => by_maturity(at_k, USUAL_K, FREEZING_K),
        };
        Some(factor.max(LEAST_SHARE))
    }
}

impl UsualWait {
    /// How long it takes in hours at a temperature in kelvin.
    pub(in crate::quantities) fn hours_at(&'static self, at_k: f64, trace: &Trace) -> Option<f64> {
        let origin = Origin::Default {
            what: self.of,
            source: &self.source,
        };
        let usual = trace.input("usual wait", super::effort::Hours(self.hours), Some(origin));
        let factor = Count(self.law.factor(at_k)?);
        if self.law == Law::None {
            return Some(trace.gives("wait", usual).value.0);
        }
        let how = "how much longer it takes at this temperature";
        let factor = trace.found("factor", factor, how);
        let wait: Term<'_, super::effort::Hours> = usual * factor;
        Some(trace.gives("wait", wait).value.0)
    }
}

/// The wait that is usual between two kinds of work on a surface.
pub fn usual(surface: &Surface, from: Task, to: Task) -> Option<&'static UsualWait> {
    match (from, to) {
        (Task::Laying, Task::Jointing | Task::Cleaning) => bed_wait(surface),
        (Task::Jointing, Task::Cleaning) => joint_wait(surface),
        // A slab's own pour is followed by its curing.
        (Task::Pouring, Task::Edging | Task::Draining | Task::DryLaying | Task::Laying) => {
            Some(&FORMS_OFF)
        }
        (Task::Edging, Task::DryLaying | Task::Laying) => kerb_wait(surface),
        (Task::Laying | Task::Jointing | Task::Cleaning, Task::Sealing) => Some(&BEFORE_SEALING),
        _ => None,
    }
}

/// The wait that is usual between two planned tasks.
pub(crate) fn between(job: &Job, from: &Planned, to: &Planned) -> Option<&'static UsualWait> {
    let (before, task) = (from.task()?, to.task()?);
    if let (Some(sets), Task::DryLaying | Task::Laying) = (from.sets, task) {
        return Some(sets);
    }
    let surface = job.surfaces.get(to.of?.surface()?)?;
    usual(surface, before, task)
}

/// The wait of a slab before anything goes on it.
pub(crate) fn curing(surface: &Surface) -> &'static UsualWait {
    match is_bonded_to_slab(surface) {
        true => &CURING_BONDED,
        false => &CURING,
    }
}

/// The wait of a slab or of a core before anything goes on it; `None` of what
/// has neither.
pub(crate) fn curing_of(job: &Job, on: WorkOn) -> Option<&'static UsualWait> {
    match on {
        WorkOn::Surface(index) => Some(curing(job.surfaces.get(index)?)),
        WorkOn::Steps(index) => Some(match is_bedded_on_core(job.steps.get(index)?) {
            true => &CURING_BEDDED,
            false => &CURING,
        }),
        WorkOn::Drain(_) => None,
    }
}

/// Whether treads are bedded in mortar on a core.
pub fn is_bedded_on_core(steps: &Steps) -> bool {
    let bed = steps.bed.as_ref();
    steps.core.is_some() && bed.is_some_and(|bed| !is_loose(&bed.of.value))
}

/// Whether paving is bonded to a new slab, with nothing between that lets the
/// two move.
pub fn is_bonded_to_slab(surface: &Surface) -> bool {
    let Some(build) = &surface.build else {
        return false;
    };
    let layers = build.value.layers.iter();
    let above = layers.take_while(|layer| layer.role.value != Role::Slab);
    let above: Vec<_> = above.collect();
    let is_apart = above.iter().any(|layer| layer.role.value == Role::Membrane);
    let is_set = above.iter().any(|layer| match layer.role.value {
        Role::Bed => !is_loose(&layer.of.value),
        Role::Bond => true,
        _ => false,
    });
    is_set && !is_apart && above.len() < build.value.layers.len()
}

/// Whether a bed or joint stays loose.
pub fn is_loose(of: &Substance) -> bool {
    match of {
        Substance::Mix(_) => false,
        _ => !of
            .kind()
            .is_some_and(|kind| kind.is_premix() || kind == Kind::JointingCompound),
    }
}

fn bed_wait(surface: &Surface) -> Option<&'static UsualWait> {
    let layers = &surface.build.as_ref()?.value.layers;
    let of = |role| layers.iter().find(|layer| layer.role.value == role);
    let bed = of(Role::Bed).map(|bed| &bed.of.value);
    let is_bond = |of: &Substance| of.kind().is_some_and(Kind::is_bond_coat);
    match (bed, of(Role::Bond)) {
        (Some(bed), _) if is_bond(bed) => Some(&BOND_COAT),
        (Some(bed), _) if bed.sets_with_lime() => Some(&LIME_MORTAR),
        (Some(bed), _) if !is_loose(bed) => Some(&BED_MORTAR),
        (None, Some(_)) => Some(&BOND_COAT),
        _ => None,
    }
}

/// The wait of the concrete that an edging stands in.
fn kerb_wait(surface: &Surface) -> Option<&'static UsualWait> {
    let mut edgings = surface.edgings.iter();
    edgings
        .any(Edging::stands_in_concrete)
        .then_some(&KERBS_SET)
}

fn joint_wait(surface: &Surface) -> Option<&'static UsualWait> {
    let filling = &surface.joint.as_ref()?.filling.as_ref()?.value;
    let is_stabilised = filling.kind().is_some_and(Kind::is_stabilised_sand);
    match (is_stabilised, is_loose(filling)) {
        (true, _) => Some(&STABILISED),
        (false, false) if filling.sets_with_lime() => Some(&LIME_MORTAR),
        (false, false) => Some(&JOINT_MORTAR),
        (false, true) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn celsius(fahrenheit: f64) -> f64 {
        (fahrenheit - 32.0) / 1.8 + FREEZING_K
    }

    /// Computed with the forms of ASTM C1074: 24 h at 70 °F, at other
    /// temperatures; 40 kJ for a mole, and a datum of -10 °C.
    #[test]
    fn waits_in_the_cold_are_those_of_the_published_forms() {
        let reference = celsius(70.0);
        for (fahrenheit, energy, maturity) in [
            (60.0, 32.9, 29.2),
            (50.0, 45.6, 37.3),
            (40.0, 64.1, 51.7),
            (80.0, 17.7, 20.4),
            (90.0, 13.2, 17.7),
        ] {
            let at = celsius(fahrenheit);
            assert!((24.0 * by_energy(at, reference) - energy).abs() < 0.06);
            let datum = FREEZING_K - 10.0;
            assert!((24.0 * by_maturity(at, reference, datum) - maturity).abs() < 0.06);
        }
    }

    /// Seven days at 20 °C take 10.5, 14 and 5.25 days at 10, 5 and 30 °C,
    /// with a datum of -10 °C.
    #[test]
    fn a_week_of_curing_in_the_cold() {
        for (at, days) in [(10.0, 10.5), (5.0, 14.0), (30.0, 5.25)] {
            let factor = by_maturity(at + FREEZING_K, USUAL_K, FREEZING_K - 10.0);
            assert!((7.0 * factor - days).abs() < 1e-9);
        }
        // 3,500 degree hours at 23 °C from a datum of 0 take 152.17 h.
        let hours = 3_500.0 / 20.0 * by_maturity(23.0 + FREEZING_K, USUAL_K, FREEZING_K);
        assert!((hours - 152.17).abs() < 0.005);
        // An exam's note: 28 days at 15 °C from a datum of -11 are 728 degree
        // days; a guide: 12 h at 20 and 12 at 25 °C from 0 are 540 degree hours.
        let exam = 728.0 / 31.0 * by_maturity(15.0 + FREEZING_K, USUAL_K, FREEZING_K - 11.0);
        assert!((exam - 28.0).abs() < 1e-9);
        let guide = 12.0 + 12.0 / by_maturity(25.0 + FREEZING_K, USUAL_K, FREEZING_K);
        assert!((guide * 20.0 - 540.0).abs() < 1e-9);
        // A week of 12 h at 20 and 12 h at 10 °C is 131.05 h at 20 °C.
        let age = 84.0 + 84.0 / by_energy(10.0 + FREEZING_K, USUAL_K);
        assert!((age - 131.05).abs() < 0.05, "{age}");
    }

    #[test]
    fn nothing_sets_in_frost_and_heat_saves_no_more_than_a_quarter() {
        for law in [Law::Cement, Law::BondMortar, Law::Lime] {
            assert_eq!(law.factor(FREEZING_K), None);
            assert_eq!(law.factor(FREEZING_K + 45.0), Some(LEAST_SHARE));
            assert!((law.factor(USUAL_K).unwrap() - 1.0).abs() < 1e-12);
            assert!(law.factor(FREEZING_K + 5.0).unwrap() > 2.0);
        }
        assert_eq!(Law::None.factor(FREEZING_K - 20.0), Some(1.0));
    }
}
