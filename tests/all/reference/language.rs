//! The language reference, made from the vocabulary.

use std::fmt::Write;

use drylay::report::table_row as row;
use drylay::units::{System, UNITS};
use drylay::vocabulary::{Clause, FUNCTIONS, Form, Key, SECTIONS, SMALL_WORDS, SectionKind};

/// What no table says: how the language is written, and what figures mean.
const HOW: &str = include_str!("language.md");
const FIGURES: &str = include_str!("figures.md");

/// The language reference as Markdown.
pub fn language() -> String {
    let mut page = HOW.to_owned();
    functions(&mut page);
    units(&mut page);
    let _ = writeln!(
        page,
        "\nThe small words, which name nothing: {}.",
        SMALL_WORDS
            .iter()
            .map(|word| format!("`{word}`"))
            .collect::<Vec<_>>()
            .join(", ")
    );
    page.push_str("\n## Sections\n");
    for kind in SECTIONS {
        section(&mut page, kind);
    }
    page.push('\n');
    page.push_str(FIGURES);
    page
}

fn functions(page: &mut String) {
    page.push_str("\n### Functions\n\n");
    page.push_str(&row(&["call", "gives"]));
    page.push_str("| --- | --- |\n");
    for (_, form, help) in FUNCTIONS {
        page.push_str(&row(&[&format!("`{form}`"), help]));
    }
}

fn units(page: &mut String) {
    page.push_str("\n### Units\n\n");
    page.push_str(&row(&["unit", "also written", "measures", "system"]));
    page.push_str("| --- | --- | --- | --- |\n");
    for unit in UNITS {
        let spellings: Vec<String> = unit
            .spellings
            .iter()
            .map(|spelling| format!("`{spelling}`"))
            .collect();
        page.push_str(&row(&[
            &format!("`{}`", unit.symbol),
            &spellings.join(", "),
            &unit.dimension.name(),
            match unit.system {
                Some(System::Imperial) => "imperial",
                Some(System::Metric) => "metric",
                None => "either",
            },
        ]));
    }
}

fn section(page: &mut String, kind: &SectionKind) {
    let heading = Form::of(kind.heading).shown();
    let _ = writeln!(page, "\n### {}\n\n{}\n", kind.word, kind.help);
    let _ = writeln!(page, "`{}`\n", format!("{} {heading}", kind.word).trim());
    let _ = writeln!(page, "```\n{}\n```", kind.example.trim_end());
    clauses(page, kind.clauses);
    if kind.keys.is_empty() {
        return;
    }
    page.push('\n');
    page.push_str(&row(&["entry", "says", "for example"]));
    page.push_str("| --- | --- | --- |\n");
    for key in kind.keys {
        entry(page, key);
    }
    for key in kind.keys.iter().filter(|key| !key.clauses.is_empty()) {
        if key.word == "accept" && kind.word != "job" {
            continue;
        }
        if is_shared(kind, key) {
            continue;
        }
        let _ = writeln!(page, "\nClauses of {}:", sharing(kind, key));
        clauses(page, key.clauses);
    }
}

fn entry(page: &mut String, key: &Key) {
    let written = Form::of(key.value).shown_after(key.word);
    let mut notes = String::new();
    if key.required {
        notes.push_str(" Every section has it.");
    }
    if key.repeats {
        notes.push_str(" Repeats.");
    }
    page.push_str(&row(&[
        &format!("`{written}`"),
        &format!("{}{notes}", key.help),
        &format!("`{}`", key.example),
    ]));
}

fn clauses(page: &mut String, clauses: &[Clause]) {
    if clauses.is_empty() {
        return;
    }
    page.push('\n');
    page.push_str(&row(&["clause", "says"]));
    page.push_str("| --- | --- |\n");
    for clause in clauses {
        page.push_str(&row(&[
            &format!("`{}`", clause.parsed().shown()),
            clause.help,
        ]));
    }
}

/// Whether an earlier key of the section has the same clauses.
fn is_shared(kind: &SectionKind, key: &Key) -> bool {
    kind.keys
        .iter()
        .take_while(|other| other.word != key.word)
        .any(|other| same(other, key))
}

/// The keys of the section that have these clauses.
fn sharing(kind: &SectionKind, key: &Key) -> String {
    let words: Vec<String> = kind
        .keys
        .iter()
        .filter(|other| same(other, key))
        .map(|other| format!("`{}`", other.word))
        .collect();
    words.join(", ")
}

fn same(one: &Key, other: &Key) -> bool {
    let forms = |key: &Key| -> Vec<&str> { key.clauses.iter().map(|clause| clause.form).collect() };
    forms(one) == forms(other)
}
