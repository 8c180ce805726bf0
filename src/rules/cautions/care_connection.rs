//! `care-connection`: water led into a drain that others own or share.

use super::caution::{HARMLESS, say};
use crate::findings::Severity;
use crate::model::{Job, Outfall, Outlet};
use crate::rules::wording::has_word;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;

/// Water led into a drain that others own or share.
pub(crate) static CARE_CONNECTION: Rule = Rule {
    name: "care-connection",
    family: Family::Cautions,
    severity: Severity::Advisory,
    looks_at: "Drains of the spec whose water comes to one that is there already, or to a sewer.",
    reason: "A wrong connection sends foul water into a stream or floods somebody's house, and in most places only licensed people may make one.",
    remedy: "Ask whose drain it is and get leave in writing; let whoever is licensed for it make the connection.",
    limits: &[],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
job «\"Example court\"»
  units        metric

drain side-gully
  gully        clay-gully, at (3 m, -0.15 m)
  to           \"storm sewer\"
",
    keeps: HARMLESS,
    mended: None,
    check: Check::Job(check),
};

const SEWERS: &[&str] = &["sewer", "sewers", "drain", "drains", "manhole", "main"];

fn check(context: &Context<'_>, found: &mut Found) {
    let job = context.job;
    let outlets = job.drains.iter().filter_map(|drain| drain.to.as_ref());
    if outlets.into_iter().any(|to| joins(job, &to.value)) {
        let message = "ask whose drain it is before you connect to it, and let whoever is licensed make the connection";
        say(&CARE_CONNECTION, message, context, found);
    }
}

/// Whether water that goes to an outlet comes to a drain of others.
fn joins(job: &Job, outlet: &Outlet) -> bool {
    match job.outfall(outlet) {
        Some(Outfall::Text(text)) => has_word(text, SEWERS),
        Some(Outfall::Drain(last)) => last.existing.is_some(),
        Some(Outfall::Circle) | None => false,
    }
}
