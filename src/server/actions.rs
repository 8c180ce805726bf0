//! Quick fixes.

use std::collections::HashMap;

use tower_lsp::lsp_types::*;

use super::desk::Desk;
use super::diagnostics;
use super::look::Look;
use crate::ide::{self, Action};

/// The fixes of the findings in a range.
pub fn answer(desk: &mut Desk, params: CodeActionParams) -> Option<CodeActionResponse> {
    let wanted = params.context.only.as_deref();
    let wanted = wanted.is_none_or(|kinds| kinds.iter().any(|kind| covers_fixes(kind.as_str())));
    let look = desk.look(&params.text_document.uri).filter(|_| wanted)?;
    let span = look.own()?.span(params.range);
    let actions = ide::actions(&look.analysis, span).into_iter();
    let shown = actions.filter_map(|action| shown(action, &look, desk));
    Some(shown.map(CodeActionOrCommand::CodeAction).collect())
}

/// Whether a kind that was asked for takes in quick fixes: kinds are nested,
/// and the empty kind takes in all.
fn covers_fixes(kind: &str) -> bool {
    kind.is_empty() || kind == "quickfix"
}

fn shown(action: Action, look: &Look, desk: &Desk) -> Option<CodeAction> {
    let finding = look.analysis.findings.get(action.finding)?;
    let mut changes: HashMap<Url, Vec<TextEdit>> = HashMap::new();
    for edit in action.edits {
        let (path, text) = look.file(edit.file)?;
        let edit = TextEdit::new(text.range(edit.span), edit.text);
        changes.entry(desk.address(path)?).or_default().push(edit);
    }
    Some(CodeAction {
        title: action.title,
        kind: Some(CodeActionKind::QUICKFIX),
        diagnostics: diagnostics::diagnostic(finding, look, desk).map(|shown| vec![shown]),
        edit: Some(WorkspaceEdit::new(changes)),
        is_preferred: Some(action.preferred),
        ..CodeAction::default()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_kinds_around_quick_fixes_take_them_in() {
        for (kind, covers) in [
            ("", true),
            ("quickfix", true),
            ("quickfix.safe", false),
            ("quick", false),
            ("source", false),
        ] {
            assert_eq!(covers_fixes(kind), covers, "{kind}");
        }
    }
}
