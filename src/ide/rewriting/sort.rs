//! The layers of a build, put in order from the top down.

use super::{Rewriting, RewritingKind, edit};
use crate::analysis::Analysis;
use crate::findings::FileId;
use crate::ide::cursor::Cursor;
use crate::syntax::LineKind;
use crate::text::Span;
use crate::vocabulary::Role;

/// The layers of the build at a place in the order in which they lie. Each
/// takes the comments above it along; a sheet stays under the layer that it
/// is listed after.
pub(crate) fn sorted(analysis: &Analysis, wanted: Span) -> Option<Rewriting> {
    let file = analysis.files.first()?;
    let tree = &file.tree;
    let cursor = Cursor::at(file, FileId(0), wanted.start)?;
    if cursor.kind?.word != "build" {
        return None;
    }
    let placed = tree.find(cursor.section.section)?;
    let mut layers: Vec<(usize, Span)> = Vec::new();
    let mut comments: Option<Span> = None;
    for line in tree.lines_of(placed) {
        let span = line.span();
        match line.line.kind {
            LineKind::Comment => {
                comments = Some(comments.map_or(span, |before| before.join(span)));
            }
            LineKind::Entry => {
                let whole = comments.take().map_or(span, |above| above.join(span));
                let Some(role) = Role::from_word(line.word()) else {
                    continue;
                };
                let depth = Role::ALL.iter().position(|own| *own == role)?;
                match layers.last().filter(|_| role.is_sheet()) {
                    Some((above, _)) => layers.push((*above, whole)),
                    None => layers.push((depth, whole)),
                }
            }
            LineKind::Heading => comments = None,
            LineKind::Blank | LineKind::Unread => comments = None,
        }
    }
    let mut in_order = layers.clone();
    in_order.sort_by_key(|(depth, _)| *depth);
    // A last line without an end would run into the next one.
    let is_whole = |span: Span| span.slice(&tree.text).ends_with(['\n', '\r']);
    if in_order == layers || !layers.iter().all(|(_, span)| is_whole(*span)) {
        return None;
    }
    let edits = layers.iter().zip(&in_order);
    Some(Rewriting {
        title: "Sort the layers from the top down".to_owned(),
        kind: RewritingKind::Rewrite,
        finding: None,
        cursor: None,
        edits: edits
            .filter(|((_, old), (_, new))| old != new)
            .map(|((_, old), (_, new))| edit(*old, new.slice(&tree.text)))
            .collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::super::tests::rewritten;

    const MIXED: &str = "build a\n  # hard\n  base stone, 5 cm\n  fabric cloth\n  permeable\n  paving flag, 3 cm # f\n  bed sand, 4 cm\n";

    #[test]
    fn layers_are_sorted_with_their_comments_and_sheets() {
        let text = rewritten(&MIXED.replacen("build a", "build ¦a", 1), "Sort");
        assert_eq!(
            text.as_deref(),
            Some(
                "build a\n  paving flag, 3 cm # f\n  bed sand, 4 cm\n  permeable\n  # hard\n  base stone, 5 cm\n  fabric cloth\n"
            )
        );
    }

    #[test]
    fn what_is_in_order_or_no_build_is_left() {
        for text in [
            "build ¦a\n  paving flag, 3 cm\n  base stone, 5 cm\n  fabric cloth\n",
            "shape ¦a\n  west 3 m\n  east 3 m\n",
            "build a\n  base stone, 5 cm\n  paving ¦flag, 3 cm",
        ] {
            assert_eq!(rewritten(text, "Sort"), None, "{text}");
        }
    }
}
