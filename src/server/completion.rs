//! What may be written at a place.

use serde_json::json;
use tower_lsp::lsp_types::*;

use super::desk::Desk;
use crate::ide::{self, About, Completion, CompletionKind};

/// The offers at a place, in their order; their documentation comes later.
pub fn answer(desk: &mut Desk, at: &TextDocumentPositionParams) -> Option<CompletionResponse> {
    let uri = &at.text_document.uri;
    let look = desk.look_in_wanted_units(uri)?;
    let text = look.own()?;
    let found = ide::completions(&look.analysis, text.offset(at.position))?;
    let range = text.range(found.span);
    let snippets = desk.client.snippets;
    let shown = found.offers.into_iter().enumerate().map(|(index, offer)| {
        let new_text = if snippets {
            offer.text.clone()
        } else {
            offer.plain_text()
        };
        let has_stops = snippets && offer.has_stops;
        CompletionItem {
            kind: Some(kind(offer.kind)),
            sort_text: Some(format!("{index:04}")),
            insert_text_format: has_stops.then_some(InsertTextFormat::SNIPPET),
            text_edit: Some(CompletionTextEdit::Edit(TextEdit::new(range, new_text))),
            data: Some(json!({ "uri": uri, "about": offer.about })),
            ..labelled(offer)
        }
    });
    Some(CompletionResponse::Array(shown.collect()))
}

/// An offer with its documentation.
pub fn resolved(desk: &mut Desk, item: CompletionItem) -> CompletionItem {
    let documentation = documentation(desk, &item).map(|value| {
        Documentation::MarkupContent(MarkupContent {
            kind: MarkupKind::Markdown,
            value,
        })
    });
    CompletionItem {
        documentation,
        ..item
    }
}

fn documentation(desk: &mut Desk, item: &CompletionItem) -> Option<String> {
    let data = item.data.as_ref()?;
    let uri = Url::parse(data.get("uri")?.as_str()?).ok()?;
    let about: About = serde_json::from_value(data.get("about")?.clone()).ok()?;
    ide::documentation(&desk.look_in_wanted_units(&uri)?.analysis, &about)
}

fn labelled(offer: Completion) -> CompletionItem {
    let detail = (!offer.detail.is_empty()).then_some(offer.detail);
    CompletionItem {
        detail,
        label: offer.label,
        ..CompletionItem::default()
    }
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
