//! Findings of an open document, made ready to be sent, and kept from one
//! edit to the next: most of them are as they were, and where they were.

use std::cmp::Reverse;
use std::sync::Arc;

use rustc_hash::FxHashMap;
use tower_lsp::lsp_types::{Diagnostic, DiagnosticSeverity, NumberOrString, Range};

use super::desk::Desk;
use super::diagnostics::{diagnostic, is_shown};
use super::look::Look;
use crate::findings::{Finding, Place};

/// More findings than this of one document no editor shows in a useful way.
const MOST: usize = 300;

/// A finding as it is sent.
#[derive(Debug)]
pub struct Ready {
    /// For a report on the whole workspace.
    pub diagnostic: Diagnostic,
    /// The same, written.
    pub json: String,
}

/// The findings of a document that were sent last.
#[derive(Debug, Default)]
pub struct Prepared {
    /// By the address of the finding, which is kept with it.
    ready: FxHashMap<usize, Kept>,
}

#[derive(Debug)]
struct Kept {
    finding: Arc<Finding>,
    /// Where it and all that it points at stand.
    ranges: Vec<Option<Range>>,
    ready: Arc<Ready>,
}

impl Prepared {
    /// The findings of a document that nobody has accepted, as they are sent.
    /// Of very many the gravest are, and how many there are.
    pub fn of(&mut self, look: &Look, desk: &Desk) -> Vec<Arc<Ready>> {
        let settings = desk.settings_of(&look.analysis.path);
        let findings = look.analysis.findings.iter();
        let shown: Vec<&Arc<Finding>> = findings
            .filter(|finding| is_shown(finding, settings))
            .collect();
        let mut kept = FxHashMap::default();
        let mut all = Vec::new();
        for finding in gravest(&shown) {
            let address = Arc::as_ptr(finding).addr();
            let ranges: Vec<Option<Range>> =
                places(finding).map(|place| range(place, look)).collect();
            let known = self
                .ready
                .remove(&address)
                .filter(|kept| Arc::ptr_eq(&kept.finding, finding) && kept.ranges == ranges);
            let ready = match known {
                Some(kept) => Some(kept.ready),
                None => diagnostic(finding, look, desk).and_then(Ready::of),
            };
            let Some(ready) = ready else { continue };
            all.push(Arc::clone(&ready));
            let finding = Arc::clone(finding);
            kept.insert(
                address,
                Kept {
                    finding,
                    ranges,
                    ready,
                },
            );
        }
        self.ready = kept;
        if shown.len() > MOST {
            all.extend(Ready::of(too_many(shown.len())));
        }
        all
    }
}

impl Ready {
    /// A finding, and how it is written.
    pub fn of(diagnostic: Diagnostic) -> Option<Arc<Ready>> {
        let json = serde_json::to_string(&diagnostic).ok()?;
        Some(Arc::new(Ready { diagnostic, json }))
    }
}

/// Findings as they are written one after the other, for a JSON array.
pub fn written(findings: &[Arc<Ready>]) -> String {
    let all: Vec<&str> = findings.iter().map(|own| own.json.as_str()).collect();
    all.join(",")
}

/// The gravest of very many, in their order.
fn gravest<'a>(shown: &[&'a Arc<Finding>]) -> Vec<&'a Arc<Finding>> {
    if shown.len() <= MOST {
        return shown.to_vec();
    }
    let mut order: Vec<usize> = (0..shown.len()).collect();
    let severity = |index: &usize| shown.get(*index).map(|finding| Reverse(finding.severity));
    order.sort_by_key(severity);
    order.truncate(MOST);
    order.sort_unstable();
    let chosen = order.into_iter();
    chosen
        .filter_map(|index| shown.get(index).copied())
        .collect()
}

/// Says at the top of a document that not all is shown.
fn too_many(count: usize) -> Diagnostic {
    Diagnostic {
        severity: Some(DiagnosticSeverity::INFORMATION),
        code: Some(NumberOrString::String("too-many".to_owned())),
        source: Some("drylay".to_owned()),
        message: format!(
            "{count} findings are more than an editor can show: these are the {MOST} gravest; \
             `drylay check` lists all of them"
        ),
        ..Diagnostic::default()
    }
}

/// All that a finding points at.
fn places(finding: &Finding) -> impl Iterator<Item = Place> {
    let related = finding.related.iter().map(|related| related.place);
    let changes = finding.fixes.iter().flat_map(|fix| &fix.changes);
    std::iter::once(finding.place)
        .chain(related)
        .chain(changes.map(|change| change.place))
}

fn range(place: Place, look: &Look) -> Option<Range> {
    let (file, span) = look.analysis.span(place)?;
    Some(look.file(file)?.1.range(span))
}

#[cfg(test)]
mod tests {
    use crate::findings::{SectionRef, Severity};
    use crate::syntax::SectionId;
    use crate::text::Span;

    use super::*;

    fn findings(count: usize) -> Vec<Arc<Finding>> {
        let section = SectionRef {
            section: SectionId(0),
            file: crate::findings::FileId(0),
        };
        let finding = |number: usize| {
            let place = Place {
                section,
                span: Span::at(number as u32),
            };
            let severity = match number % 100 {
                99 => Severity::Error,
                _ => Severity::Advice,
            };
            Arc::new(Finding::new("lip", place, "x").severity(severity))
        };
        (0..count).map(finding).collect()
    }

    #[test]
    fn of_very_many_the_gravest_are_sent() {
        for (count, sent) in [
            (0, 0),
            (5, 5),
            (MOST, MOST),
            (MOST + 1, MOST),
            (5_000, MOST),
        ] {
            let all = findings(count);
            let all: Vec<&Arc<Finding>> = all.iter().collect();
            let chosen = gravest(&all);
            assert_eq!(chosen.len(), sent);
            let grave = |finding: &&&Arc<Finding>| finding.severity == Some(Severity::Error);
            assert_eq!(
                chosen.iter().filter(grave).count(),
                all.iter().filter(grave).count(),
                "every error of {count}"
            );
            assert!(
                chosen.is_sorted_by_key(|finding| finding.place),
                "in their order"
            );
        }
    }
}
