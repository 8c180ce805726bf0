//! One finding for what is said twice of one place, as where two surfaces
//! share a build.

use std::cmp::Reverse;
use std::sync::Arc;

use super::text::VALUE_ODD;
use crate::findings::{Finding, Place, Severity};
use crate::text::Span;

/// Where a place stands, by which places of several sections are put in the
/// order of the text: the file and the bytes in it.
pub type Whereabouts<'a> = &'a dyn Fn(Place) -> Option<(usize, Span)>;

/// Puts the findings of one section into one order: by place, rule, then
/// message.
pub(super) fn order(findings: &mut [Arc<Finding>]) {
    findings.sort_by(|one, other| {
        let key = |finding: &Finding| (finding.place, finding.rule);
        key(one)
            .cmp(&key(other))
            .then_with(|| one.message.cmp(&other.message))
    });
}

/// Leaves out what is said of a figure that is a slip by its unit already: the
/// limits that it misses are no news. Where something graver is said of it, the
/// slip goes without saying.
pub(super) fn without_echoes(findings: &mut Vec<Arc<Finding>>) {
    let is_slip = |finding: &Finding| finding.rule == VALUE_ODD.name;
    let told: Vec<(bool, Place, Option<Severity>)> = findings
        .iter()
        .map(|finding| (is_slip(finding), finding.place, finding.severity))
        .collect();
    if !told.iter().any(|(is_slip, ..)| *is_slip) {
        return;
    }
    findings.retain(|finding| {
        let mut here = told.iter().filter(|(_, place, _)| *place == finding.place);
        match is_slip(finding) {
            true => !here.any(|(_, _, severity)| *severity > finding.severity),
            false => !here.any(|(is_slip, _, severity)| *is_slip && *severity >= finding.severity),
        }
    });
}

/// Makes one of findings that follow one another and are equal in rule, place
/// and message: with the gravest severity and the related places of all.
/// Those that one acceptance took are made one, and those that none took.
/// Neither the order of sections nor that of edits makes a difference.
pub fn merge_same(
    findings: impl IntoIterator<Item = Arc<Finding>>,
    at: Whereabouts<'_>,
) -> Vec<Arc<Finding>> {
    let mut merged: Vec<Arc<Finding>> = Vec::new();
    let mut same: Vec<Arc<Finding>> = Vec::new();
    for finding in findings {
        let is_another = same
            .first()
            .is_some_and(|first| !says_same(first, &finding));
        if is_another {
            settle(&mut merged, std::mem::take(&mut same), at);
        }
        same.push(finding);
    }
    settle(&mut merged, same, at);
    merged
}

fn says_same(one: &Finding, other: &Finding) -> bool {
    (one.place, one.rule, &one.message) == (other.place, other.rule, &other.message)
}

/// Adds what equal findings come to: those that stand first, then those of
/// each acceptance.
fn settle(merged: &mut Vec<Arc<Finding>>, mut same: Vec<Arc<Finding>>, at: Whereabouts<'_>) {
    if same.len() > 1 {
        same.sort_by_cached_key(|finding| key(finding, at));
    }
    let taken_by = |finding: &Finding| finding.accepted.as_ref().map(|own| own.place);
    merged.extend(
        same.chunk_by(|one, next| taken_by(one) == taken_by(next))
            .filter_map(one_of),
    );
}

/// Where an acceptance, a finding's causes and its related places stand.
type Key = (
    Option<(usize, Span)>,
    Reverse<Option<crate::findings::Severity>>,
    Vec<Option<(usize, Span)>>,
    Vec<Option<(usize, Span)>>,
    Option<String>,
    Option<String>,
);

fn key(finding: &Finding, at: Whereabouts<'_>) -> Key {
    let start = |section| {
        at(Place {
            section,
            span: Span::at(0),
        })
    };
    let mut sections: Vec<_> = finding
        .computed_from
        .iter()
        .map(|own| start(*own))
        .collect();
    sections.sort();
    let measured = finding.measured();
    (
        finding.accepted.as_ref().and_then(|own| at(own.place)),
        Reverse(finding.severity),
        sections,
        finding.related.iter().map(|own| at(own.place)).collect(),
        measured.limit.clone(),
        measured.found.clone(),
    )
}

/// The gravest of equal findings, which come in order, with what the others
/// know besides.
fn one_of(same: &[Arc<Finding>]) -> Option<Arc<Finding>> {
    let (first, others) = same.split_first()?;
    if others.iter().all(|other| other == first) {
        return Some(Arc::clone(first));
    }
    let mut one = Finding::clone(first);
    for other in others {
        let related = other.related.iter();
        let related: Vec<_> = related.filter(|own| !one.related.contains(own)).collect();
        one.related.extend(related.into_iter().cloned());
        let sections = other.computed_from.iter();
        let sections: Vec<_> = sections
            .filter(|own| !one.computed_from.contains(own))
            .collect();
        one.computed_from.extend(sections);
    }
    one.shares = same.into();
    Some(Arc::new(one))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::{FileId, SectionRef, Severity};
    use crate::syntax::SectionId;

    fn section_of(section: u32) -> SectionRef {
        SectionRef {
            file: FileId(0),
            section: SectionId(section),
        }
    }

    fn place(section: u32, start: u32) -> Place {
        Place {
            section: section_of(section),
            span: Span::new(start, start + 4),
        }
    }

    /// Sections of a hundred bytes, the higher the number the later.
    fn at(place: Place) -> Option<(usize, Span)> {
        Some((
            0,
            Span::at(100 * place.section.section.0 + place.span.start),
        ))
    }

    fn said(message: &str, from: u32, severity: Severity) -> Arc<Finding> {
        let finding = Finding::new("base-thin", place(1, 3), message)
            .severity(severity)
            .related(place(from, 7), "the surface");
        Arc::new(finding)
    }

    #[test]
    fn findings_come_in_one_order() {
        let finding = |rule, at, severity| Arc::new(Finding::new(rule, at, "x").severity(severity));
        let mut findings = vec![
            finding("lip", place(2, 0), Severity::Error),
            finding("lip", place(1, 9), Severity::Error),
            finding("lip", place(1, 3), Severity::Advisory),
            finding("base-thin", place(1, 3), Severity::Advisory),
            finding("fall-flat", place(1, 3), Severity::Warning),
        ];
        order(&mut findings);
        let names: Vec<_> = findings.iter().map(|finding| finding.rule).collect();
        assert_eq!(names, ["base-thin", "fall-flat", "lip", "lip", "lip"]);
        assert_eq!(findings.last().map(|last| last.place), Some(place(2, 0)));
    }

    #[test]
    fn the_same_thing_is_said_once_as_gravely_as_by_any() {
        use Severity::{Error, Warning};
        let all = [
            said("thin", 4, Warning),
            said("thin", 5, Error),
            said("thin", 6, Warning),
        ];
        let of = |order: [usize; 3]| {
            let findings = order.map(|index| Arc::clone(&all[index]));
            merge_same(findings, &at)
        };
        let one = of([0, 1, 2]);
        let [only] = one.as_slice() else {
            panic!("{one:?}")
        };
        assert_eq!(only.severity, Some(Error));
        let related: Vec<_> = only.related.iter().map(|own| own.place.section).collect();
        assert_eq!(related, [section_of(5), section_of(4), section_of(6)]);
        assert_eq!((only.computed_from.len(), only.shares.len()), (3, 3));
        for order in [[0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]] {
            assert_eq!(of(order), one, "{order:?}");
        }
        let other = said("thinner", 5, Warning);
        assert_eq!(merge_same([Arc::clone(&all[0]), other], &at).len(), 2);
    }
}
