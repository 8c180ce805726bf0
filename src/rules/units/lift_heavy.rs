//! `lift-heavy`: a single piece too heavy for one person.

use crate::findings::Severity;
use crate::model::{Build, Region, Surface};
use crate::rules::construction::unit_size;
use crate::rules::documents::{HSE_LIFTING, NIOSH_LIFTING};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

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

/// A single piece too heavy for one person.
pub(crate) static LIFT_HEAVY: Rule = Rule {
    name: "lift-heavy",
    family: Family::Units,
    severity: Severity::Advisory,
    looks_at: "The mass of the largest piece that is laid: as its material states it, else by its size, thickness and density. Replaces care-lifting.",
    reason: "Backs are hurt by single lifts above what is allowed in the best posture, and paving is lifted from the ground all day.",
    remedy: "Plan two people, a clamp or a vacuum lifter; follow local rules on manual handling.",
    limits: &[
        ONE_PERSON,
        Limit {
            row: "team",
            of: "a piece that people lift without plant",
            bound: Bound::Most,
            general: Value {
                written: &["68 kg", "150 lb"],
                source: Source::COMMON_PRACTICE,
            },
            regions: &[],
        },
    ],
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
    let (Some(one), Some(team)) = (
        context.limit(&LIFT_HEAVY, "plain"),
        context.limit(&LIFT_HEAVY, "team"),
    ) else {
        return;
    };
    let (limit, severity, (lifted, remedy)) = if !team.allows_si(mass) {
        (
            team,
            Severity::Warning,
            ("without plant", "plan plant or a vacuum lifter"),
        )
    } else if !one.allows_si(mass) {
        (
            one,
            Severity::Advisory,
            ("for one person", "plan two people or a vacuum lifter"),
        )
    } else {
        return;
    };
    let quantity = Quantity::near(mass, Dimension::MASS);
    let shown = limit.beside_si(mass, context.system());
    let message = format!(
        "the largest piece weighs about {shown}; {} is the most {lifted}: {remedy}",
        limit.shown(context.system()),
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
            .severity(severity)
            .found(shown, quantity)
            .against(&limit, context)
            .related(paving.place, "its thickness"),
    );
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
