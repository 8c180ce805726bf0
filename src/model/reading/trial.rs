//! Trying a fix on its line before it is offered.

use super::section::{SectionReading, read_untried};
use super::source::Source;
use crate::findings::{FileId, Finding, Fix};
use crate::syntax::{LineKind, Tree};
use crate::text::Span;

/// A line that is longer, in bytes, or has more faults or findings is not read
/// again and again: nothing is offered for it.
const LONGEST: usize = 500;
const MOST_FAULTS: usize = 8;

/// Keeps of a finding's fixes those after which the line reads without it and
/// with nothing else wrong, as far as one of them can bring it. `known` is all
/// that was found in the line.
pub(crate) fn keep_what_helps(
    section: &SectionReading,
    source: &Source<'_>,
    known: &[Finding],
    finding: &mut Finding,
) {
    let faults = source.line.faults.len().max(known.len());
    let is_short = source.text.len() <= LONGEST && faults <= MOST_FAULTS;
    let rule = finding.rule;
    let fixes = std::mem::take(&mut finding.fixes).into_iter();
    let tried = fixes.filter(|_| is_short).filter_map(|fix| {
        let left = left_after(section, source, known, rule, &fix)?;
        Some((left, fix))
    });
    let tried: Vec<(usize, Fix)> = tried.collect();
    let least = tried.iter().map(|(left, _)| *left).min();
    let best = tried.into_iter().filter(|(left, _)| Some(*left) == least);
    finding.fixes = best.map(|(_, fix)| fix).collect();
}

/// How much is found in the line once a fix is made; nothing if that is no
/// help.
fn left_after(
    section: &SectionReading,
    source: &Source<'_>,
    known: &[Finding],
    rule: &str,
    fix: &Fix,
) -> Option<usize> {
    let [change] = fix.changes.as_slice() else {
        return None;
    };
    let replaced = change.place.span.relative_to(source.start);
    let found = found_with(section, source, replaced, &change.text)?;
    let count = |findings: &[&Finding], rule: &str| {
        let same = findings.iter().filter(|one| one.rule == rule);
        same.count()
    };
    let (found, known): (Vec<&Finding>, Vec<&Finding>) =
        (found.iter().collect(), known.iter().collect());
    let is_no_worse = |one: &&Finding| count(&found, one.rule) <= count(&known, one.rule);
    let helps = count(&found, rule) < count(&known, rule) && found.iter().all(is_no_worse);
    helps.then_some(found.len())
}

/// What is found in the line once a text stands at a span of it.
pub(super) fn found_with(
    section: &SectionReading,
    source: &Source<'_>,
    replaced: Span,
    text: &str,
) -> Option<Vec<Finding>> {
    let (start, end) = (replaced.start as usize, replaced.end as usize);
    let (before, after) = (source.text.get(..start)?, source.text.get(end..)?);
    let above = match (section.kind, source.line.kind) {
        (Some(kind), LineKind::Entry) => format!("{} x\n", kind.word),
        _ => String::new(),
    };
    let own = above.len() as u32;
    let tree = Tree::parse(format!("{above}{before}{text}{after}").into());
    let placed = tree.sections.first()?;
    let read = read_untried(tree.section_text(placed), placed, FileId(0), None);
    let found = read.findings.into_iter();
    Some(found.filter(|one| one.place.span.start >= own).collect())
}
