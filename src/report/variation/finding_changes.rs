//! The findings that changed: new ones, those that are gone, and those that
//! say something else.

use std::collections::{BTreeMap, BTreeSet};

use super::changed_lines::ChangedLines;
use super::dependence::Dependence;
use crate::analysis::Analysis;
use crate::report::fingerprint::Fingerprint;
use crate::report::row::{Row, rows};

/// A finding that changed.
#[derive(Debug, Clone)]
pub(super) struct FindingChange {
    /// The finding as it was; `None` if it is new.
    pub old: Option<Row>,
    /// The finding as it is; `None` if it is gone.
    pub new: Option<Row>,
    /// The changed sections that may have caused it.
    pub from: Vec<usize>,
}

impl FindingChange {
    /// What became of it, in a word.
    pub(crate) fn word(&self) -> &'static str {
        match (&self.old, &self.new) {
            (None, _) => "new",
            (_, None) => "gone",
            _ => "changed",
        }
    }

    /// The finding as it is, or as it was if it is gone.
    pub(crate) fn row(&self) -> Option<&Row> {
        self.new.as_ref().or(self.old.as_ref())
    }

    /// What it says and where, with what became of its acceptance.
    pub(crate) fn said(&self) -> String {
        let Some(row) = self.row() else {
            return String::new();
        };
        let was = |row: &Option<Row>| row.as_ref().is_some_and(|row| row.accepted.is_some());
        let accepted = match (was(&self.old), was(&self.new), self.word()) {
            (_, true, "new") => " (accepted)",
            (false, true, _) => " (now accepted)",
            (true, false, "changed") => " (no longer accepted)",
            _ => "",
        };
        let line = match self.word() {
            "gone" => format!("was line {}", row.at.start.0),
            _ => format!("line {}", row.at.start.0),
        };
        format!("{line}: {}{accepted}", row.message)
    }
}

/// The findings that changed, known again by their fingerprints: those of the
/// newer state in their order, then those that are gone.
pub(super) fn finding_changes(
    (old, new): (Option<&Analysis>, Option<&Analysis>),
    (of_old, of_new): &(Dependence<'_>, Dependence<'_>),
    lines: &[ChangedLines],
    folder: &str,
) -> Vec<FindingChange> {
    let read = |analysis: Option<&Analysis>| {
        let own = analysis.map(|analysis| rows(analysis, folder));
        own.unwrap_or_default()
    };
    let (before, after) = (read(old), read(new));
    let mut before: Vec<Option<Row>> = before.into_iter().map(Some).collect();
    let known: BTreeMap<Fingerprint, usize> = before
        .iter()
        .enumerate()
        .filter_map(|(index, row)| Some((row.as_ref()?.fingerprint, index)))
        .collect();
    let mut changes = Vec::new();
    for row in after {
        let index = known.get(&row.fingerprint);
        let old = index.and_then(|index| before.get_mut(*index)?.take());
        if old.as_ref().is_none_or(|old| says_else(old, &row)) {
            changes.push((old, Some(row)));
        }
    }
    changes.extend(before.into_iter().flatten().map(|row| (Some(row), None)));
    let changed = changes.into_iter().map(|(old, new)| {
        let mut from = causes(new.as_ref(), of_new, lines);
        from.extend(causes(old.as_ref(), of_old, lines));
        FindingChange {
            old,
            new,
            from: from.into_iter().collect(),
        }
    });
    changed.collect()
}

/// Whether two findings that are the same one say different things.
fn says_else(old: &Row, new: &Row) -> bool {
    old.message != new.message
        || old.severity != new.severity
        || old.accepted.is_some() != new.accepted.is_some()
}

/// The changed sections that a finding may come from: those that its own
/// draws on, those that name it, and the heading, the site and the standards, which any rule may
/// ask.
fn causes(
    row: Option<&Row>,
    dependence: &Dependence<'_>,
    lines: &[ChangedLines],
) -> BTreeSet<usize> {
    let Some(row) = row else {
        return BTreeSet::new();
    };
    let mut causes = dependence.of_section(&row.section, &[]);
    causes.extend(dependence.of_users(&row.section));
    for kind in ["site", "standard"] {
        causes.extend(dependence.of_kind(kind));
    }
    let of_job = dependence.of_kind("job").into_iter();
    causes.extend(of_job.filter(|index| {
        let change = lines.get(*index);
        change.is_some_and(|change| change.is_for_figures)
    }));
    causes
}
