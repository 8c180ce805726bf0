//! Quick fixes, and other changes that are offered.

use serde_json::json;
use tower_lsp::lsp_types::*;

use super::changes::Changes;
use super::commands;
use super::diagnostics;
use super::positions::Counted;
use super::session::Session;
use super::snapshot::Snapshot;
use crate::ide::{self, Action, ActionEdit, Rewriting, RewritingKind};
use crate::text::{Edit, Lines, apply};

/// The fixes of the findings in a range, and what else may be done there. All
/// safe fixes at once are made only where they are asked for by their kind.
pub(crate) fn answer(
    session: &mut Session,
    params: &CodeActionParams,
) -> Option<CodeActionResponse> {
    let snapshot = session.look(&params.text_document.uri)?;
    let span = snapshot.own()?.span(params.range);
    let only = params.context.only.as_deref();
    let wants = |kind: &CodeActionKind| {
        only.is_none_or(|kinds| kinds.iter().any(|own| covers(own.as_str(), kind.as_str())))
    };
    let fixes = ide::actions(&snapshot.analysis, span).into_iter();
    let fixes = fixes.filter_map(|action| shown(action, &snapshot, session));
    let others = ide::rewritings(&snapshot.analysis, span).into_iter();
    let others = others.filter_map(|rewriting| rewritten(rewriting, &snapshot, session));
    let all = only.and_then(|_| all_at_once(&snapshot, session));
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

fn rewritten(rewriting: Rewriting, snapshot: &Snapshot, session: &Session) -> Option<CodeAction> {
    let command = go_on(&rewriting, snapshot, session);
    Some(CodeAction {
        title: rewriting.title,
        kind: Some(match rewriting.kind {
            RewritingKind::Accept | RewritingKind::Define => CodeActionKind::QUICKFIX,
            RewritingKind::Rewrite => CodeActionKind::REFACTOR_REWRITE,
            RewritingKind::Extract => CodeActionKind::REFACTOR_EXTRACT,
            RewritingKind::Inline => CodeActionKind::REFACTOR_INLINE,
        }),
        command,
        diagnostics: rewriting
            .finding
            .and_then(|index| finding(index, snapshot, session)),
        edit: Some(changes(rewriting.edits, snapshot, session)?),
        ..CodeAction::default()
    })
}

/// The command that puts the cursor where to go on writing, once the changes
/// are made, if there is such a place and the client can show it.
fn go_on(rewriting: &Rewriting, snapshot: &Snapshot, session: &Session) -> Option<Command> {
    let can = session.client.can("window.showDocument.support");
    let cursor = rewriting.cursor.filter(|_| can)?;
    let edits = rewriting.edits.iter();
    let edits = edits.map(|edit| Edit::new(edit.span, edit.text.clone()));
    let text = apply(snapshot.own()?.text, &edits.collect::<Vec<_>>())?;
    let changed = Counted {
        text: &text,
        lines: &Lines::new(&text),
        encoding: snapshot.encoding,
    };
    let uri = session.address(&snapshot.analysis.path)?;
    let place = json!({"uri": uri, "position": changed.position(cursor)});
    Some(Command::new(
        "Go on writing here".to_owned(),
        commands::CURSOR.to_owned(),
        Some(vec![place]),
    ))
}

fn all_at_once(snapshot: &Snapshot, session: &Session) -> Option<CodeAction> {
    let edits = ide::all_fixes(&snapshot.analysis);
    if edits.is_empty() {
        return None;
    }
    Some(CodeAction {
        title: "Make all safe fixes".to_owned(),
        kind: Some(CodeActionKind::SOURCE_FIX_ALL),
        edit: Some(changes(edits, snapshot, session)?),
        ..CodeAction::default()
    })
}

fn changes(
    edits: Vec<ActionEdit>,
    snapshot: &Snapshot,
    session: &Session,
) -> Option<WorkspaceEdit> {
    let mut changes = Changes::default();
    changes.add(edits, snapshot, session)?;
    Some(changes.finish(session))
}

/// The finding that an action is for, as it was sent.
fn finding(index: usize, snapshot: &Snapshot, session: &Session) -> Option<Vec<Diagnostic>> {
    let finding = snapshot.analysis.findings.get(index)?;
    Some(vec![diagnostics::diagnostic(finding, snapshot, session)?])
}

fn shown(action: Action, snapshot: &Snapshot, session: &Session) -> Option<CodeAction> {
    Some(CodeAction {
        title: action.title,
        kind: Some(CodeActionKind::QUICKFIX),
        diagnostics: finding(action.finding, snapshot, session),
        edit: Some(changes(action.edits, snapshot, session)?),
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
