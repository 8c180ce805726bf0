//! A file is to be moved or renamed: the lines that lead to it, and its own
//! that lead elsewhere, are changed with it.

use std::collections::{BTreeMap, BTreeSet};

use tower_lsp::lsp_types::{RenameFilesParams, WorkspaceEdit};

use super::changes::Changes;
use super::checking::Analysers;
use super::paths;
use super::session::Session;
use super::snapshot::Snapshot;
use super::workspace_references::Known;
use crate::analysis::folder;
use crate::ide::{self, ActionEdit};
use crate::report::path_from;

/// Files that are moved: where from, and where to.
type Moves = BTreeMap<String, String>;

/// The changes of `use` and `like` lines that go with files that are moved;
/// nothing if none leads to them, or if nobody waits for them any more.
pub(crate) fn changes(
    session: &mut Session,
    params: &RenameFilesParams,
    is_over: &dyn Fn() -> bool,
) -> Option<WorkspaceEdit> {
    let moves = params.files.iter();
    let moves =
        moves.filter_map(|file| paths::of_text(&file.old_uri).zip(paths::of_text(&file.new_uri)));
    let moves: Moves = moves.collect();
    let readers = moves.keys().flat_map(|from| session.readers(from));
    let concerned: BTreeSet<String> = moves.keys().cloned().chain(readers).collect();
    let mut analysers = Analysers::default();
    let mut changes = Changes::default();
    let mut is_any = false;
    for path in concerned {
        if is_over() {
            return None;
        }
        let Some(snapshot) = session.look_at_spec(&path, &mut analysers, Known::Words) else {
            continue;
        };
        let edits = edits(&snapshot, &moves);
        is_any |= !edits.is_empty();
        changes.add(edits, &snapshot, session);
    }
    is_any.then(|| changes.finish(session))
}

/// What changes in one file: its paths, as seen from where it will lie, to
/// where the others will lie.
fn edits(snapshot: &Snapshot, moves: &Moves) -> Vec<ActionEdit> {
    let own = &snapshot.analysis.path;
    let moved = |path: &str| moves.get(path).map(String::as_str);
    let folder = folder(moved(own).unwrap_or(own));
    let links = ide::links(&snapshot.analysis).into_iter();
    let changed = links.filter_map(|link| {
        let leads_to = paths::of(&paths::address(own)?.join(&link.path).ok()?);
        let follows = moved(&leads_to);
        if follows.is_none() && moved(own).is_none() {
            return None;
        }
        let text = path_from(follows.unwrap_or(&leads_to), folder);
        (text != link.path).then_some(ActionEdit {
            file: 0,
            span: link.span,
            text,
        })
    });
    changed.collect()
}
