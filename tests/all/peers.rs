//! The script that measures the program beside its peers keeps to its word:
//! what is missed is shown as missed, what is not known as not known, and every
//! figure of ours is really measured. No time is held to anything here.

use std::process::{Command, Stdio};

use serde_json::{Value, json};

use crate::folder::repository;
use crate::tools::tool;

/// What `tests/bench/beside` writes with these arguments and this input.
fn beside(arguments: &[&str], input: &Value) -> Option<String> {
    let mut script = Command::new(tool("python")?)
        .arg("-B")
        .arg(repository().join("tests/bench/beside"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the script can be started");
    let stdin = script.stdin.take().expect("its input");
    serde_json::to_writer(stdin, input).expect("the figures can be handed over");
    let output = script.wait_with_output().expect("the script ends");
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{complaint}");
    Some(String::from_utf8(output.stdout).expect("text"))
}

/// The table that figures make.
fn table(figures: &Value) -> Option<String> {
    beside(&["--from", "-"], figures)
}

/// The row of a table that begins so.
fn row<'t>(table: &'t str, what: &str) -> &'t str {
    let is_it = |line: &&str| {
        line.strip_prefix("| ")
            .is_some_and(|line| line.starts_with(what))
    };
    table
        .lines()
        .find(is_it)
        .unwrap_or_else(|| panic!("no row {what}:\n{table}"))
}

/// What each row tells of.
fn titles(table: &str) -> Vec<&str> {
    let rows = table.lines().filter(|line| line.starts_with("| "));
    rows.map(|line| line.split(" | ").next().unwrap_or_default())
        .collect()
}

#[test]
fn goals_met_and_missed_are_told_apart() {
    // The figure of a row, ours and the peer's; what the row then says.
    let cases: &[(&str, &str, Value, &str)] = &[
        (
            "hover right behind an edit, 2,000 lines",
            "hover",
            json!({"drylay": 0.0004, "vscode-json": 0.001}),
            "400 µs | vscode-json 1 ms | 0.4 | ≤ 0.4",
        ),
        (
            "hover right behind an edit, 2,000 lines",
            "hover",
            json!({"drylay": 0.00041, "vscode-json": 0.001}),
            "410 µs | vscode-json 1 ms | 0.41 | ≤ 0.4: **missed**",
        ),
        (
            "`check` of 10,000 files",
            "files a second",
            json!({"drylay": 31000.0, "ruff": 31000.0}),
            "31,000 files/s | ruff 31,000 files/s | 1 | ≥ 1",
        ),
        (
            "`check` of 10,000 files",
            "files a second",
            json!({"drylay": 31000.0, "ruff": 32000.0}),
            "31,000 files/s | ruff 32,000 files/s | 0.97 | ≥ 1: **missed**",
        ),
        // A goal for our own figure holds without a peer.
        (
            "`check` of one file",
            "bytes a second",
            json!({"drylay": 18.5e6, "ruff": "not installed"}),
            "18.5 MB/s | ruff not installed | – | drylay ≥ 18 MB/s",
        ),
        (
            "`check` of one file",
            "bytes a second",
            json!({"drylay": 17.5e6, "ruff": 9e6}),
            "17.5 MB/s | ruff 9 MB/s | 1.9 | drylay ≥ 18 MB/s: **missed**",
        ),
        // What is not known is neither met nor missed.
        (
            "start to first answer",
            "start",
            json!({"drylay": 0.002, "ruff": "did not answer within 20 s"}),
            "2 ms | ruff did not answer within 20 s | – | ≤ 0.8: not known",
        ),
        (
            "start to first answer",
            "start",
            json!({"drylay": "ended", "ruff": 0.003}),
            "ended | ruff 3 ms | – | ≤ 0.8: not known",
        ),
    ];
    for (what, figure, found, says) in cases {
        let Some(table) = table(&json!({ *figure: found })) else {
            return;
        };
        let row = row(&table, what);
        assert!(row.ends_with(&format!(" | {says} |")), "{row}\nnot {says}");
    }
}

#[test]
fn what_follows_from_figures_is_worked_out() {
    // Fifty times the lines; as the lines do, and not at all.
    let figures = json!({
        "edit, median, 2000": {"drylay": 0.001, "ruff": 0.002},
        "edit, 99th, 2000": {"drylay": 0.004, "ruff": 0.003},
        "edit, median, 100000": {"drylay": 0.05, "ruff": 0.002},
    });
    let Some(table) = table(&figures) else {
        return;
    };
    for (what, says) in [
        (
            "edit to findings, growth from 2,000 to 100,000 lines*: median",
            "1 | ruff 0 | – | drylay ≤ 0.4: **missed**",
        ),
        (
            "edit to findings, 2,000 lines: 99th ÷ median",
            "4 | ruff 1.5 | 2.7 | drylay ≤ 3: **missed**",
        ),
        (
            "edit to findings, 20,000 lines: median",
            "not measured | ruff not measured | – | ≤ 0.15: not known",
        ),
    ] {
        let row = row(&table, what);
        assert!(row.ends_with(&format!(" | {says} |")), "{row}\nnot {says}");
    }
}

#[test]
fn the_readme_shows_every_row() {
    let Some(table) = table(&json!({})) else {
        return;
    };
    let readme = std::fs::read_to_string(repository().join("README.md")).expect("the README");
    let shown = readme
        .split_once("<!-- peers -->\n")
        .and_then(|(_, rest)| rest.split_once("<!-- end of peers -->"))
        .map(|(inside, _)| inside)
        .expect("the marks of the table");
    assert_eq!(titles(shown), titles(&table));
}

#[test]
fn every_figure_of_ours_is_measured() {
    let trial = |program| {
        let figures = beside(&["--trial", "--program", program], &Value::Null)?;
        let figures: Value = serde_json::from_str(&figures).expect("figures");
        let figures = figures.as_object().expect("figures by name").clone();
        assert!(figures.len() > 20, "{figures:?}");
        Some(figures)
    };
    let Some(figures) = trial(env!("CARGO_BIN_EXE_drylay")) else {
        return;
    };
    for (name, found) in figures {
        let measured = found["drylay"].as_f64();
        assert!(measured.is_some_and(|one| one > 0.0), "{name}: {found}");
    }
    // A program that is none of ours has no figure, and each says so.
    for (name, found) in trial("false").expect("Python is there") {
        assert!(
            found["drylay"].is_string() || name.ends_with("a second"),
            "{name}: {found}"
        );
    }
}
