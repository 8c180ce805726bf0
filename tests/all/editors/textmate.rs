//! The grammar that VS Code, and others that read the same format, colour a
//! spec by before the server has answered.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::pattern::{DATE, END, NAME, any_of, figure, measure, unit};
use super::words::{First, MADE, SectionWords, directions, functions, sections};

/// The grammar as JSON.
pub fn textmate() -> String {
    let sections = sections();
    let mut repository = json!({
        "comment": { "name": "comment.line.number-sign.patio", "match": "#.*$" },
        "text": text(),
        "values": { "patterns": values() },
        "continuation": continuation(),
    });
    let mut patterns = vec![json!({ "include": "#comment" })];
    for words in &sections {
        patterns.push(json!({ "include": format!("#{}", words.word) }));
        if let Some(rules) = repository.as_object_mut() {
            rules.insert(words.word.to_owned(), section(words));
        }
    }
    patterns.push(json!({ "include": "#values" }));
    let grammar = json!({
        "comment": MADE,
        "name": "Patio",
        "scopeName": "source.patio",
        "fileTypes": ["patio"],
        "patterns": patterns,
        "repository": repository,
    });
    // Strings under keys that are strings always serialise.
    let mut text = serde_json::to_string_pretty(&grammar).unwrap_or_default();
    text.push('\n');
    text
}

/// From a heading to the next line at the margin.
fn section(words: &SectionWords) -> Value {
    let name = match words.heading {
        First::Choice => "variable.other.enummember.patio",
        _ if words.word == "let" => "variable.other.readwrite.definition.patio",
        _ => "entity.name.type.definition.patio",
    };
    let mut patterns = vec![json!({ "include": "#comment" })];
    for first in [First::Type, First::Edge, First::Choice, First::Other] {
        patterns.extend(entries(words, first));
    }
    patterns.push(json!({ "include": "#continuation" }));
    patterns.extend(own_words(words));
    patterns.push(json!({ "include": "#values" }));
    json!({
        "name": format!("meta.section.{}.patio", words.word),
        "begin": format!(r"(?i)^\x{{FEFF}}?({}){END}(?:\s+({NAME})(?![.(]))?", words.word),
        "beginCaptures": {
            "1": { "name": "keyword.control.section.patio" },
            "2": { "name": name },
        },
        "end": r"^(?=[^\s#])",
        "patterns": patterns,
    })
}

/// The entries whose values begin alike: a key, perhaps a name, and the rest
/// of the line.
fn entries(words: &SectionWords, first: First) -> Option<Value> {
    let keys = words.keys.iter().filter(|(_, own)| *own == first);
    let keys: Vec<&str> = keys.map(|(key, _)| *key).collect();
    if keys.is_empty() {
        return None;
    }
    let name = match first {
        First::Other => None,
        First::Type => Some("entity.name.type.patio"),
        First::Edge => Some("variable.other.readwrite.patio"),
        First::Choice => Some("variable.other.enummember.patio"),
    };
    let keys = any_of(keys);
    let key = json!({ "name": "variable.other.property.key.patio" });
    let mut captures = BTreeMap::from([("1", key)]);
    let mut begin = format!(r"(?i)^\s+({keys}){END}");
    if let Some(name) = name {
        begin += &format!(r"(?:\s+({NAME})(?![.(]))?");
        captures.insert("2", json!({ "name": name }));
    }
    let mut patterns = vec![
        json!({ "include": "#comment" }),
        json!({ "include": "#continuation" }),
    ];
    patterns.extend(own_words(words));
    patterns.push(json!({ "include": "#values" }));
    Some(json!({
        "begin": begin,
        "beginCaptures": captures,
        "end": r"$|^(?=[^\s#])",
        "patterns": patterns,
    }))
}

/// The words with a meaning in a section; a name after `named` is given.
fn own_words(words: &SectionWords) -> Vec<Value> {
    let mut patterns = vec![json!({ "include": "#text" })];
    let before = r"(?<![\p{L}\p{M}\p{N}_.-])";
    if !words.naming.is_empty() {
        let naming = any_of(words.naming.iter().copied());
        patterns.push(json!({
            "match": format!(r"(?i){before}({naming})\s+({NAME})"),
            "captures": {
                "1": { "name": "storage.modifier.clause.patio" },
                "2": { "name": "variable.other.readwrite.definition.patio" },
            },
        }));
    }
    for (name, own) in [
        ("storage.modifier.clause.patio", &words.joining),
        ("variable.other.enummember.patio", &words.choices),
    ] {
        if !own.is_empty() {
            let own = any_of(own.iter().copied());
            patterns.push(json!({
                "name": name,
                "match": format!(r"(?i){before}{own}{END}(?![.(])"),
            }));
        }
    }
    patterns
}

/// After a comma that ends a line: as far as the next line with words in it.
fn continuation() -> Value {
    json!({
        "begin": r",(?=\s*(?:#.*)?$)",
        "beginCaptures": { "0": { "name": "punctuation.separator.patio" } },
        "end": r"^(?=\s*[^\s#])",
        "patterns": [{ "include": "#comment" }],
    })
}

fn text() -> Value {
    json!({
        "name": "string.quoted.double.patio",
        "begin": "[\"“]",
        "end": "[\"”]|$",
        "patterns": [{ "name": "constant.character.escape.patio", "match": r#"\\["”\\]"# }],
    })
}

/// What means the same in every section.
fn values() -> Vec<Value> {
    let (figure, measure, unit) = (figure(), measure(), unit());
    let functions = any_of(functions());
    let directions = any_of(directions());
    vec![
        json!({ "include": "#comment" }),
        json!({ "name": "constant.other.date.patio", "match": DATE }),
        json!({
            "match": format!(
                r"(?i)([$£€]\s*{figure})|({figure}(?::{figure})+)|({figure})(?:\s*({measure}))?"
            ),
            "captures": {
                "1": { "name": "constant.numeric.money.patio" },
                "2": { "name": "constant.numeric.ratio.patio" },
                "3": { "name": "constant.numeric.patio" },
                "4": { "name": "keyword.other.unit.patio" },
            },
        }),
        json!({ "include": "#text" }),
        json!({
            "match": format!(r"(?i)(/|(?<![\p{{L}}\p{{N}}_-])per{END})\s*({unit})"),
            "captures": {
                "1": { "name": "keyword.operator.patio" },
                "2": { "name": "keyword.other.unit.patio" },
            },
        }),
        json!({
            "name": "keyword.operator.word.patio",
            "match": format!(r"(?i)(?<![\p{{L}}\p{{N}}_.-])(?:per|over){END}"),
        }),
        json!({ "name": "entity.name.function.patio", "match": format!(r"(?i){functions}(?=\()") }),
        json!({
            "match": format!(r"({NAME})(\.)({NAME})"),
            "captures": {
                "1": { "name": "entity.name.type.patio" },
                "2": { "name": "punctuation.accessor.patio" },
                "3": { "name": "variable.other.readwrite.patio" },
            },
        }),
        json!({
            "name": "variable.other.enummember.patio",
            "match": format!(r"(?i)(?<![\p{{L}}\p{{N}}_.-]){directions}{END}"),
        }),
        json!({ "match": NAME }),
        json!({ "name": "keyword.operator.patio", "match": r"[+*/×:=−–-]" }),
        json!({ "name": "punctuation.separator.patio", "match": "," }),
    ]
}
