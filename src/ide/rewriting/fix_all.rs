//! All safe fixes of a file at once.

use super::edit;
use crate::analysis::Analysis;
use crate::ide::ActionEdit;
use crate::text::Span;

/// The changes of every finding's first fix that may be made unseen and
/// touches no other file, in order; of fixes that touch one another the first
/// is taken. Empty if there is none.
pub fn all_fixes(analysis: &Analysis) -> Vec<ActionEdit> {
    let mut taken: Vec<ActionEdit> = Vec::new();
    for finding in analysis.findings.iter() {
        let fix = finding.fixes.first().filter(|fix| fix.safe);
        let Some(fix) = fix.filter(|_| finding.accepted.is_none()) else {
            continue;
        };
        let own: Option<Vec<ActionEdit>> = fix
            .changes
            .iter()
            .map(|change| match analysis.span(change.place)? {
                (0, span) => Some(edit(span, &*change.text)),
                _ => None,
            })
            .collect();
        let Some(own) = own else { continue };
        let is_free = own
            .iter()
            .all(|one| taken.iter().all(|other| are_apart(one.span, other.span)));
        if is_free {
            taken.extend(own);
        }
    }
    taken.sort_by_key(|edit| (edit.span.start, edit.span.end));
    taken
}

/// Whether two stretches can both be changed, whatever the order.
fn are_apart(one: Span, other: Span) -> bool {
    let has_empty = one.is_empty() || other.is_empty();
    let touch = one.start <= other.end && other.start <= one.end;
    !(one.overlaps(other) || has_empty && touch)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed};
    use crate::text::{Edit, apply};

    fn fixed(text: &str) -> String {
        let edits: Vec<Edit> = all_fixes(&analysed(text))
            .into_iter()
            .map(|edit| Edit::new(edit.span, edit.text))
            .collect();
        apply(text, &edits).expect("edits in order and apart")
    }

    #[test]
    fn safe_fixes_are_made_and_others_are_not() {
        let broken = COURT
            .replace("  units        metric", "  units,       metric")
            .replace("150 mm compacted, lifts", "150 mm compacted lifts")
            .replace("  fabric ", "  fabrik ");
        let mended = fixed(&broken);
        assert!(mended.contains("compacted, lifts"), "{mended}");
        assert!(!mended.contains("units,"), "{mended}");
        let left = analysed(&broken);
        let safe = left
            .findings
            .iter()
            .flat_map(|finding| finding.fixes.first());
        assert!(safe.filter(|fix| fix.safe).count() >= 2);
        assert_eq!(fixed(&mended), mended);
        assert_eq!(fixed(COURT), COURT);
    }
}
