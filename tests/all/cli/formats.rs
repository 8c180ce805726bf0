//! What is written for programs.

use std::fs;

use serde_json::Value;

use super::{folder, json, of_golden, run_in, text};
use crate::folder::repository;

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

#[test]
fn the_setting_out_is_what_its_schema_says() {
    let schema = fs::read_to_string(repository().join("grammar/setout.schema.json")).unwrap();
    let schema: Value = serde_json::from_str(&schema).unwrap();
    for spec in ["tests/golden/courtyard.patio", "specs/weir-lane.patio"] {
        let output = run_in(&repository(), &["setout", "--format", "json", spec]);
        let document = json(&output);
        assert!(
            document["pegs"]
                .as_array()
                .is_some_and(|pegs| pegs.len() > 3)
        );
        let mut wrong = Vec::new();
        hold(&schema, &schema, &document, "", &mut wrong);
        assert_eq!(wrong, [""; 0]);
    }
    let mut wrong = Vec::new();
    let broken = serde_json::json!({"version": 2, "pegs": [{"number": "one"}]});
    hold(&schema, &schema, &broken, "", &mut wrong);
    for part in ["/version", "/number", " marks"] {
        assert!(
            wrong.iter().any(|wrong| wrong.contains(part)),
            "{part} of {wrong:?}"
        );
    }
}

#[test]
fn json_is_what_its_schema_says() {
    let schema = fs::read_to_string(repository().join("grammar/check.schema.json")).unwrap();
    let schema: Value = serde_json::from_str(&schema).unwrap();
    for (folder, path) in [("tests/golden", "."), ("specs", ".")] {
        let output = run_in(
            &repository().join(folder),
            &["check", "--format", "json", path, "none.patio"],
        );
        let mut wrong = Vec::new();
        hold(&schema, &schema, &json(&output), "", &mut wrong);
        assert_eq!(wrong, [""; 0]);
    }
    // The schema holds: what is not as it says is found.
    let mut wrong = Vec::new();
    hold(
        &schema,
        &schema,
        &serde_json::json!({"version": 1, "more": 1, "files": 3}),
        "",
        &mut wrong,
    );
    for part in ["/version", "/more", "/files", " date", " summary"] {
        assert!(
            wrong.iter().any(|wrong| wrong.contains(part)),
            "{part} of {wrong:?}"
        );
    }
}

/// Holds a value to the words of JSON Schema that the schema uses.
fn hold(root: &Value, schema: &Value, value: &Value, at: &str, wrong: &mut Vec<String>) {
    if let Some(name) = schema["$ref"].as_str() {
        return hold(root, root.pointer(&name[1..]).unwrap(), value, at, wrong);
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
