//! Every spec and every sound job with its materials and mixes in a library
//! beside it: it comes to the same, and the same is said of it.

use drylay::analysis::{Analyser, Analysis};
use drylay::report::{schedule_json, takeoff_json};
use serde_json::Value;

use super::changes::jobs;
use crate::folder::TODAY;

/// What is said of a spec, and what it comes to.
type Said = (Vec<String>, Value, Value);

/// The same of an analysis, without the places.
fn come_to(analysis: &Analysis) -> Said {
    let findings = analysis.findings.iter();
    let mut reported: Vec<String> = findings
        .map(|one| format!("{}: {}", one.rule, one.message))
        .collect();
    reported.sort();
    let read = |text: String| {
        let json: Value = serde_json::from_str(&text).expect("it is JSON");
        without_places(json)
    };
    let (takeoff, schedule) = (takeoff_json(analysis), schedule_json(analysis));
    (reported, read(takeoff), read(schedule))
}

/// The same without lines, columns and files, lists in an order of their own:
/// one's own mixes are listed as they are written.
fn without_places(value: Value) -> Value {
    match value {
        Value::Object(all) => {
            let places = ["line", "column", "path", "file", "uses", "bytes"];
            let kept = all
                .into_iter()
                .filter(|(key, _)| !places.contains(&key.as_str()));
            Value::Object(kept.map(|(key, own)| (key, without_places(own))).collect())
        }
        Value::Array(all) => {
            let mut all: Vec<Value> = all.into_iter().map(without_places).collect();
            all.sort_by_key(Value::to_string);
            Value::Array(all)
        }
        // What is added up in another order may differ in its last digit.
        Value::Number(number) => {
            let rounded = number.as_f64().map(|number| format!("{number:.11e}"));
            rounded.map_or(Value::Null, Value::String)
        }
        other => other,
    }
}

/// The text without its materials and mixes, and those.
fn parted(analysis: &Analysis) -> (String, String) {
    let (mut own, mut lent) = (String::new(), String::new());
    let file = &analysis.files[0];
    for placed in file.tree.sections.iter() {
        let text = file.tree.section_text(placed);
        let is_lent = ["material ", "mix "]
            .iter()
            .any(|kind| text.starts_with(kind));
        match is_lent {
            true => lent.push_str(text),
            false => own.push_str(text),
        }
    }
    let first = own.find("\n\n").map_or(own.len(), |at| at + 2);
    own.insert_str(first, "use \"lent.patio\"\n\n");
    (own, lent)
}

/// Where two that should be alike part, with what stands there.
fn first_difference(one: &Said, other: &Said) -> String {
    let shown = |all: &Said| format!("{:#}\n{:#}", all.1, all.2);
    let (one, other) = (shown(one), shown(other));
    let mut lines = one.lines().zip(other.lines()).enumerate();
    let apart = lines.find(|(_, (one, other))| one != other);
    apart.map_or_else(String::new, |(line, (one, other))| {
        format!("line {line} of the JSON: {one} and {other}")
    })
}

#[test]
fn materials_and_mixes_of_a_library_are_as_good_as_one_s_own() {
    let mut moved = 0;
    for (path, folder) in jobs() {
        let before = folder.analysis(&path);
        let (own, lent) = parted(&before);
        // A library lays nothing.
        if lent.is_empty() || before.job.surfaces.is_empty() {
            continue;
        }
        moved += 1;
        let (beside, _) = path.rsplit_once('/').expect("a path");
        let mut other = folder.clone();
        other
            .0
            .insert(format!("{beside}/lent.patio"), lent.as_str().into());
        let after = Analyser::new().analyse(&path, own.as_str().into(), &other, TODAY);
        let (one, other) = (come_to(&before), come_to(&after));
        assert_eq!(one.0, other.0, "{path}");
        assert!(one == other, "{path}: {}", first_difference(&one, &other));
    }
    assert!(moved > 20, "only {moved} specs have materials");
}
