//! `fall-steep`: too steep to sit or walk on in comfort.

use super::fall_accessible::{FALL_ACCESSIBLE, walk_across};
use super::fall_flat::slope_place;
use super::fall_permeable::FALL_PERMEABLE;
use crate::findings::Severity;
use crate::model::{Surface, Use};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value, slope};
use crate::sources::Source;

/// Walking surfaces that are steeper count as ramps.
const WALKING_SURFACES: Source = Source::memory(
    "2010 ADA Standards for Accessible Design",
    "403.3, walking surfaces, 1:20",
);

/// A surface for walking or sitting that is too steep for it.
pub(crate) static FALL_STEEP: Rule = Rule {
    name: "fall-steep",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "The steepest slope of paving that is walked or sat on, and of an accessible straight walk the slope along it. Ramps, landings, drives, permeable and other accessible paving have rules of their own.",
    reason: "Tables and chairs rock on a steep floor, and wet paving becomes slippery.",
    remedy: "Ease the fall, or put in a step.",
    limits: &[
        Limit {
            row: "plain",
            of: "paving that is walked on",
            bound: Bound::Most,
            general: Value {
                written: &["5 %"],
                source: WALKING_SURFACES,
            },
            regions: &[],
        },
        Limit::practice(
            "seating",
            "paving with tables and chairs",
            Bound::Most,
            &["1:30"],
        ),
    ],
    sources: &[WALKING_SURFACES, Source::COMMON_PRACTICE],
    breaks: "\
site
  ground       -200 mm at (0 m, 4 m), falling 6 % toward south

surface court
  fall         «6 %» away from north
",
    keeps: "\
site
  ground       -200 mm at (0 m, 4 m), falling 1:30 toward south

surface court
  for          foot, seating
  fall         1:30 away from north
",
    mended: Some(
        "\
site
  ground       -200 mm at (0 m, 4 m), falling 6 % toward south

surface court
  fall         1:20 away from north
",
    ),
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let build = surface.build.as_ref();
    let is_permeable = build.is_some_and(|build| build.value.permeable.is_some());
    let is_told = |rule| context.is_in_force(rule, Severity::Warning);
    // What a walk falls across is looked at by its own rule, how steeply it
    // climbs by this one: with wheels nobody is to push up a steeper one.
    let walk = surface.accessible.zip(walk_across(surface));
    let is_accessible = surface.accessible.is_some() && walk.is_none();
    let has_own_rule =
        (is_accessible && is_told(&FALL_ACCESSIBLE)) || (is_permeable && is_told(&FALL_PERMEABLE));
    // What it is for may stand in a line that could not be read.
    let may_be_other = match surface.entry("for") {
        Some(_) => context.is_misread(surface.section),
        None => surface.has_lost_line,
    };
    if surface.used_for != Use::Foot || has_own_rule || may_be_other {
        return;
    }
    let to_drain = surface.falls_to_drain().map(|(_, _, most)| most);
    let steepest = to_drain.or_else(|| {
        let downhill = slope::downhill(surface)?;
        Some(match walk {
            Some((_, across)) => downhill.dot(across.left()).abs(),
            None => downhill.length(),
        })
    });
    let Some(steepest) = steepest else {
        return;
    };
    let seating = surface
        .seating
        .map(|place| ("seating", Severity::Advisory, Some(place)));
    let rows = [Some(("plain", Severity::Warning, None)), seating];
    let missed = rows.into_iter().flatten().find_map(|(row, severity, why)| {
        let limit = context.limit(&FALL_STEEP, row)?;
        (!limit.allows_si(steepest)).then_some((limit, severity, why))
    });
    let Some((limit, severity, why)) = missed else {
        return;
    };
    let shown = slope::beside(&limit, steepest, context);
    let (use_of_it, remedy) = match (why, walk) {
        (Some(_), _) => ("for tables and chairs", "put in a step"),
        (None, Some(_)) => (
            "for an accessible walk",
            "write for ramp, and give it landings and handrails",
        ),
        (None, None) => ("to walk on", "put in a step"),
    };
    let message = format!(
        "too steep {use_of_it}: {shown}. {} is the most. Ease it, or {remedy}",
        limit.shown(context.system())
    );
    let mut finding = FALL_STEEP
        .finding(slope_place(surface), message)
        .severity(severity)
        .found(shown, slope::as_quantity(steepest))
        .against(&limit, context);
    if let Some(place) = why {
        finding = finding.related(place, "tables and chairs stand on it, as stated here");
    }
    if let Some((accessible, _)) = walk {
        finding = finding.related(accessible, "accessible, as stated here");
    }
    // The strictest limit that applies is the one to fall at.
    let wanted = ["plain", "seating"]
        .into_iter()
        .filter(|row| *row == "plain" || surface.seating.is_some())
        .filter_map(|row| context.limit(&FALL_STEEP, row))
        .map(|limit| limit.value.si())
        .fold(f64::INFINITY, f64::min);
    if let Some(fix) = slope::restated(context, &FALL_STEEP, surface, wanted, found) {
        finding = finding.fix(fix);
    }
    found.add(finding);
}
