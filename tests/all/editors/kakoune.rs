//! The words of Kakoune's highlighter.

use std::fmt::Write;

use super::pattern::any_of;
use super::words::{choices, currencies, functions, headings, joining, keys, units};

/// What stands between the marks in Kakoune's file: one option a line, each a
/// pattern of words.
pub fn kakoune() -> String {
    let spelled: Vec<String> = units()
        .iter()
        .map(|unit| unit.replace(' ', r"\h+"))
        .collect();
    let mut text = String::new();
    for (name, words) in [
        ("sections", any_of(headings())),
        ("keys", any_of(keys())),
        (
            "joining",
            any_of(joining().into_iter().chain(["per", "over"])),
        ),
        ("choices", any_of(choices())),
        ("functions", any_of(functions())),
        ("currencies", any_of(currencies())),
        ("units", format!("(?:{})", spelled.join("|"))),
    ] {
        let _ = writeln!(text, "declare-option -hidden regex patio_{name} '{words}'");
    }
    let all = [headings(), keys(), joining(), choices(), functions()].concat();
    let all: std::collections::BTreeSet<&str> = all.into_iter().collect();
    let all: Vec<&str> = all.into_iter().collect();
    let _ = writeln!(
        text,
        "declare-option -hidden str-list patio_words {}",
        all.join(" ")
    );
    text
}
