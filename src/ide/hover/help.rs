//! What sections, keys and clauses mean: out of the vocabulary.

use crate::analysis::Analysis;
use crate::ide::completion::example_of;
use crate::ide::cursor::Cursor;
use crate::ide::markdown::{code, paragraphs};
use crate::syntax::{ItemKind, Phrase};
use crate::vocabulary::{Clause, FUNCTIONS, Form, Key, SectionKind};

/// A kind of section: its help, its form and an example.
pub(crate) fn section(analysis: &Analysis, kind: &'static SectionKind) -> String {
    paragraphs([
        format!("**{}** · a section", kind.word),
        kind.help.to_owned(),
        form(kind.word, kind.heading),
        code(&example_of(analysis, kind)),
    ])
}

/// A key: its help, the forms of its value and clauses, and an example.
pub(crate) fn key(analysis: &Analysis, kind: &SectionKind, key: &Key) -> String {
    let heading = &analysis.job.heading;
    let example = key.example_in(heading.system(), heading.currency());
    let repeats = if key.repeats {
        ", may stand on several lines"
    } else {
        ""
    };
    let clauses: Vec<String> = key.clauses.iter().map(clause_line).collect();
    paragraphs([
        format!("**{}** · in a `{}`{repeats}", key.word, kind.word),
        key.help.to_owned(),
        form(key.word, key.value),
        clauses.concat(),
        code(&example),
    ])
}

/// The clause that a phrase of an entry or heading is.
pub(crate) fn clause(cursor: &Cursor<'_>, number: usize, phrase: &Phrase) -> Option<String> {
    let (word, clauses) = match (cursor.heading(), cursor.key()) {
        (Some(kind), _) => (kind.word, kind.clauses),
        (None, Some(key)) => (key.word, key.clauses),
        (None, None) => return None,
    };
    let first = phrase.items.first()?;
    let first = cursor.slice(first.span);
    let known = clauses.iter().find(|clause| {
        clause
            .word()
            .is_some_and(|word| word.eq_ignore_ascii_case(first))
    });
    // A clause that starts with a value is known by its place.
    let placed = || {
        clauses
            .iter()
            .find(|clause| number == 1 && clause.word().is_none())
    };
    let clause = known.or_else(placed)?;
    Some(format!(
        "`{}` · a clause of `{word}`\n\n{}",
        clause.parsed().shown(),
        clause.help
    ))
}

/// The function that an item calls.
pub(crate) fn function(cursor: &Cursor<'_>, item: &ItemKind) -> Option<String> {
    let ItemKind::Call { name, .. } = item else {
        return None;
    };
    let word = cursor.slice(*name);
    let (_, form, help) = FUNCTIONS
        .iter()
        .find(|(own, _, _)| own.eq_ignore_ascii_case(word))?;
    cursor.touches(*name).then(|| format!("`{form}`\n\n{help}"))
}

fn form(word: &str, value: &'static str) -> String {
    format!("`{}`", Form::of(value).shown_after(word))
}

fn clause_line(clause: &Clause) -> String {
    format!("- `{}`: {}\n", clause.parsed().shown(), clause.help)
}
