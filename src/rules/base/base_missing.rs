//! `base-missing`: paving with no base, or a slab straight on clay.

use super::base_thin::{circumstance, relate, severity, wanted};
use crate::findings::Severity;
use crate::model::{Build, Layer, Site, Surface};
use crate::rules::construction;
use crate::rules::documents::icpi_tolerances;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::System;
use crate::vocabulary::Role;

/// Paving with no base, or a slab straight on clay.
pub(crate) static BASE_MISSING: Rule = Rule {
    name: "base-missing",
    family: Family::Base,
    severity: Severity::Error,
    looks_at: "Paving on sand or in mortar with neither base nor slab under it, and a slab cast straight on clay, silt or peat. Stepping stones need none.",
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
    let on_rock = is_on(site, &["rock"]);
    if has_base || on_rock || context.is_misread(build.section) {
        return;
    }
    if let Some(slab) = build.layer(Role::Slab) {
        slab_on_clay(context, slab, found);
        return;
    }
    let is_stone = construction::is_stepping_stone(surface, build);
    if !construction::rests_on_base(build) || is_stone {
        return;
    }
    let Some(wanted) = wanted(context, surface) else {
        return;
    };
    let message = format!(
        "no base under the paving; {} {} is the least: add a compacted base",
        circumstance(&wanted, site),
        wanted.limit.shown(context.system()),
    );
    let finding = BASE_MISSING
        .finding(build.name.place, message)
        .severity(severity(context, surface, 0.0))
        .against(&wanted.limit, context);
    found.add(relate(finding, &wanted, context, surface));
}

fn is_on(site: &Site, soils: &[&str]) -> bool {
    let soil = site.soil.as_ref();
    soil.is_some_and(|soil| soils.contains(&soil.value.word))
}

fn slab_on_clay(context: &Context<'_>, slab: &Layer, found: &mut Found) {
    let site = &context.job.site;
    if slab.existing.is_some() || !is_on(site, &["clay", "silt", "peat"]) {
        return;
    }
    let depth = match context.system() {
        System::Metric => "100 mm",
        System::Imperial => "4 in",
    };
    let Some(soil) = &site.soil else { return };
    let message = format!(
        "the slab is cast straight on {}, and will crack as that moves: put {depth} of compacted stone under it",
        soil.value.word
    );
    found.add(
        BASE_MISSING
            .finding(slab.place, message)
            .severity(Severity::Warning)
            .related(soil.place, "the soil"),
    );
}
