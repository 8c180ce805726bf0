//! `base-missing`: paving with no base, or a slab straight on clay.

use super::base_thin::{circumstance, is_on, relate, severity, surfacing_m, wanted};
use crate::findings::Severity;
use crate::model::{Build, Surface, Use};
use crate::rules::construction;
use crate::rules::documents::icpi_tolerances;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::Role;

/// Paving with no base, or a slab straight on clay.
pub(crate) static BASE_MISSING: Rule = Rule {
    name: "base-missing",
    family: Family::Base,
    severity: Severity::Error,
    looks_at: "Paving on sand or in mortar with neither base nor slab under it, gravel and the like that cars drive on with none, and a slab cast straight on clay, silt or peat, or straight on the ground in a street. Stepping stones need none.",
    reason: "Without a base the ground under the paving gives and moves with every wet spell and frost.",
    remedy: "Put a compacted base of crushed stone under it.",
    limits: &[],
    sources: &[
        icpi_tolerances("least compacted base"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "build «sand-set»
  # no base
",
    keeps: "",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let site = &context.job.site;
    let has_base = construction::bases(build).next().is_some();
    if has_base || is_on(site, &["rock"]) || context.is_misread(build.section) {
        return;
    }
    let Some(wanted) = wanted(context, surface, build) else {
        return;
    };
    let least = wanted.limit.shown(context.system());
    let slab = build.layer(Role::Slab);
    let (place, message) = match (slab, &site.soil) {
        (Some(slab), Some(soil)) if surface.used_for != Use::Street => (
            slab.place,
            format!(
                "the slab is cast straight on {}, and will crack as that moves: put {least} of compacted stone under it",
                soil.value.word
            ),
        ),
        _ if wanted.allows_si(surfacing_m(build)) => return,
        _ => {
            let what = match (slab, build.layer(Role::Paving)) {
                (Some(_), _) => "slab",
                (None, Some(_)) => "paving",
                (None, None) => "surfacing",
            };
            let message = format!(
                "no base under the {what}; {} {least} is the least: add a compacted base",
                circumstance(&wanted, surface, site),
            );
            (slab.map_or(build.name.place, |slab| slab.place), message)
        }
    };
    let finding = BASE_MISSING
        .finding(place, message)
        .severity(severity(context, surface, &wanted, 0.0))
        .against(&wanted.limit, context);
    found.add(relate(finding, &wanted, context, surface));
}
