//! The words of the tree-sitter grammar: those that its scanner reads, and
//! the queries by which editors colour its trees.

use std::fmt::Write;

use super::words::{
    First, MADE, SectionWords, choices, currencies, headings, joining, longest_first, sections,
    units,
};

/// The units and the codes of money for the scanner, in lower case, of two
/// that begin alike the longer first.
pub fn words_of_the_scanner() -> String {
    let mut text =
        format!("// {MADE}\n\n#pragma once\n\n#include <stddef.h>\n#include <wchar.h>\n");
    for (name, words) in [("UNITS", units()), ("CURRENCIES", currencies())] {
        let _ = write!(text, "\nstatic const wchar_t *const {name}[] = {{\n");
        for word in words {
            let _ = writeln!(text, "    L\"{}\",", in_ascii(&word.to_lowercase()));
        }
        text.push_str("    NULL,\n};\n");
    }
    text
}

fn in_ascii(word: &str) -> String {
    let escaped = word.chars().map(|letter| match letter {
        letter if letter.is_ascii() => letter.to_string(),
        letter => format!("\\u{:04x}", u32::from(letter)),
    });
    escaped.collect()
}

/// The names of colours, as an editor has them.
struct Colours {
    key: &'static str,
    joining: &'static str,
    choice: &'static str,
    edge: &'static str,
    number: &'static str,
}

/// The query by which Neovim, and others that name colours alike, colour a
/// tree: of two patterns the later one holds.
pub fn highlights() -> String {
    let blocks = blocks(&Colours {
        key: "property",
        joining: "keyword.modifier",
        choice: "constant",
        edge: "variable",
        number: "number",
    });
    format!("; {MADE}\n\n{}", blocks.join("\n"))
}

/// The query by which Helix colours a tree: of two patterns the earlier one
/// holds.
pub fn helix_highlights() -> String {
    let mut blocks = blocks(&Colours {
        key: "variable.other.member",
        joining: "keyword.storage.modifier",
        choice: "constant.builtin",
        edge: "variable",
        number: "constant.numeric",
    });
    blocks.reverse();
    format!("; {MADE}\n\n{}", blocks.join("\n"))
}

/// The patterns, what holds against others last.
fn blocks(colours: &Colours) -> Vec<String> {
    let Colours {
        key,
        joining: joins,
        choice,
        edge,
        number,
    } = colours;
    let sections = sections();
    let plain = format!(
        "(comment) @comment\n(text) @string\n\
         [(number) (ratio) (money) (rate) (date)] @{number}\n\
         (function) @function\n(owner) @type\n(edge) @{edge}\n\
         [(operator) (minus) (by)] @operator\n\
         \",\" @punctuation.delimiter\n[\"(\" \")\"] @punctuation.bracket\n"
    );
    let of_words = |capture: &str, words: Vec<&'static str>| {
        let words = any_of(capture, words);
        format!("((word) @{capture}\n  {words})\n")
    };
    let mut blocks = vec![
        plain,
        format!("(key) @{key}\n"),
        of_words(choice, choices()),
        of_words(joins, joining()),
    ];
    for (capture, first) in [
        (*choice, First::Choice),
        ("type", First::Type),
        (*edge, First::Edge),
    ] {
        let keys = sections.iter().flat_map(|section| &section.keys);
        let keys = keys.filter(|(_, own)| *own == first);
        let keys = longest_first(keys.map(|(key, _)| *key));
        if !keys.is_empty() {
            let keys = any_of(key, keys);
            blocks.push(format!(
                "(entry\n  (key) @{key}\n  .\n  (phrase . (word) @{capture})\n  {keys})\n"
            ));
        }
    }
    let named = sections
        .iter()
        .filter(|section| section.heading == First::Type);
    let named = named.map(|section: &SectionWords| section.word).collect();
    let named = any_of("keyword", named);
    blocks.push(format!(
        "(heading\n  (kind) @keyword\n  .\n  (phrase . (word) @type)\n  {named})\n"
    ));
    let kinds = any_of("keyword", headings());
    blocks.push(format!("((kind) @keyword\n  {kinds})\n"));
    blocks
}

/// That a capture is one of these words.
fn any_of(capture: &str, mut words: Vec<&'static str>) -> String {
    words.sort_unstable();
    let words: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
    let mut text = format!("(#any-of? @{capture}");
    let mut width = text.len();
    for word in words {
        if width + word.len() > 96 {
            text.push_str("\n   ");
            width = 3;
        }
        text.push(' ');
        text.push_str(&word);
        width += word.len() + 1;
    }
    text.push(')');
    text
}
