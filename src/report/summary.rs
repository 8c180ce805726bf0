//! How many findings there are, of what kind.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::Review;
use super::words::counted;
use crate::analysis::Analysis;
use crate::findings::Severity;
use crate::rules::runs_out_soon_after;

/// How many findings a review came to. Accepted ones are counted apart.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct Summary {
    /// The files that were checked.
    pub files: usize,
    /// Errors that no acceptance took.
    pub errors: usize,
    /// Warnings that no acceptance took.
    pub warnings: usize,
    /// Advisories that no acceptance took.
    pub advisories: usize,
    /// Findings that an acceptance took.
    pub accepted: usize,
    /// Findings that a baseline took out as known.
    pub known: usize,
    /// Findings that a baseline knows and that have been put right since.
    pub put_right: usize,
    /// Acceptances that hold and run out within 30 days.
    pub running_out: usize,
    /// How many of each rule no acceptance took.
    pub rules: BTreeMap<&'static str, usize>,
}

impl Summary {
    /// The errors and warnings of one spec that no acceptance took, for a
    /// take-off: nobody should order from a spec that does not stand.
    pub fn standing(analysis: &Analysis) -> Summary {
        let mut summary = Summary::default();
        let found = analysis.findings.iter();
        for finding in found.filter(|found| found.accepted.is_none() && !found.is_caution()) {
            match finding.severity {
                Some(Severity::Warning) => summary.warnings += 1,
                Some(Severity::Advisory) => {}
                _ => summary.errors += 1,
            }
        }
        summary
    }

    /// That the check finds errors, for who reads a sheet: nothing if it finds
    /// none.
    pub fn errors_found(&self) -> Option<String> {
        let errors = (self.errors > 0).then(|| counted(self.errors, "error", "errors"));
        errors.map(|errors| format!("the check finds {errors}"))
    }

    /// The summary of a review.
    pub fn of(review: &Review) -> Summary {
        let mut summary = Summary {
            files: review.files.len(),
            known: review.known,
            put_right: review.put_right.values().map(Vec::len).sum(),
            running_out: running_out(review),
            ..Summary::default()
        };
        for row in review.files.iter().flat_map(|file| &file.rows) {
            let count = match (&row.accepted, row.severity) {
                (Some(_), _) => &mut summary.accepted,
                (None, Severity::Error) => &mut summary.errors,
                (None, Severity::Warning) => &mut summary.warnings,
                (None, Severity::Advisory) => &mut summary.advisories,
            };
            *count += 1;
            if row.accepted.is_none() {
                *summary.rules.entry(row.rule).or_insert(0) += 1;
            }
        }
        summary
    }

    /// The gravest severity that no acceptance took.
    pub fn gravest(&self) -> Option<Severity> {
        match (self.errors, self.warnings, self.advisories) {
            (0, 0, 0) => None,
            (0, 0, _) => Some(Severity::Advisory),
            (0, _, _) => Some(Severity::Warning),
            _ => Some(Severity::Error),
        }
    }

    /// The summary as a line: `2 errors, 1 warning in 3 files; 1 accepted`.
    pub fn sentence(&self) -> String {
        let kinds = self.kinds();
        let found = if kinds.is_empty() {
            "nothing found".to_owned()
        } else {
            kinds
        };
        let files = counted(self.files, "file", "files");
        let mut sentence = format!("{found} in {files}");
        for (count, what) in [(self.accepted, "accepted"), (self.known, "known before")] {
            if count > 0 {
                sentence += &format!("; {count} {what}");
            }
        }
        if self.running_out > 0 {
            let run = counted(self.running_out, "acceptance runs", "acceptances run");
            sentence += &format!("; {run} out within 30 days");
        }
        sentence
    }

    /// What there is of each severity: `2 errors, 1 warning`; empty if there
    /// is nothing.
    pub fn kinds(&self) -> String {
        let kinds = [
            (self.errors, "error", "errors"),
            (self.warnings, "warning", "warnings"),
            (self.advisories, "advisory", "advisories"),
        ];
        let some = kinds.into_iter().filter(|(count, _, _)| *count > 0);
        let said: Vec<String> = some
            .map(|(count, one, many)| counted(count, one, many))
            .collect();
        said.join(", ")
    }
}

/// How many of the acceptances that took something run out soon.
fn running_out(review: &Review) -> usize {
    let accepted = review.files.iter().flat_map(|file| {
        let rows = file.rows.iter().chain(&file.cautions);
        rows.filter_map(|row| row.accepted.as_ref())
    });
    let soon = accepted.filter(|accepted| {
        let until = accepted.until.as_deref();
        until.is_some_and(|until| runs_out_soon_after(until, &review.date))
    });
    let places: BTreeSet<(&str, u32)> = soon
        .map(|accepted| (&*accepted.at.path, accepted.at.bytes.start))
        .collect();
    places.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_summary_is_a_plain_sentence() {
        let summary = |files, errors, warnings, advisories, accepted, known| Summary {
            files,
            known,
            errors,
            warnings,
            advisories,
            accepted,
            ..Summary::default()
        };
        for (summary, sentence) in [
            (
                summary(1, 0, 0, 0, 0, 3),
                "nothing found in 1 file; 3 known before",
            ),
            (summary(3, 2, 1, 0, 0, 0), "2 errors, 1 warning in 3 files"),
            (
                summary(1, 0, 0, 4, 2, 0),
                "4 advisories in 1 file; 2 accepted",
            ),
            (summary(0, 0, 0, 0, 0, 0), "nothing found in 0 files"),
            (
                Summary {
                    running_out: 1,
                    ..summary(2, 0, 0, 0, 3, 0)
                },
                "nothing found in 2 files; 3 accepted; 1 acceptance runs out within 30 days",
            ),
        ] {
            assert_eq!(summary.sentence(), sentence);
        }
    }
}
