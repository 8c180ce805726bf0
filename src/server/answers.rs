//! The answers that are mostly somebody else's: hovers.

use tower_lsp::lsp_types::*;

use super::desk::Desk;
use super::diagnostics::is_shown;
use crate::ide;

/// What is known of the place under the pointer.
pub fn hover(desk: &mut Desk, at: &TextDocumentPositionParams) -> Option<Hover> {
    let look = desk.look_in_wanted_units(&at.text_document.uri)?;
    let text = look.own()?;
    let settings = desk.settings_of(&look.analysis.path);
    let is_told = |finding: &_| !settings.repeats && is_shown(finding, settings.show);
    let hover = ide::hover(&look.analysis, text.offset(at.position), &is_told)?;
    Some(Hover {
        contents: HoverContents::Markup(MarkupContent {
            kind: MarkupKind::Markdown,
            value: hover.markdown,
        }),
        range: Some(text.range(hover.span)),
    })
}
