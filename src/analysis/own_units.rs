//! Fixes that give a bare number a unit: those of the job's own system come
//! first.

use std::sync::Arc;

use super::Analysis;
use crate::findings::{Finding, Fix};
use crate::model::FileKind;
use crate::syntax::{Item, ItemKind};
use crate::units::{System, find_unit};

/// Puts what a finding offers in the job's own units before the rest. Where
/// its line has other numbers with units, those tell more and the order stays.
pub(crate) fn own_units_first(analysis: &Analysis, finding: &mut Arc<Finding>) {
    let is_spec = analysis.job.kind == FileKind::Spec;
    if finding.rule != "unit-missing" || !is_spec || has_other_units(analysis, finding) {
        return;
    }
    let own = Some(analysis.job.heading.system());
    if finding.fixes.iter().any(|fix| system(fix) == own) {
        let fixes = &mut Arc::make_mut(finding).fixes;
        fixes.sort_by_key(|fix| system(fix) != own);
    }
}

/// The system of the unit that a fix writes, `150 lb/cu ft`.
fn system(fix: &Fix) -> Option<System> {
    let [change] = fix.changes.as_slice() else {
        return None;
    };
    let unit = change.text.trim_start_matches(|c: char| !c.is_alphabetic());
    let unit = unit.trim_end_matches(" by ").split('/').next()?;
    find_unit(unit)?.system
}

/// Whether a number with a unit stands on the line of a finding.
fn has_other_units(analysis: &Analysis, finding: &Finding) -> bool {
    let line = analysis.span(finding.place).and_then(|(file, span)| {
        let file = analysis.files.get(file)?;
        file.tree.line_at(span.start)
    });
    let items = line.iter().flat_map(|line| &line.line.phrases);
    let mut items = items.flat_map(|phrase| &phrase.items);
    items.any(has_unit)
}

fn has_unit(item: &Item) -> bool {
    match &item.kind {
        ItemKind::Number { terms, .. } => terms.iter().any(|term| term.unit.is_some()),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use crate::analysis::{Analyser, NoFiles};

    /// The titles of the fixes for a unit that is missing.
    fn offered(units: &str, line: &str) -> Vec<String> {
        let text = format!(
            "job \"A\"\n  units {units}\n\nshape a\n  rectangle 6 m by 4 m\n\nsurface a\n  shape a\n  {line}\n"
        );
        let analysis = Analyser::new().analyse("/a.patio", text.into(), &NoFiles, "2027-01-12");
        let mut findings = analysis.findings.iter();
        let finding = findings.find(|finding| finding.rule == "unit-missing");
        let fixes = finding.map_or(&[][..], |finding| finding.fixes.as_slice());
        fixes.iter().map(|fix| fix.title.to_string()).collect()
    }

    #[test]
    fn units_of_the_job_come_first_unless_the_line_has_others() {
        for (units, line, first) in [
            ("metric", "joint 5", "Write `5 mm`"),
            ("imperial", "joint 5", "Write `5 in`"),
            ("metric", "joint 5, depth 1 in", "Write `5 in`"),
        ] {
            let offered = offered(units, line);
            assert_eq!(offered.len(), 4, "{offered:?}");
            assert_eq!(offered[0], first, "{units} {line}");
        }
    }
}
