//! The reference pages, made from the tables that define what they tell of:
//! the vocabulary, the units, the catalogue and the rules. A test fails when
//! a page in the repository is not what is made here.

mod language;
mod materials;
mod rules;

pub use language::language;
pub use materials::materials;
pub use rules::{limits, rules};

/// The pages by file name, each with what makes it.
pub const PAGES: &[(&str, fn() -> String)] = &[
    ("README.md", language),
    ("materials.md", materials),
    ("rules.md", rules),
    ("limits.md", limits),
];

/// A row of a table, its bars kept from parting it.
fn row(cells: &[&str]) -> String {
    let cells: Vec<String> = cells
        .iter()
        .map(|cell| cell.replace('|', "\\|").replace('\n', " "))
        .collect();
    format!("| {} |\n", cells.join(" | "))
}
