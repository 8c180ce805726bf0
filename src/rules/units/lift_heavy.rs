//! `lift-heavy`: a single piece too heavy for one person.

use crate::findings::Severity;
use crate::model::{Build, Hire, Region, Surface};
use crate::rules::construction::unit_size;
use crate::rules::documents::{HSE_LIFTING, NIOSH_LIFTING};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::{Role, Task};

/// What one person lifts.
pub(crate) const ONE_PERSON: Limit = Limit {
    row: "plain",
    of: "a piece that one person lifts",
    bound: Bound::Most,
    general: Value {
        written: &["23 kg", "51 lb"],
        source: NIOSH_LIFTING,
    },
    regions: &[(
        Region::Uk,
        Value {
            written: &["25 kg"],
            source: HSE_LIFTING,
        },
    )],
};

/// What several people lift.
pub(crate) const BY_HAND: Limit = Limit::practice(
    "team",
    "a piece that people lift by hand",
    Bound::Most,
    &["68 kg", "150 lb"],
);

/// What a small machine sets.
pub(crate) const BY_MACHINE: Limit = Limit::practice(
    "machine",
    "a piece that a small machine sets",
    Bound::Most,
    &["500 kg", "1100 lb"],
);

/// A single piece too heavy for one person.
pub(crate) static LIFT_HEAVY: Rule = Rule {
    name: "lift-heavy",
    family: Family::Units,
    severity: Severity::Advisory,
    looks_at: "The mass of the largest piece that is laid: as its material states it, else by its size, thickness and density. Not where a machine that digs is hired for the laying too. Replaces care-lifting.",
    reason: "Backs are hurt by single lifts above what is allowed in the best posture, and paving is lifted from the ground all day.",
    remedy: "Plan two people, a clamp or a vacuum lifter; follow local rules on manual handling.",
    limits: &[ONE_PERSON, BY_HAND, BY_MACHINE],
    sources: &[NIOSH_LIFTING, HSE_LIFTING, Source::COMMON_PRACTICE],
    breaks: "surface court
  build        mortar-set
  laid         running-bond, units «600 mm by 900 mm»
",
    keeps: "surface court
  build        mortar-set
",
    mended: None,
    check: Check::Units(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let (Some(mass), Some(paving)) = (heaviest_piece(surface, build), build.layer(Role::Paving))
    else {
        return;
    };
    let Some(heavy) = Heavy::of(&LIFT_HEAVY, context, Task::Laying, mass) else {
        return;
    };
    let message = format!(
        "the largest piece weighs about {}; {}",
        heavy.shown, heavy.words
    );
    let laid = surface.laid.as_ref();
    let units = laid.and_then(|laid| {
        let (length, width) = laid.units.as_ref()?;
        Some(length.place.to(width.place))
    });
    let place = units
        .or(laid.map(|laid| laid.place))
        .unwrap_or(paving.of.place);
    found.add(
        LIFT_HEAVY
            .finding(place, message)
            .severity(heavy.severity)
            .found(heavy.shown, heavy.mass)
            .against(&heavy.limit, context)
            .related(paving.place, "its thickness"),
    );
}

/// How a piece is too heavy.
pub(crate) struct Heavy {
    /// The limit that it passes.
    pub limit: InForce,
    /// How grave that is.
    pub severity: Severity,
    /// Its mass.
    pub mass: Option<Quantity>,
    /// That as it is shown.
    pub shown: String,
    /// The limit, and what to do.
    pub words: String,
}

impl Heavy {
    /// How so many kilograms are, by the limits of a rule for one person, for
    /// several and for a machine; `None` for what one person lifts. A machine
    /// that digs and is hired for the work lifts too.
    pub(crate) fn of(
        rule: &'static Rule,
        context: &Context<'_>,
        work: Task,
        kg: f64,
    ) -> Option<Heavy> {
        let mut hires = context.job.hires.iter();
        let is_for = |hire: &Hire, task| hire.tasks.iter().any(|own| own.value == task);
        let is_lifted = hires.any(|hire| is_for(hire, work) && is_for(hire, Task::Digging));
        let one = (
            context.limit(rule, ONE_PERSON.row)?,
            Severity::Advisory,
            ("for one person", "plan two people or a vacuum lifter"),
        );
        let team = (
            context.limit(rule, BY_HAND.row)?,
            Severity::Advisory,
            ("by hand", "plan a machine or a vacuum lifter"),
        );
        let machine = (
            context.limit(rule, BY_MACHINE.row)?,
            Severity::Warning,
            ("for a small machine", "is a size wrong?"),
        );
        let by_hand = [team, one].into_iter().filter(|_| !is_lifted);
        let mut passed = std::iter::once(machine).chain(by_hand);
        let (limit, severity, (lifted, remedy)) =
            passed.find(|(limit, ..)| !limit.allows_si(kg))?;
        let mass = Quantity::near(kg, Dimension::MASS);
        Some(Heavy {
            shown: limit.beside_si(kg, context.system()),
            words: format!(
                "{} is the most {lifted}: {remedy}",
                limit.shown(context.system())
            ),
            limit,
            severity,
            mass,
        })
    }
}

/// The mass of the largest piece of a surface's paving in kilograms, where
/// its size, thickness and density are known.
fn heaviest_piece(surface: &Surface, build: &Build) -> Option<f64> {
    let paving = build.layer(Role::Paving)?;
    if paving.existing.is_some() {
        return None;
    }
    let (length, width) = unit_size(surface, build)?;
    let material = paving.of.value.material()?;
    let stated = material.mass.as_ref().map(|mass| mass.value);
    let mass = match stated {
        Some(mass) if mass.dimension == Dimension::MASS => mass.si(),
        Some(mass) => length * width * mass.si(),
        None => {
            let density = material.density.as_ref()?.value.si();
            length * width * paving.thickest_m() * density
        }
    };
    (mass.is_finite() && mass > 0.0).then_some(mass)
}
