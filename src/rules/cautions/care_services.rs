//! `care-services`: cables and pipes in the ground.

use super::caution::{HARMLESS, built_layers, say};
use crate::findings::Severity;
use crate::model::Surface;
use crate::quantities::LOCATE_SERVICES;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::vocabulary::Term;

/// Cables and pipes in the ground.
pub(crate) static CARE_SERVICES: Rule = Rule {
    name: "care-services",
    family: Family::Cautions,
    severity: Severity::Advisory,
    looks_at: "A dig, with nothing said of when buried services were located.",
    reason: "Gas, power and water lie where patios are dug, often shallower than on the plans.",
    remedy: "Have them located and marked before the dig, and state the day: services located 2027-03-02.",
    limits: &[],
    sources: &[LOCATE_SERVICES],
    breaks: "job «\"Example court\"»
  units        metric
",
    keeps: HARMLESS,
    mended: None,
    check: Check::JobWith {
        holds: is_dug,
        unless: Some("services-unlocated"),
        check,
    },
};

/// Whether there is a layer to dig for.
fn is_dug(surface: &Surface) -> bool {
    built_layers(surface).any(|layer| layer.thickness_m() > 0.0)
}

fn check(context: &Context<'_>, found: &mut Found) {
    if context.job.site.services_located.is_none() {
        let message = format!(
            "cables and pipes may lie in the dig: {}, and dig by hand near them",
            context.word(Term::LocateServices)
        );
        say(&CARE_SERVICES, &message, context, found);
    }
}
