//! `contingency-missing`: a budget with nothing, or too little, set aside.

use crate::findings::{Fix, Severity};
use crate::model::{Budget, Job};
use crate::rules::documents::CONTINGENCIES;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::vocabulary::entry;

/// A budget with nothing, or too little, set aside.
pub(crate) static CONTINGENCY_MISSING: Rule = Rule {
    name: "contingency-missing",
    family: Family::Work,
    severity: Severity::Advisory,
    looks_at: "The contingency of a budget: left out, or under the least that cost consultants allow.",
    reason: "Soft ground, a broken pallet or a wet week turn up on every job; with nothing set aside they come out of the margin.",
    remedy: "State a contingency: 5 to 10 % where the job is drawn, more where it is not.",
    limits: &[Limit {
        row: "plain",
        of: "contingency on the cost",
        bound: Bound::Least,
        general: Value {
            written: &["5 %"],
            source: CONTINGENCIES,
        },
        regions: &[],
    }],
    sources: &[CONTINGENCIES, Source::COMMON_PRACTICE],
    breaks: "«budget»
  item         \"skip permit\" £60
",
    keeps: "budget
  item         \"skip permit\" £60
  contingency  10 %
",
    mended: Some(
        "budget
  contingency  10 %
  item         \"skip permit\" £60
",
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let Some(budget) = &context.job.budget else {
        return;
    };
    let Some(limit) = context.limit(&CONTINGENCY_MISSING, "plain") else {
        return;
    };
    match &budget.contingency {
        Some(stated) if limit.allows(&stated.value) => {}
        Some(stated) => {
            let shown = limit.beside(&stated.value, context.system());
            let message = format!(
                "a contingency of {shown} is thin: {} is the least that consultants allow",
                limit.shown(context.system())
            );
            found.add(
                CONTINGENCY_MISSING
                    .finding(stated.place, message)
                    .found(shown, Some(stated.value))
                    .against(&limit, context),
            );
        }
        // One that cannot be read is told of where it stands.
        None if context.is_misread(budget.place.section) => {}
        // Of a quote alone nothing is reckoned.
        None if !has_cost(context.job, budget) => {}
        None => found.add(
            CONTINGENCY_MISSING
                .finding(
                    budget.place,
                    "nothing is set aside for the unforeseen. State a contingency, such as 10 %",
                )
                .against(&limit, context)
                .fix(Fix::judged(
                    "Set 10 % aside",
                    budget.place.end(),
                    format!("\n  {}", entry("contingency", "10 %")),
                )),
        ),
    }
}

/// Whether there is anything that a job costs of its own.
fn has_cost(job: &Job, budget: &Budget) -> bool {
    let is_paid = budget.labour.is_some() || budget.disposal.is_some() || !budget.items.is_empty();
    is_paid || !job.surfaces.is_empty() || !job.hires.is_empty() || !job.drains.is_empty()
}
