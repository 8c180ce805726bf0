//! Quick fixes, and other changes that are offered.

use serde_json::json;
use tower_lsp::lsp_types::*;

use super::changes::Changes;
use super::commands;
use super::desk::Desk;
use super::diagnostics;
use super::look::Look;
use super::positions::Counted;
use crate::ide::{self, Action, ActionEdit, Rewriting, RewritingKind};
use crate::text::{Edit, Lines, apply};

/// The fixes of the findings in a range, and what else may be done there. All
/// safe fixes at once are made only where they are asked for by their kind.
pub fn answer(desk: &mut Desk, params: CodeActionParams) -> Option<CodeActionResponse> {
    let look = desk.look(&params.text_document.uri)?;
    let span = look.own()?.span(params.range);
    let only = params.context.only.as_deref();
    let wants = |kind: &CodeActionKind| {
        only.is_none_or(|kinds| kinds.iter().any(|own| covers(own.as_str(), kind.as_str())))
    };
    let fixes = ide::actions(&look.analysis, span).into_iter();
    let fixes = fixes.filter_map(|action| shown(action, &look, desk));
    let others = ide::rewritings(&look.analysis, span).into_iter();
    let others = others.filter_map(|rewriting| rewritten(rewriting, &look, desk));
    let all = only.and_then(|_| all_at_once(&look, desk));
    let offered = fixes.chain(others).chain(all);
    let wanted = offered.filter(|action| action.kind.as_ref().is_some_and(wants));
    Some(wanted.map(CodeActionOrCommand::CodeAction).collect())
}

/// Whether a kind that was asked for takes in another: kinds are nested, and
/// the empty kind takes in all.
fn covers(asked: &str, kind: &str) -> bool {
    let rest = kind.strip_prefix(asked);
    rest.is_some_and(|rest| asked.is_empty() || rest.is_empty() || rest.starts_with('.'))
}

fn rewritten(rewriting: Rewriting, look: &Look, desk: &Desk) -> Option<CodeAction> {
    let finding = rewriting.finding;
    let finding = finding.and_then(|index| look.analysis.findings.get(index));
    Some(CodeAction {
        title: rewriting.title,
        kind: Some(match rewriting.kind {
            RewritingKind::Accept | RewritingKind::Define => CodeActionKind::QUICKFIX,
            RewritingKind::Rewrite => CodeActionKind::REFACTOR_REWRITE,
            RewritingKind::Extract => CodeActionKind::REFACTOR_EXTRACT,
            RewritingKind::Inline => CodeActionKind::REFACTOR_INLINE,
        }),
        command: rewriting
            .cursor
            .filter(|_| desk.client.shows_documents)
            .and_then(|cursor| go_on_at(cursor, &rewriting.edits, look, desk)),
        diagnostics: finding
            .and_then(|finding| diagnostics::diagnostic(finding, look, desk))
            .map(|shown| vec![shown]),
        edit: Some(changes(rewriting.edits, look, desk)?),
        ..CodeAction::default()
    })
}

/// The command that puts the cursor where to go on writing, once the changes
/// are made.
fn go_on_at(cursor: u32, edits: &[ActionEdit], look: &Look, desk: &Desk) -> Option<Command> {
    let own = look.own()?;
    let edits: Vec<Edit> = edits
        .iter()
        .map(|edit| Edit::new(edit.span, edit.text.clone()))
        .collect();
    let text = apply(own.text, &edits)?;
    let changed = Counted {
        text: &text,
        lines: &Lines::new(&text),
        encoding: look.encoding,
    };
    let uri = desk.address(&look.analysis.path)?;
    let place = json!({"uri": uri, "position": changed.position(cursor)});
    Some(Command::new(
        "Go on writing here".to_owned(),
        commands::CURSOR.to_owned(),
        Some(vec![place]),
    ))
}

fn all_at_once(look: &Look, desk: &Desk) -> Option<CodeAction> {
    let edits = ide::all_fixes(&look.analysis);
    if edits.is_empty() {
        return None;
    }
    Some(CodeAction {
        title: "Make all safe fixes".to_owned(),
        kind: Some(CodeActionKind::SOURCE_FIX_ALL),
        edit: Some(changes(edits, look, desk)?),
        ..CodeAction::default()
    })
}

fn changes(edits: Vec<ActionEdit>, look: &Look, desk: &Desk) -> Option<WorkspaceEdit> {
    let mut changes = Changes::default();
    changes.add(edits, look, desk)?;
    Some(changes.finish(desk))
}

fn shown(action: Action, look: &Look, desk: &Desk) -> Option<CodeAction> {
    let finding = look.analysis.findings.get(action.finding)?;
    Some(CodeAction {
        title: action.title,
        kind: Some(CodeActionKind::QUICKFIX),
        diagnostics: diagnostics::diagnostic(finding, look, desk).map(|shown| vec![shown]),
        edit: Some(changes(action.edits, look, desk)?),
        is_preferred: Some(action.preferred),
        ..CodeAction::default()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_are_nested() {
        for (asked, kind, does) in [
            ("", "quickfix", true),
            ("quickfix", "quickfix", true),
            ("quickfix.safe", "quickfix", false),
            ("quick", "quickfix", false),
            ("refactor", "refactor.extract", true),
            ("refactor.rewrite", "refactor.extract", false),
            ("source", "source.fixAll", true),
            ("source.fixAll.other", "source.fixAll", false),
        ] {
            assert_eq!(covers(asked, kind), does, "{asked} {kind}");
        }
    }
}
