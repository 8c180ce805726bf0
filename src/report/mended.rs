//! A text with its safe fixes applied.

use super::Row;
use crate::text::{Edit, apply};

/// The text of the checked file with the first fix of each row applied where
/// that fix is safe and lies in this file alone; how many those are. Of fixes
/// that touch one another the first one is taken. `None` if there is none.
pub fn mended<'a>(text: &str, rows: impl IntoIterator<Item = &'a Row>) -> Option<(String, usize)> {
    let mut edits: Vec<Edit> = Vec::new();
    let mut taken = 0;
    for row in rows {
        let Some(fix) = row.fixes.first().filter(|fix| fix.is_safe) else {
            continue;
        };
        let is_own = fix.changes.iter().all(|(at, _)| at.file == 0);
        let changes = fix.changes.iter();
        let own: Vec<Edit> = changes
            .map(|(at, text)| Edit::new(at.bytes, &**text))
            .filter(|edit| edit.span.slice(text) != edit.text)
            .collect();
        let is_free = own
            .iter()
            .all(|edit| edits.iter().all(|taken| are_apart(taken, edit)));
        if is_own && is_free && !own.is_empty() {
            edits.extend(own);
            taken += 1;
        }
    }
    edits.sort_by_key(|edit| (edit.span.start, edit.span.end));
    let text = apply(text, &edits).filter(|_| taken > 0)?;
    Some((text, taken))
}

/// Whether two edits can both be made whatever their order.
fn are_apart(one: &Edit, other: &Edit) -> bool {
    let is_between = one.span.is_empty() || other.span.is_empty();
    let touch = one.span.start <= other.span.end && other.span.start <= one.span.end;
    !(one.span.overlaps(other.span) || is_between && touch)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::Span;

    #[test]
    fn edits_that_touch_are_not_made_together() {
        for (one, other, apart) in [
            ((0, 2), (2, 4), true),
            ((0, 3), (2, 4), false),
            ((0, 2), (2, 2), false),
            ((1, 1), (1, 1), false),
            ((1, 1), (3, 5), true),
        ] {
            let edit = |(start, end)| Edit::new(Span::new(start, end), "x");
            assert_eq!(
                are_apart(&edit(one), &edit(other)),
                apart,
                "{one:?} {other:?}"
            );
            assert_eq!(
                are_apart(&edit(other), &edit(one)),
                apart,
                "{other:?} {one:?}"
            );
        }
    }
}
