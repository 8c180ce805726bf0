//! The answers that are mostly somebody else's: hovers.

use tower_lsp::lsp_types::*;

use super::capabilities::marked_up;
use super::diagnostics::is_shown;
use super::session::Session;
use crate::ide;

/// What is known of the place under the pointer.
pub fn hover(session: &mut Session, at: &TextDocumentPositionParams) -> Option<Hover> {
    let snapshot = session.look_in_wanted_units(&at.text_document.uri)?;
    let text = snapshot.own()?;
    let settings = session.settings_of(&snapshot.analysis.path);
    let is_told = |finding: &_| !settings.repeats && is_shown(finding, settings.show);
    let hover = ide::hover(&snapshot.analysis, text.offset(at.position), &is_told)?;
    Some(Hover {
        contents: HoverContents::Markup(marked_up(hover.markdown, session.client.plain_hovers)),
        range: Some(text.range(hover.span)),
    })
}
