//! The pages on settings and commands are what the declarations make them.

use drylay::server::{COMMANDS, SECTION, Setting, Takes, declared};
use serde_json::{Map, Value, json};

use crate::golden;

#[test]
fn the_pages_for_editors_are_up_to_date() {
    golden::made("editors/settings.schema.json", |_| settings_schema());
    golden::made("editors/protocol.md", |_| protocol());
}

#[test]
fn every_setting_and_command_is_on_its_page() {
    let schema: Value = serde_json::from_str(&settings_schema()).unwrap();
    let properties = schema["properties"].as_object().unwrap();
    assert_eq!(properties.len(), declared().len());
    assert_eq!(properties["drylay.hints.areas"]["type"], "boolean");
    assert_eq!(properties["drylay.units"]["enum"][0], "job");
    assert_eq!(properties["drylay.standard"]["default"], "");
    let page = protocol();
    for setting in declared() {
        assert!(page.contains(&format!("| `drylay.{}` |", setting.name)));
    }
    for command in COMMANDS {
        assert!(page.contains(&format!("### `{}`", command.name)));
    }
}

/// The settings as a JSON schema: the names as an editor's settings file has
/// them, each with what it takes, what it usually is and what it is for.
fn settings_schema() -> String {
    let properties: Map<String, Value> = declared().iter().map(property).collect();
    let schema = json!({
        "$schema": "http://json-schema.org/draft-07/schema#",
        "title": "Settings of drylay",
        "description": "Made from the program, for editors that keep settings under dotted names. \
                        On the wire they are objects: {\"drylay\": {\"hints\": {\"areas\": false}}}.",
        "type": "object",
        "properties": properties,
    });
    serde_json::to_string_pretty(&schema).expect("JSON") + "\n"
}

fn property(setting: &Setting) -> (String, Value) {
    let help = &setting.help;
    let value = match setting.takes {
        Takes::Switch { usual } => json!({
            "type": "boolean", "default": usual, "description": help,
        }),
        Takes::Word(words) => {
            let (words, helps): (Vec<&str>, Vec<&str>) = words.iter().copied().unzip();
            json!({
                "type": "string", "default": words.first(), "enum": words,
                "enumDescriptions": helps, "description": help,
            })
        }
        Takes::Path => json!({"type": "string", "default": "", "description": help}),
    };
    (format!("{SECTION}.{}", setting.name), value)
}

/// The settings and the commands, for those who set an editor up.
fn protocol() -> String {
    let settings: String = declared().iter().map(setting_row).collect();
    let commands: String = COMMANDS
        .iter()
        .map(|command| {
            let takes = command.takes.iter();
            let takes: String = takes
                .map(|(name, help)| format!("- `{name}`: {help}\n"))
                .collect();
            format!("\n### `{}`\n\n{}\n\n{takes}", command.name, command.help)
        })
        .collect();
    format!(
        "# For whoever sets up an editor\n\n\
         This page is made from the program; [settings.schema.json](settings.schema.json) says \
         the same of the settings for programs.\n\n\
         `drylay serve` speaks the language server protocol on standard input and output. The \
         language is called `patio`, its files end in `.patio`.\n\n\
         ## Settings\n\n\
         They may come with `initialize` as `initializationOptions`, with \
         `workspace/didChangeConfiguration`, or as the answer to `workspace/configuration` for \
         the section `{SECTION}`; a change holds at once, and what it \
         does not set is as it was at `initialize`. A client with several folders is asked for \
         those of each, with its address as `scopeUri`; they hold for the specs in it. They are objects, \
         `{{\"hints\": {{\"areas\": false}}}}`, with or without a `{SECTION}` around them. Of a \
         wrong one the user is told, and what usually holds stays.\n\n\
         | setting | takes | usually | |\n| --- | --- | --- | --- |\n{settings}\n\
         ## Commands\n\n\
         `workspace/executeCommand` takes one argument, an object. A document comes back as an \
         object with `title`, `language` (of the protocol: `plaintext`, `markdown`, `csv`, \
         `json` or `svg`), `text`, and the `uri` and `version` of the spec that it is made from; the \
         version is null if the spec is not open. What cannot be done is an error with a message \
         to show.\n{commands}"
    )
}

fn setting_row(setting: &Setting) -> String {
    let words = match setting.takes {
        Takes::Word(words) => words
            .iter()
            .map(|(word, help)| format!(" `{word}`: {help}"))
            .collect(),
        _ => String::new(),
    };
    format!(
        "| `{SECTION}.{}` | {} | `{}` | {}{words} |\n",
        setting.name,
        setting.takes.in_words(),
        setting.takes.usual(),
        setting.help,
    )
}
