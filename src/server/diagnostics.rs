//! Findings as the protocol carries them.

use serde_json::{Value, json};
use tower_lsp::lsp_types::{
    CodeDescription, Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity,
    DocumentDiagnosticParams, Location, NumberOrString, Url,
};

use super::diagnostics_cache::write;
use super::session::Session;
use super::snapshot::Snapshot;
use crate::findings::{Finding, Fix, Place, Severity};
use crate::rules;

/// Writes the findings of a document as a client asks for them, or that they
/// are as they were. A document that is not open has none.
pub(crate) fn asked(session: &mut Session, params: &DocumentDiagnosticParams, to: &mut String) {
    let Some((number, findings)) = session.findings(&params.text_document.uri) else {
        to.push_str(r#"{"kind":"full","items":[]}"#);
        return;
    };
    let number = number.to_string();
    if params.previous_result_id.as_ref() == Some(&number) {
        to.push_str(&format!(r#"{{"kind":"unchanged","resultId":"{number}"}}"#));
        return;
    }
    to.push_str(&format!(
        r#"{{"kind":"full","resultId":"{number}","items":["#
    ));
    write(&findings, to);
    to.push_str("]}");
}

/// The findings of a document that nobody has accepted.
pub(crate) fn of(snapshot: &Snapshot, session: &Session) -> Vec<Diagnostic> {
    let settings = session.settings_of(&snapshot.analysis.path);
    let findings = snapshot
        .analysis
        .findings
        .iter()
        .filter(|finding| is_shown(finding, settings.show));
    findings
        .filter_map(|finding| diagnostic(finding, snapshot, session))
        .collect()
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
    let related = || {
        let places = finding.related.iter();
        let known = places.filter_map(|related| {
            Some(DiagnosticRelatedInformation {
                location: location(related.place, snapshot, session)?,
                message: related.message.clone(),
            })
        });
        known.collect::<Vec<_>>()
    };
    let settings = session.settings_of(&snapshot.analysis.path);
    let message = match &finding.help {
        Some(help) => format!("{}\n{help}", finding.message),
        None => finding.message.clone(),
    };
    Some(Diagnostic {
        range: snapshot.own()?.range(span),
        severity: Some(severity(weight(finding), settings.deny)),
        code: Some(NumberOrString::String(finding.rule.to_owned())),
        code_description: described_at(finding.rule),
        source: Some("drylay".to_owned()),
        message,
        related_information: (session.client.related && !finding.related.is_empty()).then(related),
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
pub(crate) fn weight(finding: &Finding) -> Severity {
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
    let (path, text) = snapshot.file(file)?;
    Some(Location::new(session.address(path)?, text.range(span)))
}

/// The fixes, for clients that make use of them without asking again.
fn data(fixes: &[Fix], snapshot: &Snapshot, session: &Session) -> Option<Value> {
    let shown = |fix: &Fix| {
        let edits = fix.changes.iter().filter_map(|change| {
            let Location { uri, range } = location(change.place, snapshot, session)?;
            Some(json!({"uri": uri, "range": range, "newText": change.text}))
        });
        let edits: Vec<Value> = edits.collect();
        (edits.len() == fix.changes.len())
            .then(|| json!({"title": fix.title, "safe": fix.safe, "edits": edits}))
    };
    let fixes: Vec<Value> = fixes.iter().filter_map(shown).collect();
    (!fixes.is_empty()).then(|| json!({ "fixes": fixes }))
}
