//! The reference pages, made from the tables that define what they tell of:
//! the vocabulary, the units, the catalogue and the rules. A test fails when
//! a page in the repository is not what is made here.

mod language;
mod materials;
mod rules;

pub use language::language;
pub use materials::materials;
pub(super) use rules::explanation;
pub use rules::{limits, rules};

/// A page of the reference.
pub struct Page {
    /// Its file name.
    pub name: &'static str,
    /// What makes it, as Markdown.
    pub make: fn() -> String,
}

/// The pages of the reference.
pub const PAGES: &[Page] = &[
    Page {
        name: "README.md",
        make: language,
    },
    Page {
        name: "materials.md",
        make: materials,
    },
    Page {
        name: "rules.md",
        make: rules,
    },
    Page {
        name: "limits.md",
        make: limits,
    },
];

/// A row of a table, its bars kept from parting it.
fn row(cells: &[&str]) -> String {
    let cells: Vec<String> = cells
        .iter()
        .map(|cell| cell.replace('|', "\\|").replace('\n', " "))
        .collect();
    format!("| {} |\n", cells.join(" | "))
}
