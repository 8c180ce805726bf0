//! `handrail-missing`: a flight or a ramp with nothing to hold on to.

use super::{IRC_HANDRAILS, flights, length};
use crate::findings::{Fix, Severity};
use crate::model::{Handrail, Region, Surface, Use};
use crate::rules::wording::entry_before;
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value, slope};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, show};
use crate::vocabulary::entry;

/// Handrails of American ramps.
const ADA_RAMP_HANDRAILS: Source = Source::memory(
    "2010 ADA Standards for Accessible Design",
    "405.8, handrails at ramps that rise more than 6 in (150 mm)",
);

/// Handrails of English ramps.
const APPROVED_K_RAMP_HANDRAILS: Source = Source::read(
    "Approved Document K (England, 2013)",
    "2.12, ramps at dwellings that rise no more than 600 mm need none",
);

/// Handrails of English flights.
const APPROVED_K_HANDRAILS: Source = Source::memory(
    "Approved Document K (England, 2013)",
    "section 1, which holds for stairs of a dwelling that rise 600 mm or more",
);

/// Handrails of Australian flights.
const NCC_HANDRAILS: Source = Source::memory(
    "National Construction Code 2022 (Australia)",
    "Housing Provisions 11.3.5, no handrail at a stairway that changes level by less than 1 m",
);

/// A flight or a ramp with nothing to hold on to.
pub(crate) static HANDRAIL_MISSING: Rule = Rule {
    name: "handrail-missing",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "The number of risers of a flight, or how far it climbs where the region counts that, and the rise of an accessible ramp, for which no handrail is stated; on a ramp a guard along an edge will do.",
    reason: "On a wet or icy flight or slope a hand on a rail is what keeps people from falling.",
    remedy: "Put up a handrail, and state it.",
    limits: &[
        Limit {
            row: "plain",
            of: "risers without a handrail",
            bound: Bound::Most,
            general: Value {
                written: &["3"],
                source: IRC_HANDRAILS,
            },
            regions: &[],
        },
        Limit {
            row: "climb",
            of: "the climb of a flight without a handrail",
            bound: Bound::Most,
            general: Value {
                written: &["600 mm"],
                source: APPROVED_K_HANDRAILS,
            },
            regions: &[(
                Region::Au,
                Value {
                    written: &["1 m"],
                    source: NCC_HANDRAILS,
                },
            )],
        },
        Limit {
            row: "ramp",
            of: "the rise of an accessible ramp without a handrail",
            bound: Bound::Most,
            general: Value {
                written: &["150 mm", "6 in"],
                source: ADA_RAMP_HANDRAILS,
            },
            regions: &[(
                Region::Uk,
                Value {
                    written: &["600 mm"],
                    source: APPROVED_K_RAMP_HANDRAILS,
                },
            )],
        },
    ],
    sources: &[
        IRC_HANDRAILS,
        APPROVED_K_HANDRAILS,
        NCC_HANDRAILS,
        ADA_RAMP_HANDRAILS,
        APPROVED_K_RAMP_HANDRAILS,
    ],
    breaks: "\
steps «garden-steps»
  from         -840 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
",
    keeps: "\
steps garden-steps
  from         -840 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  handrail     both sides
",
    mended: Some(
        "\
steps garden-steps
  handrail     both sides
  from         -840 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
",
    ),
    check: Check::SurfaceAndJob(ramp, steps),
};

fn ramp(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Use::Ramp, Some(accessible)) = (surface.used_for, surface.accessible) else {
        return;
    };
    let (Some(outline), Some(travel), Some(limit)) = (
        surface.outline.as_ref(),
        slope::travel(surface),
        context.limit(&HANDRAIL_MISSING, "ramp"),
    ) else {
        return;
    };
    let rise = outline.extent(travel.down) * travel.running;
    // Where a rail is wanted on either side, a guard is no rail to hold on to.
    let is_strict = matches!(context.region(), Region::Us | Region::Au);
    let handrail = surface.handrail.as_ref().map(|own| own.value);
    let is_held = match is_strict {
        true => handrail == Some(Handrail::Both),
        false => handrail.is_some() || !surface.guards.is_empty(),
    };
    let is_unclear = context.is_misread(surface.section);
    if is_held || is_unclear || limit.allows_si(rise) {
        return;
    }
    let shown = limit.beside_si(rise, context.system());
    let lacks = match handrail {
        Some(_) => "a handrail on one side alone",
        None => "no handrail",
    };
    let message = format!(
        "a ramp that climbs {shown} and {lacks}; {} is the most without. Put one up on both sides",
        limit.shown(context.system())
    );
    let mut finding = HANDRAIL_MISSING
        .finding(surface.name.place, message)
        .found(shown, length(rise))
        .against(&limit, context)
        .related(accessible, "accessible, as stated here");
    let level = surface.levels.first().filter(|_| handrail.is_none());
    if let Some(level) = level {
        finding = finding.fix(Fix::judged(
            "State a handrail on both sides",
            level.place.start(),
            entry_before("handrail", "both sides"),
        ));
    }
    found.add(finding);
}

/// A flight is held to what its region counts, risers or climb, and where that
/// is not known to the risers of another region.
fn steps(context: &Context<'_>, found: &mut Found) {
    let in_force = |row| context.limit(&HANDRAIL_MISSING, row);
    let is_own = |own: &InForce| match context.region() {
        Region::General => own.line.is_some(),
        _ => own.borrowed.is_none(),
    };
    let climb = in_force("climb").filter(is_own);
    let risers = in_force("plain").filter(|own| climb.is_none() || is_own(own));
    for (own, flight) in flights(context) {
        let is_unclear = own.handrail.is_none() && context.is_misread(own.section);
        if own.handrail.is_some() || is_unclear {
            continue;
        }
        let count = f64::from(flight.risers);
        let finding = if let Some(limit) = risers.as_ref().filter(|own| !own.allows_si(count)) {
            let message = format!(
                "{} risers and no handrail; {} is the most without one. Put one up",
                flight.risers,
                show::number(limit.value.si())
            );
            HANDRAIL_MISSING
                .finding(own.name.place, message)
                .found(
                    flight.risers.to_string(),
                    Quantity::near(count, Dimension::NONE),
                )
                .against(limit, context)
        } else if let Some(limit) = climb.as_ref().filter(|own| !own.allows_si(flight.rise_m)) {
            let shown = limit.beside_si(flight.rise_m, context.system());
            let message = format!(
                "a flight that climbs {shown} and no handrail; {} is the most without one. Put one up",
                limit.shown(context.system())
            );
            HANDRAIL_MISSING
                .finding(own.name.place, message)
                .found(shown, length(flight.rise_m))
                .against(limit, context)
        } else {
            continue;
        };
        found.add(finding.fix(Fix::judged(
            "State a handrail on both sides",
            own.place.end(),
            format!("\n  {}", entry("handrail", "both sides")),
        )));
    }
}
