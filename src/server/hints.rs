//! Hints at the ends of lines.

use tower_lsp::lsp_types::{InlayHint, InlayHintLabel, InlayHintParams};

use super::desk::Desk;
use crate::ide;

/// The hints in a range, of the kinds that the user wants.
pub fn answer(desk: &mut Desk, params: &InlayHintParams) -> Option<Vec<InlayHint>> {
    let look = desk.look_in_wanted_units(&params.text_document.uri)?;
    let text = look.own()?;
    let hints = ide::hints(&look.analysis, text.span(params.range), |kind| {
        desk.settings.shows(kind)
    });
    let shown = hints.into_iter().map(|hint| InlayHint {
        position: text.position(hint.offset),
        label: InlayHintLabel::String(hint.label),
        kind: None,
        text_edits: None,
        tooltip: None,
        padding_left: Some(true),
        padding_right: None,
        data: None,
    });
    Some(shown.collect())
}
