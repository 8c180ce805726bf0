//! What may be written at a place.

use serde_json::json;
use tower_lsp::lsp_types::*;

use super::capabilities::marked_up;
use super::session::Session;
use super::snapshot::Snapshot;
use crate::analysis::folder;
use crate::ide::{self, About, CompletionKind, WrittenPath};
use crate::report::path_from;

/// The offers at a place, in their order; their documentation comes later.
pub(crate) fn answer(
    session: &mut Session,
    params: &CompletionParams,
) -> Option<CompletionResponse> {
    let at = &params.text_document_position;
    let uri = &at.text_document.uri;
    let snapshot = session.look_in_wanted_units(uri)?;
    let text = snapshot.own()?;
    if let Some(written) = ide::written_path(&snapshot.analysis, text.offset(at.position)) {
        return Some(paths(session, &snapshot, &written)?.into());
    }
    let found = ide::completions(&snapshot.analysis, text.offset(at.position))?;
    let range = text.range(found.span);
    let snippets = session
        .client
        .can("textDocument.completion.completionItem.snippetSupport");
    let shown = found.offers.into_iter().enumerate().map(|(index, offer)| {
        let text = match snippets {
            true => offer.text.clone(),
            false => offer.plain_text(),
        };
        let has_stops = snippets && offer.has_stops;
        CompletionItem {
            label: offer.label,
            detail: Some(offer.detail).filter(|detail| !detail.is_empty()),
            kind: Some(kind(offer.kind)),
            sort_text: Some(format!("{index:04}")),
            insert_text_format: has_stops.then_some(InsertTextFormat::SNIPPET),
            text_edit: Some(TextEdit::new(range, text).into()),
            data: Some(json!({ "uri": uri, "about": offer.about })),
            ..CompletionItem::default()
        }
    });
    Some(CompletionResponse::Array(shown.collect()))
}

/// The files that a path may lead to, the nearest first.
fn paths(
    session: &Session,
    snapshot: &Snapshot,
    written: &WrittenPath,
) -> Option<Vec<CompletionItem>> {
    let own = &snapshot.analysis.path;
    let folder = folder(own);
    let is_standard = |path: &str| path.ends_with("/standard.patio");
    let known = session.known_specs().into_iter();
    let fitting = known.filter(|path| path != own && is_standard(path) == written.is_standard);
    let mut paths: Vec<String> = fitting.map(|path| path_from(&path, folder)).collect();
    paths.sort_by_key(|path| (path.matches('/').count(), path.clone()));
    let range = snapshot.own()?.range(written.span);
    let end = if written.is_closed { "" } else { "\"" };
    let item = |(index, path): (usize, String)| CompletionItem {
        kind: Some(CompletionItemKind::FILE),
        sort_text: Some(format!("{index:04}")),
        filter_text: Some(path.clone()),
        text_edit: Some(TextEdit::new(range, format!("{path}{end}")).into()),
        label: path,
        ..CompletionItem::default()
    };
    Some(paths.into_iter().enumerate().map(item).collect())
}

/// An offer with its documentation.
pub(crate) fn resolved(session: &mut Session, item: &CompletionItem) -> CompletionItem {
    let is_plain = session
        .client
        .likes_plain("textDocument.completion.completionItem.documentationFormat");
    let documentation = documentation(session, item)
        .map(|reported| Documentation::MarkupContent(marked_up(reported, is_plain)));
    CompletionItem {
        documentation,
        ..item.clone()
    }
}

fn documentation(session: &mut Session, item: &CompletionItem) -> Option<String> {
    let data = item.data.as_ref()?;
    let uri = Url::parse(data.get("uri")?.as_str()?).ok()?;
    let about: About = serde_json::from_value(data.get("about")?.clone()).ok()?;
    ide::documentation(&session.look_in_wanted_units(&uri)?.analysis, &about)
}

/// Editors draw a sign for each of the protocol's kinds; these look least odd.
fn kind(kind: CompletionKind) -> CompletionItemKind {
    match kind {
        CompletionKind::Section => CompletionItemKind::MODULE,
        CompletionKind::Key => CompletionItemKind::PROPERTY,
        CompletionKind::Word => CompletionItemKind::KEYWORD,
        CompletionKind::Choice => CompletionItemKind::ENUM_MEMBER,
        CompletionKind::Name => CompletionItemKind::VARIABLE,
        CompletionKind::Catalogue => CompletionItemKind::CLASS,
        CompletionKind::Edge => CompletionItemKind::FIELD,
        CompletionKind::Unit => CompletionItemKind::UNIT,
        CompletionKind::Function => CompletionItemKind::FUNCTION,
        CompletionKind::Rule => CompletionItemKind::CONSTANT,
    }
}
