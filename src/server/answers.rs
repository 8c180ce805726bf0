//! The answers that are mostly somebody else's: pulled findings and hovers.

use tower_lsp::lsp_types::*;

use super::desk::Desk;
use crate::ide;

/// The findings of a document, or that they are as they were. A document that
/// is not open has none.
pub fn findings(
    desk: &mut Desk,
    params: DocumentDiagnosticParams,
) -> DocumentDiagnosticReportResult {
    let (number, items) = match desk.findings(&params.text_document.uri) {
        Some((number, items)) => (Some(number.to_string()), items),
        None => (None, Vec::new()),
    };
    let report = match number {
        Some(number) if params.previous_result_id.as_ref() == Some(&number) => {
            DocumentDiagnosticReport::Unchanged(RelatedUnchangedDocumentDiagnosticReport {
                related_documents: None,
                unchanged_document_diagnostic_report: UnchangedDocumentDiagnosticReport {
                    result_id: number,
                },
            })
        }
        result_id => DocumentDiagnosticReport::Full(RelatedFullDocumentDiagnosticReport {
            related_documents: None,
            full_document_diagnostic_report: FullDocumentDiagnosticReport { result_id, items },
        }),
    };
    DocumentDiagnosticReportResult::Report(report)
}

/// What is known of the place under the pointer.
pub fn hover(desk: &mut Desk, at: &TextDocumentPositionParams) -> Option<Hover> {
    let look = desk.look_in_wanted_units(&at.text_document.uri)?;
    let text = look.own()?;
    let hover = ide::hover(&look.analysis, text.offset(at.position))?;
    Some(Hover {
        contents: HoverContents::Markup(MarkupContent {
            kind: MarkupKind::Markdown,
            value: hover.markdown,
        }),
        range: Some(text.range(hover.span)),
    })
}
