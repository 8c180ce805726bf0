//! The words of Emacs' mode.

use std::fmt::Write;

use super::words::{choices, currencies, functions, headings, joining, keys, units};

/// What stands between the marks in the mode's file: one list of words each.
pub fn emacs() -> String {
    let joining = [joining(), vec!["per", "over"]].concat();
    let mut text = String::new();
    for (name, help, words) in [
        ("sections", "The words of sections.", headings()),
        ("keys", "The keys of entries.", keys()),
        ("joining", "The words that join and begin clauses.", joining),
        (
            "choices",
            "The words that values are chosen from.",
            choices(),
        ),
        (
            "functions",
            "The functions that expressions call.",
            functions(),
        ),
        ("currencies", "The codes of money.", currencies()),
        ("units", "The units, as they may be spelled.", units()),
    ] {
        let mut lines = vec!["    (".to_owned()];
        for word in words {
            let word = format!("\"{word}\"");
            match lines.last_mut() {
                Some(line) if line.len() + word.len() < 76 => {
                    line.push_str(if line.ends_with('(') { "" } else { " " });
                    line.push_str(&word);
                }
                _ => lines.push(format!("     {word}")),
            }
        }
        let list = lines.join("\n").replacen("    (", "  '(", 1);
        let list = list.replace("\n     ", "\n    ");
        let _ = writeln!(text, "(defconst patio--{name}\n{list})\n  \"{help}\")\n");
    }
    text.truncate(text.trim_end().len());
    text.push('\n');
    text
}
