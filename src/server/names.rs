//! Names: where they are defined and used, and renaming them.

use std::convert::Infallible;

use indexmap::IndexMap;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::*;

use super::changes::Changes;
use super::desk::Desk;
use super::everywhere::{Known, Question, everywhere};
use super::look::Look;
use super::paths;
use crate::ide::{self, NameRole, Occurrence, Refusal};
use crate::report::shown_path;
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

/// Where a name is used, in every spec that sees it, unless nobody waits for
/// it any more.
pub fn references(
    desk: &mut Desk,
    params: &ReferenceParams,
    is_over: &dyn Fn() -> bool,
) -> Option<Vec<Location>> {
    let at = &params.text_document_position;
    let look = desk.look(&at.text_document.uri)?;
    let offset = look.own()?.offset(at.position);
    let with_own = params.context.include_declaration;
    let mut found: IndexMap<Url, Vec<Location>> = IndexMap::new();
    let question = Question {
        others: &[],
        known: Known::Words,
        is_over,
    };
    let asked = everywhere(
        desk,
        &look,
        offset,
        &question,
        |desk, look, file, offset| {
            let places = ide::places_of(&look.analysis, file, offset);
            for place in &places {
                let is_wanted = with_own || place.role == NameRole::Use;
                let place = location(desk, look, place.file, place.span).filter(|_| is_wanted);
                let Some(place) = place else { continue };
                let own = found.entry(place.uri.clone()).or_default();
                if !own.contains(&place) {
                    own.push(place);
                }
            }
            let spans = places.iter().map(|place| (place.file, place.span));
            Ok::<_, Infallible>(spans.collect())
        },
    );
    asked.ok().map(|()| found.into_values().flatten().collect())
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

/// The changes of a new name, in every spec that sees it, unless nobody waits
/// for them any more.
pub fn rename(
    desk: &mut Desk,
    params: &RenameParams,
    is_over: &dyn Fn() -> bool,
) -> Result<Option<WorkspaceEdit>> {
    let at = &params.text_document_position;
    let Some(look) = desk.look(&at.text_document.uri) else {
        return Ok(None);
    };
    let Some(text) = look.own() else {
        return Ok(None);
    };
    let offset = text.offset(at.position);
    let mut changes = Changes::default();
    let question = Question {
        others: &[params.new_name.as_str()],
        // An edge may have a name from the form of its shape.
        known: match ide::is_edge(&look.analysis, offset) {
            true => Known::Whole,
            false => Known::Words,
        },
        is_over,
    };
    everywhere(
        desk,
        &look,
        offset,
        &question,
        |desk, look, file, offset| {
            let renamed = ide::rename_of(&look.analysis, file, offset, &params.new_name);
            let edits = renamed.map_err(|refusal| {
                elsewhere(desk, look, &params.text_document_position, refusal)
            })?;
            let places = edits.iter().map(|edit| (edit.file, edit.span)).collect();
            let added = changes.add(edits, look, desk);
            added.ok_or_else(|| Refusal("a file that it stands in has no address".to_owned()))?;
            Ok::<_, Refusal>(places)
        },
    )
    .map_err(refused)?;
    Ok((!is_over()).then(|| changes.finish(desk)))
}

/// A refusal, with the spec that it comes from if that is not the one in which
/// the name was to be changed.
fn elsewhere(
    desk: &Desk,
    look: &Look,
    at: &TextDocumentPositionParams,
    refusal: Refusal,
) -> Refusal {
    let path = &look.analysis.path;
    if *path == paths::of(&at.text_document.uri) {
        return refusal;
    }
    let Refusal(message) = refusal;
    let shown = shown_path(path, desk.roots.shown_from(path));
    Refusal(format!("in {shown}: {message}"))
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
