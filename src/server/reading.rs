//! Finding one's way in a document: folds, selections, links and the figures
//! over the surfaces.

use tower_lsp::lsp_types::*;

use super::session::Session;
use crate::ide;

/// What may be folded.
pub(crate) fn folds(
    session: &mut Session,
    params: &FoldingRangeParams,
) -> Option<Vec<FoldingRange>> {
    let (snapshot, _) = session.read_text(&params.text_document.uri)?;
    let lines = &snapshot.file.lines;
    let folds = ide::folds(&snapshot.file.tree).into_iter();
    let shown = folds.map(|fold| FoldingRange {
        start_line: lines.line_of(fold.span.start),
        end_line: lines.line_of(fold.span.end),
        kind: fold.is_comment.then_some(FoldingRangeKind::Comment),
        ..FoldingRange::default()
    });
    Some(shown.collect())
}

/// How a selection grows at each place.
pub(crate) fn selections(
    session: &mut Session,
    params: &SelectionRangeParams,
) -> Option<Vec<SelectionRange>> {
    let snapshot = session.look(&params.text_document.uri)?;
    let text = snapshot.own()?;
    let places = params.positions.iter();
    let grown = places.map(|place| {
        let steps = ide::selections(&snapshot.analysis, text.offset(*place));
        let ranges = steps.into_iter().rev().map(|step| text.range(step));
        let around = ranges.fold(None, |parent, range| {
            let parent = parent.map(Box::new);
            Some(SelectionRange { range, parent })
        });
        around.unwrap_or(SelectionRange {
            range: Range::new(*place, *place),
            parent: None,
        })
    });
    Some(grown.collect())
}

/// The files that a document names.
pub(crate) fn links(
    session: &mut Session,
    params: &DocumentLinkParams,
) -> Option<Vec<DocumentLink>> {
    let uri = &params.text_document.uri;
    let snapshot = session.look(uri)?;
    let text = snapshot.own()?;
    let links = ide::links(&snapshot.analysis).into_iter();
    let shown = links.filter_map(|link| {
        Some(DocumentLink {
            range: text.range(link.span),
            target: Some(uri.join(&link.path).ok()?),
            tooltip: None,
            data: None,
        })
    });
    Some(shown.collect())
}

/// The figures over the surfaces, as text that does nothing.
pub(crate) fn lenses(session: &mut Session, params: &CodeLensParams) -> Option<Vec<CodeLens>> {
    let snapshot = session.look_in_wanted_units(&params.text_document.uri)?;
    let text = snapshot.own()?;
    let lenses = ide::lenses(&snapshot.analysis).into_iter();
    let shown = lenses.map(|lens| CodeLens {
        range: text.range(lens.span),
        command: Some(Command::new(lens.text, String::new(), None)),
        data: None,
    });
    Some(shown.collect())
}
