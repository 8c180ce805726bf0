//! The form of the entry that is being written.

use tower_lsp::lsp_types::*;

use super::session::Session;
use crate::ide;

/// The form, with the part being written.
pub(crate) fn answer(session: &mut Session, params: &SignatureHelpParams) -> Option<SignatureHelp> {
    let (snapshot, offset) = session.look_at(&params.text_document_position_params)?;
    let found = ide::signature(&snapshot.analysis, offset)?;
    let active = found.active.map(|active| active as u32);
    let parameters = found.parts.into_iter().map(|part| ParameterInformation {
        label: ParameterLabel::Simple(part.label),
        documentation: Some(Documentation::String(part.help)),
    });
    Some(SignatureHelp {
        signatures: vec![SignatureInformation {
            label: found.label,
            documentation: Some(Documentation::String(found.help)),
            parameters: Some(parameters.collect()),
            active_parameter: active,
        }],
        active_signature: Some(0),
        active_parameter: active,
    })
}
