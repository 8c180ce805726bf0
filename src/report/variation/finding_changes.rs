//! The findings that changed: new ones, those that are gone, and those that
//! say something else.

use std::collections::BTreeMap;

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
    /// The changed lines that caused it.
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
/// newer state in their order, then those that are gone. What caused them is not
/// known yet.
pub(super) fn finding_changes(
    old: Option<&Analysis>,
    new: Option<&Analysis>,
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
    let changed = changes.into_iter().map(|(old, new)| FindingChange {
        old,
        new,
        from: Vec::new(),
    });
    changed.collect()
}

impl FindingChange {
    /// Whether a look at other lines finds otherwise than the newer state does.
    pub(super) fn is_otherwise(&self, found: &BTreeMap<Fingerprint, Row>) -> bool {
        let fingerprint = self.row().map(|row| row.fingerprint);
        let other = fingerprint.and_then(|own| found.get(&own));
        match (&self.new, other) {
            (Some(new), Some(other)) => says_else(new, other),
            (None, None) => false,
            _ => true,
        }
    }
}

/// Whether two findings that are the same one say different things.
fn says_else(old: &Row, new: &Row) -> bool {
    old.message != new.message
        || old.severity != new.severity
        || old.accepted.is_some() != new.accepted.is_some()
}
