//! What is written for programs.

use std::collections::BTreeSet;
use std::fs;

use drylay::analysis::Analysis;
use drylay::report::{schedule_json, setout_json, takeoff_json};
use serde_json::Value;

use super::{folder, json, of_golden, run_in, text};
use crate::folder::{Folder, repository};

#[test]
fn the_take_off_is_json_in_si() {
    let found: Value = serde_json::from_str(&of_golden(&[
        "takeoff",
        "--format",
        "json",
        "landing.patio",
    ]))
    .unwrap();
    assert_eq!(found["version"], 1);
    assert_eq!(found["job"]["units"], "metric");
    let area = 6.0 * 3.5 - std::f64::consts::PI * 0.3 * 0.3;
    let shown = found["shapes"][0]["area_m2"].as_f64().unwrap();
    assert!((shown - area).abs() < 1e-9);
    let base = &found["surfaces"][0]["layers"][2];
    assert_eq!(
        (&base["role"], &base["material"]),
        (&"base".into(), &"local-stone".into())
    );
    assert_eq!(base["mass_kg"], Value::Null, "it has no density");
    let unknown = found["unknown"].to_string();
    assert!(
        unknown.contains("no density of local-stone is known"),
        "{unknown}"
    );
}

#[test]
fn sarif_says_all_that_is_known() {
    let log: Value =
        serde_json::from_str(&of_golden(&["check", "--format", "sarif", "landing.patio"])).unwrap();
    let run = &log["runs"][0];
    assert_eq!(
        (&log["version"], &run["columnKind"]),
        (&"2.1.0".into(), &"unicodeCodePoints".into())
    );
    let rules = run["tool"]["driver"]["rules"].as_array().unwrap();
    for result in run["results"].as_array().unwrap() {
        let rule = &rules[result["ruleIndex"].as_u64().unwrap() as usize];
        assert_eq!(rule["id"], result["ruleId"]);
        let region = &result["locations"][0]["physicalLocation"]["region"];
        assert!(region["startLine"].as_u64() > Some(0) && region["endColumn"].as_u64() > Some(0));
        assert!(result["partialFingerprints"]["drylay/v1"].is_string());
        let accepted = result["ruleId"] == "level-high";
        assert_eq!(
            result.get("suppressions").is_some(),
            accepted,
            "{}",
            result["ruleId"]
        );
    }
}

/// A schema under `grammar`.
fn schema(name: &str) -> Value {
    let path = repository().join("grammar").join(name);
    serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap()
}

/// What a document has that its schema does not say.
fn wrongs(schema: &Value, document: &Value) -> Vec<String> {
    let mut wrong = Vec::new();
    hold(schema, schema, document, "", &mut wrong);
    wrong
}

/// What a schema must have seen somewhere among the specs, and what breaks it.
type Promised = (
    &'static str,
    fn(&Analysis) -> String,
    &'static [&'static str],
    &'static str,
    &'static [&'static str],
);

const PROMISED: [Promised; 3] = [
    (
        "takeoff.schema.json",
        takeoff_json,
        &[
            "steps", "drains", "work", "hires", "costs", "quotes", "measured",
        ],
        r#"{"version": 2, "more": 1, "shapes": [{"name": 1}], "total": 3}"#,
        &[
            "/version",
            "/more",
            "/shapes/[]/name",
            "/shapes/[] has no area_m2",
            "/total",
            " orders",
        ],
    ),
    (
        "schedule.schema.json",
        schedule_json,
        &["schedule"],
        r#"{"version": 1, "check": null, "schedule": {"crew": -1, "tasks": 3}}"#,
        &["/check", "/schedule", " cautions"],
    ),
    (
        "setout.schema.json",
        setout_json,
        &["pegs"],
        r#"{"version": 2, "pegs": [{"number": "one"}]}"#,
        &["/version", "/number", " marks"],
    ),
];

#[test]
fn what_is_written_of_every_spec_is_what_its_schema_says() {
    let folder = Folder::of_specs();
    let sound = Folder::of("tests/sound", "/sound");
    let golden = Folder::of("tests/golden", "/golden");
    let all = [&folder, &sound, &golden];
    let specs = all.into_iter().flat_map(|folder| {
        let paths = folder.paths().into_iter();
        let specs = paths.filter(|path| !path.ends_with("standard.patio"));
        specs.map(|path| (folder.analysis(&path), path))
    });
    let specs: Vec<_> = specs.collect();
    for (name, written, parts, broken, reported) in PROMISED {
        let schema = schema(name);
        let mut seen = BTreeSet::new();
        for (analysis, path) in &specs {
            let document: Value = serde_json::from_str(&written(analysis)).unwrap();
            assert_eq!(wrongs(&schema, &document), [""; 0], "{path}, {name}");
            let keys = document.as_object().unwrap().iter();
            let filled = keys.filter(|(_, part)| match part {
                Value::Array(list) => !list.is_empty(),
                part => !part.is_null(),
            });
            seen.extend(filled.map(|(key, _)| key.clone()));
        }
        for part in parts {
            assert!(seen.contains(*part), "no spec has {part}");
        }
        // The schema holds: what is not as it says is found.
        let wrong = wrongs(&schema, &serde_json::from_str(broken).unwrap());
        for part in reported {
            let is_told = wrong.iter().any(|wrong| wrong.contains(part));
            assert!(is_told, "{part} of {wrong:?}");
        }
    }
}

#[test]
fn json_is_what_its_schema_says() {
    let schema = schema("check.schema.json");
    for (folder, path) in [("tests/golden", "."), ("specs", ".")] {
        let output = run_in(
            &repository().join(folder),
            &["check", "--format", "json", path, "none.patio"],
        );
        assert_eq!(wrongs(&schema, &json(&output)), [""; 0]);
    }
    // The schema holds: what is not as it says is found.
    let broken = serde_json::json!({"version": 1, "more": 1, "files": 3});
    let wrong = wrongs(&schema, &broken);
    for part in ["/version", "/more", "/files", " date", " summary"] {
        let is_told = wrong.iter().any(|wrong| wrong.contains(part));
        assert!(is_told, "{part} of {wrong:?}");
    }
}

/// Holds a value to the words of JSON Schema that the schema uses.
fn hold(root: &Value, schema: &Value, value: &Value, at: &str, wrong: &mut Vec<String>) {
    if let Some(name) = schema["$ref"].as_str() {
        return hold(root, root.pointer(&name[1..]).unwrap(), value, at, wrong);
    }
    if let Some(either) = schema["anyOf"].as_array() {
        let ways = either.iter().map(|own| {
            let mut wrong = Vec::new();
            hold(root, own, value, at, &mut wrong);
            wrong
        });
        // Of a thing or null, what is wrong with the thing.
        if let Some(mut least) = ways.max_by_key(|wrong| (wrong.is_empty(), wrong.len())) {
            wrong.append(&mut least);
        }
        return;
    }
    let kinds = match &schema["type"] {
        Value::String(kind) => vec![kind.as_str()],
        Value::Array(kinds) => kinds.iter().filter_map(Value::as_str).collect(),
        _ => Vec::new(),
    };
    let kind = match value {
        Value::Null => "null",
        Value::Bool(_) => "boolean",
        Value::Number(_) if kinds.contains(&"number") => "number",
        Value::Number(_) => "integer",
        Value::String(_) => "string",
        Value::Array(_) => "array",
        Value::Object(_) => "object",
    };
    let is_kind = kinds.is_empty() || kinds.contains(&kind);
    let is_listed = schema["enum"]
        .as_array()
        .is_none_or(|allowed| allowed.contains(value));
    let is_fixed = schema.get("const").is_none_or(|only| only == value);
    let is_enough = schema["minimum"]
        .as_u64()
        .is_none_or(|least| value.as_u64().is_none_or(|is| is >= least));
    if !(is_kind && is_listed && is_fixed && is_enough) {
        wrong.push(format!("{at} is {value}"));
        return;
    }
    for item in value
        .as_array()
        .into_iter()
        .flatten()
        .filter(|_| schema["items"].is_object())
    {
        hold(root, &schema["items"], item, &format!("{at}/[]"), wrong);
    }
    let Some(object) = value.as_object() else {
        return;
    };
    for name in schema["required"]
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(Value::as_str)
    {
        if !object.contains_key(name) {
            wrong.push(format!("{at} has no {name}"));
        }
    }
    for (name, inner) in object {
        let at = format!("{at}/{name}");
        match (&schema["properties"][name], &schema["additionalProperties"]) {
            (own @ Value::Object(_), _) | (_, own @ Value::Object(_)) => {
                hold(root, own, inner, &at, wrong)
            }
            _ => wrong.push(format!("{at} is not in the schema")),
        }
    }
}

#[test]
fn manual_and_completions_are_written() {
    let folder = folder(&[]);
    let manual = run_in(folder.path(), &["manual"]);
    assert!(text(&manual.stdout).contains(".TH drylay 1"));
    assert!(text(&manual.stdout).contains("DRYLAY TAKEOFF"));
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let script = run_in(folder.path(), &["completions", shell]);
        assert_eq!(script.status.code(), Some(0));
        assert!(text(&script.stdout).contains("takeoff"), "{shell}");
    }
}
