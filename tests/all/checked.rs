//! A spec's text, checked from end to end as the editor and the command line
//! check it.

use std::ops::Range;
use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::findings::{Finding, FindingList, Fix, Place};
use drylay::quantities::Figures;

/// The day on which the tests check.
const TODAY: &str = "2027-04-12";

/// A text and everything found in it.
pub struct Checked(Arc<Analysis>);

/// Checks a text as a file of its own.
pub fn checked(text: &str) -> Checked {
    Checked(Analyser::new().analyse("/specs/example.patio", text.into(), &NoFiles, TODAY))
}

impl Checked {
    /// What was found, in order.
    pub fn findings(&self) -> &FindingList {
        &self.0.findings
    }

    /// All that is known of it.
    pub fn analysis(&self) -> &Analysis {
        &self.0
    }

    /// What was worked out.
    pub fn figures(&self) -> &Figures {
        &self.0.figures
    }

    /// The bytes of a place.
    pub fn range(&self, place: Place) -> Range<usize> {
        let (_, span) = self.0.span(place).expect("a place of the file");
        span.start as usize..span.end as usize
    }

    /// The text with the first fix of a finding applied.
    pub fn mended(&self, finding: &Finding) -> Option<String> {
        Some(self.with(finding.fixes.first()?))
    }

    /// The text with a fix applied.
    pub fn with(&self, fix: &Fix) -> String {
        let mut changes: Vec<_> = fix
            .changes
            .iter()
            .map(|change| (self.range(change.place), &*change.text))
            .collect();
        changes.sort_by_key(|(range, _)| std::cmp::Reverse(range.start));
        let mut text = self.0.own_text().to_owned();
        for (range, new) in changes {
            text.replace_range(range, new);
        }
        text
    }

    /// A finding in one line, for a test that fails.
    pub fn shown(&self, finding: &Finding) -> String {
        let range = self.range(finding.place);
        format!(
            "{:?} {} at {range:?} `{}`: {}",
            finding.severity,
            finding.rule,
            self.0.text(finding.place),
            finding.message
        )
    }
}
