//! Documents that are made of a spec by command.

use serde_json::{Value, json};

use super::client::Client;
use super::{FLAT, URI, address, error_code, fresh};
use crate::folder::repository;

fn run(client: &mut Client, command: &str, argument: Value) -> Value {
    let params = json!({"command": format!("drylay.document.{command}"), "arguments": [argument]});
    client.ask("workspace/executeCommand", params)
}

#[test]
fn the_take_off_is_a_document_in_each_format() {
    let mut client = Client::start();
    let reported = client.initialize(json!({"capabilities": {}}));
    let offered = &reported["result"]["capabilities"]["executeCommandProvider"]["commands"];
    let offered = offered.as_array().expect("commands");
    assert!(
        offered.contains(&json!("drylay.document.takeoff")),
        "{offered:?}"
    );
    fresh(&mut client, URI, FLAT);
    let takeoff = |client: &mut Client, format: &str| {
        run(client, "takeoff", json!({"uri": URI, "format": format}))["result"].clone()
    };
    for (format, language, part) in [
        ("text", "plaintext", "SURFACE yard"),
        ("markdown", "markdown", "## Surface yard"),
        ("csv", "csv", "shape,yard,,,area,24,m2,24,m2"),
        ("json", "json", "\"area_m2\": 24.0"),
    ] {
        let made = takeoff(&mut client, format);
        assert_eq!(made["language"], language);
        assert_eq!((&made["uri"], &made["version"]), (&json!(URI), &json!(1)));
        assert!(
            made["text"].as_str().unwrap().contains(part),
            "{format}: {made}"
        );
    }
    // What is not saved counts.
    client.change(
        URI,
        2,
        json!([{"text": FLAT.replace("6 m by 4 m", "6 m by 5 m")}]),
    );
    let made = takeoff(&mut client, "csv");
    assert_eq!(made["version"], 2);
    assert!(
        made["text"]
            .as_str()
            .unwrap()
            .contains("shape,yard,,,area,30,"),
        "{made}"
    );
    let worked = run(&mut client, "takeoff", json!({"uri": URI, "working": true}));
    assert!(
        worked["result"]["text"]
            .as_str()
            .unwrap()
            .contains("working: "),
        "{worked}"
    );
    // What is read beside the text begins with what is bought.
    let text = worked["result"]["text"].as_str().unwrap();
    let at = |heading: &str| {
        text.find(heading)
            .unwrap_or_else(|| panic!("{heading}: {text}"))
    };
    assert!(at("\nORDERS\n") < at("\nSHAPES\n"));
}

#[test]
fn the_take_off_is_as_wide_as_is_asked() {
    let mut client = Client::start();
    client.initialize(json!({"capabilities": {}}));
    let folder = repository().join("specs");
    let mut too_wide = Vec::new();
    for entry in std::fs::read_dir(&folder).expect("the specs") {
        let name = entry.expect("a file").file_name();
        let name = name.to_string_lossy();
        if !name.ends_with(".patio") {
            continue;
        }
        let uri = address(&folder, &name);
        for width in [48, 64, 100] {
            let argument = json!({"uri": uri, "width": width, "working": width == 64});
            let made = run(&mut client, "takeoff", argument);
            let text = made["result"]["text"].as_str().expect("a text");
            let wide = text.lines().filter(|line| line.chars().count() > width);
            too_wide.extend(wide.map(|line| format!("{name} at {width}: {line}")));
        }
    }
    assert!(too_wide.is_empty(), "{}", too_wide.join("\n"));
    for width in [json!(47), json!(201), json!("wide"), json!(-1)] {
        let answer = run(&mut client, "takeoff", json!({"uri": URI, "width": width}));
        assert_eq!(error_code(&answer), Some(-32602), "{answer}");
    }
}

#[test]
fn the_plan_is_a_picture_that_knows_its_lines() {
    let mut client = Client::start();
    client.initialize(json!({"capabilities": {}}));
    fresh(&mut client, URI, FLAT);
    let made = run(&mut client, "plan", json!({"uri": URI}))["result"].clone();
    assert_eq!(made["language"], "svg");
    let svg = made["text"].as_str().expect("a picture");
    assert!(svg.starts_with("<svg ") && !svg.contains("@font-face"));
    // Each mark that comes from an entry names it, and the entry its line.
    let sections = made["sections"].as_array().expect("pictures under it");
    let sections: Vec<&str> = sections.iter().filter_map(Value::as_str).collect();
    assert!(!sections.is_empty() && sections.iter().all(|own| own.starts_with("<svg ")));
    let drawn = format!("{svg}{}", sections.concat());
    let anchors = made["anchors"].as_array().expect("anchors");
    assert!(!anchors.is_empty());
    for anchor in anchors {
        let (section, entry) = (&anchor["section"], &anchor["entry"]);
        let named = format!("data-section=\"{section}\" data-entry=\"{entry}\"");
        assert!(drawn.contains(&named), "{named}");
    }
    let surface = FLAT.lines().position(|line| line.starts_with("surface"));
    let is_there = |anchor: &Value| anchor["line"] == json!(surface.expect("a surface"));
    assert!(anchors.iter().any(is_there), "{anchors:?}");
    // A line above moves lines, and no picture.
    client.change(URI, 2, json!([{"text": format!("# moved\n{FLAT}")}]));
    let moved = run(&mut client, "plan", json!({"uri": URI}))["result"].clone();
    let lines = |made: &Value| -> Vec<i64> {
        let anchors = made["anchors"].as_array().expect("anchors");
        let lines = anchors.iter().map(|anchor| anchor["line"].as_i64());
        lines.map(|line| line.expect("a line")).collect()
    };
    let expected: Vec<i64> = lines(&made).iter().map(|line| line + 1).collect();
    assert_eq!(lines(&moved), expected);
    let with_type = run(&mut client, "plan", json!({"uri": URI, "type": true}));
    let with_type = with_type["result"]["text"]
        .as_str()
        .expect("a picture")
        .to_owned();
    assert!(with_type.contains("@font-face"));
}

#[test]
fn a_spec_that_is_not_open_is_read_from_disk() {
    let folder = tempfile::tempdir().expect("a folder for the test");
    std::fs::write(folder.path().join("flat.patio"), FLAT).unwrap();
    let house = "standard \"House\"\n  off fall-flat, because \"it drains\"\n";
    std::fs::write(folder.path().join("standard.patio"), house).unwrap();
    let uri = address(folder.path(), "flat.patio");
    let mut client = Client::with(json!({}));
    let made = run(&mut client, "takeoff", json!({"uri": uri}))["result"].clone();
    assert_eq!(made["title"], "Take-off of flat.patio");
    assert_eq!(made["version"], Value::Null);
    let made = run(&mut client, "standard", json!({"uri": uri}))["result"].clone();
    let text = made["text"].as_str().unwrap();
    assert!(
        text.contains("standard.patio, standard \"House\"\n    line 2 "),
        "{text}"
    );
    assert!(text.contains("fall-flat is off"), "{text}");
}

#[test]
fn what_cannot_be_done_is_told() {
    let folder = tempfile::tempdir().expect("a folder for the test");
    std::fs::write(folder.path().join("standard.patio"), "standard \"House\"\n").unwrap();
    let standard = address(folder.path(), "standard.patio");
    let missing = address(folder.path(), "missing.patio");
    let mut client = Client::with(json!({}));
    for (command, argument, words) in [
        ("takeoff", json!({"uri": missing}), "there is no such file"),
        ("takeoff", json!({"uri": standard}), "nothing to take off"),
        (
            "takeoff",
            json!({"uri": standard.replace("standard", "%zz"), "format": 1}),
            "cannot be read",
        ),
        (
            "takeoff",
            json!({"uri": "no address"}),
            "takes an object with the `uri`",
        ),
        ("takeoff", json!(null), "takes an object with the `uri`"),
        ("drawing", json!({"uri": missing}), "There is no command"),
    ] {
        let answer = run(&mut client, command, argument);
        assert_eq!(error_code(&answer), Some(-32602), "{answer}");
        let message = answer["error"]["message"].as_str().unwrap();
        assert!(message.contains(words), "{message}");
    }
    fresh(&mut client, URI, FLAT);
    let answer = run(&mut client, "takeoff", json!({"uri": URI, "format": "pdf"}));
    assert!(
        answer["error"]["message"]
            .as_str()
            .unwrap()
            .contains("`format` takes"),
        "{answer}"
    );
}
