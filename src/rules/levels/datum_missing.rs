//! `datum-missing`: levels that nothing says where they are counted from.

use crate::findings::{Place, Severity};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Levels without a datum.
pub(crate) static DATUM_MISSING: Rule = Rule {
    name: "datum-missing",
    family: Family::Levels,
    severity: Severity::Warning,
    looks_at: "A job that gives levels and no datum.",
    reason: "Nobody can set out a level from nothing, and paving and building may be counted from different points.",
    remedy: "Say in the site what level 0 is: the finished floor, a sill, a cover that stays.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
site
  # no datum

surface court
  level        «-160 mm» at north
",
    keeps: "\
site
  datum        \"hall floor\"
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let site = &context.job.site;
    if site.datum.is_some() || context.is_misread_at(site.place) {
        return;
    }
    let Some((place, severity)) = first_level(context) else {
        return;
    };
    let message = "levels are given but no datum. Say in the site what level 0 is, as datum \"finished floor\"";
    let mut finding = DATUM_MISSING.finding(place, message).severity(severity);
    if let Some(site) = site.place.filter(|site| site.section != place.section) {
        finding = finding.related(site, "the datum is missing here");
    }
    found.add(finding);
}

/// The level that most wants a datum: one of the building, else the first of
/// a surface, else the ground's.
fn first_level(context: &Context<'_>) -> Option<(Place, Severity)> {
    let site = &context.job.site;
    let of_building = [
        &site.floor,
        &site.damp_course,
        &site.cladding,
        &site.foundation,
        &site.vents,
        &site.weep_holes,
    ]
    .into_iter()
    .flatten()
    .map(|level| level.place)
    .next();
    let of_surface = context
        .job
        .surfaces
        .iter()
        .flat_map(|surface| &surface.levels)
        .map(|level| level.value.place)
        .next();
    let of_ground = site
        .ground
        .iter()
        .flat_map(|ground| &ground.places)
        .copied()
        .next();
    match (of_building, of_surface.or(of_ground)) {
        (Some(place), _) => Some((place, Severity::Error)),
        (None, Some(place)) => Some((place, Severity::Warning)),
        (None, None) => None,
    }
}
