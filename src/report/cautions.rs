//! The cautions of a job, for whoever builds it.

use crate::analysis::Analysis;
use crate::rules::{self, Family};

/// What to be careful of, one sentence each; accepted ones are left out.
pub fn cautions(analysis: &Analysis) -> Vec<String> {
    let standing = analysis
        .findings
        .iter()
        .filter(|found| found.accepted.is_none());
    let of_family = standing.filter(|found| {
        rules::find(found.rule).is_some_and(|rule| rule.family == Family::Cautions)
    });
    of_family.map(|found| found.message.clone()).collect()
}
