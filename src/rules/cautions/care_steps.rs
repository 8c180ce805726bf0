//! `care-steps`: open edges while steps are built, and what holds people.

use super::caution::{HARMLESS, say};
use crate::findings::Severity;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Open edges while steps are built, and what holds people.
pub(crate) static CARE_STEPS: Rule = Rule {
    name: "care-steps",
    family: Family::Cautions,
    severity: Severity::Advisory,
    looks_at: "Flights of steps.",
    reason: "A half-built flight is an open edge, and guards and handrails that give way are worse than none.",
    remedy: "Fence the edge off until it is safe; leave guards, handrails and walls that hold earth to whoever is licensed for them.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "job «\"Example court\"»
  units        metric

steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
",
    keeps: HARMLESS,
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    if context.job.steps.is_empty() {
        return;
    }
    let message = "fence off steps until they are done; whoever is licensed decides how strong guards, handrails and the walls beside them must be";
    say(&CARE_STEPS, message, context, found);
}
