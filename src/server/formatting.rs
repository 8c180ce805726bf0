//! Laying a document out: all of it, a range, or the line that was just begun.

use tower_lsp::lsp_types::{
    DocumentFormattingParams, DocumentOnTypeFormattingParams, DocumentRangeFormattingParams, Range,
    TextEdit, Url,
};

use super::session::Session;
use crate::format;

/// The edits that lay a document out.
pub(crate) fn whole(
    session: &mut Session,
    params: &DocumentFormattingParams,
) -> Option<Vec<TextEdit>> {
    laid_out(session, &params.text_document.uri, None)
}

/// The edits that lay out the lines of a range.
pub(crate) fn range(
    session: &mut Session,
    params: &DocumentRangeFormattingParams,
) -> Option<Vec<TextEdit>> {
    laid_out(session, &params.text_document.uri, Some(params.range))
}

/// The edits that indent a line after its line break was typed.
pub(crate) fn on_type(
    session: &mut Session,
    params: &DocumentOnTypeFormattingParams,
) -> Option<Vec<TextEdit>> {
    let at = &params.text_document_position;
    let (snapshot, _) = session.read_text(&at.text_document.uri)?;
    let text = snapshot.text();
    let edits = format::on_type(&snapshot.file.tree, text.offset(at.position)).into_iter();
    let shown = edits.map(|edit| TextEdit::new(text.range(edit.span), edit.text));
    Some(shown.collect())
}

fn laid_out(session: &mut Session, uri: &Url, range: Option<Range>) -> Option<Vec<TextEdit>> {
    let (snapshot, check) = session.read_text(uri)?;
    let (tree, text) = (&snapshot.file.tree, snapshot.text());
    let range = range.map(|range| text.span(range));
    let edits = check.layout.edits(tree, range).into_iter();
    let mut range = text.ranges();
    let shown = edits.map(|edit| TextEdit::new(range(edit.span), edit.text));
    Some(shown.collect())
}
