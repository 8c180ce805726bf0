//! Laying a document out: all of it, a range, or the line that was just begun.

use std::borrow::Cow;

use tower_lsp::lsp_types::{
    DocumentFormattingParams, DocumentRangeFormattingParams, Range, TextDocumentPositionParams,
    TextEdit, Url,
};

use super::json;
use super::positions::Counted;
use super::session::Session;
use crate::format;
use crate::text::Span;

/// The edits that lay a document out, written.
pub(crate) fn whole(
    session: &mut Session,
    params: &DocumentFormattingParams,
    to: &mut String,
) -> Option<()> {
    laid_out(session, &params.text_document.uri, None, to)
}

/// The edits that lay out the lines of a range, written.
pub(crate) fn range(
    session: &mut Session,
    params: &DocumentRangeFormattingParams,
    to: &mut String,
) -> Option<()> {
    laid_out(session, &params.text_document.uri, Some(params.range), to)
}

/// The edits that indent a line after its line break was typed.
pub(crate) fn on_type(
    session: &mut Session,
    at: &TextDocumentPositionParams,
) -> Option<Vec<TextEdit>> {
    let snapshot = session.read_text(&at.text_document.uri)?;
    let text = snapshot.text();
    let edits = format::on_type(&snapshot.file.tree, text.offset(at.position)).into_iter();
    let shown = edits.map(|edit| TextEdit::new(text.range(edit.span), edit.text));
    Some(shown.collect())
}

fn laid_out(session: &mut Session, uri: &Url, range: Option<Range>, to: &mut String) -> Option<()> {
    let snapshot = session.read_text(uri)?;
    let (tree, text) = (&snapshot.file.tree, snapshot.text());
    let layout = session.layout(uri)?;
    match range {
        None => write(layout.whole(tree), text, to),
        Some(range) => {
            let edits = layout.edits(tree, Some(text.span(range))).into_iter();
            let edits = edits.map(|edit| (edit.span, Cow::Owned(edit.text)));
            write(edits.collect(), text, to);
        }
    }
    Some(())
}

fn write(edits: Vec<(Span, Cow<'_, str>)>, text: Counted<'_>, to: &mut String) {
    to.reserve(128 * edits.len());
    let mut places = text.ascending();
    json::array(edits, to, |(span, text), to| {
        to.push_str(r#"{"range":"#);
        json::range(places.range(span), to);
        to.push_str(r#","newText":"#);
        json::text(&text, to);
        to.push('}');
    });
}
