//! Findings out of what the figures say they lack.

use crate::findings::{Finding, Place};
use crate::model::Job;
use crate::quantities::Trouble;
use crate::rules::Rule;
use crate::rules::construction::is_in_checked_file;

/// A finding about a figure that cannot be known: at the line that is the
/// cause if it stands in the checked file, else at the first use there.
/// `None` where nothing of the checked file takes part.
pub(super) fn finding(
    rule: &Rule,
    trouble: &Trouble,
    message: String,
    job: &Job,
) -> Option<Finding> {
    let ours = |place: &&Place| is_in_checked_file(**place);
    let at = std::iter::once(&trouble.place)
        .chain(&trouble.uses)
        .chain(&job.heading.place)
        .find(ours)?;
    let mut finding = rule.finding(*at, message);
    if *at != trouble.place {
        finding = finding.related(trouble.place, "stated here");
    }
    for used in &trouble.uses {
        if used != at {
            finding = finding.related(*used, "used here");
        }
    }
    Some(finding)
}
