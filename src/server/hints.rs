//! Hints at the ends of lines; what stands behind one is told when it is
//! pointed at.

use serde_json::{Value, json};
use tower_lsp::lsp_types::*;

use super::capabilities::marked_up;
use super::session::Session;
use super::snapshot::Snapshot;
use crate::ide::{self, Hint};
use crate::text::Span;

/// The hints in a range, of the kinds that the user wants.
pub(crate) fn answer(session: &mut Session, params: &InlayHintParams) -> Option<Vec<InlayHint>> {
    let uri = &params.text_document.uri;
    let snapshot = session.look_in_wanted_units(uri)?;
    let text = snapshot.own()?;
    let settings = session.settings_of(&snapshot.analysis.path);
    let hints = ide::hints(&snapshot.analysis, text.span(params.range), |kind| {
        settings.shows(kind)
    });
    let later = session.client.told("textDocument.inlayHint.resolveSupport");
    let parts = later.and_then(|later| later.get("properties")?.as_array());
    let has_parts = parts.is_some_and(|all| all.contains(&"label.location".into()));
    let shown = hints.into_iter().map(|hint| InlayHint {
        position: text.position(hint.offset),
        data: later.map(|_| json!({ "uri": uri, "label": hint.label })),
        label: match later {
            Some(_) => label(hint.short(), has_parts),
            None => label(hint.label, has_parts),
        },
        kind: None,
        text_edits: None,
        tooltip: None,
        padding_left: Some(true),
        padding_right: None,
    });
    Some(shown.collect())
}

/// A client that can ask where a part of a label leads gets it as a part.
fn label(label: String, has_parts: bool) -> InlayHintLabel {
    if !has_parts {
        return label.into();
    }
    vec![InlayHintLabelPart {
        value: label,
        ..InlayHintLabelPart::default()
    }]
    .into()
}

/// A hint with the working of its figure, and the place of an input to go to;
/// as it came if the text has moved on.
pub(crate) fn resolved(session: &mut Session, hint: &InlayHint) -> InlayHint {
    let mut hint = hint.clone();
    let Some((snapshot, own)) = find(session, &hint) else {
        return hint;
    };
    let mut detail = ide::hint_detail(&snapshot.analysis, &own);
    if own.short() != own.label {
        // What the line has no room for comes first.
        detail.markdown = format!("{}\n\n{}", own.label, detail.markdown);
    }
    let is_plain = session
        .client
        .likes_plain("textDocument.hover.contentFormat");
    let is_any = !detail.markdown.is_empty();
    let tooltip = is_any.then(|| marked_up(detail.markdown, is_plain).into());
    let place = detail
        .input
        .and_then(|(file, span)| snapshot.location(file, span, session));
    if let InlayHintLabel::LabelParts(parts) = &mut hint.label
        && let Some(first) = parts.first_mut()
    {
        first.location = place;
    }
    InlayHint { tooltip, ..hint }
}

/// The hint that a client shows, as it is now.
fn find(session: &mut Session, hint: &InlayHint) -> Option<(Snapshot, Hint)> {
    let data = hint.data.as_ref()?;
    let uri = Url::parse(data.get("uri")?.as_str()?).ok()?;
    let label = data.get("label").and_then(Value::as_str)?;
    let snapshot = session.look_in_wanted_units(&uri)?;
    let at = snapshot.own()?.offset(hint.position);
    let mut hints = ide::hints(&snapshot.analysis, Span::at(at), |_| true).into_iter();
    let own = hints.find(|own| own.offset == at && own.label == label)?;
    Some((snapshot, own))
}
