//! Rules, where one is named or has found something.

use crate::analysis::Analysis;
use crate::ide::markdown::{paragraphs, table_of_three};
use crate::rules::{Bound, Rule, find};

/// Why a rule looks at what it looks at, and where that comes from.
pub fn reason(name: &str) -> Option<String> {
    let rule = find(name)?;
    Some(paragraphs([rule.reason.to_owned(), sources(rule)]))
}

/// A rule that an `accept` or a standard names: what it is, and the limits
/// that are in force for this job.
pub fn card(analysis: &Analysis, name: &str) -> Option<String> {
    let rule = find(name)?;
    Some(paragraphs([
        format!(
            "**{}** · {} · {}",
            rule.name,
            rule.severity.word(),
            rule.family.title()
        ),
        rule.looks_at.to_owned(),
        rule.reason.to_owned(),
        rule.remedy.to_owned(),
        limits(analysis, rule),
        sources(rule),
    ]))
}

fn limits(analysis: &Analysis, rule: &'static Rule) -> String {
    let heading = &analysis.job.heading;
    let rows = rule.limits.iter().filter_map(|limit| {
        let own = analysis
            .limits
            .in_force(rule, limit.row, heading.region())?;
        let bound = match limit.bound {
            Bound::Least => "at least",
            Bound::Most => "at most",
        };
        Some([
            limit.of.to_owned(),
            format!("{bound} {}", own.shown(heading.system())),
            format!("{}: {}", own.whose, own.source),
        ])
    });
    table_of_three(["limit", "value", "from"], &rows.collect::<Vec<_>>())
}

fn sources(rule: &Rule) -> String {
    let lines = rule
        .sources
        .iter()
        .map(|source| format!("- source: {source}\n"));
    lines.collect()
}
