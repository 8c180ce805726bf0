//! What is easily forgotten when something is added: a figure is written for
//! programs, and stands in the table and in comparisons, which are made of one
//! list; a key is read, and shown in a fixture; a limit is tried.

use std::collections::BTreeSet;
use std::path::Path;

use drylay::report::{schedule_json, setout_json, takeoff_csv, takeoff_json};
use drylay::rules::{Family, Rule, all};
use drylay::vocabulary::SECTIONS;
use serde_json::Value;

use crate::folder::{Folder, repository};

/// How the name of a figure ends.
const UNITS: &[&str] = &["_m", "_m2", "_m3", "_kg", "_l_s", "_s", "_min", "_mm"];

/// Figures that are written for programs under another name, or not at all.
const OTHERWISE_NAMED: &[&str] = &[
    "across_m",
    "at_least_m3",
    "below_top_m",
    "cut_m",
    "deep_m",
    "depths_m",
    "empties_built_s",
    "empties_need_s",
    "end_min",
    "end_with_rain_min",
    "fitting_m",
    "float_min",
    "foot_ends_m",
    "joint_m3",
    "low_edge_steps_m",
    "module_m2",
    "odd_m",
    "shown_m",
    "start_min",
    "stride_m",
    "taken_m3",
    "tight_m",
    "top_ends_m",
    "under_steps_m2",
    "wide_m",
];

/// Numbers for programs that the table leaves out: what the spec itself states,
/// places on the plan, and steps on the way to a figure.
const NOT_IN_THE_TABLE: &[&str] = &[
    "drains.bought_m",
    "drains.dig.width_m",
    "drains.fill.loose_volume_m3",
    "drains.manning_n",
    "drains.voids",
    "drains.water.soakaway.built_empties_s",
    "drains.water.soakaway.emptied",
    "drains.water.soakaway.need_empties_s",
    "drains.water.soakaway.storm_depth_m",
    "drains.water.soakaway.storm_s",
    "hires.fetched",
    "measured.falls_toward_degrees",
    "measured.points.east_m",
    "measured.points.north_m",
    "orders.size.across_m",
    "orders.size.clear_m",
    "orders.size.sides_m",
    "orders.size.thickness_m",
    "steps.dig.depth_m",
    "steps.parts.piece_kg",
    "steps.parts.piece_m",
    "steps.parts.riser_shown_m",
    "steps.parts.rises_of_whole_courses_m",
    "steps.parts.thickness_m",
    "steps.plan",
    "surfaces.borders.courses",
    "surfaces.building_m",
    "surfaces.dig.area_m2",
    "surfaces.facets.area_m2",
    "surfaces.facets.toward_deg",
    "surfaces.joints.depth_m",
    "surfaces.layers.units",
    "surfaces.perimeter_m",
    "version",
    "work.days",
];

fn is_figure(name: &str) -> bool {
    UNITS.iter().any(|unit| name.ends_with(unit))
}

/// The names of the fields of a value, as they are shown for debugging.
fn fields(shown: &str) -> impl Iterator<Item = &str> {
    let named = shown
        .lines()
        .filter_map(|line| line.trim().split_once(": "));
    named.map(|(name, _)| name).filter(|name| is_figure(name))
}

/// Every number of a document, under the names that lead to it.
fn numbers(value: &Value, path: &str, found: &mut Vec<(String, f64)>) {
    match value {
        Value::Object(fields) => {
            for (name, inner) in fields {
                let path = match path {
                    "" => name.clone(),
                    path => format!("{path}.{name}"),
                };
                numbers(inner, &path, found);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| numbers(item, path, found)),
        _ => found.extend(value.as_f64().map(|number| (path.to_owned(), number))),
    }
}

fn keys(value: &Value, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(fields) => {
            for (name, inner) in fields {
                found.insert(name.clone());
                keys(inner, found);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| keys(item, found)),
        _ => {}
    }
}

#[test]
fn every_figure_is_written_for_programs() {
    let folder = Folder::of_specs();
    let (mut known, mut written) = (BTreeSet::new(), BTreeSet::new());
    for path in folder.paths() {
        let analysis = folder.analysis(&path);
        let shown = format!("{:#?}", analysis.figures);
        known.extend(fields(&shown).map(str::to_owned));
        let texts = [
            takeoff_json(&analysis),
            setout_json(&analysis),
            schedule_json(&analysis),
        ];
        for text in texts {
            keys(&serde_json::from_str(&text).expect("JSON"), &mut written);
        }
    }
    assert!(
        known.len() > 50,
        "the figures are not where they were: {known:?}"
    );
    let is_forgotten =
        |name: &&String| !written.contains(*name) && !OTHERWISE_NAMED.contains(&name.as_str());
    let forgotten: Vec<&String> = known.iter().filter(is_forgotten).collect();
    assert_eq!(
        forgotten, [""; 0],
        "give each a field of what is written, or list it here"
    );
}

#[test]
fn every_figure_for_programs_stands_in_the_table() {
    let folder = Folder::of_specs();
    let mut forgotten = BTreeSet::new();
    for path in folder.paths() {
        let analysis = folder.analysis(&path);
        let table = takeoff_csv(&analysis);
        let cells = table.split([',', '\n']);
        let listed: Vec<f64> = cells.filter_map(|cell| cell.parse().ok()).collect();
        let document = serde_json::from_str(&takeoff_json(&analysis)).expect("JSON");
        let mut all = Vec::new();
        numbers(&document, "", &mut all);
        for (name, number) in all {
            // The table has twelve digits, and tells of some a direction apart.
            let is_it = |own: &f64| (own.abs() - number.abs()).abs() <= 1e-9 * number.abs();
            if !listed.iter().any(is_it) && !NOT_IN_THE_TABLE.contains(&name.as_str()) {
                forgotten.insert(name);
            }
        }
    }
    let forgotten: Vec<String> = forgotten.into_iter().collect();
    assert_eq!(
        forgotten, [""; 0],
        "add each to the list of figures, or list it here"
    );
}

/// The texts of all files in a folder of this repository and below it.
fn texts(folder: &Path) -> String {
    let entries = std::fs::read_dir(folder).expect("the folder");
    let paths = entries.map(|entry| entry.expect("an entry").path());
    let read = |path: std::path::PathBuf| match path.is_dir() {
        true => texts(&path),
        // A picture is no text.
        false => std::fs::read_to_string(path).unwrap_or_default(),
    };
    paths.map(read).collect()
}

#[test]
fn every_key_is_read_and_shown() {
    let at = |folder: &str| texts(&repository().join(folder));
    // The layers of a build are read by their roles.
    let roles = include_str!("../../src/vocabulary/roles.rs");
    let (model, shown) = (at("src/model") + roles, at("specs") + &at("tests"));
    for kind in SECTIONS {
        for key in kind.keys {
            let word = key.word;
            let of = format!("`{word}` of `{}`", kind.word);
            let is_read = model.contains(&format!("\"{word}\""));
            assert!(is_read, "{of} is not read by src/model");
            let forms = [
                format!("  {word} "),
                format!("  {word}\n"),
                format!("\"{word} "),
            ];
            let is_shown = forms.iter().any(|form| shown.contains(form));
            assert!(is_shown, "{of} is in no spec and no fixture");
        }
    }
}

#[test]
fn every_rule_with_a_limit_is_tried() {
    let tests = texts(&repository().join("tests/all"));
    let is_caution = |rule: &&Rule| rule.family == Family::Cautions;
    let limited = all().filter(|rule| !rule.limits.is_empty() && !is_caution(rule));
    let untried = limited.filter(|rule| !tests.contains(&format!("\"{}", rule.name)));
    let untried: Vec<&str> = untried.map(|rule| rule.name).collect();
    assert_eq!(
        untried, [""; 0],
        "try each at its limit, in tests/all/limits"
    );
}
