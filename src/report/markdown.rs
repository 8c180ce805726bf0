//! What every sheet in Markdown is made of.

use crate::text::{Shown, clean};

/// Text that means nothing to Markdown.
pub(super) fn plain(text: &str) -> String {
    clean(text, Shown::Markdown).into_owned()
}

/// A row of a table.
pub(super) fn row(cells: impl IntoIterator<Item = String>) -> String {
    let cells: Vec<String> = cells.into_iter().collect();
    format!("| {} |\n", cells.join(" | "))
}

/// A heading with items under it; nothing without items.
pub(super) fn list(heading: &str, items: &[String]) -> String {
    let lines = items.iter().map(|item| format!("- {}\n", plain(item)));
    match items.is_empty() {
        true => String::new(),
        false => format!("\n## {heading}\n\n{}", lines.collect::<String>()),
    }
}
