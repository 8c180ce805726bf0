//! Names: where they are defined and used, and renaming them.

use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::*;

use super::desk::Desk;
use super::look::Look;
use crate::ide::{self, NameRole, Occurrence, Refusal};
use crate::text::Span;

/// Where a name is defined.
pub fn definition(
    desk: &mut Desk,
    at: &TextDocumentPositionParams,
) -> Option<GotoDefinitionResponse> {
    let (look, places) = places(desk, at)?;
    let places = places.iter();
    let given = places.filter(|place| place.role == NameRole::Definition);
    let given = given.filter_map(|place| location(desk, &look, place.file, place.span));
    Some(GotoDefinitionResponse::Array(given.collect()))
}

/// Where a name is used.
pub fn references(desk: &mut Desk, params: &ReferenceParams) -> Option<Vec<Location>> {
    let (look, places) = places(desk, &params.text_document_position)?;
    let with_own = params.context.include_declaration;
    let wanted = places.iter();
    let wanted = wanted.filter(|place| with_own || place.role == NameRole::Use);
    let shown = wanted.filter_map(|place| location(desk, &look, place.file, place.span));
    Some(shown.collect())
}

/// Where a name stands in its document.
pub fn highlights(
    desk: &mut Desk,
    at: &TextDocumentPositionParams,
) -> Option<Vec<DocumentHighlight>> {
    let (look, places) = places(desk, at)?;
    let text = look.own()?;
    let own = places.iter().filter(|place| place.file == 0);
    let shown = own.map(|place| DocumentHighlight {
        range: text.range(place.span),
        kind: Some(match place.role {
            NameRole::Definition => DocumentHighlightKind::WRITE,
            NameRole::Use => DocumentHighlightKind::READ,
        }),
    });
    Some(shown.collect())
}

/// The name that may be changed.
pub fn prepare(
    desk: &mut Desk,
    at: &TextDocumentPositionParams,
) -> Result<Option<PrepareRenameResponse>> {
    let Some(look) = desk.look(&at.text_document.uri) else {
        return Ok(None);
    };
    let Some(text) = look.own() else {
        return Ok(None);
    };
    let span = ide::renamable(&look.analysis, text.offset(at.position)).map_err(refused)?;
    Ok(span.map(|span| PrepareRenameResponse::Range(text.range(span))))
}

/// The changes of a new name.
pub fn rename(desk: &mut Desk, params: &RenameParams) -> Result<Option<WorkspaceEdit>> {
    let at = &params.text_document_position;
    let Some(look) = desk.look(&at.text_document.uri) else {
        return Ok(None);
    };
    let Some(text) = look.own() else {
        return Ok(None);
    };
    let offset = text.offset(at.position);
    let edits = ide::rename(&look.analysis, offset, &params.new_name).map_err(refused)?;
    Ok(super::actions::changes(edits, &look, desk))
}

fn refused(refusal: Refusal) -> Error {
    let Refusal(message) = refusal;
    Error::invalid_params(message)
}

fn places(desk: &mut Desk, at: &TextDocumentPositionParams) -> Option<(Look, Vec<Occurrence>)> {
    let look = desk.look(&at.text_document.uri)?;
    let offset = look.own()?.offset(at.position);
    let places = ide::places(&look.analysis, offset);
    Some((look, places))
}

fn location(desk: &Desk, look: &Look, file: usize, span: Span) -> Option<Location> {
    let (path, text) = look.file(file)?;
    Some(Location::new(desk.address(path)?, text.range(span)))
}
