//! Laying a document out: all of it, a range, or the line that was just begun.

use tower_lsp::lsp_types::{
    DocumentRangeFormattingParams, TextDocumentPositionParams, TextEdit, Url,
};

use super::desk::Desk;
use super::look::Look;
use super::positions::Counted;
use crate::format;
use crate::syntax::Tree;
use crate::text::Edit;

/// The edits that lay a document out.
pub fn whole(desk: &mut Desk, uri: &Url) -> Option<Vec<TextEdit>> {
    answer(&desk.look(uri)?, |tree, _| format::edits(tree, None))
}

/// The edits that lay out the lines of a range.
pub fn range(desk: &mut Desk, params: &DocumentRangeFormattingParams) -> Option<Vec<TextEdit>> {
    answer(&desk.look(&params.text_document.uri)?, |tree, text| {
        format::edits(tree, Some(text.span(params.range)))
    })
}

/// The edits that indent a line after its line break was typed.
pub fn on_type(desk: &mut Desk, at: &TextDocumentPositionParams) -> Option<Vec<TextEdit>> {
    answer(&desk.look(&at.text_document.uri)?, |tree, text| {
        format::on_type(tree, text.offset(at.position))
    })
}

fn answer(
    look: &Look,
    edits: impl FnOnce(&Tree, Counted<'_>) -> Vec<Edit>,
) -> Option<Vec<TextEdit>> {
    let (file, text) = (look.analysis.files.first()?, look.own()?);
    let edits = edits(&file.tree, text).into_iter();
    Some(
        edits
            .map(|edit| TextEdit::new(text.range(edit.span), edit.text))
            .collect(),
    )
}
