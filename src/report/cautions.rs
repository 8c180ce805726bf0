//! The cautions of a job, for whoever builds it.

use crate::analysis::Analysis;

/// What is said once beside all cautions.
pub const LOCAL_RULES: &str = "local rules and licensed practice come first";

/// What to be careful of, one sentence each, and that local rules come first;
/// accepted ones are left out.
pub fn cautions(analysis: &Analysis) -> Vec<String> {
    let findings = analysis.findings.iter();
    let standing = findings.filter(|found| found.is_caution() && found.accepted.is_none());
    let mut said: Vec<String> = standing.map(|found| found.message.to_string()).collect();
    if !said.is_empty() {
        said.push(LOCAL_RULES.to_owned());
    }
    said
}
