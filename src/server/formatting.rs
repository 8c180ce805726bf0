//! Laying a document out: all of it, a range, or the line that was just begun.

use tower_lsp::lsp_types::{
    DocumentFormattingParams, DocumentRangeFormattingParams, Range, TextDocumentPositionParams,
    TextEdit, Url,
};

use super::desk::Desk;
use super::json;
use crate::format;
use crate::text::Edit;

/// The edits that lay a document out, written.
pub fn whole(desk: &mut Desk, params: &DocumentFormattingParams) -> Option<String> {
    laid_out(desk, &params.text_document.uri, None)
}

/// The edits that lay out the lines of a range, written.
pub fn range(desk: &mut Desk, params: &DocumentRangeFormattingParams) -> Option<String> {
    laid_out(desk, &params.text_document.uri, Some(params.range))
}

/// The edits that indent a line after its line break was typed.
pub fn on_type(desk: &mut Desk, at: &TextDocumentPositionParams) -> Option<Vec<TextEdit>> {
    let look = desk.look(&at.text_document.uri)?;
    let (file, text) = (look.analysis.files.first()?, look.own()?);
    let edits = format::on_type(&file.tree, text.offset(at.position)).into_iter();
    let shown = edits.map(|edit| TextEdit::new(text.range(edit.span), edit.text));
    Some(shown.collect())
}

fn laid_out(desk: &mut Desk, uri: &Url, range: Option<Range>) -> Option<String> {
    let look = desk.look(uri)?;
    let (file, text) = (look.analysis.files.first()?, look.own()?);
    let wanted = range.map(|range| text.span(range));
    let edits = desk.layout(uri)?.edits(&file.tree, wanted);
    let mut written = String::with_capacity(128 * edits.len());
    let mut places = text.ascending();
    json::array(edits, &mut written, |edit: Edit, written| {
        written.push_str(r#"{"range":"#);
        json::range(places.range(edit.span), written);
        written.push_str(r#","newText":"#);
        json::text(&edit.text, written);
        written.push('}');
    });
    Some(written)
}
