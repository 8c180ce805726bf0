//! Findings as the protocol carries them.

use std::cmp::Reverse;
use std::sync::Arc;

use serde_json::{Value, json};
use tower_lsp::lsp_types::*;

use super::session::Session;
use super::snapshot::Snapshot;
use crate::findings::{Finding, FindingList, Fix, Place, Severity};
use crate::rules;

/// More findings than this of one document no editor shows in a useful way.
const MOST: usize = 300;

/// The findings of a document that is open, as a client asks for them, or that
/// they are as they were. One that is not open has none.
pub(crate) fn answer(
    session: &mut Session,
    params: &DocumentDiagnosticParams,
) -> DocumentDiagnosticReportResult {
    let found = session.findings(&params.text_document.uri);
    let result_id = found.map(|found| found.number.to_string());
    let is_known = result_id.is_some() && result_id == params.previous_result_id;
    let report = match result_id.clone().filter(|_| is_known) {
        Some(result_id) => RelatedUnchangedDocumentDiagnosticReport {
            related_documents: None,
            unchanged_document_diagnostic_report: UnchangedDocumentDiagnosticReport { result_id },
        }
        .into(),
        None => RelatedFullDocumentDiagnosticReport {
            related_documents: None,
            full_document_diagnostic_report: FullDocumentDiagnosticReport {
                items: found.map_or_else(Vec::new, |found| found.findings.clone()),
                result_id,
            },
        }
        .into(),
    };
    DocumentDiagnosticReportResult::Report(report)
}

/// The findings of a document that nobody has accepted, in their order. Of
/// very many the most serious, and how many there are.
pub(crate) fn of(snapshot: &Snapshot, session: &Session) -> Vec<Diagnostic> {
    let least = session.settings_of(&snapshot.analysis.path).show;
    let (shown, count) = most_serious(&snapshot.analysis.findings, least, MOST);
    let shown = shown.into_iter();
    let shown = shown.filter_map(|finding| diagnostic(finding, snapshot, session));
    let more = (count > MOST).then(|| too_many(count));
    shown.chain(more).collect()
}

/// The most serious of the findings that are shown, `most` of them, in their
/// order; and how many there are.
fn most_serious(
    findings: &FindingList,
    least: Severity,
    most: usize,
) -> (Vec<&Arc<Finding>>, usize) {
    let shown = findings.iter().filter(|finding| is_shown(finding, least));
    let mut shown: Vec<(usize, &Arc<Finding>)> = shown.enumerate().collect();
    let count = shown.len();
    if count > most {
        shown.sort_by_key(|(_, finding)| Reverse(weight(finding)));
        shown.truncate(most);
        shown.sort_unstable_by_key(|(index, _)| *index);
    }
    let shown = shown.into_iter().map(|(_, finding)| finding);
    (shown.collect(), count)
}

/// Says at the top of a document that not all is shown.
fn too_many(count: usize) -> Diagnostic {
    Diagnostic {
        severity: Some(DiagnosticSeverity::INFORMATION),
        code: Some(NumberOrString::String("too-many".to_owned())),
        source: Some("drylay".to_owned()),
        message: format!(
            "{count} findings are more than an editor can show: these are the {MOST} most \
             serious; `drylay check` lists all of them"
        ),
        ..Diagnostic::default()
    }
}

/// Whether nobody has accepted a finding, and it matters enough to the user.
/// Cautions are no findings: they are read in a hover and on the sheets.
pub(crate) fn is_shown(finding: &Finding, least: Severity) -> bool {
    finding.accepted.is_none() && !finding.is_caution() && weight(finding) >= least
}

/// One finding; nothing if its place is not in the document.
pub(crate) fn diagnostic(
    finding: &Finding,
    snapshot: &Snapshot,
    session: &Session,
) -> Option<Diagnostic> {
    let (_, span) = snapshot.analysis.span(finding.place)?;
    let names_places = "textDocument.publishDiagnostics.relatedInformation";
    let is_related = !finding.related.is_empty() && session.client.can(names_places);
    let related = || {
        let places = finding.related.iter();
        let known = places.filter_map(|related| {
            Some(DiagnosticRelatedInformation {
                location: location(related.place, snapshot, session)?,
                message: related.message.to_string(),
            })
        });
        known.collect::<Vec<_>>()
    };
    let settings = session.settings_of(&snapshot.analysis.path);
    let message = match &finding.help {
        Some(help) => format!("{}\n{help}", finding.message),
        None => finding.message.to_string(),
    };
    Some(Diagnostic {
        range: snapshot.own()?.range(span),
        severity: Some(severity(weight(finding), settings.deny)),
        code: Some(NumberOrString::String(finding.rule.to_owned())),
        code_description: described_at(finding.rule),
        source: Some("drylay".to_owned()),
        message,
        related_information: is_related.then(related),
        tags: None,
        data: data(&finding.fixes, snapshot, session),
    })
}

/// Where the rule can be read about, if there is such a place.
fn described_at(rule: &str) -> Option<CodeDescription> {
    let address = rules::address(rules::find(rule)?)?;
    let href = Url::parse(&address).ok()?;
    Some(CodeDescription { href })
}

/// How much a finding matters.
fn weight(finding: &Finding) -> Severity {
    finding.severity.unwrap_or(Severity::Warning)
}

/// What is denied is an error.
fn severity(severity: Severity, denied: Severity) -> DiagnosticSeverity {
    match severity {
        severity if severity >= denied => DiagnosticSeverity::ERROR,
        Severity::Error => DiagnosticSeverity::ERROR,
        Severity::Warning => DiagnosticSeverity::WARNING,
        Severity::Advisory => DiagnosticSeverity::INFORMATION,
    }
}

fn location(place: Place, snapshot: &Snapshot, session: &Session) -> Option<Location> {
    let (file, span) = snapshot.analysis.span(place)?;
    snapshot.location(file, span, session)
}

/// The fixes, for clients that make use of them without asking again.
fn data(fixes: &[Fix], snapshot: &Snapshot, session: &Session) -> Option<Value> {
    let shown = |fix: &Fix| {
        let edits = fix.changes.iter().filter_map(|change| {
            let Location { uri, range } = location(change.place, snapshot, session)?;
            Some(json!({"uri": uri, "range": range, "newText": &*change.text}))
        });
        let edits: Vec<Value> = edits.collect();
        (edits.len() == fix.changes.len())
            .then(|| json!({"title": &*fix.title, "safe": fix.safe, "edits": edits}))
    };
    let fixes: Vec<Value> = fixes.iter().filter_map(shown).collect();
    (!fixes.is_empty()).then(|| json!({ "fixes": fixes }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::{FileId, SectionRef};
    use crate::syntax::SectionId;
    use crate::text::Span;

    /// So many findings, one in a hundred an error.
    fn findings(count: u32) -> FindingList {
        let section = SectionRef {
            section: SectionId(0),
            file: FileId(0),
        };
        let finding = |number: u32| {
            let span = Span::at(number);
            let severity = match number % 100 {
                99 => Severity::Error,
                _ => Severity::Advisory,
            };
            Arc::new(Finding::new("lip", Place { section, span }, "x").severity(severity))
        };
        (0..count).map(finding).collect()
    }

    #[test]
    fn of_very_many_the_most_serious_are_sent() {
        for (count, least, sent, of) in [
            (0, Severity::Advisory, 0, 0),
            (300, Severity::Advisory, 300, 300),
            (301, Severity::Advisory, 300, 301),
            (5_000, Severity::Advisory, 300, 5_000),
            (5_000, Severity::Warning, 50, 50),
        ] {
            let all = findings(count);
            let (shown, found) = most_serious(&all, least, MOST);
            assert_eq!((shown.len(), found), (sent, of), "{count}");
            let is_error = |finding: &&Arc<Finding>| finding.severity == Some(Severity::Error);
            let errors = all.iter().filter(|finding| is_error(finding)).count();
            assert_eq!(
                shown.iter().copied().filter(|own| is_error(own)).count(),
                errors
            );
            assert!(
                shown.is_sorted_by_key(|finding| finding.place),
                "in their order"
            );
        }
    }
}
