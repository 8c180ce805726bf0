//! Which findings of a document are shown: of very many the gravest.

use std::sync::Arc;

use super::diagnostics::{is_shown, weight};
use crate::findings::{Finding, FindingList, Part, Severity};

/// The severities, the gravest first.
const GRAVEST_FIRST: [Severity; 3] = [Severity::Error, Severity::Warning, Severity::Advisory];

/// So many of each severity, the gravest first.
type Counts = [usize; 3];

/// How many findings there are to show in each part of a document, kept from
/// one edit to the next: most parts are as they were.
#[derive(Debug)]
pub(crate) struct Weighed {
    least: Severity,
    parts: Vec<Part>,
    /// Those of each part.
    counts: Vec<Counts>,
    total: Counts,
}

impl Default for Weighed {
    fn default() -> Weighed {
        Weighed {
            least: Severity::Advisory,
            parts: Vec::new(),
            counts: Vec::new(),
            total: Counts::default(),
        }
    }
}

/// The findings that are shown, in their order, and how many there would be.
pub(crate) struct ShownFindings<'a> {
    pub chosen: Vec<&'a Arc<Finding>>,
    pub of: usize,
}

impl Weighed {
    /// The gravest of the findings that weigh at least so much and that
    /// nobody has accepted, `most` of them.
    pub(crate) fn shown_findings<'a>(
        &mut self,
        findings: &'a FindingList,
        least: Severity,
        most: usize,
    ) -> ShownFindings<'a> {
        self.weigh(findings, least);
        let of = self.total.iter().sum();
        let mut room = most;
        let mut left = self.total.map(|count| {
            let taken = count.min(room);
            room -= taken;
            taken
        });
        let mut chosen = Vec::with_capacity(most.min(of));
        for (part, own) in findings.parts().iter().zip(&self.counts) {
            if left.iter().all(|left| *left == 0) {
                break;
            }
            let is_wanted = |(left, own): (&usize, &usize)| *left > 0 && *own > 0;
            if !left.iter().zip(own).any(is_wanted) {
                continue;
            }
            for finding in part.iter().filter(|finding| is_shown(finding, least)) {
                let place = place(finding).and_then(|place| left.get_mut(place));
                if let Some(left) = place.filter(|left| **left > 0) {
                    *left -= 1;
                    chosen.push(finding);
                }
            }
        }
        ShownFindings { chosen, of }
    }

    /// Counts what is to be shown of the parts that are not as they were.
    fn weigh(&mut self, findings: &FindingList, least: Severity) {
        let parts = findings.parts();
        if self.least != least || self.parts.len() != parts.len() {
            self.least = least;
            self.parts = parts.to_vec();
            self.counts = parts.iter().map(|part| counts(part, least)).collect();
            self.total = Counts::default();
            for own in &self.counts {
                add(&mut self.total, own);
            }
            return;
        }
        let both = self.parts.iter_mut().zip(&mut self.counts).zip(parts);
        for ((known, own), part) in both {
            if !Arc::ptr_eq(known, part) {
                for (sum, count) in self.total.iter_mut().zip(own.iter()) {
                    *sum -= count;
                }
                *known = Arc::clone(part);
                *own = counts(part, least);
                add(&mut self.total, own);
            }
        }
    }
}

fn add(sums: &mut Counts, more: &Counts) {
    for (sum, count) in sums.iter_mut().zip(more) {
        *sum += count;
    }
}

fn counts(part: &Part, least: Severity) -> Counts {
    let mut counts = Counts::default();
    for finding in part.iter().filter(|finding| is_shown(finding, least)) {
        if let Some(count) = place(finding).and_then(|place| counts.get_mut(place)) {
            *count += 1;
        }
    }
    counts
}

/// The place of a finding's severity among the counts.
fn place(finding: &Finding) -> Option<usize> {
    let own = weight(finding);
    GRAVEST_FIRST.iter().position(|severity| *severity == own)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::{FileId, Place, SectionRef};
    use crate::syntax::SectionId;
    use crate::text::Span;

    const MOST: usize = 300;

    fn finding(number: usize, severity: Severity) -> Arc<Finding> {
        let section = SectionRef {
            section: SectionId(0),
            file: FileId(0),
        };
        let place = Place {
            section,
            span: Span::at(number as u32),
        };
        Arc::new(Finding::new("lip", place, "x").severity(severity))
    }

    /// So many findings in parts of seven, one in a hundred an error.
    fn findings(count: usize) -> FindingList {
        let severity = |number: usize| match number % 100 {
            99 => Severity::Error,
            _ => Severity::Advisory,
        };
        let all: Vec<_> = (0..count)
            .map(|number| finding(number, severity(number)))
            .collect();
        FindingList::of(all.chunks(7).map(Part::from).collect())
    }

    #[test]
    fn of_very_many_the_gravest_are_sent() {
        let mut weighed = Weighed::default();
        for (count, sent) in [
            (0, 0),
            (5, 5),
            (MOST, MOST),
            (MOST + 1, MOST),
            (5_000, MOST),
            (40, 40),
        ] {
            let all = findings(count);
            let shown = weighed.shown_findings(&all, Severity::Advisory, MOST);
            assert_eq!((shown.chosen.len(), shown.of), (sent, count));
            let grave = |finding: &&&Arc<Finding>| finding.severity == Some(Severity::Error);
            assert_eq!(
                shown.chosen.iter().filter(grave).count(),
                all.iter().filter(|finding| grave(&finding)).count(),
                "every error of {count}"
            );
            assert!(
                shown.chosen.is_sorted_by_key(|finding| finding.place),
                "in their order"
            );
        }
    }

    #[test]
    fn what_weighs_too_little_is_not_counted() {
        let mut weighed = Weighed::default();
        let mut all = findings(1_000);
        let shown = weighed.shown_findings(&all, Severity::Warning, MOST);
        assert_eq!((shown.chosen.len(), shown.of), (10, 10));
        all.put(0, [finding(0, Severity::Warning)].into());
        let shown = weighed.shown_findings(&all, Severity::Warning, MOST);
        assert_eq!((shown.chosen.len(), shown.of), (11, 11));
        let shown = weighed.shown_findings(&all, Severity::Advisory, 12);
        assert_eq!((shown.chosen.len(), shown.of), (12, 994));
    }
}
