//! The reference pages, made from the tables that define what they tell of:
//! the vocabulary, the units, the catalogue and the rules. The pages in the
//! repository are what is made here.

mod language;
mod materials;
mod rules;

use language::language;
use materials::materials;
use rules::{limits, rules};

use crate::golden;

/// A page of the reference.
struct Page {
    /// Its file name.
    name: &'static str,
    /// What makes it, as Markdown.
    make: fn() -> String,
}

/// The pages of the reference.
const PAGES: &[Page] = &[
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

#[test]
fn the_reference_pages_are_up_to_date() {
    for page in PAGES {
        golden::made(&format!("grammar/{}", page.name), |_| (page.make)());
    }
}
