//! Whether a minus subtracts or is a sign.

use super::tree::{Fault, FaultKind, Item, ItemKind, Operator};

/// Settles every minus of a phrase, which the grammar has left as a
/// subtraction: with a blank on both sides, after a value, it subtracts;
/// touching a value, where none stands before it, it is a sign; any other is
/// a fault, since feet and inches, a range and a negative value are written
/// alike by many.
pub(super) fn settle_minus(items: &mut [Item], faults: &mut Vec<Fault>) {
    for at in 0..items.len() {
        let after_value = at
            .checked_sub(1)
            .and_then(|before| items.get(before))
            .is_some_and(is_value);
        let next = items
            .get(at + 1)
            .map(|next| (next.span.start, takes_sign(next)));
        let Some(item) = items.get_mut(at) else {
            continue;
        };
        if item.kind != ItemKind::Operator(Operator::Subtract) {
            continue;
        }
        if after_value && item.spaced_before && item.spaced_after {
            continue;
        }
        if !after_value && next == Some((item.span.end, true)) {
            item.kind = ItemKind::Negative;
        } else {
            item.kind = ItemKind::Stray;
            faults.push(Fault {
                span: item.span,
                kind: FaultKind::MinusUnclear,
            });
        }
    }
}

/// True for what a value ends with.
pub(super) fn is_value(item: &Item) -> bool {
    match item.kind {
        ItemKind::Word
        | ItemKind::Reference { .. }
        | ItemKind::Text { .. }
        | ItemKind::Date
        | ItemKind::Ratio { .. }
        | ItemKind::TightParts
        | ItemKind::Number { .. }
        | ItemKind::Per { .. }
        | ItemKind::Group { .. }
        | ItemKind::Call { .. } => true,
        ItemKind::Operator(_)
        | ItemKind::Negative
        | ItemKind::By
        | ItemKind::Colon
        | ItemKind::Equals
        | ItemKind::Stray => false,
    }
}

/// True for what may be negative.
fn takes_sign(item: &Item) -> bool {
    matches!(
        item.kind,
        ItemKind::Number { .. }
            | ItemKind::Ratio { .. }
            | ItemKind::Word
            | ItemKind::Group { .. }
            | ItemKind::Call { .. }
    )
}
