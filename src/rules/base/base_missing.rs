//! `base-missing`: sand-set paving with no base at all.

use super::base_thin::{circumstance, relate, severity, wanted, wants_base};
use crate::findings::Severity;
use crate::model::{Build, Surface};
use crate::rules::construction;
use crate::rules::documents::icpi_tolerances;
use crate::rules::wording::limit_in_words;
use crate::rules::{Check, Context, Family, Found, Rule};

/// Sand-set paving with no base at all.
pub static BASE_MISSING: Rule = Rule {
    name: "base-missing",
    family: Family::Base,
    severity: Severity::Error,
    looks_at: "Paving set on sand with neither a base, a subbase nor a slab under it. How much is wanted is told by base-thin.",
    reason: "Without a base the bed is washed and pressed into the ground, and the paving sinks unevenly within its first seasons.",
    remedy: "Put a compacted base of crushed stone under the bed, or a concrete slab.",
    limits: &[],
    sources: &[icpi_tolerances("least compacted base")],
    breaks: "build «sand-set»
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
",
    keeps: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    mended: None,
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let on_rock = context
        .job
        .site
        .soil
        .as_ref()
        .is_some_and(|soil| soil.value.word == "rock");
    let has_base = construction::bases(build).next().is_some()
        || construction::is_stepping_stone(surface, build);
    if !wants_base(build) || has_base || on_rock || context.is_misread(build.section) {
        return;
    }
    let Some(wanted) = wanted(context, surface) else {
        return;
    };
    let message = format!(
        "there is no base under the paving; {} it wants {}: add a compacted base",
        circumstance(&wanted, &context.job.site),
        limit_in_words(&wanted.limit, context),
    );
    let finding = BASE_MISSING
        .finding(build.name.place, message)
        .severity(severity(context, surface, 0.0))
        .against(&wanted.limit, context);
    found.add(relate(finding, &wanted, context, surface));
}
