//! A whole file, laid out.

use super::seam::{BYTE_ORDER_MARK, Edge, Opening};
use super::section::laid_section;
use crate::syntax::Tree;

/// The text of a tree, laid out.
///
/// It says the same as before, keeps every comment and every line's own line
/// end, and laid out again it stays as it is.
pub fn formatted(tree: &Tree) -> String {
    let mut text = String::with_capacity(tree.text.len());
    let mut in_force = None;
    let mut above: Option<Edge> = None;
    for placed in tree.sections.iter() {
        let opening = Opening::of(tree, placed, in_force);
        in_force = opening.in_force;
        let laid = laid_section(tree, placed, in_force);
        let edge = Edge::of(&laid, opening.own);
        if edge.is_empty {
            continue;
        }
        if let Some(above) = &above {
            text.push_str(&above.seam(Some(&edge)));
        }
        text.push_str(&laid.text);
        above = Some(edge);
    }
    // A mark from further down must not become the file's own.
    if text.starts_with(BYTE_ORDER_MARK) {
        return tree.text.to_string();
    }
    if tree.text.starts_with(BYTE_ORDER_MARK) {
        text.insert_str(0, BYTE_ORDER_MARK);
    }
    text
}
