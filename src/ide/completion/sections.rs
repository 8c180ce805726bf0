//! Whole sections at the margin, and the keys of a section.

use super::{About, Completion, CompletionKind};
use crate::analysis::Analysis;
use crate::ide::writing::Writing;
use crate::model::FileKind;
use crate::syntax::LineKind;
use crate::vocabulary::{SECTIONS, SectionKind};

/// How wide the formatter writes a key, so that values start at one column.
const KEY_WIDTH: usize = 13;

/// The kinds of section, each as a whole section with tab stops; those that
/// may stand once and do are left out.
pub fn templates(analysis: &Analysis) -> Vec<Completion> {
    let is_there = |kind: &SectionKind| {
        matches!(kind.word, "job" | "site" | "standard")
            && analysis.files.first().is_some_and(|file| {
                let mut lines = file.tree.lines();
                lines.any(|line| line.word().eq_ignore_ascii_case(kind.word))
            })
    };
    let belongs = |kind: &SectionKind| match analysis.job.kind {
        FileKind::Standard => kind.word == "standard",
        FileKind::Spec => kind.word != "standard",
        FileKind::Library => true,
    };
    SECTIONS
        .iter()
        .filter(|kind| belongs(kind) && !is_there(kind))
        .map(|kind| Completion {
            text: template(kind),
            has_stops: true,
            about: About::Section(kind.word.to_owned()),
            ..Completion::new(kind.word, CompletionKind::Section, kind.help)
        })
        .collect()
}

/// The example of a kind of section, the cursor led from value to value.
fn template(kind: &SectionKind) -> String {
    let lines = kind.example.lines().enumerate().map(|(index, line)| {
        let body = line.trim_start();
        let (word, value) = body.split_once(' ').unwrap_or((body, ""));
        let (indent, width) = match index {
            0 => ("", 0),
            _ => ("  ", KEY_WIDTH),
        };
        let stop = index + 1;
        match value.trim_start() {
            "" => format!("{indent}{word}"),
            value => format!("{indent}{word:<width$}{}", stops(stop, word, width, value)),
        }
    });
    lines.collect::<Vec<_>>().join("\n") + "$0"
}

/// A value as a tab stop, a blank before it if the word leaves none.
fn stops(stop: usize, word: &str, width: usize, value: &str) -> String {
    let blank = if word.len() >= width { " " } else { "" };
    let mut escaped = String::with_capacity(value.len());
    for character in value.chars() {
        if matches!(character, '$' | '}' | '\\') {
            escaped.push('\\');
        }
        escaped.push(character);
    }
    format!("{blank}${{{stop}:{escaped}}}")
}

/// The keys of the section that are not written yet or may stand again; the
/// ones that it means nothing without come first, those written come last.
pub fn keys(analysis: &Analysis, writing: &Writing) -> Vec<Completion> {
    let (Some(kind), Some(file)) = (writing.kind, analysis.files.first()) else {
        return Vec::new();
    };
    let placed = writing
        .section
        .and_then(|section| file.tree.find(section.section));
    let lines = placed
        .into_iter()
        .flat_map(|placed| file.tree.lines_of(placed));
    let written: Vec<&str> = lines
        .filter(|line| line.line.kind == LineKind::Entry)
        .filter(|line| line.in_file(line.line.word).start != writing.span.start)
        .map(|line| line.word())
        .collect();
    let is_written = |word: &str| written.iter().any(|own| own.eq_ignore_ascii_case(word));
    let mut keys: Vec<_> = kind
        .keys
        .iter()
        .filter(|key| key.repeats || !is_written(key.word))
        .collect();
    keys.sort_by_key(|key| (is_written(key.word), !key.required));
    keys.into_iter()
        .map(|key| {
            let text = match key.value {
                "" => key.word.to_owned(),
                _ if key.word.len() < KEY_WIDTH => format!("{:<KEY_WIDTH$}", key.word),
                _ => format!("{} ", key.word),
            };
            Completion {
                text,
                about: About::Key(kind.word.to_owned(), key.word.to_owned()),
                ..Completion::new(key.word, CompletionKind::Key, key.parsed().shown())
            }
        })
        .collect()
}
