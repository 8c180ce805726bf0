//! What may be folded away: sections, and comments of several lines.

use crate::syntax::{LineKind, Tree};
use crate::text::Span;

/// A stretch that may be folded to its first line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fold {
    /// From the start of its first line to the end of its last, in bytes of
    /// the file.
    pub span: Span,
    /// Whether it is a comment.
    pub is_comment: bool,
}

/// The stretches of a file that may be folded, in order.
pub fn folds(tree: &Tree) -> Vec<Fold> {
    let mut folds = Vec::new();
    for placed in tree.sections.iter() {
        let mut section: Option<Span> = None;
        let mut comment: Option<Span> = None;
        for line in tree.lines_of(placed) {
            let text = line.text.trim_end_matches(['\r', '\n']);
            let span = Span::new(line.start, line.start + text.len() as u32);
            if line.line.kind == LineKind::Comment {
                comment = Some(comment.map_or(span, |before| before.join(span)));
                continue;
            }
            folds.extend(comment.take().map(|span| Fold {
                span,
                is_comment: true,
            }));
            match line.line.kind {
                LineKind::Heading => section = Some(span),
                LineKind::Entry | LineKind::Unread => {
                    section = section.map(|before| before.join(span));
                }
                LineKind::Blank | LineKind::Comment => {}
            }
        }
        let last = comment.map(|span| Fold {
            span,
            is_comment: true,
        });
        let own = section.map(|span| Fold {
            span,
            is_comment: false,
        });
        folds.extend(last.into_iter().chain(own));
    }
    folds.retain(|fold| {
        let text = tree.text_of(fold.span);
        text.contains(['\n', '\r'])
    });
    folds.sort_by_key(|fold| fold.span.start);
    folds
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed};

    #[test]
    fn sections_and_comments_of_several_lines_fold() {
        let text = "# one\n# two\njob \"A\"\n  note \"x\"\n\n# alone\nlet a = 5 m\nshape b\n  # in\n  # it\n  start (0, 0)\n\n\n";
        let analysis = analysed(text);
        let folded: Vec<&str> = folds(&analysis.files[0].tree)
            .iter()
            .map(|fold| fold.span.slice(text))
            .collect();
        assert_eq!(
            folded,
            [
                "# one\n# two",
                "job \"A\"\n  note \"x\"",
                "shape b\n  # in\n  # it\n  start (0, 0)",
                "  # in\n  # it",
            ]
        );
        let sections = folds(&analysed(COURT).files[0].tree);
        assert_eq!(sections.iter().filter(|fold| !fold.is_comment).count(), 6);
    }
}
