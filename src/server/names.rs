//! Names: where they are defined and used, and renaming them.

use std::convert::Infallible;

use indexmap::IndexMap;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::*;

use super::changes::Changes;
use super::paths;
use super::session::Session;
use super::snapshot::Snapshot;
use super::workspace_references::{Known, Question, everywhere};
use crate::ide::{self, NameRole, Occurrence, Refusal};
use crate::report::shown_path;

/// Where a name is defined.
pub(crate) fn definition(
    session: &mut Session,
    params: &GotoDefinitionParams,
) -> Option<GotoDefinitionResponse> {
    let (snapshot, places) = places(session, &params.text_document_position_params)?;
    let places = places.iter();
    let given = places.filter(|place| place.role == NameRole::Definition);
    let given = given.filter_map(|place| snapshot.location(place.file, place.span, session));
    Some(GotoDefinitionResponse::Array(given.collect()))
}

/// Where a name is used, in every spec that sees it, unless nobody waits for
/// it any more.
pub(crate) fn references(
    session: &mut Session,
    params: &ReferenceParams,
    is_over: &dyn Fn() -> bool,
) -> Option<Vec<Location>> {
    let (snapshot, offset) = session.look_at(&params.text_document_position)?;
    let with_own = params.context.include_declaration;
    let mut found: IndexMap<Url, Vec<Location>> = IndexMap::new();
    let question = Question {
        others: &[],
        known: Known::Words,
        is_over,
    };
    let asked = everywhere(
        session,
        &snapshot,
        offset,
        &question,
        |session, snapshot, file, at| {
            let places = ide::places_of(&snapshot.analysis, file, at);
            let wanted = places
                .iter()
                .filter(|place| with_own || place.role == NameRole::Use);
            let wanted = wanted.map(|place| snapshot.location(place.file, place.span, session));
            for place in wanted.flatten() {
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
pub(crate) fn highlights(
    session: &mut Session,
    params: &DocumentHighlightParams,
) -> Option<Vec<DocumentHighlight>> {
    let (snapshot, places) = places(session, &params.text_document_position_params)?;
    let text = snapshot.own()?;
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
pub(crate) fn prepare(
    session: &mut Session,
    at: &TextDocumentPositionParams,
) -> Result<Option<PrepareRenameResponse>> {
    let Some((snapshot, offset)) = session.look_at(at) else {
        return Ok(None);
    };
    let span = ide::renamable(&snapshot.analysis, offset).map_err(refused)?;
    let place = snapshot.own().zip(span);
    Ok(place.map(|(text, span)| PrepareRenameResponse::Range(text.range(span))))
}

/// The changes of a new name, in every spec that sees it, unless nobody waits
/// for them any more.
pub(crate) fn rename(
    session: &mut Session,
    params: &RenameParams,
    is_over: &dyn Fn() -> bool,
) -> Result<Option<WorkspaceEdit>> {
    let Some((snapshot, offset)) = session.look_at(&params.text_document_position) else {
        return Ok(None);
    };
    let mut changes = Changes::default();
    let question = Question {
        others: &[params.new_name.as_str()],
        // An edge may have a name from the form of its shape.
        known: match ide::is_edge(&snapshot.analysis, offset) {
            true => Known::Whole,
            false => Known::Words,
        },
        is_over,
    };
    everywhere(
        session,
        &snapshot,
        offset,
        &question,
        |session, snapshot, file, at| {
            let renamed = ide::rename_of(&snapshot.analysis, file, at, &params.new_name);
            let edits = renamed.map_err(|refusal| {
                elsewhere(session, snapshot, &params.text_document_position, refusal)
            })?;
            let places = edits.iter().map(|edit| (edit.file, edit.span)).collect();
            let added = changes.add(edits, snapshot, session);
            added.ok_or_else(|| Refusal("a file that it stands in has no address".to_owned()))?;
            Ok::<_, Refusal>(places)
        },
    )
    .map_err(refused)?;
    Ok((!is_over()).then(|| changes.finish(session)))
}

/// A refusal, with the spec that it comes from if that is not the one in which
/// the name was to be changed.
fn elsewhere(
    session: &Session,
    snapshot: &Snapshot,
    at: &TextDocumentPositionParams,
    refusal: Refusal,
) -> Refusal {
    let path = &snapshot.analysis.path;
    if *path == paths::of(&at.text_document.uri) {
        return refusal;
    }
    let Refusal(message) = refusal;
    let shown = shown_path(path, session.roots.shown_from(path));
    Refusal(format!("in {shown}: {message}"))
}

fn refused(refusal: Refusal) -> Error {
    let Refusal(message) = refusal;
    Error::invalid_params(message)
}

fn places(
    session: &mut Session,
    at: &TextDocumentPositionParams,
) -> Option<(Snapshot, Vec<Occurrence>)> {
    let (snapshot, offset) = session.look_at(at)?;
    let places = ide::places(&snapshot.analysis, offset);
    Some((snapshot, places))
}
