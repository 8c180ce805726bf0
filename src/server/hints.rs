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
    let (later, has_parts) = (
        session.client.resolves_hints,
        session.client.resolves_hint_places,
    );
    let shown = hints.into_iter().map(|hint| InlayHint {
        position: text.position(hint.offset),
        data: later.then(|| json!({ "uri": uri, "label": hint.label })),
        label: label(if later { hint.short() } else { hint.label }, has_parts),
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
    match has_parts {
        false => InlayHintLabel::String(label),
        true => InlayHintLabel::LabelParts(vec![InlayHintLabelPart {
            value: label,
            ..InlayHintLabelPart::default()
        }]),
    }
}

/// A hint with the working of its figure, and the place of an input to go to;
/// as it came if the text has moved on.
pub(crate) fn resolved(session: &mut Session, hint: &InlayHint) -> InlayHint {
    let hint = hint.clone();
    let Some((snapshot, own)) = find(session, &hint) else {
        return hint;
    };
    let mut detail = ide::hint_detail(&snapshot.analysis, &own);
    if own.short() != own.label {
        // What the line has no room for comes first.
        detail.markdown = format!("{}\n\n{}", own.label, detail.markdown);
    }
    let tooltip = InlayHintTooltip::MarkupContent(marked_up(
        detail.markdown.clone(),
        session.client.plain_hovers,
    ));
    let place = detail.input;
    let place = place.and_then(|(file, span)| snapshot.location(file, span, session));
    let label = match hint.label {
        InlayHintLabel::LabelParts(mut parts) => {
            if let Some(first) = parts.first_mut() {
                first.location = place;
            }
            InlayHintLabel::LabelParts(parts)
        }
        plain => plain,
    };
    InlayHint {
        tooltip: (!detail.markdown.is_empty()).then_some(tooltip),
        label,
        ..hint
    }
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
