//! One letter of a spec typed wrongly. Every format then says that there are
//! errors, and no figure changes unless something is told of.

use std::collections::BTreeMap;

use drylay::analysis::Analysis;
use drylay::drawing::{Choice, Dress, plan, svg};
use drylay::report::{
    Handing, Reader, SheetLayout, Summary, report_html, schedule_csv, schedule_ics, schedule_json,
    schedule_text, setout_csv, setout_json, setout_markdown, setout_text, takeoff_csv,
    takeoff_json, takeoff_markdown, takeoff_text,
};
use serde_json::Value;

use crate::checked::checked;
use crate::folder::{Folder, TODAY};
use crate::random::{Random, cases};

/// The formats of what is handed out, each with its name.
fn formats(analysis: &Analysis) -> Vec<(&'static str, String)> {
    let handing = Handing {
        reader: Reader::Crew,
        folder: "/",
        today: TODAY,
    };
    let mut written = vec![
        (
            "takeoff text",
            takeoff_text(analysis, "/", SheetLayout::default()),
        ),
        ("takeoff csv", takeoff_csv(analysis)),
        ("takeoff json", takeoff_json(analysis)),
        ("takeoff markdown", takeoff_markdown(analysis, "/")),
        ("setout text", setout_text(analysis, "/", false)),
        ("setout csv", setout_csv(analysis)),
        ("setout json", setout_json(analysis)),
        ("setout markdown", setout_markdown(analysis, "/")),
        ("schedule json", schedule_json(analysis)),
        ("report", report_html(analysis, &handing)),
    ];
    if analysis.figures.schedule.is_some() {
        written.push(("schedule text", schedule_text(analysis, "/", false)));
        written.push(("schedule csv", schedule_csv(analysis)));
    }
    if let Some(calendar) = schedule_ics(analysis) {
        written.push(("schedule ics", calendar));
    }
    if let Ok(drawing) = plan(analysis, "trial.patio", &Choice::default()) {
        let dress = Dress {
            has_type: false,
            anchor: &|_| None,
        };
        written.push(("drawing", svg(&drawing, &dress)));
    }
    written
}

/// Whether a text says how many errors there are: `2 errors`, `"errors": 2`.
fn counts_errors(written: &str, errors: usize) -> bool {
    let written = written.to_lowercase().replace("\r\n ", "");
    let count = errors.to_string();
    written.match_indices("error").any(|(at, _)| {
        let around = &written.as_bytes()[at.saturating_sub(8)..written.len().min(at + 14)];
        let around = String::from_utf8_lossy(around);
        let mut numbers = around.split(|letter: char| !letter.is_ascii_digit());
        numbers.any(|number| number == count)
    })
}

/// How many findings there are of each rule, cautions left out.
fn findings(analysis: &Analysis) -> BTreeMap<&'static str, usize> {
    let mut counts = BTreeMap::new();
    for finding in analysis.findings.iter().filter(|one| !one.is_caution()) {
        *counts.entry(finding.rule).or_default() += 1;
    }
    counts
}

/// Every number of the take-off, in order; of a document, what is not known
/// counts too.
fn numbers(value: &Value, into: &mut Vec<Option<f64>>) {
    match value {
        Value::Null => into.push(None),
        Value::Number(number) => into.push(number.as_f64()),
        Value::Array(list) => list.iter().for_each(|part| numbers(part, into)),
        Value::Object(parts) => parts.values().for_each(|part| numbers(part, into)),
        Value::Bool(_) | Value::String(_) => {}
    }
}

fn figures(analysis: &Analysis) -> Vec<Option<f64>> {
    let document: Value = serde_json::from_str(&takeoff_json(analysis)).expect("JSON");
    let mut found = Vec::new();
    numbers(&document, &mut found);
    found
}

/// The letters that may be typed wrongly: not those of texts and comments, and
/// not those of units, of which one makes another.
fn letters(text: &str) -> Vec<usize> {
    let mut found = Vec::new();
    let (mut in_text, mut in_comment) = (false, false);
    let bytes = text.as_bytes();
    for (at, byte) in bytes.iter().enumerate() {
        match byte {
            b'\n' => (in_text, in_comment) = (false, false),
            b'"' => in_text = !in_text,
            b'#' => in_comment = true,
            _ => {}
        }
        let is_letter = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_lowercase);
        let is_inside = at > 1 && [at - 1, at, at + 1, at + 2].into_iter().all(is_letter);
        if is_inside && !in_text && !in_comment {
            found.push(at);
        }
    }
    found
}

/// A text with one letter dropped, doubled, swapped with the next, or another.
fn mistyped(text: &str, random: &mut Random) -> String {
    let letters = letters(text);
    let at = *random.pick(&letters);
    let own = &text[at..=at];
    let (before, after) = (&text[..at], &text[at + 1..]);
    match random.below(4) {
        0 => format!("{before}{after}"),
        1 => format!("{before}{own}{own}{after}"),
        2 => format!("{before}{}{own}{}", &after[..1], &after[1..]),
        _ => {
            let other = char::from(b'a' + random.below(26) as u8);
            format!("{before}{other}{after}")
        }
    }
}

#[test]
fn a_letter_typed_wrongly_is_told_in_every_format() {
    let folder = Folder::of_specs();
    let paths = folder.paths();
    let is_alone = |path: &&String| {
        let text = folder.text(path);
        text.contains("\njob ") && !text.contains("\nuse ") && !text.contains("\nstandard ")
    };
    let texts: Vec<_> = paths
        .iter()
        .filter(is_alone)
        .map(|path| folder.text(path))
        .collect();
    assert!(texts.len() > 10, "only {} specs stand alone", texts.len());
    let mut random = Random::new("letters typed wrongly");
    let (mut broken, mut silent) = (0, Vec::new());
    for _ in 0..cases(40) {
        let text = random.pick(&texts);
        let sound = checked(text);
        let wrong = mistyped(text, &mut random);
        let found = checked(&wrong);
        let (before, after) = (sound.analysis(), found.analysis());
        let line = || {
            let lines = text.lines().zip(wrong.lines());
            let other = lines.into_iter().find(|(own, other)| own != other);
            other.map(|(own, other)| format!("{own} / {other}"))
        };
        if findings(before) == findings(after) && figures(before) != figures(after) {
            silent.push(line());
        }
        if Summary::standing(after).errors == 0 {
            continue;
        }
        broken += 1;
        let errors = Summary::standing(after).errors;
        for (name, written) in formats(after) {
            let says = counts_errors(&written, errors);
            assert!(says, "{name} says nothing of {:?}", line());
        }
    }
    assert!(broken > 10, "only {broken} were errors");
    assert!(silent.is_empty(), "figures change unsaid: {silent:#?}");
}
