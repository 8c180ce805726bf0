//! The extension for VS Code: what it says of itself is so, and in a real VS
//! Code it shows what the server knows.

use std::collections::BTreeSet;
use std::path::PathBuf;

use serde_json::Value;

use crate::driving::driven;
use crate::folder::repository;
use crate::tools::{command, missing};

fn read(path: &str) -> String {
    let path = repository().join(path);
    std::fs::read_to_string(&path).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()))
}

fn json(path: &str) -> Value {
    serde_json::from_str(&read(path)).unwrap_or_else(|fault| panic!("{path}: {fault}"))
}

fn manifest() -> Value {
    json("editors/vscode/package.json")
}

/// The Node that `tests/set-up` installs with the editor.
pub fn node() -> Option<PathBuf> {
    let place = repository().join("target/test-env/vscode");
    if place.join("stamp").exists() {
        return Some(place.join("bin/node"));
    }
    missing("VS Code");
    None
}

#[test]
fn vscode_shows_what_the_server_knows() {
    let Some(node) = node() else { return };
    let mut command = command(node, &repository());
    command.arg("tests/editors/vscode/run.mjs");
    if std::env::var_os("DRYLAY_REFRESH").is_some() {
        command.arg("editors/pictures");
    }
    driven(command, 40);
}

#[test]
fn vscode_colours_before_the_server_answers() {
    let Some(node) = node() else { return };
    let mut command = command(node, &repository());
    command.args([
        "target/test-env/vscode/node_modules/vscode-tmgrammar-test/dist/unit.js",
        "--grammar",
        "editors/vscode/syntaxes/patio.tmLanguage.json",
        "tests/editors/vscode/colours/*.patio",
    ]);
    let output = command.output().expect("Node starts");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(
        output.status.success() && said.contains("court.patio"),
        "{said}"
    );
}

/// The settings that are the extension's own: the server does not read them.
const OWN_SETTINGS: [&str; 3] = ["drylay.path", "drylay.takeoff.width", "drylay.trace.server"];

#[test]
fn settings_are_those_of_the_server() {
    let mut offered = manifest()["contributes"]["configuration"]["properties"].clone();
    for own in OWN_SETTINGS {
        assert!(offered.as_object_mut().unwrap().remove(own).is_some());
    }
    for (name, setting) in offered.as_object_mut().unwrap() {
        // Each may be another in each folder of the workspace.
        let scope = setting.as_object_mut().unwrap().remove("scope");
        assert_eq!(scope, Some("resource".into()), "{name}");
    }
    let read = &json("editors/settings.schema.json")["properties"];
    assert_eq!(
        &offered, read,
        "copy them from editors/settings.schema.json"
    );
}

/// A folder that nobody trusts yet names no program and no file to read.
#[test]
fn settings_that_name_a_file_wait_for_trust() {
    let manifest = manifest();
    let restricted = &manifest["capabilities"]["untrustedWorkspaces"]["restrictedConfigurations"];
    let settings = &manifest["contributes"]["configuration"]["properties"];
    let names_file = |setting: &Value| setting["type"] == "string" && setting["enum"].is_null();
    let settings = settings.as_object().unwrap().iter();
    let named: Vec<&String> = settings
        .filter(|(_, setting)| names_file(setting))
        .map(|(name, _)| name)
        .collect();
    assert!(named.len() >= 2, "{named:?}");
    assert_eq!(restricted, &serde_json::json!(named));
}

#[test]
fn versions_are_those_of_the_program() {
    let own = env!("CARGO_PKG_VERSION");
    assert_eq!(manifest()["version"], own);
    assert_eq!(json("editors/vscode/package-lock.json")["version"], own);
    let program = read("editors/vscode/src/program.ts");
    let oldest = program.split_once("OLDEST = \"").unwrap().1;
    let oldest = oldest.split_once('"').unwrap().0;
    let parts = |version: &str| -> Vec<u32> {
        let parts = version.split('.').map(|part| part.parse().unwrap());
        parts.collect()
    };
    assert!(parts(oldest) <= parts(own), "{oldest} is not out yet");
}

#[test]
fn every_command_is_there() {
    let declared = manifest()["contributes"]["commands"].clone();
    let declared: BTreeSet<String> = declared
        .as_array()
        .unwrap()
        .iter()
        .map(|command| command["command"].as_str().unwrap().to_owned())
        .collect();
    let registered: BTreeSet<String> = read("editors/vscode/src/extension.ts")
        .lines()
        .filter_map(|line| line.trim().strip_prefix('"')?.split_once("\": ("))
        .map(|(name, _)| name.to_owned())
        .collect();
    assert_eq!(declared, registered);
    let sheets = read("editors/vscode/src/sheet.ts");
    let known = read("editors/protocol.md");
    let asked: Vec<&str> = sheets
        .split("command: \"")
        .skip(1)
        .filter_map(|rest| Some(rest.split_once('"')?.0))
        .collect();
    assert_eq!(asked.len(), 3);
    for name in asked {
        assert!(known.contains(&format!("### `{name}`")), "{name}");
    }
}

/// What a snippet comes to if nothing is changed in it: its own values, the
/// first of each choice.
fn expanded(body: &str) -> String {
    let mut text = String::new();
    let mut values: Vec<(&str, &str)> = Vec::new();
    let mut rest = body;
    while let Some(at) = rest.find(['$', '\\']) {
        text.push_str(&rest[..at]);
        let after = &rest[at + 1..];
        if rest[at..].starts_with('\\') {
            text.push_str(&after[..1]);
            rest = &after[1..];
        } else if let Some(inside) = after.strip_prefix('{') {
            let (stop, left) = inside.split_once('}').unwrap();
            let (number, value) = stop.split_once([':', '|']).unwrap();
            let value = value.split([',', '|']).next().unwrap();
            let value = if stop.contains('|') {
                value
            } else {
                &stop[number.len() + 1..]
            };
            values.push((number, value));
            text.push_str(value);
            rest = left;
        } else {
            let number = &after[..1];
            let known = values.iter().find(|(own, _)| *own == number);
            assert!(known.is_some() || number == "0", "${number} is not set");
            text.push_str(known.map_or("", |(_, value)| value));
            rest = &after[1..];
        }
    }
    text + rest
}

#[test]
fn what_a_file_begins_with_is_sound() {
    let snippets = json("editors/vscode/snippets/patio.json");
    let snippets = snippets.as_object().unwrap();
    assert!(snippets.len() >= 4);
    for (title, snippet) in snippets {
        // Without a word to complete, it is offered for whole files only.
        assert_eq!(snippet["isFileTemplate"], true, "{title}");
        assert_eq!(snippet.get("prefix"), None, "{title}");
        let lines = snippet["body"].as_array().unwrap().iter();
        let lines: Vec<&str> = lines.map(|line| line.as_str().unwrap()).collect();
        let text = expanded(&lines.join("\n"));
        let folder = tempfile::tempdir().unwrap();
        let name = if text.starts_with("standard") {
            "standard.patio"
        } else {
            "new.patio"
        };
        std::fs::write(folder.path().join(name), &text).unwrap();
        for words in [
            ["check", "--deny", "warning", name].as_slice(),
            &["fmt", "--check", name],
        ] {
            let output = command(env!("CARGO_BIN_EXE_drylay"), folder.path())
                .args(words)
                .output()
                .unwrap();
            let said = String::from_utf8_lossy(&output.stdout);
            assert!(output.status.success(), "{title}: {said}\n{text}");
        }
    }
}

/// What the editor's own command begins with is what an empty spec offers.
#[test]
fn snippets_are_those_of_the_program() {
    let snippets = json("editors/vscode/snippets/patio.json");
    let snippets = snippets.as_object().unwrap();
    assert_eq!(snippets.len(), drylay::ide::STARTERS.len());
    for starter in drylay::ide::STARTERS {
        let mut label = starter.label.to_owned();
        label[..1].make_ascii_uppercase();
        let snippet = &snippets[&label];
        let body: Vec<&str> = starter.body.lines().collect();
        assert_eq!(snippet["body"], serde_json::json!(body), "{label}");
        assert_eq!(snippet["description"], starter.help, "{label}");
    }
}

#[test]
fn a_snippet_is_expanded_as_an_editor_does() {
    assert_eq!(
        expanded(r"shape ${1:a, b} $1 \$${2|x,y|}/ton$0"),
        "shape a, b a, b $x/ton"
    );
}

/// Enter goes on at the margin behind the headings of sections that have no
/// entries, and those are named in one place beside the vocabulary.
#[test]
fn enter_knows_which_headings_stand_alone() {
    let rule = json("editors/vscode/language-configuration.json")["onEnterRules"][0].clone();
    let rule = rule["beforeText"].as_str().unwrap();
    let alone = rule.split_once("(?!(?:").unwrap().1;
    let alone = alone.split_once(')').unwrap().0;
    let alone: BTreeSet<&str> = alone.split('|').collect();
    let bare: BTreeSet<&str> = drylay::vocabulary::SECTIONS
        .iter()
        .filter(|section| section.keys.is_empty())
        .map(|section| section.word)
        .collect();
    assert_eq!(alone, bare);
}

/// Whatever is installed to build and to test with may be passed on freely.
#[test]
fn packages_are_licensed_freely() {
    let free = [
        "MIT", "ISC", "0BSD", "Apache", "BSD", "BlueOak", "Python", "PSF",
    ];
    // Fonts, under the licence of Bitstream Vera; MIT, in a way of its own; and
    // the extension itself.
    let known = [
        "node_modules/dejavu-fonts-ttf",
        "node_modules/httpolyglot",
        "",
    ];
    for lock in [
        "editors/vscode/package-lock.json",
        "tests/editors/vscode/package-lock.json",
    ] {
        let packages = json(lock)["packages"].clone();
        let packages = packages.as_object().unwrap();
        assert!(packages.len() > 100, "{lock} names few packages");
        for (name, package) in packages {
            let licence = package["license"].as_str().unwrap_or_default();
            assert!(
                free.iter().any(|free| licence.contains(free)) || known.contains(&&**name),
                "{name} in {lock}: {licence}"
            );
        }
    }
}

/// What the page on editors shows and links to is there.
#[test]
fn the_page_on_editors_names_what_there_is() {
    let page = read("editors/README.md");
    let mut looked_at = 0;
    for link in page.split("](").skip(1) {
        let link = link.split(')').next().unwrap_or_default();
        if link.starts_with("https:") || link.starts_with('#') {
            continue;
        }
        let path = link.split('#').next().unwrap_or_default();
        let path = repository().join("editors").join(path);
        assert!(path.exists(), "{link} is not there");
        looked_at += 1;
    }
    assert!(looked_at >= 3, "it names little");
}
