//! What is known of the place under the pointer.

use tower_lsp::lsp_types::*;

use super::capabilities::marked_up;
use super::diagnostics::is_shown;
use super::session::Session;
use crate::ide;

/// What is known of the place, and the picture of it if the user wants one.
pub(crate) fn answer(session: &mut Session, params: &HoverParams) -> Option<Hover> {
    let at = &params.text_document_position_params;
    let snapshot = session.look_in_wanted_units(&at.text_document.uri)?;
    let text = snapshot.own()?;
    let settings = session.settings_of(&snapshot.analysis.path);
    let is_told = |finding: &_| !settings.repeats && is_shown(finding, settings.show);
    let offset = text.offset(at.position);
    let hover = ide::hover(&snapshot.analysis, offset, &is_told)?;
    let is_plain = session
        .client
        .likes_plain("textDocument.hover.contentFormat");
    let mut markdown = hover.markdown;
    if settings.pictures
        && !is_plain
        && let Some(picture) = ide::picture(&snapshot.analysis, offset)
    {
        markdown = format!("{picture}\n\n{markdown}");
    }
    Some(Hover {
        contents: HoverContents::Markup(marked_up(markdown, is_plain)),
        range: Some(text.range(hover.span)),
    })
}
