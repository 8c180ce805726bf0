//! How something is sold, as the catalogue writes it.

use super::literal;
use crate::units::{Quantity, Unit, find_unit};

/// What a sale is by: a pack with what is in it, a unit, or (with neither)
/// each.
type Sale = (Option<(String, Quantity)>, Option<&'static Unit>);

/// Reads `by ton`, `by each`, `by bag of 94 lb`.
pub(crate) fn sale(text: &str) -> Option<Sale> {
    let by = text.trim().strip_prefix("by ")?.trim();
    if by == "each" {
        return Some((None, None));
    }
    if let Some((word, content)) = by.split_once(" of ") {
        return Some((Some((word.to_owned(), literal(content)?)), None));
    }
    Some((None, Some(find_unit(by)?)))
}
