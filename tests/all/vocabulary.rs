//! What the language says, for tests that put words where they do not belong:
//! what is added to the table is among it.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use drylay::vocabulary::{Key, SECTIONS};

use crate::random::Random;

/// The words of every form and of every example of the table, each once.
pub static WORDS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let examples = SECTIONS.iter().map(|kind| kind.example.to_owned());
    let values = keys().flat_map(|key| [key.example.to_owned(), key.parsed().shown()]);
    let clauses = keys().flat_map(|key| key.clauses);
    let clauses = clauses.map(|clause| clause.parsed().shown());
    let texts: Vec<String> = examples.chain(values).chain(clauses).collect();
    let words = texts
        .iter()
        .flat_map(|text| text.split([' ', '\n', '|', '(', ')']));
    let words: BTreeSet<&str> = words.filter(|word| !word.is_empty()).collect();
    words.into_iter().map(str::to_owned).collect()
});

/// Every example as it stands in a spec, on lines of its own.
pub static LINES: LazyLock<Vec<String>> = LazyLock::new(|| {
    let entries = keys().map(|key| format!("\n  {}\n", key.example));
    let sections = SECTIONS.iter().map(|kind| format!("\n{}\n", kind.example));
    entries.chain(sections).collect()
});

fn keys() -> impl Iterator<Item = &'static Key> {
    SECTIONS.iter().flat_map(|kind| kind.keys)
}

/// One of some pieces or, as often, a word or an example of the language.
pub fn piece<'a>(random: &mut Random, pieces: &'a [&'a str]) -> &'a str {
    match random.below(4) {
        0 => random.pick::<String>(&WORDS),
        1 => random.pick::<String>(&LINES),
        _ => random.pick::<&str>(pieces),
    }
}

#[test]
fn every_word_of_the_table_is_among_them() {
    for word in [
        "drain",
        "haunched",
        "infiltration",
        "below-string",
        "overnight",
    ] {
        assert!(WORDS.iter().any(|own| own == word), "{word}");
    }
    assert!(WORDS.len() > 400 && LINES.len() > 150);
}
